"""Right rulings between two convex plane loops: the planes that touch both, as they bound the convex hull of the two.

Take a tangent of one loop and swing a plane round it, from the loop's own plane outward. The last point of the other
loop that it meets lies on the ruling: there the plane touches both. The touching planes of all samples of both loops
are the facets of their convex hull, found here without building it, at any parameter and not only at sample points.
"""

import numpy as np

from kit.geometry.development.arrays import Floats, cross, dot, unit_rows
from kit.geometry.development.curves import Curve
from kit.geometry.development.roots import roots
from kit.geometry.development.tangency import Tangents, planes_apart

LOOK = 96  # samples of a loop among which the touching point is first looked for


def is_convex(curve: Curve) -> bool:
    """Whether the curve is a plane loop that never turns to the other side."""
    if curve.is_point:
        return True
    if not curve.closed or curve.plane is None:
        return False
    _, normal = curve.plane
    t = curve.even_grid(4 * LOOK)[:-1]
    edges = unit_rows(np.roll(curve.at(t), -1, axis=0) - curve.at(t))
    turn = dot(cross(edges, np.roll(edges, -1, axis=0)), np.broadcast_to(normal, edges.shape))
    total = np.arctan2(turn, dot(edges, np.roll(edges, -1, axis=0))).sum()
    return bool(turn.min() > -1e-9 and total < 2 * np.pi + 1e-6)


def stands_apart(a: Curve, b: Curve) -> bool:
    """Whether each of two plane loops lies wholly on one side of the other's plane."""
    for one, other in ((a, b), (b, a)):
        if one.is_point or one.plane is None:
            continue
        middle, normal = one.plane
        height = (other.at(other.even_grid(4 * LOOK)) - middle) @ normal
        if height.min() * height.max() <= 0:
            return False
    return True


def touching(a: Curve, t: Floats, b: Curve, *, after: bool) -> Floats:
    """Return, for each parameter t (n,) of a, the parameter of b on the plane that touches a there and b, shape (n,).

    after: use the tangent after a corner of a, else before it.
    """
    if b.is_point:
        return np.zeros(len(t))
    assert a.plane is not None, "the caller has checked that a is a plane loop"
    _, normal = a.plane
    at, tangent = a.at(t), unit_rows(a.derivative(t, after))
    inward = cross(np.broadcast_to(normal, tangent.shape), tangent)
    s = np.unique(np.concatenate([b.even_grid(LOOK), np.arange(b.end + 1.0)]))[:-1]
    arms = b.at(s)[None] - at[:, None]
    outward = normal * np.sign((b.at(s) - at[0]) @ normal).mean()
    swing = np.arctan2(arms @ outward, np.einsum("nmi,ni->nm", arms, inward))
    best = swing.argmax(axis=1)
    # The touching point lies between the neighbors of the best sample, or the best sample is a corner of b.
    ring = np.concatenate([[s[-1] - b.end], s, [b.end + s[0]]])
    found = s[best]
    for low, high in ((ring[best], s[best]), (s[best], ring[best + 2])):
        bent = np.flatnonzero(b.is_bent((low + high) / 2))
        if bent.size:
            fixed = Tangents(at[bent], tangent[bent], tangent[bent])
            bracket = inside(low[bent], high[bent])
            x, is_root = roots(lambda x, f=fixed: planes_apart(f, Tangents.ahead(b, x)), *bracket)  # type: ignore[misc]
            found[bent] = np.where(is_root, x, found[bent])
    return np.asarray(found)


def inside(low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Return the bracket (n,) less a hair at both ends, where a corner of a curve may have its other tangent."""
    return low + 1e-12, high - 1e-12


def convex_rulings(a: Curve, b: Curve, t: Floats, s: Floats) -> tuple[Floats, Floats]:
    """Return pairs of parameters (k,) of the rulings that touch the samples t (n,) of loop a and s (m,) of loop b."""
    pairs = []
    for curve, other, samples, swap in ((a, b, t, False), (b, a, s, True)):
        if curve.is_point:
            continue
        for ends, after in ((samples[:-1], True), (samples[1:], False)):
            met = touching(curve, ends, other, after=after)
            pairs.append((met, ends) if swap else (ends, met))
    return np.concatenate([pair[0] for pair in pairs]), np.concatenate([pair[1] for pair in pairs])
