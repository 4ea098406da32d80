"""A machine of measured boxes and cylinders: what it sweeps, how sure it is, and what is refused."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from kit.core.build import Build
from kit.core.errors import KitError
from kit.job import Job
from kit.subjects.sweep.swept import Sweep
from kit.ui.intake.taken import Taken

BASE = {
    "name": "base", "low": ["-300 ± 1 mm", "-200 ± 1 mm", "-20 ± 1 mm"], "high": ["300 ± 1 mm", "200 ± 1 mm", "0 mm"],
}  # fmt: skip
ARM = {"name": "arm", "rides": "swing", "low": ["-30 mm", "-250 mm", "60 mm"], "high": ["30 mm", "100 mm", "120 mm"]}
GUARD = {
    "name": "guard", "rides": "plunge", "start": ["-40 mm", "-100 ± 2 mm", "200 mm"],
    "end": ["40 mm", "-100 mm", "200 mm"], "diameter": "240 ± 1 mm",
}  # fmt: skip
JOINTS = [
    {"name": "swing", "kind": "turn", "point": ["0 mm", "0 mm", "0 mm"], "direction": [0, 0, 1], "low": "-45 deg",
     "high": "45 deg"},
    {"name": "plunge", "kind": "turn", "point": ["0 mm", "200 mm", "200 mm"], "direction": [-1, 0, 0], "low": "0 deg",
     "high": "30 deg"},
]  # fmt: skip


@pytest.fixture
def job(tmp_path: Path) -> Job:
    (tmp_path / "garage.toml").write_text('format = 2\n[parts.saw]\nmodel = "sweep.step"\n')
    return Job.open(tmp_path / "garage.toml")


def build(job: Job, *blocks: dict[str, Any]) -> Build:
    job.set_input("saw", "joints", JOINTS)
    job.set_input("saw", "blocks", list(blocks))
    made = job.build("saw")
    assert made is not None
    return made


def test_it_reaches_as_far_as_plane_geometry_says(job: Job) -> None:
    made = build(job, BASE, ARM, GUARD)
    # The arm's corner is 250 mm before the axis and 30 mm beside it. The guard's top, 120 mm above a middle that turns
    # 300 mm before the hinge at 200 mm, comes highest at 30°: 200 + 300 sin 30° + 120; its prism stands 0.2 mm proud.
    assert made.number("reach").base == pytest.approx(np.hypot(250.0, 30.0), abs=0.01)
    assert made.number("height").base == pytest.approx(200.0 + 150.0 + 120.0, abs=2.0)
    assert isinstance(made.data, Sweep)
    assert len(made.data.carried) == 1
    assert made.data.still is not None
    assert {picture.name for picture in made.pictures} >= {"outlines", "machine"}
    assert all(check.name != "lengths" for check in made.checks)


def test_it_is_as_sure_as_its_measures(job: Job) -> None:
    # The base's corner is off by 1 mm in three axes, √3; the guard's wall by 2 mm at an end and half of 1 mm, 2.5.
    assert build(job, BASE, ARM, GUARD).number("scan_error").base == pytest.approx(2.5)
    assert build(job, BASE, ARM).number("scan_error").base == pytest.approx(np.sqrt(3.0))
    assert job.propose("saw")["scan_error"] == "1.8 mm"


@pytest.mark.parametrize(
    ("block", "words"),
    [
        ({**ARM, "rides": "tilt"}, "which is no joint"),
        ({**ARM, "high": ["-30 mm", "100 mm", "120 mm"]}, "each side must be longer than 0"),
        ({**GUARD, "end": GUARD["start"]}, "must be apart"),
        (BASE, "no block moves"),
    ],
)
def test_what_is_no_machine_is_refused(job: Job, block: dict[str, Any], words: str) -> None:
    with pytest.raises(KitError, match=words):
        build(job, block)


def test_it_is_typed_in_by_hand_step_by_step(job: Job) -> None:
    taken = Taken(job, "saw")

    def do(called: str, /, **answers: object) -> None:
        step = next(step for step in taken.intake.steps if step.name == called)
        taken.step(step, {ask.name: ask.default for ask in step.asks} | answers)

    do("block", rides="", top="0 ± 1 mm", bottom="-20 ± 1 mm")
    do("typed_joint", name="swing", kind="turn", toward="straight up", low="-40 deg", high="50 deg")
    do(
        "block", name="arm", rides="swing", left="-30 mm", right="30 mm", near="-250 mm", far="100 mm", bottom="60 mm",
        top="120 mm",
    )  # fmt: skip
    seen = taken.seen
    assert seen is not None
    assert seen.parts == ("arm",)
    assert [found.title for found in seen.found] == ["Joint swing", "Block base", "Block arm"]
    (arm,) = seen.moves({"swing": np.radians(90.0)})
    np.testing.assert_allclose((arm @ [30.0, -250.0, 60.0, 1.0])[:3], [250.0, 30.0, 60.0], atol=1e-9)
    taken.propose()
    made = job.build("saw")
    assert made is not None
    assert made.number("reach").base == pytest.approx(np.hypot(250.0, 30.0), abs=0.01)
    with pytest.raises(KitError, match="Spots belong to a scan"):
        taken.spot("corner", np.zeros(3))
    with pytest.raises(KitError, match="which is no joint"):
        taken.take_out(("joints", 0), "Joint swing")
    taken.undo()
    taken.undo()
    assert taken.seen is not None
    assert taken.seen.parts == ()
