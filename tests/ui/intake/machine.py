"""A made machine and its scan: base, turntable and arm, in any axes and no unit, as a phone leaves it.

In millimeters: x to the right, y to the back, z up from the bed, the swing about z; the arm lifts about a hinge.
"""

from pathlib import Path

import numpy as np
import trimesh
from numpy.typing import ArrayLike, NDArray

UNIT = 1250.0  # mm in one unit of the scan
SHIFT = np.array([0.4, -0.2, 0.7])
TURNED = trimesh.transformations.euler_matrix(0.5, -0.8, 1.1)[:3, :3]
HINGE = (0.0, 200.0, 200.0)
SPOTS = {
    "left": (-250.0, 0.0, 0.0),
    "right": (250.0, 0.0, 0.0),
    "near": (0.0, -150.0, 0.0),
    "far": (0.0, 150.0, 0.0),
    "bed 1": (-250.0, -150.0, 0.0),
    "bed 2": (250.0, -150.0, 0.0),
    "bed 3": (250.0, 220.0, 0.0),
    "bed 4": (-250.0, 220.0, 0.0),
    "axis": (0.0, 0.0, 60.0),
    "front": (0.0, -140.0, 60.0),
    "rim 1": (150.0, 0.0, 60.0),
    "rim 2": (0.0, 150.0, 60.0),
    "rim 3": (-150.0, 0.0, 60.0),
    "rim 4": (90.0, -120.0, 60.0),
    "hinge left": (-40.0, *HINGE[1:]),
    "hinge right": (40.0, *HINGE[1:]),
}


def block(low: ArrayLike, high: ArrayLike) -> trimesh.Trimesh:
    ends = np.array([low, high], dtype=float)
    return trimesh.creation.box(bounds=ends).subdivide_to_size(20.0)


def machine() -> trimesh.Trimesh:
    """The machine in millimeters."""
    return trimesh.util.concatenate(pieces())


def pieces() -> list[trimesh.Trimesh]:
    """A base plate, a turntable of radius 150 mm on it, and an arm over them."""
    table = trimesh.creation.cylinder(150.0, 40.0, sections=96)
    table.apply_translation((0.0, 0.0, 40.0))
    arm = block((-30.0, -250.0, 140.0), (30.0, 230.0, 260.0))
    return [block((-300.0, -200.0, -20.0), (300.0, 260.0, 0.0)), table, arm]


def as_scanned(points: ArrayLike) -> NDArray[np.float64]:
    """Points (n, 3) or (3,) in millimeters, in the axes and unit of the scan."""
    return np.asarray(points, dtype=float) @ TURNED.T / UNIT + SHIFT


def write_machine(path: Path) -> Path:
    """Write the scan, in the kind that the path's ending names."""
    made = machine()
    path.write_bytes(
        trimesh.Trimesh(as_scanned(made.vertices), made.faces, process=False).export(file_type=path.suffix[1:])
    )
    return path
