"""Allowances, hems, marks: areas by hand, outlines that stay valid, marks that meet, refusals that name the edge."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats
from kit.geometry.development.develop import develop
from kit.geometry.development.flatten import flatten
from kit.geometry.development.mesh import grid_triangles, panel_of, patch
from kit.geometry.development.primitives import apex, circle, line, rectangle
from kit.geometry.development.unroll import unroll
from kit.subjects.cloth.geometry.consumption import check_width, rectangle_round
from kit.subjects.cloth.geometry.darts import relieve
from kit.subjects.cloth.geometry.edge_finish import (
    edges_of_panel,
    edges_of_strip,
    finished,
    named_sides,
    with_finish,
)
from kit.subjects.cloth.geometry.hems import Tolerance, bends
from kit.subjects.cloth.geometry.match_marks import mark, match
from kit.subjects.cloth.geometry.pattern import CornerKind, Finish, Piece, SewEdge


def polygon_edges(corners: list[tuple[float, float]], finish: Finish, corner: CornerKind = "extended") -> list[SewEdge]:
    points = np.array(corners, dtype=float)
    ends = np.roll(points, -1, axis=0)
    return [
        SewEdge(f"side {k + 1}", np.stack([p, q]), finish, corner)
        for k, (p, q) in enumerate(zip(points, ends, strict=True))
    ]


SQUARE = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
ELL = [(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (40.0, 40.0), (40.0, 100.0), (0.0, 100.0)]
HEM = Finish("hem", 15.0)


def area(piece: Piece) -> float:
    return Polygon(piece.cut).area


def arc_edge(radius: float, turn: float, finish: Finish, *, concave: bool, steps: int = 60) -> list[SewEdge]:
    """A ring sector counterclockwise, with the finish on its outer (convex) or inner (concave) arc."""
    inner, outer = (radius, 2 * radius) if concave else (radius / 2, radius)
    angle = np.linspace(0, turn, steps + 1)
    ray = np.column_stack([np.cos(angle), np.sin(angle)])
    lines = [outer * ray, np.stack([outer * ray[-1], inner * ray[-1]]), inner * ray[::-1], inner * ray[:1]]
    lines[3] = np.stack([inner * ray[0], outer * ray[0]])
    names = ["outer", "end", "inner", "begin"]
    chosen = "inner" if concave else "outer"
    return [SewEdge(n, x, finish if n == chosen else Finish()) for n, x in zip(names, lines, strict=True)]


def test_a_square_grows_by_its_allowance_on_every_side() -> None:
    assert area(finished("square", polygon_edges(SQUARE, Finish("seam", 10)))) == pytest.approx(120**2)


def test_each_edge_has_its_own_allowance() -> None:
    edges = with_finish(polygon_edges(SQUARE, Finish()), {"side 1": Finish("seam", 10), "side 2": HEM})
    assert area(finished("square", edges)) == pytest.approx(115 * 110)


def test_double_hems_take_two_depths_and_what_the_folds_take() -> None:
    double = Finish("hem", 12.0, folds=2, take_up=1.5)
    assert double.allowance == 25.5
    piece = finished("square", polygon_edges(SQUARE, double))
    assert area(piece) == pytest.approx((100 + 2 * 25.5) ** 2)
    lines = [found for name, found in piece.folds if name == "side 1"]
    assert [float(found[:, 1].mean()) for found in lines] == pytest.approx([0.0, -12.75])


def test_notched_corners_are_left_out_to_the_stated_distance() -> None:
    piece = finished("square", polygon_edges(SQUARE, HEM, "notched"), tolerance=Tolerance(clear=0.0))
    assert area(piece) == pytest.approx(100**2 + 4 * 100 * 15)
    kept = finished("square", polygon_edges(SQUARE, HEM, "notched"), tolerance=Tolerance(clear=4.0))
    corner = Point(0, 0)
    assert Polygon(kept.cut).boundary.distance(corner) == pytest.approx(4.0)


def test_mitered_hems_meet_on_the_bisector_when_folded() -> None:
    """Each hem, mirrored over its fold line, covers its side of the corner's bisector and nothing beyond."""
    corners = [(0.0, 0.0), (120.0, 0.0), (150.0, 90.0), (-20.0, 80.0)]
    piece = finished("flap", polygon_edges(corners, HEM, "mitered"), tolerance=Tolerance(clear=0.0))
    hems = Polygon(piece.cut).difference(Polygon(corners))
    folded = []
    for part in hems.geoms:
        ring = np.array(part.exterior.coords)
        k = min(range(4), key=lambda k: _off_line(ring, corners, k))
        p, q = np.array(corners[k]), np.array(corners[(k + 1) % 4])
        t = (q - p) / np.linalg.norm(q - p)
        folded.append(Polygon(2 * (p + ((ring - p) @ t)[:, None] * t) - ring))
    assert len(folded) == 4
    for k, one in enumerate(folded):
        assert Polygon(corners).buffer(1e-6).contains(one)
        for other in folded[k + 1 :]:
            assert one.intersection(other).area < 1e-6
    # Without a gap: within 5 mm of each corner the folded hems cover the whole piece.
    for corner in corners:
        near = Point(corner).buffer(5).intersection(Polygon(corners))
        covered = sum(near.intersection(one).area for one in folded)
        assert covered == pytest.approx(near.area, rel=1e-6)


def _off_line(ring: Floats, corners: list[tuple[float, float]], k: int) -> float:
    side = LineString([corners[k], corners[(k + 1) % 4]])
    return float(sorted(side.distance(Point(p)) for p in ring)[2])


def test_an_inward_corner_between_hems_gets_a_slit_that_keeps_its_distance() -> None:
    piece = finished("ell", polygon_edges(ELL, HEM), tolerance=Tolerance(clear=3.0))
    (slit,) = [cut for cut in piece.reliefs if cut.kind == "slit"]
    assert slit.points[0] == pytest.approx([55, 55])
    assert slit.points[1] == pytest.approx([43, 43])  # 3 mm from both fold lines, x = 40 and y = 40


def test_no_cut_of_a_random_piece_comes_near_a_fold_line_or_leaves_its_outline() -> None:
    """Stars of straight and bent edges with mixed finishes, 120 seeded ones."""
    random = np.random.default_rng(3)
    made = 0
    for _ in range(120):
        n = int(random.integers(4, 9))
        angle = np.linspace(0, 2 * np.pi, n, endpoint=False)
        corners = random.uniform(60, 160, n)[:, None] * np.column_stack([np.cos(angle), np.sin(angle)])
        edges = []
        for k, (p, q) in enumerate(zip(corners, np.roll(corners, -1, axis=0), strict=True)):
            u = np.linspace(0, 1, 25)[:, None]
            bow = random.uniform(-0.3, 0.3) * u * (1 - u) * np.array([q[1] - p[1], p[0] - q[0]])
            finish = Finish("hem" if random.random() < 0.5 else "seam", float(random.uniform(3, 12)))
            edges.append(SewEdge(f"side {k + 1}", p + (q - p) * u + bow, finish))
        try:
            piece = finished("star", edges, tolerance=Tolerance(0.15, 2.0))
        except KitError:
            continue
        made += 1
        assert Polygon(piece.cut).is_valid
        for cut in piece.reliefs:
            for edge in edges:
                if edge.finish.kind == "hem":
                    assert LineString(edge.line).distance(LineString(cut.points)) >= 2.0 - 1e-6
    assert made > 60


@pytest.mark.parametrize("concave", [False, True])
def test_the_hem_of_an_arc_has_the_area_of_a_ring(concave: bool) -> None:
    radius, turn, depth = 200.0, 1.2, 6.0
    edges = arc_edge(radius, turn, Finish("hem", depth), concave=concave, steps=240)
    piece = finished("ring", edges, tolerance=Tolerance(0.2))
    added = area(piece) - Polygon(piece.outline).area
    sign = -1 if concave else 1
    assert added == pytest.approx(turn * depth * (radius + sign * depth / 2), rel=1e-3)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(40, 100), min_size=5, max_size=14),
    st.lists(st.floats(0, 12), min_size=5, max_size=14),
    st.sampled_from(["extended", "mitered", "notched"]),
)
def test_outlines_stay_valid_on_stars_with_tiny_and_inward_edges(
    radii: list[float], depths: list[float], corner: CornerKind
) -> None:
    angle = np.linspace(0, 2 * np.pi, len(radii), endpoint=False)
    points = np.array(radii)[:, None] * np.column_stack([np.cos(angle), np.sin(angle)])
    tiny = points[0] + 0.01 * (points[1] - points[0]) / np.linalg.norm(points[1] - points[0])
    corners = [points[0], tiny, *points[1:]]
    edges = [
        SewEdge(f"side {k + 1}", np.stack([p, q]), Finish("seam", depths[k % len(depths)]), corner)
        for k, (p, q) in enumerate(zip(corners, [*corners[1:], corners[0]], strict=True))
    ]
    piece, refusal = None, ""
    try:
        piece = finished("star", edges)
    except KitError as said:
        refusal = str(said)
    if piece is None:  # allowances of 12 mm may close the mouth of a narrow inward corner
        assert "run into each other near the edge side" in refusal
        return
    cut = Polygon(piece.cut)
    assert cut.is_valid
    assert cut.buffer(1e-6).contains(Polygon(piece.outline))
    assert cut.exterior.hausdorff_distance(Polygon(piece.outline).exterior) <= 3 * max(depths) + 1e-6


def test_marks_carry_the_sew_line_to_the_cut_line() -> None:
    edges = with_finish(polygon_edges(SQUARE, Finish()), {"side 2": Finish("seam", 10)})
    piece = finished("square", edges)
    found = mark(piece, "side 2", 25.0, "m")
    assert found.sew == pytest.approx([100, 25])
    assert found.cut == pytest.approx([110, 25])
    bare = mark(piece, "side 1", 25.0, "m")
    assert bare.cut == pytest.approx(bare.sew)


def test_the_marks_of_two_panels_meet_in_space() -> None:
    """Both panels of a parted transition: marks at equal arc lengths lie on the same points of the shape."""
    d = develop(rectangle(300, 200, radius=30), circle(60, (40, 20, 200), tilt=0.3, azimuth=1.0))
    half = len(d.strip.a) // 2
    strips = [d.strip.part(0, half), d.strip.part(half, len(d.strip.a) - 1)]
    one, other = (
        finished(f"panel {k}", with_finish(edges_of_strip(unroll(s)), {"end": Finish("seam", 12)}))
        for k, s in enumerate(strips)
    )
    first, second = match((one, "end"), (other, "begin"), count=4, label="s")
    ruling = np.stack([d.strip.a[half], d.strip.b[half]])
    up = (ruling[1] - ruling[0]) / np.linalg.norm(ruling[1] - ruling[0])
    for p, q in zip(first.marks, second.marks, strict=True):
        assert p.label == q.label
        assert p.ease == q.ease == 0
        length = np.linalg.norm(ruling[1] - ruling[0])
        on_first = ruling[0] + p.along * up  # `end` runs from a to b, `begin` from b to a
        on_second = ruling[0] + (length - q.along) * up
        assert on_first == pytest.approx(on_second, abs=1e-9)


def test_an_eased_edge_is_marked_in_proportion_and_says_so() -> None:
    long = finished("long", polygon_edges([(0, 0), (102, 0), (102, 50), (0, 50)], Finish("seam", 8)))
    short = finished("short", polygon_edges(SQUARE, Finish("seam", 8)))
    first, second = match((long, "side 1"), (short, "side 1"), count=3, easing=0.03)
    assert [m.along for m in first.marks] == pytest.approx([25.5, 51.0, 76.5])
    assert [m.along for m in second.marks] == pytest.approx([75, 50, 25])
    assert [m.ease for m in first.marks] == pytest.approx([0.02] * 3)
    assert [m.ease for m in second.marks] == [0.0] * 3


def test_a_cone_loses_its_apex_edge_and_a_patch_keeps_its_four_edges() -> None:
    cone = develop(circle(50), apex((0, 0, 120)))
    assert [edge.name for edge in edges_of_strip(cone.flat)] == ["a", "end", "begin"]
    ends = (0, 0, 0), (100, 0, 0), (100, 80, 30), (0, 80, 0)
    frame = patch(
        line(ends[0], ends[1]), line(ends[3], ends[2]), line(ends[0], ends[3]), line(ends[1], ends[2]), (6, 4)
    )
    edges = edges_of_panel(flatten(frame), named_sides(frame, {"low": 0, "right": 6, "high": 34, "left": 28}))
    assert {edge.name: len(edge.line) for edge in edges} == {"low": 7, "right": 5, "high": 7, "left": 5}
    piece = finished("patch", with_finish(edges, {"low": HEM}))
    assert area(piece) > Polygon(piece.outline).area


@pytest.mark.parametrize("limit", [0.015, 0.01, 0.006, 0.003])
def test_both_sides_of_a_dart_and_of_a_seam_are_edges_that_meet(limit: float) -> None:
    """A dome cut by proposed darts and seams: each cut has two edges, as long as its points in space.

    Its top lies aside, so that no two corners are strained alike and the first cut is decided by the shape.
    """
    x = np.linspace(-150, 150, 25)
    X, Y = np.meshgrid(x, 1.3 * x)
    Z = np.sqrt(500**2 - (X - 80) ** 2 - (Y - 40) ** 2)
    dome = panel_of(np.column_stack([X.ravel(), Y.ravel(), Z.ravel()]), grid_triangles(24, 24))
    corners = {"south": 0, "east": 24, "north": 624, "west": 600}
    found = relieve(dome, (limit, limit))
    assert found.cuts
    assert found.met
    lengths: dict[str, list[float]] = {}
    for piece in found.pieces:
        edges = edges_of_panel(piece, named_sides(dome, corners), found.cuts)
        assert finished("part", edges).outline.shape == (len(piece.panel.loops[0]), 2)
        for edge in edges:
            lengths.setdefault(edge.name.rstrip("'"), []).append(edge.length)
    cut_names = {f"{cut.kind} {k}" for k, cut in enumerate(found.cuts, 1)}
    assert {name.rstrip("′") for name in lengths} == {*corners, *cut_names}
    ends = [int(cut.vertices[k]) for cut in found.cuts for k in (0, -1)]
    for k, cut in enumerate(found.cuts, 1):
        others = len(set(ends) & set(cut.vertices[1:-1].tolist()))
        parts = [name for name in lengths if name.rstrip("′") == f"{cut.kind} {k}"]
        assert len(parts) == 1 + others
    for name, both in lengths.items():
        if name.rstrip("′") in cut_names:
            assert len(both) == 2
            assert both[0] == pytest.approx(both[1], abs=0.1)
    for k, cut in enumerate(found.cuts, 1):
        on_shape = np.linalg.norm(np.diff(cut.points, axis=0), axis=1).sum()
        # Each side is strained by the limit at most.
        sides = [sum(both) for name, both in lengths.items() if name.rstrip("′") == f"{cut.kind} {k}"]
        assert sum(sides) == pytest.approx(2 * on_shape, rel=limit)


def test_the_grain_arrow_lies_inside_and_points_along_the_grain() -> None:
    piece = finished("ell", polygon_edges(ELL, HEM), grain=np.radians(30))
    arrow = piece.grain[1] - piece.grain[0]
    assert np.arctan2(arrow[1], arrow[0]) == pytest.approx(np.radians(30))
    assert Polygon(piece.outline).contains(LineString(piece.grain))


def test_a_staple_line_lies_at_its_distance() -> None:
    edges = with_finish(polygon_edges(SQUARE, Finish()), {"side 1": Finish("staple", 30, line=12)})
    ((name, found),) = finished("square", edges).staples
    assert name == "side 1"
    assert found[:, 1] == pytest.approx([-12.0] * len(found))


def test_bends_are_read_from_facets() -> None:
    edges = {edge.name: edge for edge in arc_edge(150, 1.0, HEM, concave=True, steps=40)}
    (inner,) = bends(edges["inner"].line)
    (outer,) = bends(edges["outer"].line)
    assert (inner.concave, outer.concave) == (True, False)
    assert inner.radius == pytest.approx(150, rel=1e-3)
    assert outer.radius == pytest.approx(300, rel=1e-3)
    assert inner.turn == pytest.approx(1.0, rel=0.03)


def test_a_rectangle_round_a_piece_is_the_least_that_fits_the_roll() -> None:
    c, s = np.cos(0.3), np.sin(0.3)
    turned = np.array([[0, 0], [200, 0], [200, 80], [0, 80]]) @ np.array([[c, s], [-s, c]])
    free = rectangle_round(turned)
    assert free is not None
    assert free.area == pytest.approx(16000)
    narrow = rectangle_round(turned, width=100)
    assert narrow is not None
    assert (narrow.along, narrow.across) == pytest.approx((200, 80))
    assert rectangle_round(turned, width=79) is None
    edged = rectangle_round(turned, margin=5)
    assert edged is not None
    assert edged.area == pytest.approx(210 * 90)


BOW_TIE = [(0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0)]
SLOT = [
    (0.0, 0.0),
    (100.0, 0.0),
    (100.0, 100.0),
    (55.0, 100.0),
    (55.0, 30.0),
    (45.0, 30.0),
    (45.0, 100.0),
    (0.0, 100.0),
]
SLOT_WIDE = [*SLOT[:4], (52.0, 90.0), (70.0, 60.0), (30.0, 60.0), (48.0, 90.0), (45.0, 100.0), (0.0, 100.0)]
HOLE = np.array([[90.0, 90], [110, 90], [110, 110], [90, 110]])
REFUSED = {
    "edges that cross": (
        lambda: finished("flap", polygon_edges(BOW_TIE, HEM)),
        "edges side 1 and side 3 cross",
    ),
    "clockwise": (lambda: finished("flap", polygon_edges(SQUARE[::-1], HEM)), "run clockwise"),
    "a gap": (
        lambda: finished("flap", polygon_edges(SQUARE, HEM)[:3]),
        "the edge side 3 ends 100 mm from where side 1 begins",
    ),
    "no length": (lambda: SewEdge("top", np.zeros((2, 2))), "The edge top has no length"),
    "a negative allowance": (lambda: SewEdge("top", np.eye(2), Finish("seam", -1)), "may be 0 mm or more"),
    "three folds": (lambda: SewEdge("top", np.eye(2), Finish("hem", 9, folds=3)), "with 1 or 2 folds"),
    "allowances that close over a gap": (
        lambda: finished("flap", polygon_edges(SLOT_WIDE, Finish("seam", 6))),
        "run into each other near the edge side",
    ),
    "a hem wider than the radius, outside": (
        lambda: finished("disk", arc_edge(14, 1.5, HEM, concave=False)),
        "edge outer is 15.0 mm deep where the edge bends at a radius of 14",
    ),
    "a hem wider than the radius, inside": (
        lambda: finished("ring", arc_edge(14, 1.5, HEM, concave=True)),
        "edge inner is 15.0 mm deep where the edge bends at a radius of 14",
    ),
    "cuts too near the fold": (
        lambda: finished("ring", arc_edge(50, 1.5, HEM, concave=True)),
        "within 2.4 mm of the fold line, nearer than the 3.0 mm",
    ),
    "a cut-out over the edge": (
        lambda: finished("flap", polygon_edges(SQUARE, HEM), holes=[HOLE]),
        "Cut-out 1 of the flap reaches over its sew line",
    ),
    "a cut-out that crosses itself": (
        lambda: finished("flap", polygon_edges(SQUARE, HEM), holes=[np.array(BOW_TIE) / 4 + 30]),
        "Cut-out 1 of the flap crosses itself",
    ),
    "an unknown edge": (
        lambda: with_finish(polygon_edges(SQUARE, HEM), {"rim": HEM}),
        "No edge is named 'rim'",
    ),
    "a mark off the edge": (
        lambda: mark(finished("flap", polygon_edges(SQUARE, HEM)), "side 1", 101, "m"),
        "A mark at 101.0 mm is not on the edge side 1 of the flap",
    ),
    "a mark on no edge": (
        lambda: mark(finished("flap", polygon_edges(SQUARE, HEM)), "rim", 10, "m"),
        "The piece flap has no edge 'rim'",
    ),
    "too much to ease": (
        lambda: match(
            (finished("one", polygon_edges(SQUARE, HEM)), "side 1"),
            (finished("two", polygon_edges([(0, 0), (90, 0), (90, 50), (0, 50)], HEM)), "side 1"),
        ),
        "The edge side 1 of the one is 100.0 mm long, 11.1% longer than side 1 of the two",
    ),
    "a narrow cloth": (
        lambda: check_width("hood skin", np.array(SQUARE), 80.0),
        "The hood skin is 100 mm wide but the cloth only 80 mm",
    ),
    "a narrow cloth along the grain": (
        lambda: check_width("hood skin", np.array(SQUARE), 120.0, np.pi / 4),
        "The hood skin is 141 mm wide but the cloth only 120 mm; turn its grain",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_with_a_sentence(case: str) -> None:
    build, words = REFUSED[case]
    with pytest.raises(KitError, match=words):
        build()
