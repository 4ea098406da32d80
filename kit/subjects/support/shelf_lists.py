"""What a shelf brings to the lists: board and lip."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Piece


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the board and its lip between the supports; the axes begin at the left support, front, upper face."""
    v = inputs.base
    long, deep, thick, high, wide = (v[name] for name in ("span", "depth", "thickness", "lip_height", "lip_thickness"))
    bodies = [Body("shelf", long * deep * thick * v["density"], (long / 2, deep / 2, -thick / 2))]
    pieces = [Piece("shelf, between its supports", 1, (long, deep, thick))]
    if high > 0:
        lip = Body("lip", long * high * wide * v["wood_density"], (long / 2, wide / 2, -thick - high / 2))
        bodies, pieces = [*bodies, lip], [*pieces, Piece("lip", 1, (long, high, wide))]
    return Lists(tuple(bodies), tuple(pieces))
