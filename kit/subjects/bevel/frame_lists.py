"""What a splayed frame brings to the lists: its boards, and the two settings of the saw."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Piece, Setting


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the boards by their longest edge, and how the saw is set for their ends and their long edges."""
    v = inputs.base
    count, long = round(v["sides"]), max(v["long_edge"], v["short_edge"])
    ends = (("blade tilt from vertical", v["tilt"], "deg"), ("miter from a square cut", v["miter"], "deg"))
    edges = (("blade tilt from vertical", v["edge_bevel"], "deg"),)
    return Lists(
        pieces=(Piece("board", count, (long, v["width"], v["thickness"])),),
        settings=(
            Setting("saw, along the board", edges, (f"bottom and top edge of {count} boards",)),
            Setting("saw, across the board", ends, (f"both ends of {count} boards",)),
        ),
    )
