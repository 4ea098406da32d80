"""Boards as solids of a mesh library: angles between faces, and at the corners of a face."""

from collections.abc import Sequence

import numpy as np
import trimesh

Point = Sequence[float]


def hull(points: Sequence[Point]) -> trimesh.Trimesh:
    """Return the convex solid with these corners, mm."""
    return trimesh.convex.convex_hull(np.array(points, dtype=float))


def dihedral(solid: trimesh.Trimesh, start: Point, end: Point) -> float:
    """Return the angle inside the solid at the edge between two of its corners, rad."""
    ends = {int(np.argmin(np.linalg.norm(solid.vertices - point, axis=1))) for point in (start, end)}
    (edge,) = (i for i, pair in enumerate(solid.face_adjacency_edges) if set(map(int, pair)) == ends)
    return float(np.pi - solid.face_adjacency_angles[edge])


def corner(at: Point, one: Point, other: Point) -> float:
    """Return the angle of a face at one of its corners, between the edges to two others, rad."""
    return float(trimesh.triangles.angles([[at, one, other]])[0][0])


def ring(sides: int, slope: float) -> dict[str, float]:
    """Return the angles at a corner of equal boards that lean inward by `slope`, rad, one unit inside the bottom."""
    turn = np.pi * (2 * np.arange(sides) + 1) / sides
    bottom, top = (
        np.column_stack([inside * np.cos(turn), inside * np.sin(turn), np.full(sides, height)])
        for inside, height in (
            (1 / np.cos(np.pi / sides), 0.0),
            ((1 - np.cos(slope) / 2) / np.cos(np.pi / sides), np.sin(slope) / 2),
        )
    )
    between = dihedral(hull([*bottom, *top]), bottom[0], top[0])
    return {
        "dihedral": between,
        "tilt": (np.pi - between) / 2,
        "miter": np.pi / 2 - corner(bottom[0], bottom[1], top[0]),
        "seam": float(np.linalg.norm(top[0] - bottom[0])) * 2,  # for each unit up the slope
    }
