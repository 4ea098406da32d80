"""Arcs found again in a polygon: runs of facets whose corners lie on one circle, replaced by the exact arc.

A development gives points; where they came from a cone, a round corner or a rail bent to a circle, they lie on an arc
to the last digits. A cutter follows a true arc more smoothly than its facets, and a drawing program can measure it.
Four corners of a rectangle lie on a circle, too: a run therefore counts as an arc only if it has five points at least
and none of its facets strays from the arc by more than the chord error for which the facets were made.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from kit.geometry.outline.arc_outline import Arc, Line

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
LEAST = 5  # points of a run: fewer lie on a circle by chance


def parts_of(points: Floats, *, closed: bool = False, tolerance: float = 1e-6, chord: float = 0.25) -> list[Arc | Line]:
    """Return an outline or line through points (n, 2), mm, as arcs and straight lines that meet in its points.

    tolerance: how far the points of an arc may lie off it; chord: how far its facets may, mm. A closed outline does
    not repeat its first point. Points that repeat their predecessor are left out.
    """
    points = np.asarray(points, dtype=np.float64)
    points = points[np.r_[True, np.hypot(*np.diff(points, axis=0).T) > 0]]
    if closed:
        ring = np.vstack([points, points[:1]])
        whole = _circle(ring, tolerance, chord)
        if whole and len(points) >= LEAST:
            return [Arc(whole.center, whole.radius, whole.start + half, np.pi) for half in (0.0, np.pi)]
        first = _break(points, tolerance)
        points = np.vstack([points[first:], points[: first + 1]])
    return list(_parts(points, tolerance, chord))


def _parts(points: Floats, tolerance: float, chord: float) -> Iterator[Arc | Line]:
    """Yield the longest arc from each place on, or the next straight facet where there is none."""
    last = len(points) - 1
    round_here = np.r_[_round(points, tolerance), np.zeros(LEAST, dtype=bool)]
    start = 0
    while start < last:
        found = _arc(points[start : start + LEAST], tolerance, chord) if round_here[start] else None
        if not found:
            yield Line(*_pairs(points[start : start + 2]))
            start += 1
            continue
        # The longest arc from here: all its windows of five are round; then halving steps find the end.
        reached, end = start + LEAST - 1, start + LEAST - 1 + int(np.argmin(round_here[start:])) - 1
        while end > reached:
            tried = _arc(points[start : end + 1], tolerance, chord)
            if tried:
                found, reached = tried, end
            else:
                end = (reached + end) // 2
        yield found
        start = reached


def _round(points: Floats, tolerance: float) -> Bools:
    """Return for each five points in a row (n - 4,) whether they lie on a circle."""
    if len(points) < LEAST:
        return np.zeros(0, dtype=bool)
    p, o, q, s, r = (points[k : len(points) - LEAST + 1 + k] for k in range(LEAST))
    center, twice = _center(p, q, r)
    radius = np.hypot(*(p - center).T)
    off = np.maximum(np.abs(np.hypot(*(o - center).T) - radius), np.abs(np.hypot(*(s - center).T) - radius))
    return np.asarray((np.abs(twice) > 0) & (off <= tolerance))


def _center(p: Floats, q: Floats, r: Floats) -> tuple[Floats, Floats]:
    """Return the center (…, 2) of the circle through three points, and twice the area between them (zero: none)."""
    a, b = q - p, r - p
    twice = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    reach = np.maximum((a * a).sum(axis=-1), (b * b).sum(axis=-1))
    twice = np.where(np.abs(twice) <= 1e-9 * reach, 0.0, twice)
    aa, bb = (a * a).sum(axis=-1), (b * b).sum(axis=-1)
    shift = np.stack([b[..., 1] * aa - a[..., 1] * bb, a[..., 0] * bb - b[..., 0] * aa], axis=-1)
    return p + shift / np.where(twice == 0, 1.0, 2 * twice)[..., None], twice


def _pairs(points: Floats) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in points]


def _break(points: Floats, tolerance: float) -> int:
    """Return where a closed outline is best begun: at a corner where an arc begins, if there is one."""
    count = len(points)
    if count < LEAST:
        return 0
    is_round = _round(points[np.arange(count + LEAST - 1) % count], tolerance)
    begins = np.flatnonzero(is_round & ~np.roll(is_round, 1))
    return int(begins[0]) if begins.size else 0


def _arc(points: Floats, tolerance: float, chord: float) -> Arc | None:
    """Return the arc from the first to the last point if all lie on it and run round it evenly enough."""
    center, twice = _center(points[0], points[len(points) // 2], points[-1])
    if twice == 0:
        return None
    arms = points - center
    radius = float(np.hypot(*arms[0]))
    if np.abs(np.hypot(*arms.T) - radius).max() > tolerance:
        return None
    angle = np.unwrap(np.arctan2(arms[:, 1], arms[:, 0]))
    step = np.diff(angle)
    if step.min() * step.max() <= 0 or radius * (1 - np.cos(np.abs(step).max() / 2)) > chord:
        return None
    sweep = float(angle[-1] - angle[0])
    return Arc((float(center[0]), float(center[1])), radius, float(angle[0]), sweep) if abs(sweep) < 6 else None


def _circle(ring: Floats, tolerance: float, chord: float) -> Arc | None:
    """Return the first half of a ring (first point repeated) that is a whole circle."""
    half = len(ring) // 2
    one, other = (_arc(part, tolerance, chord) for part in (ring[: half + 1], ring[half:]))
    if not one or not other or np.hypot(*np.subtract(one.center, other.center)) > tolerance:
        return None
    whole = abs(abs(one.sweep + other.sweep) - 2 * np.pi) < 1e-6
    return one if whole else None
