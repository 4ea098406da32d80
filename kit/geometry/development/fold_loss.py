"""What a fold takes: cloth rounds a crease of the shape, and its middle runs shorter than to the sharp corner."""

from itertools import pairwise

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import CLOSE, Floats, Ints, angle_between, norm, unit_rows
from kit.geometry.development.ruled_strip import Strip
from kit.geometry.development.unroll import Flat


def saved(angle: Floats | float, radius: float) -> Floats:
    """Return how much shorter (mm) an arc is than the two tangents that meet in its corner.

    angle: turned through (rad, below π); radius: of the middle of the cloth (mm).
    """
    turned = np.asarray(angle, dtype=float)
    less: Floats = radius * (2 * np.tan(turned / 2) - turned)
    return less


def drawn_together(strip: Strip, flat: Flat, radius: float) -> Flat:
    """Return an unrolled strip with each inner crease drawn together by what its fold saves, square to the crease.

    radius: of the middle of the cloth round every crease (mm); the fold angles are those of the strip.
    Raises: KitError for a face so narrow that the bends beside it leave nothing of it.
    """
    count = len(flat.a)
    at: Ints = np.flatnonzero(strip.crease[1:-1] if count > 2 else np.zeros(0, dtype=bool)) + 1
    if not len(at) or not radius:
        return flat
    normal = strip.normals
    angle = angle_between(normal[at - 1], normal[at])
    ruling = unit_rows(flat.b[at] - flat.a[at])
    across = np.column_stack([ruling[:, 1], -ruling[:, 0]])
    _refuse_narrow(strip, flat, at, across, angle, radius)
    ahead = across * saved(angle, radius)[:, None]
    # What lies beyond a crease comes nearer by all of it, the ends of the crease by half.
    moved = []
    for line, ends in ((flat.a, strip.a), (flat.b, strip.b)):
        new = np.cumsum(np.r_[False, norm(np.diff(ends, axis=0)) >= CLOSE])
        shift = np.zeros((count, 2))
        for k, way in zip(at, ahead, strict=True):
            shift[new == new[k]] += way / 2
            shift[new > new[k]] += way
        moved.append(line - shift)
    return Flat(moved[0], moved[1])


def _refuse_narrow(strip: Strip, flat: Flat, at: Ints, across: Floats, angle: Floats, radius: float) -> None:
    """Refuse a face between creases, or between one and the panel's end, that the bends at its sides use up."""
    tangent = radius * np.tan(angle / 2)
    bounds = [0, *at.tolist(), len(flat.a) - 1]
    for k, (first, last) in enumerate(pairwise(bounds)):
        corners = np.vstack([flat.a[first : last + 1], flat.b[first : last + 1]])
        beside = [j for j in (k - 1, k) if 0 <= j < len(at)]
        wide = min(float(np.abs((corners - flat.a[at[j]]) @ across[j]).max()) for j in beside)
        needed = float(sum(tangent[j] for j in beside))
        if wide < needed:
            turn = max(float(np.degrees(angle[j])) for j in beside)
            raise KitError(
                f"Between the {strip.names[0]} and the {strip.names[1]} the cloth turns by {turn:.1f}° at a crease; "
                f"rounded at {radius:.1f} mm the bends take {needed:.1f} mm of a face that is {wide:.1f} mm wide; "
                "round the crease less, or move the two edges so that the panel turns less sharply"
            )
