"""What a fold takes: cloth rounds a crease of the shape, and its middle runs shorter than to the sharp corner."""

import numpy as np

from kit.geometry.development.arrays import Floats, Ints, angle_between, unit_rows
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
    """
    count = len(flat.a)
    at: Ints = np.flatnonzero(strip.crease[1:-1] if count > 2 else np.zeros(0, dtype=bool)) + 1
    if not len(at) or not radius:
        return flat
    normal = strip.normals
    less = saved(angle_between(normal[at - 1], normal[at]), radius)
    ruling = unit_rows(flat.b[at] - flat.a[at])
    ahead = np.column_stack([ruling[:, 1], -ruling[:, 0]]) * less[:, None]
    # What lies beyond a crease comes nearer by all of it, the crease itself by half.
    shift = np.zeros((count, 2))
    shift[at] += ahead / 2
    for k, way in zip(at, ahead, strict=True):
        shift[k + 1 :] += way
    return Flat(flat.a - shift, flat.b - shift)
