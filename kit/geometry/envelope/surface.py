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
            at = np.repeat(np.argwhere(free)[:, None], 4, axis=1)
            at[:, :, axis] += sense > 0
            # Azimuth, radius and height make a left-handed frame.
            at[:, :, (axis + 2) % 3] += SQUARE[::sense, 0]
            at[:, :, (axis + 1) % 3] += SQUARE[::sense, 1]
            quads.append(at)
    corners = np.concatenate(quads)
    corners[..., 0] = np.where(corners[..., 1] == 0, 0, corners[..., 0] % sectors)
    keys = np.ravel_multi_index(np.moveaxis(corners, -1, 0), (sectors, rings + 1, levels + 1))
    used, number = np.unique(keys, return_inverse=True)
    a, b, c, d = number.reshape(-1, 4).T
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


def _blocks(envelope: Envelope, edge: float) -> tuple[NDArray[np.bool_], int]:
    """Return the blocks (sectors, rings, levels) that hold a full cell, and how many cells each is wide and high."""
    count = max(1, round(edge / envelope.size))
    around, out, up = envelope.cells.shape
    sectors, rings, levels = max(8, around // count), -(-out // count), -(-up // count)
    padded = np.zeros((around, rings * count, levels * count), dtype=bool)
    padded[:, :out, :up] = envelope.cells
    full = padded.reshape(around, rings, count, levels, count).any(axis=(2, 4))
    blocks = np.zeros((sectors, rings, levels), dtype=bool)
    cell = np.arange(around)
    for sector in (cell * sectors // around, ((cell + 1) * sectors - 1) // around):  # a cell may lie in two
        np.logical_or.at(blocks, sector, full)
    return blocks, count
