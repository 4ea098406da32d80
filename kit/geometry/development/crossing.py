"""Whether two edge curves cross or touch, and where."""

import numpy as np
from scipy.spatial import KDTree

from kit.core.errors import KitError
from kit.geometry.development.arrays import Bools, Floats, dot, norm
from kit.geometry.development.curves import Curve

LOOK = 600  # steps along each curve
NEAR = 4  # neighbors looked at for each step
TOGETHER = 1e-6  # mm, below which two ends are one point


def refuse_crossing(a: Curve, b: Curve) -> None:
    """Refuse two edge curves that cross or touch, but for open ones that begin or end at one point (a gore).

    Both are read as fine polylines; what counts as a touch is a distance below the chord errors of the two.
    Raises: KitError that says where.
    """
    t, s = a.even_grid(LOOK), b.even_grid(LOOK)
    on_a, on_b = a.at(t), b.at(s)
    middle_a, middle_b = (on_a[1:] + on_a[:-1]) / 2, (on_b[1:] + on_b[:-1]) / 2
    count = min(NEAR, len(middle_b))
    _, near = KDTree(middle_b).query(middle_a, k=count)
    j = np.reshape(near, -1)
    i = np.repeat(np.arange(len(middle_a)), count)
    distance, place = _apart(on_a[i], on_a[i + 1], on_b[j], on_b[j + 1])
    allowed = 1e-6 + a.chord_errors(t)[i] + b.chord_errors(s)[j]
    touch = (distance <= allowed) & ~_at_common_end(a, b, t[i], s[j])
    if touch.any():
        x, y, z = place[np.argmin(np.where(touch, distance, np.inf))]
        raise KitError(
            f"The {a.name} and the {b.name} cross or touch near ({x:.1f}, {y:.1f}, {z:.1f}) mm; "
            "move them apart, or end the panel there"
        )


def _at_common_end(a: Curve, b: Curve, t: Floats, s: Floats) -> Bools:
    """Whether parameters of both open curves lie within a fiftieth of an end that they have in common."""
    found = np.zeros(len(t), dtype=bool)
    if a.closed or b.closed:
        return found
    for end_a in (0, a.end):
        for end_b in (0, b.end):
            if norm(a.at(np.array([end_a])) - b.at(np.array([end_b])))[0] < TOGETHER:
                found |= (np.abs(t - end_a) < a.end / 50) & (np.abs(s - end_b) < b.end / 50)
    return found


def common_ends(a: Curve, b: Curve) -> tuple[bool, bool]:
    """Whether two open curves begin at one point, and whether they end at one."""
    if a.closed or b.closed:
        return False, False
    gaps = norm(a.at(np.array([0.0, a.end])) - b.at(np.array([0.0, b.end])))
    return bool(gaps[0] < TOGETHER), bool(gaps[1] < TOGETHER)


def _apart(p: Floats, p_end: Floats, q: Floats, q_end: Floats) -> tuple[Floats, Floats]:
    """Return the distances between segments p … p_end and q … q_end (n, 3), and the near points on the first."""
    u, v, w = p_end - p, q_end - q, p - q
    uu, uv, vv, uw, vw = dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)
    square = uu * vv - uv * uv
    safe = np.where(square > 1e-12 * uu * vv, square, 1.0)
    x = np.where(square > 1e-12 * uu * vv, np.clip((uv * vw - vv * uw) / safe, 0, 1), 0.0)
    y = np.clip((vw + uv * x) / np.where(vv > 0, vv, 1.0), 0, 1)
    x = np.clip((uv * y - uw) / np.where(uu > 0, uu, 1.0), 0, 1)
    near = p + x[:, None] * u
    return norm(near - (q + y[:, None] * v)), near
