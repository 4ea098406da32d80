"""Views in space for tests: boxes, and an oracle that looks along rays."""

import re
from collections.abc import Sequence
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray

from kit.drawing.space import Camera, Solid

BOX_FACES = np.array(
    [(0, 2, 1), (0, 3, 2), (4, 5, 6), (4, 6, 7), (0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6),
     (3, 0, 4), (3, 4, 7)]
)  # fmt: skip


def box(
    name: str,
    low: Sequence[float],
    high: Sequence[float],
    fill: str = "wood",
    opacity: float = 1.0,
    turn: NDArray[np.float64] | None = None,
) -> Solid:
    """An upright box between two corners; with `turn` (3, 3) turned about the zero."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    corners = np.array([(x, y, z) for z in (z0, z1) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))])
    return Solid(name, corners if turn is None else corners @ turn.T, BOX_FACES, fill, opacity)


def nearest_solid(solids: Sequence[Solid], camera: Camera, points: NDArray[np.float64]) -> NDArray[np.int64]:
    """The number of the solid first met at points (k, 2) of the picture, -1 for none: every ray against every face."""
    best = np.full(len(points), -np.inf)
    hit = np.full(len(points), -1)
    for number, solid in enumerate(solids):
        for a, b, c in camera.project(np.asarray(solid.vertices))[np.asarray(solid.faces)]:
            edges = np.array([b[:2] - a[:2], c[:2] - a[:2]]).T
            if abs(np.linalg.det(edges)) < 1e-9:
                continue
            s, t = np.linalg.solve(edges, (points - a[:2]).T)
            depth = a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2])
            nearer = (s >= 0) & (t >= 0) & (s + t <= 1) & (depth > best)
            best[nearer], hit[nearer] = depth[nearer], number
    return hit


def painted(svg: str, names: dict[str, int], pixels: NDArray[np.float64]) -> NDArray[np.int64]:
    """What the faces of a still, painted in their order, leave at points (k, 2) in pixels; -1 for the ground.

    The stroke of its own color around each face closes the seams; it is taken as 0.3 px wide here.
    """
    shown = np.full(len(pixels), -1)
    for path in ElementTree.fromstring(svg).iter("path"):
        if "color" not in path.attrib or path.attrib.get("fill") == "none":
            continue
        for found in re.findall(r"M(-?\d+) (-?\d+)l(-?\d+) (-?\d+) (-?\d+) (-?\d+)z", path.attrib["d"]):
            corners = np.cumsum(np.array(found, dtype=float).reshape(3, 2), axis=0) / 10
            sides = np.roll(corners, -1, axis=0) - corners
            turn = np.sign(sides[0, 0] * sides[1, 1] - sides[0, 1] * sides[1, 0])
            away = pixels[:, None] - corners
            left = turn * (sides[:, 0] * away[..., 1] - sides[:, 1] * away[..., 0])
            inside = (left >= -0.3 * np.linalg.norm(sides, axis=1)).all(axis=1)
            # At sharp corners the sides alone would let the face reach too far.
            inside &= ((pixels >= corners.min(axis=0) - 0.3) & (pixels <= corners.max(axis=0) + 0.3)).all(axis=1)
            if turn:
                shown[inside] = names[path.attrib["color"]]
    return shown
