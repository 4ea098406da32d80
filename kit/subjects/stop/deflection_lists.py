"""What a long stop brings to the lists: the timber of block and rib."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need, Piece


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return block and rib as long as both ends reach from the clamp's middle, and as much timber of each wood."""
    v, picks = inputs.base, inputs.case.picks
    long = v["long_reach"] + v["short_reach"]
    sections = [("stop block", picks["block_wood"], (v["block_height"], v["block_width"]))]
    if v["rib_height"] > 0:
        sections.append(("rib of the stop block", picks["rib_wood"], (v["rib_rise"], v["rib_depth"])))
    return Lists(
        pieces=tuple(Piece(name, 1, (long, *section), wood) for name, wood, section in sections),
        needs=tuple(Need(wood, long, "m", section) for _, wood, section in sections),
    )
