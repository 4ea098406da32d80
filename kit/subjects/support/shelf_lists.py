"""What a shelf brings to the lists: board and lip."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Piece, glue
from kit.subjects.bodies import box_body


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the board and its lip between the supports; the axes begin at the left support, front, upper face."""
    v = inputs.base
    long, deep, thick, high, wide = (v[name] for name in ("span", "depth", "thickness", "lip_height", "lip_thickness"))
    bodies = [box_body("shelf", (0.0, 0.0, -thick), (long, deep, 0.0), v["density"])]
    pieces = [Piece("shelf, between its supports", 1, (long, deep, thick))]
    if high > 0:
        lip = box_body("lip", (0.0, 0.0, -thick - high), (long, wide, -thick), v["wood_density"], "dark wood")
        bodies, pieces = [*bodies, lip], [*pieces, Piece("lip", 1, (long, high, wide))]
    return Lists(tuple(bodies), tuple(pieces), glue(long * wide if high > 0 else 0.0))
