"""The surface of a swept envelope as triangles, for pictures and for files that are looked at."""

import math

import numpy as np
from numpy.typing import NDArray

from kit.geometry.envelope.envelope import Envelope
from kit.geometry.motion.rigid import Array

Index = NDArray[np.int64]
SQUARE = np.array([[0, 0], [1, 0], [1, 1], [0, 1]])


def surface(envelope: Envelope, edge: float) -> tuple[Array, Index]:
    """Return vertices (n, 3) [mm] and faces (m, 3) of the envelope in blocks of cells about `edge` [mm] wide.

    A block counts as full if one of its cells is, and its flat outer side lies outside of its arc: the surface
    encloses the cells and lies less than a block from them. It is closed and faces look outward.
    """
    blocks, count = _blocks(envelope, edge)
    sectors, rings, levels = blocks.shape
    walled = np.pad(blocks, ((0, 0), (1, 1), (1, 1)))
    walled[:, 0] = walled[:, 1]  # nothing lies within the axis
    quads = []
    for axis in range(3):
        for sense in (1, -1):
            free = blocks & ~np.roll(walled, -sense, axis=axis)[:, 1:-1, 1:-1]
            at = np.array(np.unravel_index(np.flatnonzero(free), free.shape))
            at[axis] += sense > 0
            # Azimuth, radius and height make a left-handed frame.
            aside = np.zeros((4, 3), dtype=np.int64)
            aside[:, [(axis + 2) % 3, (axis + 1) % 3]] = SQUARE[::sense]
            quads.append([_key(at + corner[:, None], blocks.shape) for corner in aside])
    keys = np.concatenate(quads, axis=1)
    number = np.full(sectors * (rings + 1) * (levels + 1), -1)
    number[keys] = 0
    used = np.flatnonzero(number == 0)
    number[used] = np.arange(len(used))
    a, b, c, d = number[keys]
    faces = np.concatenate([np.column_stack([a, b, c]), np.column_stack([a, c, d])])
    faces = faces[(faces != np.roll(faces, 1, axis=1)).all(axis=1)]
    azimuth, radius, height = np.stack(np.unravel_index(used, (sectors, rings + 1, levels + 1))).astype(float)
    azimuth *= 2.0 * math.pi / sectors
    radius *= envelope.size * count / math.cos(math.pi / sectors)
    vertices = np.column_stack(
        [
            envelope.axis[0] + radius * np.cos(azimuth),
            envelope.axis[1] + radius * np.sin(azimuth),
            envelope.floor + height * envelope.size * count,
        ]
    )
    return vertices, np.asarray(faces, dtype=np.int64)


def _key(at: Index, shape: tuple[int, ...]) -> Index:
    """Return one number for each corner (3, n) of blocks (sectors, rings, levels); on the axis all sectors are one."""
    sector, ring, level = at
    sectors, rings, levels = shape
    key: Index = (np.where(ring == 0, 0, sector % sectors) * (rings + 1) + ring) * (levels + 1) + level
    return key


def _blocks(envelope: Envelope, edge: float) -> tuple[NDArray[np.bool_], int]:
    """Return the blocks (sectors, rings, levels) that hold a full cell, and how many cells each is wide and high."""
    count = max(1, round(edge / envelope.size))
    around, out, up = envelope.cells.shape
    sectors, rings, levels = max(8, around // count), -(-out // count), -(-up // count)
    padded = np.zeros((around, rings * count, levels * count), dtype=bool)
    padded[:, :out, :up] = envelope.cells
    full = np.zeros((around, rings, levels), dtype=bool)
    for ring in range(count):
        for level in range(count):
            full |= padded[:, ring::count, level::count]
    cell = np.arange(around)
    first, last = cell * sectors // around, ((cell + 1) * sectors - 1) // around  # a cell may lie in two
    begins = np.searchsorted(last, np.arange(sectors))
    ends = np.searchsorted(first, np.arange(sectors), side="right")
    return np.array([full[begin:end].any(axis=0) for begin, end in zip(begins, ends, strict=True)]), count
