"""Lay one scan of a part onto another: iterated closest points, from point to tangent plane, trimmed."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.spatial import cKDTree

from kit.core.errors import KitError
from kit.geometry.motion.rigid import Array, apply, motion_of, turn
from kit.geometry.ties import least_few, rough

LEAST_POINTS = 30
MOST_POINTS = 20_000  # of the moving scan; more add time, not accuracy


@dataclass(frozen=True)
class Match:
    """The motion that lays the first scan on the second, and how well it does."""

    move: Array  # (4, 4)
    residual: float  # [mm] root mean square distance from the tangent planes of the used pairs
    used: float  # share of points that found a partner
    steps: int


def register(
    moving: ArrayLike,
    fixed: ArrayLike,
    start: ArrayLike | None = None,
    *,
    overlap: float = 0.9,
    seed: int = 1,
    steps: int = 60,
) -> Match:
    """Return the rigid motion that lays `moving` (n, 3) on `fixed` (m, 3) [mm].

    `start` (4, 4) is a first guess; without one, 24 turns about the vertical through the middle are tried on a
    few points and the best is kept. `overlap` is the share of the points of `moving` that have a partner in
    `fixed`; the farthest of the others are left out at every step. The tangent planes come from the eight
    nearest points. The answer depends on the seed only through which points of a large scan are used.
    Source: Y. Chen, G. Medioni, Object modelling by registration of multiple range images, Image and Vision
    Computing 10 (1992) 145–155; trimmed after D. Chetverikov and others (2005); from memory.

    Raises:
        KitError: too few points, or an overlap outside 0.2 to 1.
    """
    there = np.asarray(fixed, dtype=float)
    here = np.asarray(moving, dtype=float)
    if min(len(here), len(there)) < LEAST_POINTS:
        raise KitError(f"The scans have {len(here)} and {len(there)} points; each needs at least {LEAST_POINTS}.")
    if not 0.2 <= overlap <= 1.0:
        raise KitError(f"The overlap is {overlap:g}; give a share between 0.2 and 1.")
    if len(here) > MOST_POINTS:
        here = here[np.random.default_rng(seed).choice(len(here), MOST_POINTS, replace=False)]
    tree = cKDTree(there)
    normals = _normals(there, tree)
    if start is not None:
        return _refine(here, there, normals, tree, np.asarray(start, dtype=float), overlap, steps)
    few = here[:: max(1, len(here) // 1500)]
    shift = np.eye(4)
    shift[:3, 3] = there.mean(axis=0) - here.mean(axis=0)
    guesses = turn(np.arange(24) * np.pi / 12.0, there.mean(axis=0), (0.0, 0.0, 1.0)) @ shift
    tries = [_refine(few, there, normals, tree, guess, overlap, 15) for guess in guesses]
    best = min(tries, key=lambda match: rough(match.residual))
    return _refine(here, there, normals, tree, best.move, overlap, steps)


def _refine(
    here: Array, there: Array, normals: Array, tree: cKDTree, start: Array, overlap: float, steps: int
) -> Match:
    move, residual, done = start.copy(), np.inf, 0
    keep = max(LEAST_POINTS // 2, int(overlap * len(here)))
    while done < steps:
        done += 1
        now = apply(move, here)
        distance, partner = tree.query(now)
        used = least_few(distance, min(keep, len(now)))
        off = np.einsum("ij,ij->i", there[partner[used]] - now[used], normals[partner[used]])
        residual = float(np.sqrt(np.mean(off**2)))
        change = _small_motion(now[used], normals[partner[used]], off)
        move = change @ move
        size = np.linalg.norm(apply(change, now[used]) - now[used], axis=1).max()
        if size < 1e-9 * (1.0 + np.ptp(now[used], axis=0).max()):
            break
    return Match(move, residual, keep / len(here), done)


def _small_motion(points: Array, normals: Array, off: Array) -> Array:
    """Return the motion whose linear part closes the gaps `off` along the normals best, made rigid."""
    center = points.mean(axis=0)
    size = max(float(np.abs(points - center).max()), 1e-12)
    rows = np.c_[np.cross((points - center) / size, normals), normals]
    solved = np.linalg.lstsq(rows, off, rcond=1e-9)[0]
    moved = points + np.cross(solved[:3] / size, points - center) + solved[3:]
    return motion_of(points, moved)


def _normals(points: Array, tree: cKDTree) -> Array:
    _, near = tree.query(points, k=8)
    around = points[near] - points[near].mean(axis=1, keepdims=True)
    _, vectors = np.linalg.eigh(np.einsum("nki,nkj->nij", around, around))
    normals: Array = vectors[:, :, 0]
    return normals
