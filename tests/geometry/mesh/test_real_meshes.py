"""Real meshes that a registry package ships: read, and measured by a reader of 20 lines that shares nothing with ours.

gymnasium-robotics 1.4.2 (MIT): parts of a robot hand and of an arm as binary STL. The package is not imported,
nor is anything of it copied.
"""

import importlib.util
from pathlib import Path

import numpy as np
import pytest

from kit.geometry.clearance import Body, Obstacle, sampled
from kit.geometry.mesh import piece_numbers, read, thin
from kit.geometry.motion import turn
from tests.geometry.clearance.cases import box, judged


def folder() -> Path:
    spec = importlib.util.find_spec("gymnasium_robotics")
    assert spec is not None, "the test extra installs gymnasium-robotics"
    assert spec.origin is not None
    return Path(spec.origin).parent / "envs" / "assets" / "adroit_hand" / "resources" / "meshes"


MESHES = ["forearm_Cy_PlateAsmbly.stl", "upper_arm_asmbl_shoulder.stl", "forearm_muscle.stl"]


def facets(path: Path) -> np.ndarray:
    """The corners (n, 3, 3) of a binary STL file: 80 bytes, a count, then 50 bytes each."""
    data = path.read_bytes()
    count = int.from_bytes(data[80:84], "little")
    rows = np.frombuffer(data, dtype=[("normal", "<3f4"), ("corners", "<f4", (3, 3)), ("rest", "<u2")], offset=84)
    return rows["corners"][:count].astype(float)


@pytest.mark.parametrize("name", MESHES)
def test_counts_extent_area_and_volume_are_those_in_the_file(name: str) -> None:
    path = folder() / name
    with path.open("rb") as file:
        scan = read(file, name)
    corners = facets(path)
    assert len(scan.faces) == len(corners) > 10_000
    np.testing.assert_allclose(scan.extent, np.ptp(corners.reshape(-1, 3), axis=0), rtol=1e-12)
    for ours, theirs in ((scan.vertices[scan.faces], corners),):
        cross = [np.cross(t[:, 1] - t[:, 0], t[:, 2] - t[:, 0]) for t in (ours, theirs)]
        assert np.linalg.norm(cross[0], axis=1).sum() == pytest.approx(np.linalg.norm(cross[1], axis=1).sum())
        volumes = [float(np.einsum("ij,ij->", t[:, 0], c)) / 6.0 for t, c in zip((ours, theirs), cross, strict=True)]
        assert volumes[0] == pytest.approx(volumes[1], rel=1e-9)


@pytest.mark.parametrize("name", MESHES)
def test_a_real_mesh_thins_within_its_stated_error_and_keeps_its_clearance(name: str) -> None:
    """Clearance to a wall, of the whole mesh by the collision library, of the thinned one within the error."""
    path = folder() / name
    with path.open("rb") as file:
        scan = read(file, name)
    size = float(np.linalg.norm(scan.extent))
    thinned, error = thin(scan, size / 100.0)
    assert len(thinned.vertices) < len(scan.vertices) / 2
    middle, far = scan.vertices.mean(axis=0), float(scan.vertices[:, 0].max() + 0.3 * size)
    wall = box((far, *(middle[1:] - size)), (far + size / 20.0, *(middle[1:] + size)))
    hood = Obstacle.of([("wall", wall.vertices, wall.faces)])
    poses = turn(np.linspace(-0.6, 0.6, 5), middle, (0.0, 0.0, 1.0))
    ours = sampled(Body.of(scan.vertices, scan.faces), hood, poses)[0].found
    rough = sampled(Body.of(thinned.vertices, thinned.faces), hood, poses)[0].found
    import trimesh

    theirs = judged(trimesh.Trimesh(scan.vertices, scan.faces, process=False), wall, poses)
    assert ours == pytest.approx(float(theirs.min()), abs=1e-6)
    assert abs(rough - ours) <= error + 1e-9


def test_pieces_of_a_real_mesh_are_as_many_as_an_independent_library_counts() -> None:
    import trimesh

    path = folder() / MESHES[0]
    with path.open("rb") as file:
        scan = read(file, path.name)
    labels = trimesh.graph.connected_component_labels(
        np.concatenate([scan.faces[:, [0, 1]], scan.faces[:, [1, 2]]]), node_count=len(scan.vertices)
    )
    assert int(piece_numbers(scan).max()) + 1 == len(np.unique(labels))
