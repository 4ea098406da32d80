"""Hatch lines: parallel lines cut to a region by the even-odd rule."""

from collections import defaultdict
from collections.abc import Sequence
from math import ceil, cos, sin

from kit.drawing.primitives import Point

MOST = 400
"""More lines than this across one region would be a gray blot: the spacing is then doubled."""


def hatch_lines(rings: Sequence[Sequence[Point]], angle: float, spacing: float) -> list[tuple[Point, Point]]:
    """Return the line pieces inside `rings` (outer boundary and holes) at `angle` (rad), `spacing` mm apart.

    The lines hang on the origin, not on the region, so they stand still while the region changes.
    """
    c, s = cos(angle), sin(angle)
    # Turned by -angle the hatch lines are level: u runs along them, v across.
    turned = [[(x * c + y * s, y * c - x * s) for x, y in ring] for ring in rings]
    across = [v for ring in turned for _, v in ring]
    if not across:
        return []
    while (max(across) - min(across)) / spacing > MOST:
        spacing *= 2
    crossings: defaultdict[int, list[float]] = defaultdict(list)
    for ring in turned:
        for (u0, v0), (u1, v1) in zip(ring, [*ring[1:], ring[0]], strict=True):
            if v0 == v1:
                continue
            slope = (u1 - u0) / (v1 - v0)
            # Half-open, so that a line through a corner is counted once.
            for k in range(ceil(min(v0, v1) / spacing), ceil(max(v0, v1) / spacing)):
                crossings[k].append(u0 + (k * spacing - v0) * slope)
    pieces: list[tuple[Point, Point]] = []
    for k in sorted(crossings):
        v = k * spacing
        met = sorted(crossings[k])
        for u0, u1 in zip(met[::2], met[1::2], strict=False):
            pieces.append(((u0 * c - v * s, u0 * s + v * c), (u1 * c - v * s, u1 * s + v * c)))
    return pieces
