"""Cleaning a scan: drop small pieces, crop to a box, thin to a tolerance with the error stated."""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from kit.core.errors import KitError
from kit.geometry.mesh.mesh import Index, Scan


def piece_numbers(scan: Scan) -> Index:
    """Return for each face (m,) the number of its connected piece, from the piece with most faces down."""
    edges = np.concatenate([scan.faces[:, [0, 1]], scan.faces[:, [1, 2]]])
    count = len(scan.vertices)
    graph = coo_matrix((np.ones(len(edges), dtype=bool), (edges[:, 0], edges[:, 1])), shape=(count, count))
    _, label = connected_components(graph, directed=False)
    _, piece, size = np.unique(label[scan.faces[:, 0]], return_inverse=True, return_counts=True)
    rank = np.empty(len(size), dtype=np.int64)
    rank[np.argsort(-size, kind="stable")] = np.arange(len(size))
    return np.asarray(rank[piece.reshape(-1)], dtype=np.int64)


def drop_small(scan: Scan, smaller: float) -> Scan:
    """Return the scan without the pieces whose box has a diagonal below `smaller` [mm].

    Raises:
        KitError: nothing would be left.
    """
    piece = piece_numbers(scan)
    count = int(piece.max()) + 1
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    corners, owner = scan.vertices[scan.faces].reshape(-1, 3), np.repeat(piece, 3)
    np.minimum.at(low, owner, corners)
    np.maximum.at(high, owner, corners)
    large = np.linalg.norm(high - low, axis=1) >= smaller
    if not large.any():
        raise KitError(
            f"Every piece of the scan is smaller than {smaller:g} mm; the largest has "
            f"{np.linalg.norm(high - low, axis=1).max():.4g} mm: give less."
        )
    if large.all():
        return scan
    keep = large[piece]
    return scan.kept(
        keep,
        f"Dropped below {smaller:g} mm: pieces {int((~large).sum()):,}, faces {int((~keep).sum()):,}.",
    )


def crop(scan: Scan, low: ArrayLike, high: ArrayLike) -> Scan:
    """Return the faces that have a corner in the box from `low` to `high` (3,) [mm].

    Raises:
        KitError: the box is turned over, or no face has a corner in it.
    """
    least, most = np.asarray(low, dtype=float), np.asarray(high, dtype=float)
    if least.shape != (3,) or most.shape != (3,) or not (least < most).all():
        raise KitError(
            f"The box goes from {low!r} to {high!r}; each of its three first numbers must be below the second."
        )
    inside = np.all((scan.vertices >= least) & (scan.vertices <= most), axis=1)
    keep: NDArray[np.bool_] = inside[scan.faces].any(axis=1)
    if not keep.any():
        raise KitError(f"No part of the scan lies in the box from {low!r} to {high!r} mm; look at its place and size.")
    return scan if keep.all() else scan.kept(keep, f"{int((~keep).sum()):,} faces outside the box were cut off.")


def brush(scan: Scan, places: ArrayLike, radius: float) -> Scan:
    """Return the faces of which no corner is within `radius` [mm] of one of the `places` (n, 3) [mm].

    Raises:
        KitError: no place, a radius that is not above 0, or nothing would be left or taken away.
    """
    from scipy.spatial import cKDTree

    dabs = np.asarray(places, dtype=float)
    if dabs.ndim != 2 or not len(dabs) or not radius > 0.0:
        raise KitError(
            f"The brush takes one spot or more and a radius above 0; {len(dabs)} and {radius:g} mm are given."
        )
    near = cKDTree(dabs).query(scan.vertices, distance_upper_bound=radius)[0] <= radius
    gone: NDArray[np.bool_] = near[scan.faces].any(axis=1)
    if gone.all() or not gone.any():
        raise KitError(
            f"Within {radius:g} mm of these spots lies {'all' if gone.any() else 'nothing'} of the scan; "
            f"give {'less' if gone.any() else 'more'}, or touch other spots."
        )
    return scan.kept(~gone, f"{int(gone.sum()):,} faces were brushed away.")


def moving_part(scan: Scan, other: Scan, tolerance: float) -> Scan:
    """Return the faces of `scan` that are not in place in `other`, a scan of another position in the same axes.

    A face stays if one of its corners is farther than `tolerance` [mm] from every vertex of `other`, so that a
    tolerance above the spacing of the vertices drops what stood still, and no more.

    Raises:
        KitError: nothing moved, or a tolerance that is not positive.
    """
    if not tolerance > 0.0:
        raise KitError(f"The tolerance is {tolerance:g} mm; it must be above 0.")
    far = cKDTree(other.vertices).query(scan.vertices, distance_upper_bound=tolerance)[0] > tolerance
    keep: NDArray[np.bool_] = far[scan.faces].any(axis=1)
    if not keep.any():
        raise KitError(f"Nothing moved by more than {tolerance:g} mm between the scans; scan another position.")
    return scan.kept(keep, f"{int((~keep).sum()):,} faces stood still.")


def thin(scan: Scan, tolerance: float) -> tuple[Scan, float]:
    """Return the scan with vertices of each small cube made one, and the error [mm], at most `tolerance`.

    The cubes have the diagonal `tolerance`; their vertices go to the middle of them all. As every vertex moves
    by at most the error, and faces that shrink to an edge or a point are kept where nothing else covers them,
    every point of either surface is within the error of the other.

    Raises:
        KitError: a tolerance that is not positive or far too small for the scan.
    """
    if not tolerance > 0.0:
        raise KitError(f"The tolerance is {tolerance:g} mm; it must be above 0.")
    size = tolerance / np.sqrt(3.0)
    cells = ((scan.vertices - scan.vertices.min(axis=0)) / size).astype(np.int64)
    if cells.max() >= 2**20:
        raise KitError(
            f"The tolerance is {tolerance:g} mm; for this scan it must be at least {scan.extent.max() * 2e-6:.2g} mm."
        )
    _, place, count = np.unique(
        (cells[:, 0] << 40) | (cells[:, 1] << 20) | cells[:, 2], return_inverse=True, return_counts=True
    )
    place = place.reshape(-1)
    merged = np.stack([np.bincount(place, axis) for axis in scan.vertices.T], axis=1) / count[:, None]
    error = float(np.sqrt(((scan.vertices - merged[place]) ** 2).sum(axis=1).max()))
    faces = _distinct(place[scan.faces])
    note = (
        f"Thinned from {len(scan.vertices):,} to {len(merged):,} vertices; the surface moved by at most {error:.3g} mm."
    )
    return Scan(merged, faces, (*scan.notes, note)), error


def lighter(scan: Scan, most: int) -> Scan:
    """Return the scan with at most `most` faces, to be looked at: its finer corners drawn together."""
    a, b, c = np.moveaxis(scan.vertices[scan.faces], 1, 0)
    area = float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum()) / 2.0
    tolerance, less = (4.0 * area / most) ** 0.5 or float(np.linalg.norm(scan.extent)) / most**0.5, scan
    while len(less.faces) > most:
        less, _ = thin(less, tolerance)  # what is left of it: a large scan is gone through once
        tolerance *= 1.2
    return less


def _distinct(faces: Index) -> Index:
    """Return each face once, and shrunk ones only where no larger face has their edge or corner."""
    different = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    proper = faces[different]
    proper = proper[_first_of_each(np.sort(proper, axis=1))]
    shrunk = np.sort(faces[~different], axis=1)
    shrunk = shrunk[_first_of_each(shrunk)]
    if len(shrunk) == 0:
        return np.asarray(proper, dtype=np.int64)
    ends = shrunk[:, [0, 2]]
    edges = np.concatenate([proper[:, [0, 1]], proper[:, [1, 2]], proper[:, [2, 0]]])
    scale = np.int64(faces.max() + 1)
    known = np.sort(edges.min(axis=1) * scale + edges.max(axis=1))  # np.isin takes seconds for a large scan
    sought = ends[:, 0] * scale + ends[:, 1]
    covered = np.searchsorted(known, sought, "right") > np.searchsorted(known, sought)
    loose = ends[(ends[:, 0] != ends[:, 1]) & ~covered]
    used = np.zeros(int(scale), dtype=bool)
    used[proper] = True
    used[loose] = True
    points = ends[(ends[:, 0] == ends[:, 1]) & ~used[ends[:, 0]]]
    left = np.concatenate([loose, points])
    return np.concatenate([proper, left[:, [0, 1, 1]]])


def _first_of_each(rows: Index) -> Index:
    """Return, in order, the number of the first of all rows (n, 3) that are alike; none is below 0."""
    scale = np.int64(rows.max(initial=0) + 1)
    _, pair = np.unique(rows[:, 0] * scale + rows[:, 1], return_inverse=True)
    _, first = np.unique(pair.reshape(-1) * scale + rows[:, 2], return_index=True)
    return np.asarray(np.sort(first), dtype=np.int64)
