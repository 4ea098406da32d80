"""What the play of a key in its track does far out: stated once, for every model with a key and a reach."""

import sympy as sp

from kit.core.model import Model, equal


def play_at_tip(
    M: Model, play: sp.Expr, key: sp.Symbol, reach: sp.Symbol, *, meaning: str
) -> tuple[sp.Symbol, sp.Symbol]:
    """State by how much a block turns in its track and how far its tip moves by that; return both."""
    turn = M.relation("rotation", r"\theta", "deg", "turn of the block by the key's play", resolution=0.001)
    M.step(equal(turn * key / 2, play / 2), "the key turns about its middle until opposite corners touch the track")
    M.equals(play / key, "half the play at half the key's length is the turn")
    tip = M.result("play_tip", r"\delta_{\mathrm{p}}", "mm", meaning, resolution=0.001)
    M.equals(turn * reach, "a small turn moves the tip by the turn times the reach")
    return turn, tip
