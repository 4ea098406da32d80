"""A scan to its swept envelope: against the invented machine that was scanned, moved about in its own true axes."""

import importlib.util
import itertools
import math
from dataclasses import replace
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
import pytest
import shapely
from pypdf import PdfReader
from scipy.spatial import ConvexHull

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.scene import Scene
from kit.drawing.space import View
from kit.geometry.motion import apply, turn
from kit.job import Job
from kit.job.build import build
from kit.job.build import build_input as job_input
from kit.subjects.sweep.board_distance import SIDES, TITLE, near
from kit.subjects.sweep.scan_inputs import chain
from kit.subjects.sweep.step_build import build as build_shape
from kit.subjects.sweep.step_build import certify, propose
from kit.subjects.sweep.swept import Sweep
from tests import DATA
from tests.builds import build_input


@pytest.fixture(scope="module")
def ordered() -> BuildInput:
    return job_input(Job.open(DATA / "boatshed.toml"), "saw_sweep")


@pytest.fixture(scope="module")
def whole(ordered: BuildInput) -> Build:
    return build_shape(ordered)


@pytest.fixture(scope="module")
def demo() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_demo", DATA / "scan" / "make_demo.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def told(ordered: BuildInput, **changes: Any) -> BuildInput:
    return build_input(ordered.case, {**ordered.raw, **changes}, folder=ordered.folder)


def test_the_room_holds_the_true_machine_in_every_position(whole: Build, demo: ModuleType) -> None:
    """The head as it was built, not as scanned, plunged and swung about the true axes, at 200 random positions."""
    head = np.concatenate([
        demo.cylinder(*ends)[0]
        for ends in (
            ((-28.0, -30.0, 222.0), (28.0, -30.0, 222.0), 140.0),
            ((28.0, -20.0, 262.0), (205.0, -20.0, 262.0), 56.0),
            ((0.0, -140.0, 300.0), (0.0, -235.0, 350.0), 17.0),
        )
    ])  # fmt: skip
    rng = np.random.default_rng(5)
    swings, plunges = rng.uniform(-50, 50, 200), rng.uniform(0, 40, 200)
    swings[:4], plunges[:4] = (50, -50, 50, -50), (0, 0, 40, 40)
    plunged = apply(turn(np.radians(plunges), demo.PIVOT, (-1, 0, 0)), head)
    points = np.concatenate(
        [apply(move, each) for move, each in zip(turn(np.radians(swings), (0, 0, 0), (0, 0, 1)), plunged, strict=True)]
    )
    sweep = whole.data
    assert isinstance(sweep, Sweep)
    assert sweep.envelope.contains(points).mean() > 0.999  # a hole of the scan may leave a hole
    for outline, seen in (
        (sweep.envelope.plan(), points[:, :2]),
        (sweep.envelope.front(), points[:, [0, 2]]),
        (sweep.envelope.side(), points[:, 1:] * [-1.0, 1.0]),
    ):
        grown = outline.buffer(sweep.error)
        shapely.prepare(grown)
        assert shapely.covers(grown, shapely.points(seen[::7])).all()
    assert np.hypot(points[:, 0], points[:, 1]).max() <= whole.number("reach_sure").base
    assert points[:, 2].max() <= whole.number("height_sure").base
    assert points[:, 2].max() == pytest.approx(whole.number("height").base, abs=2.0)


def test_the_farthest_is_the_back_of_the_pivot(whole: Build) -> None:
    """By hand: the pivot's end is 45 mm aside, its back 205 + 38 mm behind the swing axis."""
    assert whole.number("reach").base == pytest.approx(math.hypot(45.0, 243.0), abs=1.5)


def test_the_scan_is_told_as_well_as_it_is_known(whole: Build, demo: ModuleType) -> None:
    scale = whole.number("scale")
    assert scale.half is not None
    assert abs(scale.base - demo.UNIT) <= scale.half
    assert whole.number("moved").base == pytest.approx(np.radians(30.0), abs=np.radians(0.1))
    assert whole.number("axis_off").base < 1.0
    assert whole.number("noise").base == pytest.approx(math.hypot(demo.WAVES / 2**0.5, demo.NOISE / 3**0.5), rel=0.1)
    assert whole.ok
    assert whole.data.error == pytest.approx(whole.number("scan_error").base + whole.number("thinned").base)


def test_parts_are_told_apart(whole: Build) -> None:
    sweep = whole.data
    assert [len(chain.joints) for _, chain in sweep.moves] == [2, 1]
    assert sweep.standing.vertices[:, 2].max() == pytest.approx(140.0, abs=2.0)  # the fence
    assert sweep.still is not None
    faces = sum(int(row[1].replace(",", "")) for row in whole.rows("What moves").rows)
    assert faces >= int(whole.number("vertices").base)


def test_every_picture_is_drawn(whole: Build) -> None:
    for display in (Display(), Display(system="in")):
        kinds = {picture.name: type(picture.draw(display)) for picture in whole.pictures}
        assert kinds == {
            "outlines": Scene, "machine": View, "heights": Scene, "section": Scene, "scan": View, "cleaned": View,
            "second": View,
        }  # fmt: skip


def test_files_are_written(whole: Build, tmp_path: Path) -> None:
    names = [path.name for out in whole.outputs for path in out.write(tmp_path, "saw", Display())]
    assert names == [
        "saw_outlines_1to10_A4.pdf",
        "saw_outlines_1to10.svg",
        "saw_outlines_fullsize.dxf",
        "saw_room.stl",
    ]
    assert len(PdfReader(tmp_path / names[0]).pages) == 1, "one page, without a map of pages"


def test_the_proposal_meets_all_limits(ordered: BuildInput) -> None:
    proposed = replace(ordered, case=ordered.case.with_(**propose(ordered)))  # type: ignore[arg-type]
    assert proposed.case.ok
    assert build_shape(proposed).ok


def test_a_joint_that_moves_less_sweeps_less(ordered: BuildInput, whole: Build) -> None:
    less = build_shape(replace(ordered, case=ordered.case.with_(swing_left="20 deg", tilt_most="10 deg")))
    assert less.data.envelope.plan().area < 0.95 * whole.data.envelope.plan().area
    assert less.number("height").base < whole.number("height").base - 100.0


def test_a_coarse_room_says_so_and_none_loses_a_point(ordered: BuildInput) -> None:
    """While a control moves: larger cells and more stated slack; both rooms hold every corner at random positions."""
    moving = replace(ordered, case=ordered.case.with_(tilt_most="31 deg"), quick=True)
    coarse = build_shape(moving)
    assert coarse.coarse
    fine = build_shape(replace(moving, quick=False))
    assert not fine.coarse
    assert not build_shape(moving).coarse, "what is kept need not be coarse"
    assert coarse.number("slack").base > 2.0 * fine.number("slack").base
    assert fine.number("slack").base <= 15.0
    chain = fine.data.chain
    values = np.random.default_rng(8).uniform(chain.low, chain.high, (40, len(chain.joints)))
    values[:2] = chain.low, chain.high
    points = apply(chain.poses(values), fine.data.body.triangles.reshape(-1, 3)[::3]).reshape(-1, 3)
    for made in (coarse, fine):
        assert made.data.envelope.contains(points).all()


def test_an_arm_stated_too_short_is_said(ordered: BuildInput) -> None:
    short = build_shape(replace(ordered, case=ordered.case.with_(arm_tilt="440 mm")))
    assert not short.ok
    assert "from the tilt axis 451.9 mm, 11.9 mm more than the 440.0 mm allowed" in next(
        h.words() for h in short.checks if not h.ok
    )


def test_lengths_that_disagree_are_said(ordered: BuildInput) -> None:
    first, *rest = ordered.raw["recipe"]
    lengths = [{**first["lengths"][0], "length": "530 ± 0.5 mm"}, first["lengths"][1]]
    made_ = build_shape(told(ordered, recipe=[{**first, "lengths": lengths}, *rest]))
    assert "lengths disagree" in next(held.words() for held in made_.checks if not held.ok)


def test_without_a_scan_only_positions_are_told(ordered: BuildInput) -> None:
    """Twice the share of the motion needs half the positions of each joint."""
    plain = build_input(ordered.case.with_(thinning="0 mm", scan_error="0 mm", slide_most="0 mm"))
    found = build_shape(plain)
    assert found.data is None
    rows = [[int(cell.replace(",", "")) for cell in row[1:]] for row in found.tables[0].rows]
    for finer, coarser in itertools.pairwise(rows):
        assert coarser[0] == pytest.approx(finer[0] / 2, abs=1)
        assert coarser[1] == pytest.approx(finer[1] / 2, abs=1)
    assert propose(plain) == {
        "poses_swing": str(rows[1][0]),
        "poses_tilt": str(rows[1][1]),
        "poses_slide": "1",
    }


JOINT = {
    "name": "swing",
    "kind": "turn",
    "point": ["0 mm"] * 3,
    "direction": [0, 0, 1],
    "low": "0 deg",
    "high": "9 deg",
}
PART = {"name": "head", "rides": "swing", "inside": [[["-400 mm"] * 3, ["400 mm"] * 3]]}


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"scan": "scan/nowhere.ply"}, "no file 'scan/nowhere.ply' beside the job"),
        ({"scna": "a"}, "did you mean 'scan'"),
        ({"recipe": [{"do": "scale", "lengths": [{"from": "a", "to": "b", "length": "500 mm"}]}]},
         "recipe, number 1, lengths, number 1: length is 500 mm, without its uncertainty"),
        ({"recipe": [{"do": "drop", "smaller": "25 deg"}]}, "recipe, number 1: smaller"),
        ({"recipe": [{"do": "scael"}]}, "did you mean 'scale'"),
        ({"recipe": [{"do": "thin"}]}, "recipe, number 1: tolerance is not stated"),
        ({"picks": {"front": [0, 1]}}, r"picks: front is \[0, 1\]; write its 3 numbers"),
        ({"picks": {"front": ["a", "b", "c"]}}, "picks: front is"),
        ({"picks": [1, 2]}, "write a table"),
        ({"recipe": ["scale"]}, "recipe is 'scale'; write do as one of"),
        ({"joints": [{**JOINT, "axis": 1}]}, "unknown input 'axis'"),
        ({"joints": [{**JOINT, "direction": ["up", 0, 1]}]}, "write its 3 numbers"),
        ({"joints": [{**JOINT, "touched": [["0 mm"] * 3] * 3}]}, "exactly one of point and direction, or touched"),
        ({"joints": [{**JOINT, "kind": "roll"}]}, "write one of turn, slide"),
        ({"joints": [{**JOINT, "high": "9 mm"}]}, "the high end of the swing is 9 mm; this joint takes an angle"),
        ({"joints": [{**JOINT, "high": "slide_most"}]}, "is the given 'slide_most', a length"),
        ({"parts": [{**PART, "inside": [["900 mm", "950 mm"]]}]}, "inside, number 1, number 1: corner is '900 mm'"),
        ({"parts": [{**PART, "inside": [[["900 mm"] * 3]]}]}, "box has 1 entries; it needs 2"),
        ({"second": True}, "write a table"),
        ({"joints": [{**JOINT, "high": "swing_lift"}]}, "did you mean 'swing_left'"),
        ({"joints": [{**JOINT, "direction": [0, 1]}]}, "joints, number 1: direction"),
        ({"joints": [{**JOINT, "low": "20 deg"}]}, "must not be above the second"),
        ({"parts": [{**PART, "rides": "swign"}]}, "did you mean 'swing'"),
        ({"parts": [{**PART, "inside": [[["900 mm"] * 3, ["950 mm"] * 3]]}]}, "no face of the scan"),
        ({"parts": []}, "no part moves"),
        ({"section": {"point": ["0 mm"] * 3}}, "section: normal is not stated"),
        ({"second": {"scan": "scan/saw_swung.ply", "joint": "swnig", "turned": "30 deg", "picks": {}}}, "'swing'"),
        ({"second": {"scan": "scan/saw_swung.ply", "joint": "swing", "turned": "30 mm"}}, "takes an angle"),
    ],
)  # fmt: skip
def test_what_is_told_wrong_gets_a_sentence(ordered: BuildInput, changes: dict[str, Any], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        build_shape(told(ordered, **changes))


@pytest.mark.parametrize("missing", ["scan", "recipe", "picks", "joints", "parts"])
def test_a_scan_is_stated_with_all_that_it_needs(ordered: BuildInput, missing: str) -> None:
    with pytest.raises(KitError, match=f"{missing} is not stated, which .* needs"):
        build_input(ordered.case, {key: value for key, value in ordered.raw.items() if key != missing})


def test_a_bare_number_of_a_joint_is_in_degrees_or_millimeters(ordered: BuildInput) -> None:
    swing, plunge = ordered.raw["joints"]
    slide = {"name": "slide", "kind": "slide", "point": ["0 mm"] * 3, "direction": [0, 1, 0], "low": 0, "high": 2}
    one = chain(told(ordered, joints=[{**swing, "low": -9, "high": "swing_left"}, plunge, slide])).joints
    assert (one[0].low, one[0].high) == (np.radians(-9.0), np.radians(50.0))
    assert (one[2].low, one[2].high) == (0.0, 2.0)


def test_a_rescan_is_dropped_in_by_its_path_and_picks(ordered: BuildInput, whole: Build, tmp_path: Path) -> None:
    """The same machine, scanned in other units and axes: the same recipe, joints and boxes give the same room."""
    import trimesh

    mesh = trimesh.load(DATA / "scan" / "saw_square.ply", process=False)
    move = 2.5 * turn(1.1, (0, 0, 0), (1, 2, 3))[:3, :3]
    mesh.vertices = mesh.vertices @ move.T + [3.0, -1.0, 7.0]
    (tmp_path / "again.ply").write_bytes(mesh.export(file_type="ply"))
    picks = {name: list(map(float, move @ place + [3.0, -1.0, 7.0])) for name, place in ordered.raw["picks"].items()}
    again = build_shape(replace(told(ordered, scan="again.ply", picks=picks), folder=tmp_path))
    assert again.number("scale").base == pytest.approx(whole.number("scale").base / 2.5, rel=1e-4)
    for name in ("reach", "height"):
        assert again.number(name).base == pytest.approx(whole.number(name).base, abs=0.5)


def test_a_board_may_stand_as_near_as_no_position_reaches(ordered: BuildInput, whole: Build) -> None:
    """Against the convex hulls of the parts in 40,000 positions; a hull's farthest point is its part's."""
    answers = {each.side: each for each in near(whole.data, lambda _share, _words: True)}
    chain = whole.data.chain
    values = chain.grid((201, 201))
    moving = whole.data.moves
    for side, way in SIDES.items():
        reached = -np.inf
        for body, joints in moving:
            points = body.triangles.reshape(-1, 3)
            hull = points[ConvexHull(points).vertices]
            poses = joints.poses(np.unique(values[:, : len(joints.joints)], axis=0))
            toward = np.einsum("nij,i->nj", poses[:, :3, :3], way)
            reached = max(reached, float((hull @ toward.T + poses[:, :3, 3] @ way).max()))
        each = answers[side]
        assert each.complete
        assert each.sampled - 1e-9 <= reached <= each.sure
        assert reached == pytest.approx(each.found, abs=0.01)
        assert each.sure - each.found <= 0.01 + 1e-9


def test_the_task_adds_the_table_and_stops_when_asked(ordered: BuildInput, whole: Build) -> None:
    rows = certify(ordered, lambda share, _words: share < 0.3).rows(TITLE).rows
    assert [row[0] for row in rows] == ["front", "left"]
    assert TITLE not in {each.title for each in whole.tables}


def test_an_axis_can_be_taken_from_three_touches_of_one_spot(
    ordered: BuildInput, whole: Build, demo: ModuleType
) -> None:
    """The handle's tip at three plunges, turned about the true pivot by an independent hand."""
    across, up = -235.0 - demo.PIVOT[1], 350.0 - demo.PIVOT[2]
    spots = [
        [f"{x:.4f} mm" for x in (0.0, demo.PIVOT[1] + across * math.cos(a) + up * math.sin(a),
                                 demo.PIVOT[2] + up * math.cos(a) - across * math.sin(a))]
        for a in np.radians([0.0, 20.0, 40.0])
    ]  # fmt: skip
    swing, plunge = ordered.raw["joints"]
    by_touch = {"name": "plunge", "kind": "turn", "touched": spots, "low": "-tilt_most", "high": "0 deg"}
    again = build_shape(told(ordered, joints=[swing, by_touch]))
    assert again.number("height").base == pytest.approx(whole.number("height").base, abs=0.01)
    assert plunge["point"] == [f"{x:g} mm" for x in demo.PIVOT]


def test_an_axis_can_be_taken_from_the_scans(ordered: BuildInput, whole: Build) -> None:
    """Told 12 mm beside the true axis, the scans bring it back; told only, the hood would be 12 mm off."""
    swing, plunge = ordered.raw["joints"]
    wrong = {**swing, "point": ["12 mm", "0 mm", "0 mm"]}
    off = build_shape(told(ordered, joints=[wrong, plunge]))
    assert "is off the stated one by 12" in next(held.words() for held in off.checks if not held.ok)
    taken = build_shape(told(ordered, joints=[wrong, plunge], second={**ordered.raw["second"], "take": True}))
    assert taken.ok
    point = taken.data.chain.joints[0].point
    assert math.hypot(*point[:2]) < 1.0
    assert taken.data.chain.joints[0].direction == (0.0, 0.0, 1.0)
    assert taken.number("reach").base == pytest.approx(whole.number("reach").base, abs=1.0)


def test_what_is_made_is_what_the_job_makes(whole: Build) -> None:
    again = build(Job.open(DATA / "boatshed.toml"), "saw_sweep")
    assert again is not None
    assert again.numbers == whole.numbers
