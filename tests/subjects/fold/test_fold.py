"""Folds by other routes: fold a flat strip in small steps and measure it, offset outlines, count layers.

Nothing here uses the formulas of the topic: the strip is bent where the model says, by so much as it says, and
what comes out is measured as a person would, with a square and a caliper.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from shapely.geometry import LineString, box

from kit.core.model import Case, find
from kit.subjects import model

STEPS = 4000  # per bend; the midpoint rule is then good to 1e-8 of a radius


class Strip:
    """A strip folded by turning it a little at every step of its neutral fiber."""

    def __init__(self, length: float, bends: list[tuple[float, float, float]]) -> None:
        """Take bends as (middle on the flat strip, flat stock in the bend, angle)."""
        edges = [0.0, *(s for at, stock, _ in bends for s in (at - stock / 2, at + stock / 2)), length]
        assert np.all(np.diff(edges) >= -1e-9), "straight parts must not be negative"
        step, turn = [np.zeros(0)], [np.zeros(0)]
        for number, (low, high) in enumerate(pairwise(edges)):
            count = STEPS if number % 2 else 1
            step.append(np.full(count, (high - low) / count))
            turn.append(np.full(count, bends[number // 2][2] / count if number % 2 else 0.0))
        self.step, self.turn = np.concatenate(step), np.concatenate(turn)
        heading = np.cumsum(self.turn) - self.turn / 2  # at the middle of each step
        x, y = np.cumsum(self.step * np.cos(heading)), np.cumsum(self.step * np.sin(heading))
        self.points = np.column_stack([np.append(0, x), np.append(0, y)])
        self.headings = np.append(0, np.cumsum(self.turn))  # at the points

    def face(self, offset: float) -> np.ndarray:
        """Return the fiber `offset` to the left of the neutral one."""
        return self.points + offset * np.column_stack([-np.sin(self.headings), np.cos(self.headings)])


def outside_legs(strip: Strip, bends: list[float], inside: float, outside: float) -> list[float]:
    """Measure each leg over the outside: `inside` and `outside` are the distances of the faces from the neutral."""
    marks = []  # of each bend along the legs before and after it
    corner = 1
    for angle in bends:
        face = strip.face(-math.copysign(outside, angle))
        start, end = face[corner], face[corner + STEPS]
        before, after = strip.headings[corner], strip.headings[corner + STEPS]
        e, f = (np.array([math.cos(h), math.sin(h)]) for h in (before, after))
        if abs(angle) <= math.pi / 2 + 1e-12:  # a square: where the outside faces meet
            along = np.linalg.solve(np.column_stack([e, -f]), end - start)
            point = start + along[0] * e
            marks.append((point @ e, point @ f))
        else:  # a caliper: the outermost point
            arc = face[corner : corner + STEPS + 1]
            marks.append(((arc @ e).max(), (arc @ f).min()))
        corner += STEPS + 1
    first = strip.points[0]
    legs = [marks[0][0] - first @ np.array([1.0, 0.0])]
    legs += [after[0] - before[1] for before, after in pairwise(marks)]
    last = np.array([math.cos(strip.headings[-1]), math.sin(strip.headings[-1])])
    return [*legs, strip.points[-1] @ last - marks[-1][1]]


def bend_strip(case: Case) -> Strip:
    v = case.base
    return Strip(v["flat_length"], [(v["bend_line"], v["allowance"], v["bend_angle"])])


@pytest.mark.parametrize("method", ["shop factor", "DIN 6935"])
@pytest.mark.parametrize("angle", [5, 30, 60, 90, 91, 120, 150, 180])
def test_folding_the_flat_piece_gives_the_legs(method: str, angle: float) -> None:
    rng = np.random.default_rng(angle)
    for _ in range(3):
        T, R = rng.uniform(0.5, 4), rng.uniform(1, 20)
        a, b = rng.uniform(60, 200, 2)
        case = model("fold.bend").at(method=method, bend_angle=angle, thickness=T, inside_radius=R, leg_a=a, leg_b=b)
        inside = case.base["neutral_factor"] * T
        strip = bend_strip(case)
        assert outside_legs(strip, [math.radians(angle)], inside, T - inside) == pytest.approx([a, b], abs=1e-5)
        arc = strip.face(inside)[1 : STEPS + 2]
        along = np.hypot(*np.diff(arc, axis=0).T).sum()
        assert along / math.radians(angle) == pytest.approx(R, abs=1e-5), "inside radius"


def test_limits_of_one_bend() -> None:
    bend = model("fold.bend")
    beyond = ("thickness", "inside_radius", "shop_factor")
    at = {"leg_a": 50, "leg_b": 30, "bend_angle": 90}
    foil = bend.at(beyond=beyond, thickness=1e-9, inside_radius=10, **at)
    assert foil["deduction"].value == pytest.approx(20 - 5 * math.pi, abs=1e-8)
    sharp = bend.at(beyond=beyond, inside_radius=1e-9, thickness=2, shop_factor=0.5, **at)
    assert sharp["deduction"].value == pytest.approx(4 - math.pi / 2, abs=1e-8)
    assert bend.at(bend_angle=0)["deduction"].value == 0
    assert bend.at(bend_angle=0)["flat_length"].value == 65
    below, above = (bend.at(bend_angle=angle)["deduction"].value for angle in (90 - 1e-7, 90 + 1e-7))
    assert below == pytest.approx(above, abs=1e-6), "both ways of measuring agree at 90°"
    # closed flat on itself with the fiber in the middle: both faces of the ring together are twice the fiber
    hem = bend.at(bend_angle=180, material="large radius", thickness=2, inside_radius=3)
    assert 2 * hem["allowance"].value == pytest.approx(math.pi * 3 + math.pi * 5)


def test_din_is_continuous_to_its_own_limit() -> None:
    bend = model("fold.bend")
    k = [bend.at(method="DIN 6935", thickness=1, inside_radius=r)["din_factor"].value for r in (5, 5.0001)]
    assert k == pytest.approx([1, 1], abs=0.0006)  # 0.65 + 0.5 log10 5 = 0.9995


@pytest.mark.parametrize("seed", range(6))
def test_folding_the_flat_strip_gives_every_leg(seed: int) -> None:
    rng = np.random.default_rng(seed)
    legs = rng.uniform(60, 250, 5)
    angles = rng.uniform(20, 180, 4) * rng.choice([-1, 1], 4)
    case = model("fold.chain").at(
        thickness=rng.uniform(0.5, 3), inside_radius=rng.uniform(1, 8), method=("shop factor", "DIN 6935")[seed % 2],
        **{f"leg_{i}": leg for i, leg in enumerate(legs, 1)}, **{f"angle_{i}": a for i, a in enumerate(angles, 1)},
    )  # fmt: skip
    v = case.base
    bends = [(v[f"fold_line_{i}"], v[f"allowance_{i}"], v[f"angle_{i}"]) for i in range(1, 5)]
    inside = v["neutral_factor"] * v["thickness"]
    strip = Strip(v["flat_length"], bends)
    found = outside_legs(strip, list(np.radians(angles)), inside, v["thickness"] - inside)
    assert found == pytest.approx(list(legs), abs=1e-5)


def test_a_chain_with_one_bend_is_a_bend() -> None:
    rest = {"leg_1": 0, "angle_1": 0, "leg_4": 0, "leg_5": 0, "angle_3": 0, "angle_4": 0}
    chain = model("fold.chain").at(leg_2=40, leg_3=25, angle_2=-75, **rest)
    bend = model("fold.bend").at(leg_a=40, leg_b=25, bend_angle=75)
    assert chain["flat_length"].value == pytest.approx(bend["flat_length"].value, rel=1e-12)
    assert chain["fold_line_2"].value == pytest.approx(bend["bend_line"].value, rel=1e-12)
    assert chain.ok, "legs of zero are no fault"


@pytest.mark.parametrize(("T", "R", "angle"), [(1.5, 2, 90), (6, 1, 30), (0.5, 20, 180)])
def test_strain_from_measured_fibers(T: float, R: float, angle: float) -> None:
    case = model("fold.strain").at(thickness=T, inside_radius=R, bend_angle=angle)
    inside = case.base["neutral_factor"] * T
    stock = case.base["neutral_length"]
    strip = Strip(stock, [(stock / 2, stock, math.radians(angle))])
    lengths = {
        side: np.hypot(*np.diff(strip.face(offset), axis=0).T).sum()
        for side, offset in (("inner", inside), ("outer", inside - T))
    }
    flat = strip.step.sum()
    assert case.base["outer_strain"] == pytest.approx(lengths["outer"] / flat - 1, rel=1e-6)
    assert case.base["inner_strain"] == pytest.approx(lengths["inner"] / flat - 1, rel=1e-6)


def test_at_the_smallest_radius_the_strain_is_the_allowed_one() -> None:
    strain = model("fold.strain")
    for reduction in (10, 25, 40):
        case = strain.at(reduction=reduction, thickness=2)
        there = case.with_(inside_radius=case["least_radius"])
        assert there["outer_strain"].value == pytest.approx(case["allowed_strain"].value, rel=1e-12)
    assert strain.at(reduction=80, share=1)["least_radius"].value == 0, "soft enough for any crease"


@pytest.mark.parametrize("radius", [0, 3, 10])
@pytest.mark.parametrize(("edges", "part"), [(4, 1), (2, 2)])
def test_wrap_against_an_offset_outline(radius: float, edges: int, part: int) -> None:
    h, w, c, plies = 24.0, 60.0, 1.2, 3
    case = model("fold.wrap").at(
        rail_thickness=h,
        rail_width=w,
        edge_radius=radius,
        cloth_thickness=c,
        plies=plies,
        edges=edges,
        tail=w,
    )
    rail = box(radius, radius, h - radius, w - radius)
    for name, out in (("inner_cloth", c / 2), ("outer_cloth", (plies - 0.5) * c)):
        around = rail.buffer(radius + out, quad_segs=4000).exterior.length
        assert case.base[name] == pytest.approx(around / part, rel=1e-7), name


def test_two_more_edges_are_half_a_turn() -> None:
    wrap = model("fold.wrap")
    once, thrice = (wrap.at(edges=edges, plies=1).base["inner_cloth"] for edges in (1, 3))
    around = box(3, 3, 17, 57).buffer(3 + 0.55 / 2, quad_segs=4000).exterior.length
    assert thrice - once == pytest.approx(around / 2, rel=1e-7)


@pytest.mark.parametrize("crease", [0, 0.4, 2])
@pytest.mark.parametrize("kind", ["single", "double"])
def test_hem_folded_and_measured(kind: str, crease: float) -> None:
    b, u, c, panel = 30.0, 20.0, 1.0, 80.0
    cut = (
        panel
        + model("fold.hem")
        .at(kind=kind, hem_width=b, turn_in=u, cloth_thickness=c, crease_radius=crease, edges=1)
        .base["take_up"]
    )
    case = model("fold.hem").at(
        kind=kind, cut_length=cut, hem_width=b, turn_in=u, cloth_thickness=c, crease_radius=crease, edges=1
    )
    v = case.base
    assert v["finished_length"] == pytest.approx(panel)
    # first the inner crease with its turned-in ply, then the outer fold, each a half circle of the middle
    radii = [crease] if kind == "single" else [v["fold_radius"], crease]
    stocks = [math.pi * (radius + c / 2) for radius in radii]
    flats = [panel - radii[0] - c, b - radii[0] - c]
    if kind == "double":
        flats = [flats[0], b - radii[0] - radii[1] - 2 * c, u - crease - c]
    at, bends = 0.0, []
    for flat, stock in zip(flats, stocks, strict=False):
        bends.append((at + flat + stock / 2, stock, math.pi))
        at += flat + stock
    strip = Strip(cut, bends)
    outer = np.concatenate([strip.face(-c / 2), strip.face(c / 2)])
    assert outer[:, 0].max() == pytest.approx(panel, abs=1e-5), "finished edge"
    assert at + flats[-1] == pytest.approx(cut, abs=1e-9), "no cloth left over"
    folded = outer[outer[:, 1] > 1.2 * c]  # above the panel
    if kind == "double":
        assert outer[:, 0].max() - folded[:, 0].min() == pytest.approx(b, abs=1e-5), "hem width"
    middle = LineString(strip.points)
    ray = LineString([(panel - b / 2, -50), (panel - b / 2, 50)])
    crossings = middle.intersection(ray)
    heights = sorted(point.y for point in crossings.geoms)
    assert len(heights) == v["plies"]
    assert np.diff(heights).min() >= c - 1e-6, "plies must not run into each other"


@pytest.mark.parametrize(("kind", "turns"), [("single", 1), ("double", 2)])
@pytest.mark.parametrize(("across", "cross_turns"), [("none", 0), ("single", 1), ("double", 2)])
def test_layers_at_a_corner_counted(kind: str, turns: int, across: str, cross_turns: int) -> None:
    """Fold a sheet of ruled paper and count how many of its points come to lie on one spot of the corner."""

    def fold(x: np.ndarray, times: int) -> np.ndarray:
        for crease in (180, 160)[:times]:  # the edge is at 200, a turn is 20 wide
            x = np.where(x > crease, 2 * crease - x, x)
        return x

    sheet = np.meshgrid(np.arange(1, 200, 2), np.arange(1, 200, 2))
    x, y = fold(sheet[0], turns), fold(sheet[1], cross_turns)
    on_spot = np.sum((x == x.max() - 8) & (y == y.max() - 8))
    on_hem = np.sum((x == x.max() - 8) & (y == 51))
    case = model("fold.hem").at(kind=kind, across=across)
    assert case.base["corner_plies"] == on_spot
    assert case.base["plies"] == on_hem


@pytest.mark.parametrize(
    ("name", "unknown", "result", "target", "how"),
    [
        ("fold.bend", "leg_a", "flat_length", "70 mm", "closed form"),
        ("fold.bend", "shop_factor", "flat_length", "62.2 mm", "closed form"),
        ("fold.bend", "inside_radius", "deduction", "3.1 mm", "closed form"),
        ("fold.bend", "bend_angle", "deduction", "2 mm", "bracketed"),
        ("fold.chain", "leg_3", "flat_length", "380 mm", "closed form"),
        ("fold.strain", "inside_radius", "outer_strain", "20 %", "closed form"),
        ("fold.strain", "thickness", "outer_strain", "20 %", "closed form"),
        ("fold.wrap", "tail", "outer_cloth", "60 mm", "closed form"),
        ("fold.wrap", "edge_radius", "face_strain", "5 %", "closed form"),
        ("fold.hem", "cut_length", "finished_length", "600 mm", "closed form"),
        ("fold.hem", "hem_width", "finished_length", "590 mm", "closed form"),
    ],
)  # fmt: skip
def test_turned_round(name: str, unknown: str, result: str, target: str, how: str) -> None:
    case = model(name).at()
    found = find(case, unknown, result, target)
    assert found.values
    assert found.how == how
    for value in found.values:
        again = case.with_(**{unknown: found.unknown.unit.from_base(value)})
        assert again.base[result] == pytest.approx(found.target, rel=1e-9)


def held(case: Case, name: str) -> bool:
    """Whether a limit of a case holds."""
    return next(check.ok for check in case.checks if check.name == name)


@pytest.mark.parametrize("seed", range(8))
def test_legs_that_pass_through_each_other_fail_a_limit(seed: int) -> None:
    """Against the geometry library: a line of legs that crosses itself is not simple."""
    rng = np.random.default_rng(100 + seed)
    found = []
    for _ in range(12):
        legs, turns = rng.uniform(20, 250, 5), rng.uniform(-150, 150, 4)
        heading = np.radians(np.concatenate([[0.0], np.cumsum(turns)]))
        steps = legs[:, None] * np.column_stack([np.cos(heading), np.sin(heading)])
        line = LineString(np.vstack([[0.0, 0.0], np.cumsum(steps, axis=0)]))
        given = {f"leg_{i}": leg for i, leg in enumerate(legs, 1)} | {f"angle_{i}": a for i, a in enumerate(turns, 1)}
        found.append(line.is_simple)
        assert held(model("fold.chain").at(**given), "crossing") == line.is_simple
    assert len(set(found)) == 2


def test_a_turned_in_ply_ends_before_the_outer_fold_bends() -> None:
    """Double hem 25 wide of 1 mm cloth, crease of radius 0.5: the outer fold's inside radius is 1, and it bends over
    1 + 1 of the width: 23 mm are left, 25 - 1.5 · 1 - 0.5."""
    at = {"kind": "double", "hem_width": 25, "cloth_thickness": 1, "crease_radius": 0.5}
    assert held(model("fold.hem").at(turn_in=22.99, **at), "turn_in")
    assert not held(model("fold.hem").at(turn_in=23.01, **at), "turn_in")


@pytest.mark.parametrize(("edges", "face"), [(1, 20), (2, 60), (3, 20), (4, 60)])
def test_a_tail_is_no_longer_than_the_face_it_lies_on(edges: int, face: float) -> None:
    at = {"rail_thickness": 20, "rail_width": 60, "edges": edges}
    assert held(model("fold.wrap").at(tail=face, **at), "ground")
    assert not held(model("fold.wrap").at(tail=face + 0.1, **at), "ground")
