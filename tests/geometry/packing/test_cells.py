"""Cells against shapely cell by cell, shared cells against counting, sliding against shapely's distances."""

import numpy as np
import pytest
import shapely
from shapely import affinity, box

from kit.geometry.packing.cells import Overlaps, covered, grown, ways
from kit.geometry.packing.sliding import edges, free_way, slide
from kit.geometry.packing.stock import TWO_WAY, CutPart, any_of
from tests.geometry.packing.orders import garment, offcuts

SHAPES = [part.outline for part in garment(3, 12, scale=0.1)] + [sheet.outline for sheet in offcuts(1, 20_000)]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("size", [1.0, 2.7])
def test_a_cell_is_covered_where_it_shares_area(shape: shapely.Polygon, size: float) -> None:
    x, y, _, _ = shape.bounds
    moved = affinity.translate(shape, -x, -y)
    across = tuple(int(np.ceil(side / size)) for side in moved.bounds[2:])
    found = covered(moved, size, (across[0], across[1]))
    i, j = np.meshgrid(*(np.arange(n) for n in across), indexing="ij")
    shared = shapely.area(shapely.intersection(shapely.box(i * size, j * size, (i + 1) * size, (j + 1) * size), moved))
    assert found[shared > 1e-6].all(), "a cell that the shape touches is missed"
    assert not found[shared == 0].any(), "a cell that the shape does not touch is taken"


def test_an_outline_on_the_lines_of_the_grid_takes_its_own_cells_alone() -> None:
    assert covered(box(2, 1, 5, 3), 1.0, (7, 4)).sum() == 6


def test_shared_cells_are_counted_at_every_shift() -> None:
    one, two = (ways(k, part, 7.0, 1.5)[0] for k, part in enumerate(garment(5, 4, scale=0.2)[:2]))
    shared = Overlaps().of(one, two)
    a, b = one.cells, two.cells
    draw = np.random.default_rng(1)
    for i, j in draw.integers(0, shared.shape, (60, 2)):
        dx, dy = i - b.shape[0] + 1, j - b.shape[1] + 1
        at = {(u, v) for u, v in np.argwhere(a)} & {(u + dx, v + dy) for u, v in np.argwhere(b)}
        assert shared[i, j] == len(at)


def test_ways_that_are_the_same_are_one() -> None:
    assert len(ways(0, CutPart("square", box(0, 0, 9, 9), 1, any_of(4), over=True), 1.0, 0.0)) == 1
    assert len(ways(0, CutPart("bar", box(0, 0, 20, 9), 1, any_of(4), over=True), 1.0, 0.0)) == 2
    assert len(ways(0, CutPart("wedge", shapely.Polygon([(0, 0), (9, 0), (0, 3)]), 1, TWO_WAY, True), 1.0, 0.0)) == 4


@pytest.mark.parametrize("half", [0.5, 1.5, 4.0])
def test_a_grown_outline_is_nowhere_nearer_than_half_the_kerf(half: float) -> None:
    shape = SHAPES[0]
    assert grown(shape, half).exterior.distance(shape) >= half * (1 - 1e-9)
    far = max(shape.distance(shapely.Point(point)) for point in grown(shape, half).exterior.coords)
    assert far <= half * 1.01


@pytest.mark.parametrize("seed", range(8))
def test_a_part_slides_until_it_touches(seed: int) -> None:
    draw = np.random.default_rng(seed)
    standing, moving = (SHAPES[k] for k in draw.choice(len(SHAPES), 2, replace=False))
    standing = affinity.rotate(standing, draw.uniform(0, 360))
    moving = affinity.translate(affinity.rotate(moving, draw.uniform(0, 360)), 300, draw.uniform(-40, 40))
    way = free_way(edges(moving), edges(standing))
    if not np.isfinite(way):
        assert not affinity.translate(moving, -300).intersects(standing) or way > 300
        return
    assert affinity.translate(moving, -way).distance(standing) < 1e-5
    for share in np.linspace(0, 0.999, 30):
        assert affinity.translate(moving, -share * way).distance(standing) > 0


def test_faces_that_touch_flat_hold_each_other() -> None:
    a, b = edges(box(0, 0, 10, 10)), edges(box(10, 0, 20, 10))
    assert free_way(b, a) == 0.0
    assert free_way(a, b) == np.inf
    assert free_way(edges(box(10, 10, 20, 20)), a) == np.inf  # they share a corner alone


def test_sliding_brings_boxes_together_in_the_corner() -> None:
    boxes = [box(30, 20, 60, 50), box(70, 35, 90, 45), box(32, 70, 52, 80)]
    moves = slide(boxes, boxes, box(5, 5, 200, 200), sweeps=10, going=lambda: True)
    laid = [affinity.translate(each, *move).bounds for each, move in zip(boxes, moves, strict=True)]
    assert np.allclose(laid, [(5, 5, 35, 35), (35, 5, 55, 15), (5, 35, 25, 45)], atol=1e-4)
