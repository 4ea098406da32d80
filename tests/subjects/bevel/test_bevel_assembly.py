"""Boards built in 3D from nothing but saw settings and lengths, put together, and checked for closure.

A board lies on the saw table with its outside face down: x along its bottom edge, y up the slope, z into the wood.
A cut is a plane through a point, given as a saw is set: miter from a square cut, blade tilt from vertical.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pytest

from kit.core.model import Case
from kit.subjects import model

CLOSE = 1e-9  # of the size of the work


@dataclass(frozen=True)
class Plane:
    """The points p with normal · p = at; `normal` points out of the wood."""

    normal: np.ndarray
    at: float

    def moved(self, turn: np.ndarray, shift: np.ndarray) -> "Plane":
        normal = turn @ self.normal
        return Plane(normal, self.at + float(normal @ shift))

    def mates(self, other: "Plane", size: float) -> bool:
        return bool(np.allclose(self.normal, -other.normal, atol=CLOSE) and abs(self.at + other.at) < CLOSE * size)


def end_cut(side: float, point: Sequence[float], miter: float, tilt: float) -> Plane:
    """The end at the right (side 1) or left (-1): above 0, `miter` narrows the board upward and `tilt` inward."""
    normal = np.array([side * np.cos(tilt) * np.cos(miter), np.cos(tilt) * np.sin(miter), np.sin(tilt)])
    return Plane(normal, float(normal @ np.asarray(point)))


def rip(side: float, y: float, tilt: float) -> Plane:
    """The bottom (side -1) or top (1) edge through y on the outside, `tilt` from square; both parallel."""
    normal = side * np.array([0.0, np.cos(tilt), np.sin(tilt)])
    return Plane(normal, float(normal[1] * y))


def meet(*planes: Plane) -> np.ndarray:
    return np.linalg.solve(np.array([p.normal for p in planes]), np.array([p.at for p in planes]))


def faces(thickness: float) -> tuple[Plane, Plane]:
    return Plane(np.array([0.0, 0.0, -1.0]), 0.0), Plane(np.array([0.0, 0.0, 1.0]), thickness)


def stand(slope: float, plan: float) -> np.ndarray:
    """Turn a board from the saw table to its place: the bottom edge level, the outside facing `plan`.

    The outside lies down on the table, so that +x, right on the table, is the left end seen from outside.
    """
    out = np.array([np.cos(plan), np.sin(plan), 0.0])
    along = np.array([-np.sin(plan), np.cos(plan), 0.0])
    up = -np.cos(slope) * out + np.array([0.0, 0.0, np.sin(slope)])
    return np.column_stack([-along, up, np.cross(up, along)])


def corners(end: Plane, bottom: Plane, top: Plane, skins: tuple[Plane, Plane]) -> np.ndarray:
    return np.array([meet(end, edge, skin) for edge, skin in itertools.product((bottom, top), skins)])


FRAMES = [
    {"sides": n, "slope": f"{s} deg", "base": base, "width": w, "thickness": t}
    for n, s, base, w, t in (
        (3, 70.5, 700, 150, 18), (4, 45, 900, 200, 20), (5, 63.4, 400, 120, 12), (6, 70, 360, 180, 15),
        (7, 8, 1200, 90, 25), (12, 89, 150, 300, 6), (24, 33, 500, 60, 40),
    )
]  # fmt: skip


def ring_of(case: Case, tilt: float, middle: float) -> list[list[Plane]]:
    """Planes of all boards of a ring: left end, right end, outside, inside, bottom, top; in the world.

    Left and right are seen from outside; `middle` is how far the board's middle lies left of its side's.
    """
    v = case.base
    n, s, long = round(v["sides"]), v["slope"], v["long_edge"]
    planes = [
        end_cut(1, (long / 2, 0, 0), v["miter"], tilt),
        end_cut(-1, (-long / 2, 0, 0), v["miter"], tilt),
        *faces(v["thickness"]),
        rip(-1, 0.0, -v["edge_bevel"]),
        rip(1, v["width"], -v["edge_bevel"]),
    ]
    apothem = v["side"] / 2 / np.tan(np.pi / n)
    ring = []
    for i in range(n):
        turn = stand(s, 2 * np.pi * i / n)
        foot = turn @ np.array([middle, 0.0, 0.0]) + apothem * np.array(
            [np.cos(2 * np.pi * i / n), np.sin(2 * np.pi * i / n), 0.0]
        )
        ring.append([plane.moved(turn, foot) for plane in planes])
    return ring


@pytest.mark.parametrize("givens", FRAMES, ids=lambda g: f"{g['sides']} sides at {g['slope']}")
def test_mitered_frame_closes(givens: dict[str, object]) -> None:
    case = model("bevel.frame").at(**givens)
    v, size = case.base, case.base["side"]
    assert stand(v["slope"], 0.0)[:, 2] @ [np.sin(v["slope"]), 0, np.cos(v["slope"])] == pytest.approx(-1)
    ring = ring_of(case, v["tilt"], 0.0)
    for board, following in zip(ring, [*ring[1:], ring[0]], strict=True):
        left, right, outside, inside, bottom, top = board
        assert right.mates(following[0], size)
        ours = corners(right, bottom, top, (outside, inside))
        theirs = corners(following[0], following[4], following[5], (following[2], following[3]))
        assert np.abs(ours - theirs).max() < CLOSE * size
        assert np.allclose(bottom.normal, [0, 0, -1], atol=CLOSE)
        assert abs(bottom.at) < CLOSE * size
        assert np.allclose(top.normal, [0, 0, 1], atol=CLOSE)
        assert top.at == pytest.approx(v["height"], rel=CLOSE)
        seam = np.linalg.norm(meet(right, outside, top) - meet(right, outside, bottom))
        assert seam == pytest.approx(v["seam"], rel=CLOSE)
        assert np.linalg.norm(meet(right, outside, top) - meet(left, outside, top)) == pytest.approx(
            abs(v["short_edge"]), rel=1e-9, abs=1e-9 * size
        )


@pytest.mark.parametrize("givens", FRAMES, ids=lambda g: f"{g['sides']} sides at {g['slope']}")
def test_butted_frame_closes(givens: dict[str, object]) -> None:
    """Each right end lies on the inside of the next board; each left end is flush with the last one's outside."""
    case = model("bevel.frame").at(**givens, joint="butted")
    v, size = case.base, case.base["side"]
    ring = ring_of(case, -v["tilt"], (v["side"] - v["long_edge"]) / 2)
    for last, board, following in zip([ring[-1], *ring], ring, [*ring[1:], ring[0]], strict=False):
        assert board[1].mates(following[3], size)
        flush = last[2]
        assert np.allclose(board[0].normal, flush.normal, atol=CLOSE)
        assert abs(board[0].at - flush.at) < CLOSE * size


def test_flat_and_upright_frames() -> None:
    """Handbook limits: flat, the miter is 180°/N and the tilt 0; upright, the other way round."""
    frame = model("bevel.frame")
    for n in (3, 4, 6, 11):
        flat = frame.at(sides=n, slope="0.00001 deg", beyond=("slope",)).base
        assert flat["miter"] == pytest.approx(np.pi / n, abs=1e-12)
        assert flat["tilt"] == pytest.approx(0, abs=1e-6)
        upright = frame.at(sides=n, slope="90 deg").base
        assert upright["miter"] == pytest.approx(0, abs=1e-12)
        assert upright["tilt"] == pytest.approx(np.pi / n, rel=1e-12)


def test_spring_angle_taken_from_the_wrong_side_is_caught() -> None:
    """38° from the wall is a slope of 52°; who takes 38° as the slope gets 38.24° and 25.81° and a gap.

    The wrong pair is arithmetic on the handbook formulas.
    """
    wrong = model("bevel.frame").at(sides=4, slope="38 deg").base
    assert np.degrees([wrong["miter"], wrong["tilt"]]) == pytest.approx([38.24, 25.81], abs=0.005)
    right = np.degrees([31.62, 33.86])
    assert not np.allclose(np.degrees([wrong["miter"], wrong["tilt"]]), right, atol=1)


@pytest.mark.parametrize("seed", range(40))
def test_corner_of_any_two_boards_closes(seed: int) -> None:
    """Ends cut by the settings alone mate, and both the outer and the inner corner line lie in the joint."""
    rng = np.random.default_rng(seed)
    plan, s1, s2 = np.radians([rng.uniform(31, 164), rng.uniform(16, 149), rng.uniform(16, 149)])
    t1, t2 = rng.uniform(3, 60, 2)
    v = model("bevel.corner").at(
        plan=float(np.degrees(plan)), slope_1=float(np.degrees(s1)),
        slope_2=float(np.degrees(s2)), thickness_1=float(t1), thickness_2=float(t2),
    ).base  # fmt: skip
    one, two = stand(s1, 0.0), stand(s2, np.pi - plan)
    origin = np.zeros(3)
    skins_1 = [plane.moved(one, origin) for plane in faces(t1)]
    skins_2 = [plane.moved(two, origin) for plane in faces(t2)]
    end_1 = end_cut(-1, (0, 0, 0), v["miter_1"], v["tilt_1"]).moved(one, origin)
    end_2 = end_cut(1, (0, 0, 0), v["miter_2"], v["tilt_2"]).moved(two, origin)
    assert end_1.mates(end_2, 100.0)
    level = [Plane(np.array([0.0, 0.0, 1.0]), z) for z in (0.0, 100.0)]
    for skin_1, skin_2 in zip(skins_1, skins_2, strict=True):
        for plane in level:
            point = meet(skin_1, skin_2, plane)
            assert abs(end_1.normal @ point - end_1.at) < 1e-9 * max(100.0, np.abs(point).max())
    outer = meet(skins_1[0], skins_2[0], level[1])
    along = outer / np.linalg.norm(outer)
    inner = meet(skins_1[1], skins_2[1], level[0])
    across = inner - (inner @ along) * along
    assert np.linalg.norm(across) == pytest.approx(v["seam_width"], rel=1e-9)
    assert np.degrees(np.arcsin(along[2])) == pytest.approx(np.degrees(v["corner_slope"]), rel=1e-9)
    for turn, slope, bevel in ((one, s1, v["edge_bevel_1"]), (two, s2, v["edge_bevel_2"])):
        assert np.allclose(rip(-1, 0.0, -bevel).moved(turn, origin).normal, [0, 0, -1], atol=CLOSE), slope


def test_corner_of_equal_boards_is_the_frame() -> None:
    """Two models derived apart agree: a frame's corner is a corner of equal slopes over 180° - 360°/N."""
    for n, slope in ((3, 20), (4, 52), (6, 70), (13, 88)):
        frame = model("bevel.frame").at(sides=n, slope=slope).base
        corner = (
            model("bevel.corner")
            .at(plan=180 - 360 / n, slope_1=slope, slope_2=slope, thickness_1=20, thickness_2=20)
            .base
        )
        for ours, theirs in (("miter", "miter_1"), ("tilt", "tilt_2"), ("dihedral", "dihedral")):
            assert frame[ours] == pytest.approx(corner[theirs], rel=1e-12)


HOODS = [
    {},
    {
        "base_x": 900,
        "base_y": 300,
        "top_x": 120,
        "top_y": 280,
        "height": 700,
        "offset_x": -300,
        "offset_y": 0,
    },
    {
        "base_x": 300,
        "base_y": 300,
        "top_x": 600,
        "top_y": 200,
        "height": 250,
        "offset_x": 20,
        "offset_y": -90,
    },
]


@pytest.mark.parametrize("givens", HOODS)
def test_hood_boards_close(givens: dict[str, float]) -> None:
    """Four boards from widths, miters and tilts alone meet the bottom and the top rectangle and each other."""
    v = model("bevel.hood").at(**givens).base
    order = ("right", "back", "left", "front")
    thick, size = 15.0, v["base_x"]
    half = {
        "right": v["base_x"] / 2,
        "left": v["base_x"] / 2,
        "back": v["base_y"] / 2,
        "front": v["base_y"] / 2,
    }
    long = {"right": v["base_y"], "left": v["base_y"], "back": v["base_x"], "front": v["base_x"]}
    built = {}
    for i, face in enumerate(order):
        before, after = order[i - 1], order[(i + 1) % 4]
        turn = stand(v[f"slope_{face}"], i * np.pi / 2)
        foot = half[face] * np.array([np.cos(i * np.pi / 2), np.sin(i * np.pi / 2), 0.0])
        planes = [
            end_cut(1, (long[face] / 2, 0, 0), v[f"miter_{face}_{before}"], v[f"tilt_{before}_{face}"]),
            end_cut(-1, (-long[face] / 2, 0, 0), v[f"miter_{face}_{after}"], v[f"tilt_{face}_{after}"]),
            *faces(thick),
            rip(-1, 0.0, -v[f"edge_bevel_{face}"]),
            rip(1, v[f"width_{face}"], -v[f"edge_bevel_{face}"]),
        ]
        built[face] = [plane.moved(turn, foot) for plane in planes]
    signs = {
        ("right", "back"): (1, 1),
        ("back", "left"): (-1, 1),
        ("left", "front"): (-1, -1),
        ("front", "right"): (1, -1),
    }
    for (one, two), (i, j) in signs.items():
        a, b = built[one], built[two]
        assert a[1].mates(b[0], size)
        at_bottom, at_top = meet(a[1], a[2], a[4]), meet(a[1], a[2], a[5])
        want_bottom = np.array([i * v["base_x"] / 2, j * v["base_y"] / 2, 0.0])
        want_top = np.array([v["offset_x"] + i * v["top_x"] / 2, v["offset_y"] + j * v["top_y"] / 2, v["height"]])
        assert np.abs(at_bottom - want_bottom).max() < CLOSE * size
        assert np.abs(at_top - want_top).max() < CLOSE * size
        assert np.linalg.norm(at_top - at_bottom) == pytest.approx(v[f"seam_{one}_{two}"], rel=1e-12)
        ours = corners(a[1], a[4], a[5], (a[2], a[3]))
        theirs = corners(b[0], b[4], b[5], (b[2], b[3]))
        assert np.abs(ours - theirs).max() < CLOSE * size


def frame_of(points: np.ndarray) -> np.ndarray:
    """Axes of three points: first along 0 → 1, third square to all three."""
    x = points[1] - points[0]
    x = x / np.linalg.norm(x)
    z = np.cross(x, points[2] - points[0])
    z = z / np.linalg.norm(z)
    return np.column_stack([x, np.cross(z, x), z])


@pytest.mark.parametrize("seed", range(20))
def test_ring_with_wrong_settings_gapes_as_told(seed: int) -> None:
    """Boards are joined end to end, face on face and corner on corner; the last end then misses the first."""
    rng = np.random.default_rng(seed)
    n = int(rng.integers(3, 13))
    slope, e_tilt, e_miter = rng.uniform(6, 89), rng.uniform(-1, 1), rng.uniform(-1, 1)
    gap = model("bevel.gap").at(sides=n, slope=slope, tilt_error=e_tilt, miter_error=e_miter)
    v, long = gap.base, gap.base["side"]
    settings = v["miter"] + v["miter_error"], v["tilt"] + v["tilt_error"]
    # Three points of each end, on the board: outer corner, up the outside, into the joint.
    ends = []
    for side in (-1, 1):
        start = np.array([side * long / 2, 0.0, 0.0])
        end = end_cut(side, start, *settings)
        up = meet(end, faces(10.0)[0], Plane(np.array([0.0, 1.0, 0.0]), 50.0))
        into = meet(end, faces(10.0)[1], Plane(np.array([0.0, 1.0, 0.0]), 0.0))
        ends.append(np.array([start, up, into]))
    turn, shift = np.eye(3), np.zeros(3)
    for _ in range(n):
        right = ends[1] @ turn.T + shift  # where the next board's left end must lie
        turn = frame_of(right) @ frame_of(ends[0]).T
        shift = right[0] - turn @ ends[0][0]
    # After n boards the next would lie on the first if the ring closed.
    angle = np.arccos(np.clip((np.trace(turn) - 1) / 2, -1, 1))
    told = abs((v["closing_error"] + np.pi) % (2 * np.pi) - np.pi)
    assert angle == pytest.approx(told, rel=1e-6, abs=1e-9)
    first = ends[0][0]
    assert np.linalg.norm(turn @ first + shift - first) == pytest.approx(v["gap_last"], rel=1e-9, abs=1e-9 * long)


def test_small_errors_add_by_their_upright_part() -> None:
    """The rates are the slopes of the exact closing error, taken by central differences."""
    gap = model("bevel.gap")
    for n, slope in ((3, 30), (6, 70), (12, 85)):
        fixed = {"sides": n, "slope": slope}
        for name, rate, other in (
            ("tilt_error", "rate_tilt", "miter_error"), ("miter_error", "rate_miter", "tilt_error"),
        ):  # fmt: skip
            h = 1e-3
            ahead, behind = (gap.at(**fixed, **{name: x, other: 0}).base["closing_error"] for x in (h, -h))
            slope_found = (ahead - behind) / np.radians(2 * h)
            assert slope_found == pytest.approx(2 * n * gap.at(**fixed).base[rate], rel=1e-6)


@pytest.mark.parametrize(("n", "slope"), [(3, 70), (4, 90), (4, 20), (6, 70), (10, 45)])
def test_gap_of_one_joint(n: int, slope: float) -> None:
    """Two boards stand where they belong, their ends cut with an error; the open edges are measured in space."""
    case = model("bevel.gap").at(sides=n, slope=slope, tilt_error=0.4, miter_error=0.25, width=150, thickness=20)
    v = case.base
    psi, s, w, t = np.pi / n, v["slope"], v["width"], v["thickness"]
    turns = stand(s, -psi), stand(s, psi)
    miter, tilt = v["miter"], v["tilt"]

    def reach(side: int, miter: float, tilt: float, up: float, into: float) -> np.ndarray:
        """A point of the cut: `up` along its trace on the outside, `into` along its slope into the wood."""
        trace = np.array([-side * np.sin(miter), np.cos(miter), 0.0])
        deep = np.array([-side * np.sin(tilt) * np.cos(miter), -np.sin(tilt) * np.sin(miter), np.cos(tilt)])
        return turns[0 if side < 0 else 1] @ (up * trace + into * deep)

    far = w / np.cos(miter)
    ends = [reach(side, miter + v["miter_error"], tilt, far, 0.0) for side in (-1, 1)]
    assert np.linalg.norm(ends[0] - ends[1]) == pytest.approx(v["gap_miter"], rel=1e-9)
    ends = [reach(side, miter, tilt + v["tilt_error"], 0.0, t / np.cos(tilt)) for side in (-1, 1)]
    assert np.linalg.norm(ends[0] - ends[1]) == pytest.approx(v["gap_tilt"], rel=1e-9)
    true = [reach(side, miter, tilt, far, t / np.cos(tilt)) for side in (-1, 1)]
    assert np.linalg.norm(true[0] - true[1]) < 1e-9 * w


def test_accuracy_is_the_gap_turned_round() -> None:
    gap = model("bevel.gap")
    v = gap.at(gap_allowed="0.3 mm").base
    for name, error, result in (
        ("tilt_accuracy", "tilt_error", "gap_tilt"), ("miter_accuracy", "miter_error", "gap_miter"),
    ):  # fmt: skip
        again = gap.at(**{error: float(np.degrees(v[name]))}).base
        assert again[result] == pytest.approx(0.3, rel=1e-12)
    small = gap.at(gap_allowed="0.02 mm").base["ring_accuracy"]
    both = gap.at(tilt_error=float(np.degrees(small)), miter_error=float(np.degrees(small))).base
    assert both["gap_last"] == pytest.approx(0.02, rel=1e-3)
