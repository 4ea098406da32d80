"""A printer's error is entered once for the whole job; a part's own printer goes before it."""

from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.paper import PaperPlan
from kit.drawing.paper import paper_plan as plan_of
from kit.job import Job
from kit.job.build import build, build_input

JOB = """\
format = 1
[machine]
printer_x = {{ value = "{x}", how = "the check bar on the map" }}
printer_y = "202 mm"
[parts.skin]
model = "cloth.skin"
[parts.other]
model = "cloth.skin"
shape = {{ printer = {{ x = "101 mm" }} }}
"""


def write(folder: Path, x: str = "99.5 mm") -> Job:
    path = folder / "job.toml"
    path.write_text(JOB.format(x=x))
    return Job.open(path)


def paper_plan(job: Job, part: str) -> PaperPlan:
    inputs = build_input(job, part)
    return plan_of(inputs.stated, inputs.printer)


def test_every_part_is_printed_for_the_jobs_printer(tmp_path: Path) -> None:
    job = write(tmp_path)
    assert paper_plan(job, "skin").printer.factors == pytest.approx((100 / 99.5, 200 / 202))
    assert paper_plan(job, "other").printer.factors == pytest.approx((100 / 101, 1.0))


def test_another_printer_makes_another_drawing(tmp_path: Path) -> None:
    first = build(write(tmp_path), "skin")
    second = build(write(tmp_path, "100.5 mm"), "skin")
    assert first is not None
    assert second is not None
    assert first.inputs != second.inputs


def test_a_wrong_setting_is_no_printer_error(tmp_path: Path) -> None:
    found = build(write(tmp_path, "94 mm"), "skin")
    assert found is not None
    with pytest.raises(KitError, match="check bar along x was measured as 94 mm"):
        found.output("pattern").write(tmp_path, "skin", Display())
