"""Make the demo scans of the boat shed's cut-off saw: python make_demo.py [folder].

An invented machine, built from boxes and cylinders and spoiled as a phone scan is: waves and noise in the surface,
holes, bits that float in the air, no unit, any orientation. Two scans, the saw square and swung by 30°. What was
picked on them and measured on the machine stands in the job data/boatshed.toml. Only numpy and the standard library;
seeded, so that the files come out the same.

The machine in millimeters: x to the right, y to the back, z up from the bench, swing about the z axis, which is
the middle of the turntable; the arm plunges about an axis along x behind it and was scanned at its lowest.
"""

import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Mesh = tuple[Array, NDArray[np.int64]]

STEP = 7.6  # mm between neighboring points
NOISE = 0.35  # mm, largest random error of a point
WAVES = 0.5  # mm, height of the slow waves in the surface
UNIT = 983.0  # mm in one unit of the scan: nearly meters, as a phone guesses
PIVOT = (0.0, 205.0, 280.0)  # mm, the plunge axis
POINTS = {  # mm, what is picked on the scans when the saw stands square
    "bed 1": (-240.0, -160.0, 0.0),
    "bed 2": (240.0, -160.0, 0.0),
    "bed 3": (240.0, 150.0, 0.0),
    "bed 4": (-240.0, 150.0, 0.0),
    "pivot": (0.0, 0.0, 78.0),
    "front": (0.0, -180.0, 78.0),
    "base left": (-260.0, -180.0, 70.0),
    "base right": (260.0, -180.0, 70.0),
    "fence left": (-250.0, 20.0, 140.0),
    "fence right": (250.0, 20.0, 140.0),
}
SCANS = {  # name: (swing in degrees, rotation vector of the phone's axes, shift in units, seed)
    "saw_square": (0.0, (0.4, -0.7, 0.9), (0.3, -1.2, 0.5), 11),
    "saw_swung": (30.0, (-1.1, 0.2, 2.0), (-0.8, 0.4, 1.1), 12),
}


def grid(corner: Array, first: Array, second: Array) -> Mesh:
    """A flat patch from a corner along two edges."""
    counts = [max(1, round(float(np.linalg.norm(edge)) / STEP)) for edge in (first, second)]
    u, v = (np.linspace(0.0, 1.0, count + 1) for count in counts)
    points = corner + u[:, None, None] * first + v[None, :, None] * second
    return points.reshape(-1, 3), lattice(counts[0] + 1, counts[1] + 1)


def lattice(rows: int, columns: int) -> NDArray[np.int64]:
    """The triangles between the points of a grid."""
    a = (np.arange(rows - 1)[:, None] * columns + np.arange(columns - 1)).ravel()
    return np.concatenate([np.stack([a, a + columns, a + 1], 1), np.stack([a + 1, a + columns, a + columns + 1], 1)])


def joined(parts: list[Mesh]) -> Mesh:
    """Several meshes as one."""
    shifts = np.cumsum([0] + [len(points) for points, _ in parts])
    faces = np.concatenate([faces + shift for (_, faces), shift in zip(parts, shifts, strict=False)])
    return np.concatenate([points for points, _ in parts]), faces


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Mesh:
    """A box between two corners."""
    a, b = np.array(low), np.array(high)
    x, y, z = np.diag(b - a)
    sides = [(a, y, x), (a, x, z), (a, z, y), (b, -x, -y), (b, -z, -x), (b, -y, -z)]
    return joined([grid(*side) for side in sides])


def cylinder(start: tuple[float, float, float], end: tuple[float, float, float], radius: float) -> Mesh:
    """A closed cylinder between two points."""
    a, b = np.array(start), np.array(end)
    way = (b - a) / np.linalg.norm(b - a)
    side = np.cross(way, [0.0, 0.0, 1.0] if abs(way[2]) < 0.9 else [1.0, 0.0, 0.0])
    side /= np.linalg.norm(side)
    around = max(12, round(2.0 * np.pi * radius / STEP))
    angle = np.linspace(0.0, 2.0 * np.pi, around + 1)
    circle = np.cos(angle)[:, None] * side + np.sin(angle)[:, None] * np.cross(way, side)
    along = np.linspace(0.0, 1.0, max(1, round(float(np.linalg.norm(b - a)) / STEP)) + 1)
    wall = a + radius * circle[:, None] + along[None, :, None] * (b - a)
    rings = np.linspace(0.0, 1.0, max(2, round(radius / STEP)) + 1)
    parts = [(wall.reshape(-1, 3), lattice(around + 1, len(along)))]
    for center, order in ((a, slice(None, None, -1)), (b, slice(None))):
        cap = center + radius * rings[None, :, None] * circle[:, None]
        parts.append((cap.reshape(-1, 3), lattice(around + 1, len(rings))[:, order]))
    return joined(parts)


def machine(swing: float) -> Mesh:
    """The saw in millimeters, swung by so many degrees, standing on a piece of the bench."""
    fixed = [
        grid(np.array([-420.0, -330.0, 0.0]), np.array([840.0, 0, 0]), np.array([0, 640.0, 0])),
        box((-260.0, -180.0, 0.0), (260.0, 160.0, 70.0)),
        box((-250.0, 20.0, 70.0), (-45.0, 40.0, 140.0)),
        box((45.0, 20.0, 70.0), (250.0, 40.0, 140.0)),
    ]
    moving = [
        cylinder((0.0, 0.0, 70.0), (0.0, 0.0, 78.0), 150.0),
        box((-30.0, -235.0, 40.0), (30.0, -150.0, 78.0)),  # the table's grip
        box((-35.0, 165.0, 30.0), (35.0, 235.0, 285.0)),  # the post
        cylinder((-45.0, *PIVOT[1:]), (45.0, *PIVOT[1:]), 38.0),
        cylinder(PIVOT, (0.0, -20.0, 320.0), 32.0),  # the arm
        cylinder((-28.0, -30.0, 222.0), (28.0, -30.0, 222.0), 140.0),  # the guard
        cylinder((28.0, -20.0, 262.0), (205.0, -20.0, 262.0), 56.0),  # the motor
        cylinder((0.0, -140.0, 300.0), (0.0, -235.0, 350.0), 17.0),  # the handle
        cylinder((-10.0, 90.0, 250.0), (-10.0, 190.0, 210.0), 24.0),  # the dust port
    ]
    points, faces = joined(moving)
    angle = np.radians(swing)
    turned = np.array([[np.cos(angle), -np.sin(angle), 0], [np.sin(angle), np.cos(angle), 0], [0, 0, 1]])
    return joined([*fixed, (points @ turned.T, faces)])


def spoiled(mesh: Mesh, seed: int) -> Mesh:
    """Waves, noise, holes and floating bits, all from uniform random numbers."""
    rng = np.random.default_rng(seed)
    points, faces = mesh
    points = points + WAVES * np.sin(points[:, [1, 2, 0]] / 31.0 + points[:, [2, 0, 1]] / 47.0)
    points = points + NOISE * (2.0 * rng.random(points.shape) - 1.0)
    middle = points[faces].mean(axis=1)
    hole = np.zeros(len(faces), dtype=bool)
    for center in middle[(rng.random(14) * len(middle)).astype(int)]:
        hole |= ((middle - center) ** 2).sum(axis=1) < (6.0 + 12.0 * rng.random()) ** 2
    parts = [(points, faces[~hole])]
    for _ in range(25):
        place = (rng.random(3) - 0.5) * [800.0, 700.0, 300.0] + [0.0, 0.0, 330.0]
        parts.append((place + 8.0 * (rng.random((5, 3)) - 0.5), np.array([[0, 1, 2], [1, 2, 3], [2, 3, 4]])))
    points, faces = joined(parts)
    used = np.zeros(len(points), dtype=bool)
    used[faces] = True
    return points[used], (np.cumsum(used) - 1)[faces]


def turned_by(vector: tuple[float, float, float]) -> Array:
    """The matrix of the turn about a vector by its length in radians."""
    angle = float(np.linalg.norm(vector))
    x, y, z = np.array(vector) / angle
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.asarray(np.eye(3) + np.sin(angle) * cross + (1.0 - np.cos(angle)) * cross @ cross)


def as_scanned(points: Array, vector: tuple[float, float, float], shift: tuple[float, float, float]) -> Array:
    """The points in the units and axes of a scan."""
    return np.asarray(points @ turned_by(vector).T / UNIT + shift)


def ply(points: Array, faces: NDArray[np.int64]) -> bytes:
    """Binary PLY, coordinates rounded to a hundredth of a millimeter."""
    header = (
        "ply\nformat binary_little_endian 1.0\ncomment invented demo data\n"
        f"element vertex {len(points)}\nproperty float x\nproperty float y\nproperty float z\n"
        f"element face {len(faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    rows = np.zeros(len(faces), dtype=[("count", "u1"), ("corners", "<i4", 3)])
    rows["count"], rows["corners"] = 3, faces
    return header.encode() + np.round(points, 5).astype("<f4").tobytes() + rows.tobytes()


def picks(name: str) -> dict[str, list[float]]:
    """Where each point is picked on a scan, in its units and axes; they stand in the job data/boatshed.toml."""
    _, vector, shift, _ = SCANS[name]
    seen = as_scanned(np.array(list(POINTS.values())), vector, shift)
    return {pick: [round(float(x), 5) for x in place] for pick, place in zip(POINTS, seen, strict=True)}


def files() -> dict[str, bytes]:
    """Every file by its name."""
    made = {}
    for name, (swing, vector, shift, seed) in SCANS.items():
        points, faces = spoiled(machine(swing), seed)
        made[f"{name}.ply"] = ply(as_scanned(points, vector, shift), faces)
    return made


if __name__ == "__main__":
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    for name, content in files().items():
        (folder / name).write_bytes(content)
