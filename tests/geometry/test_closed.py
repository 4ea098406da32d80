"""Closed meshes: volumes and counts in closed form, and what another library says of the same."""

import numpy as np
import pytest
import trimesh
from shapely import Polygon, box

from kit.geometry.solids.closed import Mesh, closed, difference, intersection, raised, union, volume

CUBE = raised(box(0, 0, 10, 10), 10)


def moved(mesh: Mesh, *way: float) -> Mesh:
    return Mesh(mesh.vertices + way, mesh.faces)


def judged(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(*mesh, process=False)


@pytest.mark.parametrize("turned", [False, True])
def test_a_region_with_holes_is_raised(turned: bool) -> None:
    """Area times height; a solid with two holes through it has the Euler number 2 − 2 · 2."""
    ring = [(0, 0), (60, 0), (60, 40), (30, 40), (0, 40)]  # a corner that is none
    holes = [[(5, 5), (20, 5), (20, 20), (5, 20)], [(30, 10), (50, 10), (40, 30)]]
    region = Polygon(ring[::-1] if turned else ring, holes)
    body = raised(region, 7.0)
    assert closed(body)
    assert volume(body) == pytest.approx(region.area * 7.0)
    assert judged(body).volume == pytest.approx(region.area * 7.0)
    assert judged(body).is_watertight
    assert trimesh.Trimesh(*body).euler_number == -2
    assert judged(body).bounds.tolist() == [[0, 0, 0], [60, 40, 7]]


def test_what_is_joined_cut_and_shared_adds_up() -> None:
    """Cubes of 1000 mm³ that overlap by half, by a quarter, and not at all."""
    half, far = moved(CUBE, 5, 0, 0), moved(CUBE, 40, 0, 0)
    quarter = moved(CUBE, 5, 5, 0)
    assert volume(intersection(CUBE, half)) == pytest.approx(500)
    assert volume(difference(CUBE, [half])) == pytest.approx(500)
    assert volume(difference(CUBE, [half, quarter, far])) == pytest.approx(500)
    assert volume(difference(CUBE, [half, moved(CUBE, -7, 0, 0)])) == pytest.approx(200)
    assert volume(union([CUBE])) == pytest.approx(1000)
    for count in range(2, 7):
        row = [moved(CUBE, 5.0 * k, 0, 0) for k in range(count)]
        assert volume(union(row)) == pytest.approx(500 * (count + 1))
        assert judged(union(row)).is_watertight
    assert volume(union([CUBE, far, quarter])) == pytest.approx(2750)
    nothing = intersection(CUBE, far)
    assert (len(nothing.faces), volume(nothing)) == (0, 0)
    assert len(difference(CUBE, [CUBE]).faces) == 0


def test_closed_tells_an_open_and_a_doubled_edge() -> None:
    assert closed(CUBE)
    assert not closed(Mesh(CUBE.vertices, CUBE.faces[1:]))
    assert not closed(Mesh(CUBE.vertices, np.concatenate([CUBE.faces[1:], CUBE.faces[:1, ::-1]])))
    assert not closed(Mesh(CUBE.vertices, CUBE.faces[:0]))
    beside = trimesh.util.concatenate([judged(CUBE), judged(moved(CUBE, 10, 10, 0))])
    assert isinstance(beside, trimesh.Trimesh)
    beside.merge_vertices()
    assert not closed(beside)  # two boxes that share an edge
