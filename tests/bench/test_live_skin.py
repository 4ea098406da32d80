"""Cloth that answers while a control moves: panels laid flat, pattern finished and drawn beside the form."""

from dataclasses import replace
from pathlib import Path
from statistics import median
from time import process_time

import pytest

from kit.drawing.svg import svg
from kit.job import Job
from kit.job.build import build_input
from kit.subjects import subject
from tests import DATA

pytestmark = pytest.mark.bench

MOVES = 11
TARGET = 0.150  # s, median of a change at the demo's size, of this process alone: the machine is shared


@pytest.mark.parametrize(
    ("part", "given", "unit", "first", "step"),
    [
        ("brow_skin", "seam_allowance", "mm", 10.0, 0.5),  # the finish of edges alone
        ("brow_skin", "cloth_thickness", "mm", 0.4, 0.03),  # every panel is laid flat anew
        ("brow_skin", "chord_error", "mm", 0.1, 0.02),  # and its rulings are sought anew
        ("brow_skin", "warp_limit", "%", 0.36, 0.04),  # darts are put in and left out
        ("drop_chute", "seam_allowance", "mm", 10.0, 0.5),
        ("drop_chute", "height", "mm", 350.0, 7.0),
        ("drop_chute", "tilt", "deg", 5.0, 0.7),
    ],
)
def test_how_soon_a_change_is_answered(part: str, given: str, unit: str, first: float, step: float) -> None:
    asked = build_input(Job.open(Path(DATA) / "boatshed.toml"), part)
    work = subject(asked.case.model.name)
    assert work is not None
    work.build(asked)
    took = []
    for number in range(MOVES):
        moved = asked.case.with_(**{given: f"{first + step * number:g} {unit}"})
        begin = process_time()
        build = work.build(replace(asked, case=moved))
        svg(build.pictures[0].draw(asked.display), 640)  # type: ignore[arg-type]
        took.append(process_time() - begin)
    print(
        f"\n{part}, a change of {given}: {1e3 * median(took):.0f} ms (median of {MOVES}), "
        f"slowest {1e3 * max(took):.0f}, {median(took) / TARGET:.2f} of the target"
    )
