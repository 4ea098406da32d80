"""What equal pieces from boards bring to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need, Piece


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the pieces that are wanted, and the boards that give them."""
    v = inputs.base
    return Lists(
        pieces=(Piece("piece", round(v["wanted"]), (v["piece_length"], v["piece_width"])),),
        needs=(Need("board", v["boards"], "", (v["length"], v["width"]), v["cost"]),),
    )
