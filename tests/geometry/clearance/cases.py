"""Bodies, hoods and chains that the clearance tests share, and the collision library as the judge."""

import math

import fcl
import numpy as np
import trimesh

from kit.geometry.clearance import Body, Obstacle
from kit.geometry.motion import Chain, Joint

SWING = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), math.radians(-50), math.radians(50)),))
THREE = Chain(
    (
        Joint("swing", "turn", (0, 0, 0), (0, 0, 1), math.radians(-50), math.radians(50)),
        Joint("tilt", "turn", (0, 0, 60), (0, 1, 0), 0.0, math.radians(45)),
        Joint("slide", "slide", (0, 0, 0), (0, 1, 0), 0.0, 60.0),
    )
)


def potato(subdivisions: int = 4) -> trimesh.Trimesh:
    """A bumpy ellipsoid, off the axis."""
    ball = trimesh.creation.icosphere(subdivisions=subdivisions)
    points = ball.vertices * [120.0, 200.0, 60.0]
    points = points + 3.0 * np.sin(points / 17.0)[:, [1, 2, 0]] + [0.0, 60.0, 120.0]
    return trimesh.Trimesh(points, ball.faces, process=False)


def dome(subdivisions: int = 3) -> trimesh.Trimesh:
    """A quarter of an egg shell, open below and in front."""
    shell = trimesh.creation.icosphere(subdivisions=subdivisions, radius=1.0)
    shell.vertices *= [400.0, 370.0, 320.0]
    return shell.slice_plane([0, 0, 0], [0, 0, 1]).slice_plane([0, -150, 0], [0, 1, 0])


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> trimesh.Trimesh:
    return trimesh.creation.box(bounds=[low, high])


def boards(inner: float = 300.0, thickness: float = 15.0) -> list[tuple[str, trimesh.Trimesh]]:
    """A hood of four boxes: left, right and back wall and a roof, from y = -200, room up to `inner`."""
    t, a = thickness, inner
    return [
        ("left", box((-a - t, -200, 0), (-a, a, 400))),
        ("right", box((a, -200, 0), (a + t, a, 400))),
        ("back", box((-a - t, a, 0), (a + t, a + t, 400))),
        ("roof", box((-a - t, -200, 400), (a + t, a + t, 400 + t))),
    ]


def hood(*parts: tuple[str, trimesh.Trimesh]) -> Obstacle:
    return Obstacle.of([(name, mesh.vertices, mesh.faces) for name, mesh in parts])


def body(mesh: trimesh.Trimesh) -> Body:
    return Body.of(mesh.vertices, mesh.faces)


def judged(moving: trimesh.Trimesh, still: trimesh.Trimesh, poses: np.ndarray) -> np.ndarray:
    """Return the distance at each pose by the collision library; 0 or less where surfaces cross."""
    models = []
    for mesh in (moving, still):
        model = fcl.BVHModel()
        model.beginModel(len(mesh.vertices), len(mesh.faces))
        model.addSubModel(np.asarray(mesh.vertices), np.asarray(mesh.faces))
        model.endModel()
        models.append(model)
    fixed = fcl.CollisionObject(models[1])
    distances = []
    for pose in poses:
        part = fcl.CollisionObject(models[0], fcl.Transform(pose[:3, :3], pose[:3, 3]))
        distances.append(fcl.distance(part, fixed, fcl.DistanceRequest(), fcl.DistanceResult()))
    return np.array(distances)
