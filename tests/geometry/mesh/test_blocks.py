"""Boxes and cylinders as surfaces: closed, outward, as large as plane geometry says, never smaller than the body."""

from math import pi

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.geometry.mesh import Scan, box, cylinder
from kit.geometry.mesh.blocks import PROUD


def solid(scan: Scan) -> trimesh.Trimesh:
    return trimesh.Trimesh(scan.vertices, scan.faces, process=False)


def test_a_box_has_its_volume_and_is_closed() -> None:
    made = solid(box((-10.0, 0.0, 5.0), (20.0, 40.0, 10.0)))
    assert made.is_watertight
    assert made.volume == pytest.approx(30.0 * 40.0 * 5.0, rel=1e-12)
    np.testing.assert_allclose(made.bounds, [(-10.0, 0.0, 5.0), (20.0, 40.0, 10.0)])


@pytest.mark.parametrize("radius", [0.4, 17.0, 300.0])
def test_a_prism_encloses_its_cylinder_by_no_more_than_stated(radius: float) -> None:
    start, end = np.array([10.0, -20.0, 30.0]), np.array([40.0, 50.0, -15.0])
    scan = cylinder(start, end, radius)
    made, height = solid(scan), float(np.linalg.norm(end - start))
    assert made.is_watertight
    assert pi * radius**2 * height < made.volume < pi * (radius + PROUD) ** 2 * height
    way = (end - start) / height
    away = np.linalg.norm(np.cross(scan.vertices[:-2] - start, way), axis=1)
    assert (away > radius).all()
    assert (away <= radius + PROUD + 1e-9).all()
    np.testing.assert_allclose(sorted(set(np.round((scan.vertices - start) @ way, 9))), [0.0, height], atol=1e-8)


def test_what_is_no_body_is_refused() -> None:
    with pytest.raises(KitError, match="longer than 0"):
        box((0.0, 0.0, 0.0), (1.0, 0.0, 1.0))
    with pytest.raises(KitError, match="above 0"):
        cylinder((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0)
    with pytest.raises(KitError, match="must be apart"):
        cylinder((1.0, 0.0, 0.0), (1.0, 0.0, 0.0), 5.0)
