"""A made machine taken in step by step without a screen: what is stated, what is found, undone and done again."""

import re
from pathlib import Path

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.job import Job
from kit.ui.intake.taken import Taken
from tests.ui.intake.machine import SPOTS, as_scanned, write_machine

JOB = """format = 2
[job]
name = "a garage"
# kept as typed

[parts.saw]
model = "sweep.step"
"""


@pytest.fixture
def taken(tmp_path: Path) -> Taken:
    (tmp_path / "garage.toml").write_text(JOB)
    write_machine(tmp_path / "saw.stl")
    return Taken(Job.open(tmp_path / "garage.toml"), "saw")


def do(taken: Taken, called: str, /, **answers: object) -> None:
    step = next(step for step in taken.intake.steps if step.name == called)
    defaults = {ask.name: () if ask.kind == "spots" else ask.default for ask in step.asks}
    taken.step(step, defaults | answers)


def spots(taken: Taken, *names: str) -> None:
    for name in names:
        taken.spot(name, SPOTS[name] if taken.seen is not None and taken.seen.upright else as_scanned(SPOTS[name]))


@pytest.fixture
def standing(taken: Taken) -> Taken:
    """The machine scaled and upright."""
    taken.file("saw.stl")
    spots(taken, "left", "right", "near", "far", "axis", "front")
    do(taken, "scale", **{"from": "left", "to": "right", "length": "500 ± 1 mm"})
    do(taken, "upright", bed=("left", "right", "near", "far"), front="front", axis="axis", up="axis")
    return taken


def test_two_spots_and_a_length_give_the_scale_and_more_lengths_how_far_to_trust_it(taken: Taken) -> None:
    taken.file("saw.stl")
    spots(taken, "left", "right", "near", "far")
    do(taken, "scale", **{"from": "left", "to": "right", "length": "500 ± 1 mm"})
    assert taken.seen is not None
    assert "one length says nothing of its own error" in taken.seen.found[0].words
    far = np.linalg.norm(taken.seen.spots["left"] - taken.seen.spots["right"])
    assert far == pytest.approx(500.0, rel=1e-6)
    do(taken, "scale", **{"from": "near", "to": "far", "length": "304 ± 1 mm"})
    # By hand: weights alike, so the factor is (500² + 300 · 304) / (500² + 300²) of the first, 300 mm become 301.06.
    assert "off by 2.9 mm at most" in taken.seen.found[0].words
    assert "disagree" in taken.seen.found[0].words


def test_it_stands_upright_with_its_zero_below_the_axis(standing: Taken) -> None:
    assert standing.seen is not None
    for name, place in SPOTS.items():
        if name in standing.seen.spots:
            np.testing.assert_allclose(standing.seen.spots[name], place, atol=0.01)


def test_joints_parts_and_limits_move_the_machine_as_built(standing: Taken) -> None:
    spots(standing, "rim 1", "rim 2", "rim 3", "rim 4", "hinge left", "hinge right")
    rim = ("rim 1", "rim 2", "rim 3", "rim 4")
    do(standing, "circle", name="swing", spots=rim, low="-40 deg", high="50 deg")
    do(
        standing, "joint", name="plunge", kind="turn", at="hinge right", toward="to the second spot",
        second="hinge left", low="0 deg", high="30 deg",
    )  # fmt: skip
    do(standing, "part", name="arm", rides="plunge", box=([-60.0, -260.0, 125.0], [60.0, 260.0, 400.0]))
    do(standing, "piece", name="table", rides="swing", spots=("rim 1",))
    seen = standing.seen
    assert seen is not None
    assert seen.parts == ("arm", "table")
    assert "circle of radius 150.0 mm" in seen.found[2].words
    assert {each.title for each in seen.found} >= {"Joint swing", "Joint plunge", "Part arm", "Part table"}
    # The handle's end turned about the hinge at (y 200, z 200) by 30°, then about the vertical axis by 50°.
    end, hinge = np.array([0.0, -250.0, 260.0]), np.array([0.0, 200.0, 200.0])
    lift = trimesh.transformations.rotation_matrix(np.radians(30.0), (-1, 0, 0), hinge)
    swing = trimesh.transformations.rotation_matrix(np.radians(50.0), (0, 0, 1))
    wanted = (swing @ lift @ [*end, 1.0])[:3]
    arm, table = seen.moves({"swing": np.radians(50.0), "plunge": np.radians(30.0)})
    np.testing.assert_allclose((arm @ [*end, 1.0])[:3], wanted, atol=0.2)
    np.testing.assert_allclose(table, swing, atol=1e-3)
    stated = standing.job.raw_inputs("saw")["joints"]
    assert (stated[0]["low"], stated[0]["high"]) == ("-swing_right", "swing_left")
    assert (stated[1]["low"], stated[1]["high"]) == ("0°", "tilt_most")
    assert standing.job.case("saw")["swing_right"].value == 40.0
    do(standing, "limits", joint="swing", low="-10 deg", high="20 deg")
    assert standing.job.case("saw")["swing_left"].value == 20.0
    standing.undo()
    assert standing.job.case("saw")["swing_left"].value == 50.0
    standing.propose()
    build = standing.job.build("saw")
    assert build is not None
    # The arm's upper corners behind the hinge, 30 mm behind and 60 mm above it, come farthest out at 30°, by hand.
    back = 200.0 + 30.0 * np.cos(np.radians(30.0)) + 60.0 * np.sin(np.radians(30.0))
    assert build.number("reach").base == pytest.approx(np.hypot(back, 30.0), abs=0.3)
    vertices, faces = standing.intake.result(build)
    assert faces.max() < len(vertices)


def test_a_part_that_is_all_of_the_scan_says_that_nothing_stands(standing: Taken) -> None:
    spots(standing, "rim 1", "rim 2", "rim 3")
    do(standing, "circle", name="swing", spots=("rim 1", "rim 2", "rim 3"), low="-40 deg", high="50 deg")
    do(standing, "piece", name="table", rides="swing", spots=("rim 1",))
    assert standing.seen is not None
    assert re.search(r"rides on swing; [0-9,]+ of [0-9,]+ faces$", standing.seen.found[-1].words)
    do(standing, "part", name="head", rides="swing", box=([-999.0, -999.0, -999.0], [999.0, 999.0, 999.0]))
    standing.take_out(("parts", 0), "Part table")
    assert "all of the scan: nothing stands still" in standing.seen.found[-1].words


def test_every_step_is_undone_singly_and_done_again(standing: Taken) -> None:
    text = standing.job.path.read_text()
    done = []
    while standing.undone:
        done.append(standing.undone)
        standing.undo()
    placed = [f"spot {name!r}" for name in ("front", "axis", "far", "near", "right", "left")]
    assert done == ["upright", "scale", *placed, "scan saw.stl"]
    assert standing.seen is None
    assert standing.job.path.read_text() == JOB
    while standing.redone:
        standing.redo()
    assert Job.open(standing.job.path).raw_inputs("saw") == standing.job.raw_inputs("saw")
    assert "# kept as typed" in text


def test_what_cannot_be_done_says_so_and_changes_nothing(standing: Taken) -> None:
    before = standing.job.path.read_text()
    with pytest.raises(KitError, match="choose two spots"):
        do(standing, "scale", **{"from": "left", "to": "left", "length": "500 ± 1 mm"})
    with pytest.raises(KitError, match="without its uncertainty"):
        do(standing, "scale", **{"from": "left", "to": "near", "length": "500 mm"})
    with pytest.raises(KitError, match="No part of the scan lies in the box"):
        do(standing, "crop", box=([5000.0, 0.0, 0.0], [5001.0, 1.0, 1.0]))
    with pytest.raises(KitError, match="There is no joint"):
        do(standing, "part", name="arm", rides="tilt", box=([0.0, 0.0, 0.0], [1.0, 1.0, 1.0]))
    with pytest.raises(KitError, match="left"):
        standing.spot("left", None)
    assert standing.job.path.read_text() == before
    standing.take_out(("recipe", 1), "Upright")
    assert standing.seen is not None
    assert not standing.seen.upright
    with pytest.raises(KitError, match="does not stand upright"):
        do(standing, "circle", spots=("left", "right", "near"))


def test_a_later_scale_is_refused_where_boxes_are_in_millimeters_of_the_first(standing: Taken) -> None:
    do(standing, "crop", box=([-600.0, -600.0, -1.0], [600.0, 600.0, 200.0]))
    with pytest.raises(KitError, match="take them out before"):
        do(standing, "scale", **{"from": "near", "to": "far", "length": "300 ± 1 mm"})


def test_what_lies_round_a_spot_is_brushed_away_and_comes_back(standing: Taken) -> None:
    assert standing.seen is not None
    before = len(standing.seen.faces)
    standing.spot("arm end", (0.0, -250.0, 200.0))
    do(standing, "brush", spots=("arm end",), radius="70 mm")
    kept = standing.seen
    away = np.linalg.norm(kept.vertices[kept.faces] - (0.0, -250.0, 200.0), axis=2)
    assert away.min() > 70.0 - 1e-3
    assert len(kept.faces) < before
    assert kept.found[-1].title == "Brush"
    assert "faces left" in kept.found[-1].words
    with pytest.raises(KitError, match="lies nothing of the scan"):
        do(standing, "brush", spots=("arm end",), radius="20 mm")
    with pytest.raises(KitError, match="No spot is chosen"):
        do(standing, "brush", spots=(), radius="20 mm")
    standing.undo()
    assert len(standing.seen.faces) == before


def test_a_page_without_a_scan_has_no_intake(tmp_path: Path) -> None:
    (tmp_path / "garage.toml").write_text('format = 2\n[parts.stop]\nmodel = "stop.deflection"\n')
    with pytest.raises(KitError, match="takes in no scan"):
        Taken(Job.open(tmp_path / "garage.toml"), "stop")
