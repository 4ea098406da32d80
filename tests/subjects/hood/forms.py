"""Hoods and faces that several tests use, and boards as meshes for the independent solid library."""

from collections.abc import Iterable, Sequence
from math import pi, radians

import numpy as np
import trimesh

from kit.subjects.hood.geometry.boards import Board, Face
from kit.subjects.hood.geometry.form import Brow, Chute, HoodDimensions, Notch, normal
from kit.subjects.hood.geometry.openings import outlines, pierced

GOLD = (1.0 + 5.0**0.5) / 2.0


def form(**changed: object) -> HoodDimensions:
    """A hood with every kind of opening; every slope differs."""
    usual: dict[str, object] = {
        "front": 350.0, "back": 345.0, "left": 350.0, "right": 365.0, "chamfer": 180.0, "height": 660.0,
        "thickness": 12.0, "slope_front": radians(80), "slope_back": radians(77), "slope_left": radians(82),
        "slope_right": radians(84), "slope_rear": radians(76), "brow": Brow(410.0, 470.0, 45.0),
        "chutes": (Chute("back", 100.0, 130.0),),
        "notches": (Notch("right", -90.0, 60.0, 150.0), Notch("left", -60.0, 90.0, 150.0)),
    }  # fmt: skip
    return HoodDimensions(**{**usual, **changed})  # type: ignore[arg-type]


def ring(count: int, slope: float, away: float, thickness: float) -> list[Face]:
    """A regular frame of leaning boards, all at one slope [rad], their bottom edges `away` from the axis."""
    return [
        Face.of(f"board {k}", normal(2.0 * pi * k / count, slope), away * np.sin(slope), thickness)
        for k in range(count)
    ]


def platonic(normals: Iterable[Sequence[float]], thickness: float = 10.0, offset: float = 100.0) -> list[Face]:
    """Boards on the faces of a solid whose planes all touch a sphere of 100 mm."""
    units = [np.asarray(n, dtype=float) / np.linalg.norm(n) for n in normals]
    return [Face.of(f"face {k}", unit, offset, thickness) for k, unit in enumerate(units)]


def dodecahedron() -> list[tuple[float, float, float]]:
    """The normals of its faces: the corners of an icosahedron."""
    found = []
    for a in (-1.0, 1.0):
        for b in (-GOLD, GOLD):
            found += [(0.0, a, b), (a, b, 0.0), (b, 0.0, a)]
    return found


def meshes(boards: Iterable[Board], of: HoodDimensions | None = None) -> list[trimesh.Trimesh]:
    """The boards as closed meshes, with the openings of a hood if one is given."""
    cut = outlines(of) if of is not None else {}
    return [trimesh.Trimesh(*pierced(board, cut.get(board.name, {})), process=False) for board in boards]


def volume(solid: trimesh.Trimesh) -> float:
    """The volume, also of a solid without any face, which the library does not answer."""
    a, b, c = np.moveaxis(np.asarray(solid.triangles).reshape(-1, 3, 3), 1, 0)
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)
