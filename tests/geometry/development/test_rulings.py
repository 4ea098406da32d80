"""Right rulings: tangent planes agree, refinement proves it, and a naive strip of equal parameters fails the proof."""

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from kit.core.errors import KitError
from kit.geometry.development.curves import Curve
from kit.geometry.development.develop import develop, refine
from kit.geometry.development.primitives import apex, arc, circle, line, polyline, rectangle, sampled
from kit.geometry.development.ruled_strip import through
from kit.geometry.development.tangency import strain_of_twist
from kit.geometry.development.unroll import kept


def seeded_pairs() -> list[tuple[Curve, Curve]]:
    """Rectangle, sharp or round, to circle with offset and tilt."""
    random = np.random.default_rng(4)
    pairs = []
    for k in range(8):
        width, depth = random.uniform(150, 400, 2)
        below = rectangle(width, depth, radius=random.uniform(5, 60) if k % 2 else 0.0)
        center = (*random.uniform(-80, 80, 2), random.uniform(150, 300))
        above = circle(random.uniform(30, 120), center, tilt=random.uniform(0, 0.3), azimuth=random.uniform(0, 6))
        pairs.append((below, above))
    return pairs


PAIRS = seeded_pairs()


@pytest.mark.parametrize("pair", PAIRS)
def test_doubling_the_rulings_halves_the_largest_fold(pair: tuple[Curve, Curve]) -> None:
    proof = refine(*pair, doublings=4)
    assert proof.holds
    assert proof.ratios[-1] == pytest.approx(0.5, abs=0.06)


@pytest.mark.parametrize("pair", PAIRS)
def test_the_hull_of_sample_points_has_the_same_area(pair: tuple[Curve, Curve]) -> None:
    """Independent: Qhull on 800 points of each curve; its lateral area is that of the facets that join both."""
    a, b = (curve.at(curve.even_grid(800)[:-1]) for curve in pair)
    hull = ConvexHull(np.vstack([a, b]))
    joins = (hull.simplices < len(a)).any(axis=1) & (hull.simplices >= len(a)).any(axis=1)
    p, q, r = hull.points[hull.simplices[joins]].swapaxes(0, 1)
    lateral = np.linalg.norm(np.cross(q - p, r - p), axis=1).sum() / 2
    assert develop(*pair, chord=0.01).flat.area == pytest.approx(lateral, rel=2e-4)


@pytest.mark.parametrize("pair", PAIRS[:4])
def test_the_lattice_finds_the_rulings_of_the_hull(pair: tuple[Curve, Curve]) -> None:
    hull, lattice = develop(*pair), develop(*pair, method="lattice")
    assert (hull.method, lattice.method) == ("hull", "lattice")
    assert max(hull.twist, lattice.twist) < 1e-6
    assert lattice.flat.area == pytest.approx(hull.flat.area, rel=1e-4)


def test_equal_parameters_keep_every_length_and_are_wrong_all_the_same() -> None:
    pair = PAIRS[1]
    naive, right = develop(*pair, method="equal", chord=10.0), develop(*pair)
    found = kept(naive.strip, naive.flat)
    assert max(found.edges, found.rulings) < 1e-9
    proof = refine(*pair, method="equal")
    assert not proof.holds
    assert proof.folds[-1] > 0.9 * proof.folds[0] > np.radians(10)
    assert naive.twist > np.radians(20)
    assert right.twist < 1e-6
    assert right.strain < 1e-12 < 0.01 < naive.strain


def test_a_wish_that_facets_of_a_twisted_surface_meet_only_slowly_is_met_or_refused() -> None:
    naive = develop(*PAIRS[1], method="equal", chord=5.0)
    assert naive.chord_bound <= 5.0


def test_the_strain_of_twist_is_that_of_a_strip_between_two_skew_ends() -> None:
    """A strip of width 1 whose ends point δ apart: its middle width by vector addition, and the small-angle form."""
    for degrees in (1.0, 10.0, 39.0, 49.0):
        delta = np.radians(degrees)
        middle = np.linalg.norm(np.array([1, 0]) + np.array([np.cos(delta), np.sin(delta)])) / 2
        assert strain_of_twist(np.array([delta]))[0] == pytest.approx(1 - middle, rel=1e-9)
        assert strain_of_twist(np.array([delta]))[0] == pytest.approx(delta**2 / 8, rel=0.02)


def test_a_loft_of_open_arcs_and_of_measured_curves_is_developable() -> None:
    along = np.linspace(0, 100, 9)
    low = np.column_stack([along, 10 * np.sin(along / 30), 0 * along])
    high = np.column_stack([1.1 * along, 20 * np.sin(along / 40), 100 + along / 10])
    for a, b in (
        (arc((0, 0, 0), (50, 10, 0), (100, 0, 0)), arc((0, 0, 100), (50, 40, 100), (100, 0, 120))),
        (sampled(low), sampled(high)),
    ):
        d = develop(a, b)
        assert d.method == "lattice"
        assert d.twist < 1e-6
        assert refine(a, b).holds


def test_two_skew_lines_give_two_triangles_with_a_crease_or_a_warped_strip() -> None:
    """No smooth developable surface joins skew lines; the way of least mismatch is folded along one diagonal."""
    a, b = line((0, 0, 0), (100, 0, 0)), line((0, 0, 80), (90, 60, 80))
    d = develop(a, b)
    fold, crease = d.strip.folds
    assert fold.max() > np.radians(10)
    assert crease[fold.argmax()]
    # Two triangles; area by Heron's rule on either side of the diagonal that was taken.
    corners = [np.array(p, float) for p in ((0, 0, 0), (100, 0, 0), (90, 60, 80), (0, 0, 80))]

    def heron(i: int, j: int, k: int) -> float:
        sides = [np.linalg.norm(corners[p] - corners[q]) for p, q in ((i, j), (j, k), (k, i))]
        half = sum(sides) / 2
        return float(np.sqrt(half * np.prod([half - side for side in sides])))

    either = (heron(0, 1, 2) + heron(0, 2, 3), heron(0, 1, 3) + heron(1, 2, 3))
    assert min(abs(d.flat.area - area) for area in either) < 1e-9
    assert not refine(a, b, method="equal").holds


def test_direction_and_start_of_a_loop_do_not_matter() -> None:
    below, above = rectangle(300, 200, radius=30), circle(60, (40, 20, 200), tilt=0.3, azimuth=1.0)
    area = develop(below, above, chord=0.01).flat.area
    assert develop(below, above.reversed(), chord=0.01).flat.area == pytest.approx(area, rel=1e-9)
    turned = circle(60, (40, 20, 200), tilt=0.3, azimuth=1.0, start=2.0)
    assert develop(below, turned, chord=0.01).flat.area == pytest.approx(area, rel=1e-4)


SQUARE = rectangle(100, 100)
REFUSED = {
    "an edge without length": (
        lambda: polyline([(0, 0, 0), (10, 0, 0), (10, 0, 0), (0, 5, 0)], closed=True, name="lower rim"),
        "Edge 2 of the lower rim has no length",
    ),
    "two points for a loop": (lambda: polyline([(0, 0, 0), (1, 0, 0)], closed=True), "needs at least 3"),
    "one point for a line": (lambda: polyline([(0, 0, 0)]), "needs at least 2"),
    "an arc through a line": (lambda: arc((0, 0, 0), (1, 0, 0), (2, 0, 0)), "lie on one line"),
    "a radius of zero": (lambda: circle(0, name="collar"), "The collar has a radius of 0 mm"),
    "a side of zero": (lambda: rectangle(0, 10), "has a side of 0 mm"),
    "corners too round": (lambda: rectangle(100, 60, radius=31), "it may be 0 to 30 mm"),
    "two measured points": (lambda: sampled([(0, 0, 0), (1, 0, 0)]), "needs at least 3"),
    "a point measured twice": (
        lambda: sampled([(0, 0, 0), (1, 0, 0), (1, 0, 0), (2, 0, 0)]),
        "Points 2 and 3 of the sampled curve",
    ),
    "curves that cross": (
        lambda: develop(circle(50, name="hoop"), circle(50, (0, 0, 0), tilt=1.0, name="rim")),
        "The hoop and the rim cross or touch",
    ),
    "loops that cross at no sample point": (
        lambda: develop(circle(50, start=0.2), circle(np.sqrt(2400), (10, 0, 0), tilt=0.4, start=0.5, name="rim")),
        "The circle and the rim cross or touch near",
    ),
    "lines that cross": (
        lambda: develop(line((0, 0, 0), (100, 0, 0), "sill"), line((0, 10, 0), (90, -30, 0), "rail")),
        "The sill and the rail cross or touch near",
    ),
    "an open and a closed curve": (lambda: develop(SQUARE, line((0, 0, 9), (9, 0, 9))), "is open but"),
    "two points": (lambda: develop(apex((0, 0, 0)), apex((0, 0, 9))), "both points"),
    "no chord": (lambda: develop(SQUARE, circle(30, (0, 0, 90)), chord=0), "it must be above 0 mm"),
    "a chord too fine": (lambda: develop(SQUARE, circle(30, (0, 0, 90)), chord=1e-12), "allow a larger chord"),
    "the hull of an open curve": (
        lambda: develop(line((0, 0, 0), (9, 0, 0)), line((0, 0, 5), (9, 3, 5)), method="hull"),
        "must be convex plane loops",
    ),
    "an offset beyond the radius": (
        lambda: develop(circle(5, name="cuff"), circle(5, (0, 0, 50)), offset=-6),
        "The cuff bends more tightly than the offset of 6 mm",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_with_a_sentence(case: str) -> None:
    build, words = REFUSED[case]
    with pytest.raises(KitError, match=words):
        build()


def test_an_offset_goes_along_the_surface_normal_however_uneven_its_facets() -> None:
    """On a cylinder the offset edge is the circle of the larger radius; each point stays in its direction."""
    rng = np.random.default_rng(3)
    angle = np.sort(np.concatenate([np.linspace(0, 2, 40), rng.uniform(0, 2, 20), np.linspace(0, 2, 40)[1:-1] + 1e-5]))
    rim = 100 * np.column_stack([np.cos(angle), np.sin(angle), 0 * angle])
    moved = through(rim, rim + np.array([0, 0, 80])).offset(2.0)
    inner = slice(1, -1)  # at a free end the last facet's normal is all there is
    assert np.hypot(*moved.a[inner, :2].T) == pytest.approx(np.full(len(angle) - 2, 102.0), abs=1e-3)
    turned = np.arctan2(moved.a[inner, 1], moved.a[inner, 0]) - angle[inner]
    assert np.abs(turned).max() * 102 < 1e-3


def test_ends_that_were_one_point_stay_one_when_moved_out() -> None:
    """A flat triangle with a cone beside it: rulings that meet at its tip move the same way, but for rounding."""
    strip = develop(rectangle(300, 200, name="sill").reversed(), circle(40, (0, 0, -200), name="cuff").reversed()).strip
    moved = strip.offset(0.4)
    step = np.linalg.norm(np.diff(moved.b, axis=0), axis=1)
    assert not ((step > 0) & (step < 1e-9)).any()
    assert moved.largest_fold < 0.2
