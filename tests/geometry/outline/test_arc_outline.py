"""Outlines of arcs and tangents: tangency, closed forms against numbers, offsets against a polygon library."""

from itertools import product
from math import hypot, pi, sin, sqrt

import numpy as np
import pytest
from scipy.optimize import minimize_scalar
from shapely import Polygon

from kit.core.errors import KitError
from kit.geometry.outline.arc_outline import Arc, Disk, Line, Outline, belt, star

STARS = [
    {"count": n, "outer": R, "lobe": r, "waist": i, "hollow": w, "first": 0.3}
    for (n, R, r, i), w in product([(5, 30, 9, 23), (3, 60, 12, 20), (6, 34, 8, 27.8), (8, 40, 6, 34)], (3, 7))
]


@pytest.fixture(params=STARS, ids=str)
def shape(request: pytest.FixtureRequest) -> Outline:
    return star(**request.param)


def test_parts_join_without_gap_or_corner(shape: Outline) -> None:
    gap, corner = shape.joints()
    assert gap < 1e-9
    assert corner < 1e-9
    ends = [(part.heading(0.5) - part.heading(0.0)) for part in shape.parts if isinstance(part, Line)]
    assert not any(ends)


def test_the_outline_turns_once(shape: Outline) -> None:
    assert sum(part.sweep for part in shape.parts if isinstance(part, Arc)) == pytest.approx(2 * pi, abs=1e-12)


def test_length_and_area_against_a_fine_polygon(shape: Outline) -> None:
    """A chord is short of its arc by a part of angle^2/24: two polygons, one twice as fine, leave the fourth order."""
    sizes = []
    for deviation in (4e-4, 1e-4):
        polygon = Polygon(shape.points(deviation))
        sizes.append(np.array([polygon.length, polygon.area]))
    coarse, fine = sizes
    assert fine == pytest.approx([shape.length, shape.area], rel=1e-5)
    assert fine + (fine - coarse) / 3 == pytest.approx([shape.length, shape.area], rel=2e-7)


def test_all_points_are_as_far_from_the_circles_as_they_must(shape: Outline) -> None:
    """Lobes stay inside the circle that they are to touch and reach it; hollows reach down to the waist."""
    radius = np.hypot(*shape.points(1e-5).T)
    wanted = next(s for s in STARS if star(**s) == shape)
    assert radius.max() == pytest.approx(wanted["outer"], abs=2e-5)
    assert radius.min() == pytest.approx(wanted["waist"], abs=2e-5)


@pytest.mark.parametrize("distance", [2.9, -5.0])
def test_offset_against_a_polygon_library(distance: float) -> None:
    """Shapely knows nothing of arcs: it offsets a fine polygon, its round corners by short chords."""
    shape = star(5, 30, 9, 23, 6)
    moved = shape.offset(distance)
    polygon = Polygon(shape.points(1e-6)).buffer(distance, quad_segs=64)
    assert moved.area == pytest.approx(polygon.area, rel=2e-5)
    assert moved.length == pytest.approx(polygon.length, rel=2e-5)
    # Steiner: a closed curve that turns once gets longer by 2 pi times the distance
    assert moved.length == pytest.approx(shape.length + 2 * pi * distance, abs=1e-9)
    assert moved.area == pytest.approx(shape.area + shape.length * distance + pi * distance**2, abs=1e-9)
    assert max(moved.joints()) < 1e-9
    assert moved.offset(-distance).points() == pytest.approx(shape.points(), abs=1e-9)


def test_arcs_that_just_touch_have_no_line_between_them() -> None:
    """Six lobes of 10 about the corners of a hexagon of 20; hollows of 10 that touch both: centers on triangles."""
    shape = star(6, 30, 10, 20 * sqrt(3) - 10, 10)
    assert all(isinstance(part, Arc) for part in shape.parts)
    assert max(shape.joints()) < 1e-9
    assert shape.length == pytest.approx(6 * 10 * (2 * pi / 3 + pi / 3))
    # a hexagon of six triangles, six more outside it; at each lobe 120 degrees of a sector more, at each hollow 60 less
    assert shape.area == pytest.approx(6 * (20 * 20 * sqrt(3) / 4) * 2 + 6 * 100 * (2 * pi / 3 - pi / 3) / 2, rel=1e-12)


def test_two_disks_make_a_belt() -> None:
    # textbook, open belt round pulleys of 30 and 10 at 60: 2 sqrt(60² - 20²) + pi (30 + 10) + 2 (30 - 10) asin(20/60)
    shape = belt([Disk((0, 0), 30), Disk((60, 0), 10)])
    assert shape.length == pytest.approx(2 * sqrt(60**2 - 20**2) + pi * 40 + 2 * 20 * np.arcsin(1 / 3), abs=1e-9)


def test_a_square_with_round_corners() -> None:
    shape = belt([Disk((x, y), 2) for x, y in ((0, 0), (10, 0), (10, 10), (0, 10))])
    assert shape.length == pytest.approx(4 * 10 + 4 * pi)
    assert shape.area == pytest.approx(100 + 4 * 10 * 2 + 4 * pi)


def test_every_point_touches_its_neighbors_by_search() -> None:
    """The line from lobe to hollow is nowhere inside either circle: the nearest approach of both is the touch."""
    shape = star(5, 30, 9, 23, 6)
    line = next(part for part in shape.parts if isinstance(part, Line))
    for disk in shape.disks[:2]:
        found = minimize_scalar(
            lambda t: hypot(line.point(t)[0] - disk.center[0], line.point(t)[1] - disk.center[1]),  # noqa: B023
            bounds=(-1, 2),
            method="bounded",
        )
        assert found.fun == pytest.approx(abs(disk.radius), abs=1e-9)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: star(1, 30, 9, 23, 6), "1 lobe"),
        (lambda: star(5, 30, 9, 23, 0), "hollow of a star was given a radius of 0 mm"),
        (lambda: star(5, 30, 9, 23, 60), "move them apart or make them smaller"),
        (lambda: star(5, 30, 9, 0.5, 1), "crosses itself"),
        (lambda: star(5, 30, 9, 23, 6).offset(6), "hollow of radius 6 mm"),
        (lambda: star(5, 30, 9, 23, 6).offset(-9.5), "lobe of radius 9 mm"),
        (lambda: belt([Disk((0, 0), 3)]), "1 disk"),
        (lambda: belt([Disk((0, 0), 3), Disk((9, 0), 0)]), "radius of 0 mm"),
        (lambda: belt([Disk((0, 0), 3), Disk((1, 0), 9)]), "move them apart"),
        (lambda: belt([Disk((0, 9), 2), Disk((9, 9), 2), Disk((9, 0), 2), Disk((0, 0), 2)]), "crosses itself"),
    ],
)
def test_what_cannot_be_is_told_in_one_sentence(make, words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(KitError, match=words) as told:
        make()
    assert str(told.value).endswith(".")
    assert "\n" not in str(told.value)


def test_lobes_of_a_star_stand_evenly() -> None:
    centers = [disk.center for disk in star(6, 34, 8, 27.8, 3).disks[::2]]
    steps = [hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(centers, centers[1:] + centers[:1], strict=True)]
    assert steps == pytest.approx([2 * 26 * sin(pi / 6)] * 6)
