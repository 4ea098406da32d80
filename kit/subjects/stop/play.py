"""What the play of a key in its track does far out: stated once, for every model with a key and a reach."""

import sympy as sp

from kit.core.model import Model, equal


def play_at_tip(
    M: Model, play: sp.Expr, key: sp.Symbol, reach: sp.Symbol, *, meaning: str
) -> tuple[sp.Symbol, sp.Symbol]:
    """State by how much a block turns in its track and how far its tip moves by that; return both."""
    theta = sp.Symbol("rotation", real=True)
    turn = M.relation(
        "rotation", r"\theta", "deg", play / key, because="half the play at half the key's length is the turn",
        lines=[(equal(theta * key / 2, play / 2),
                "the key turns about its middle until opposite corners touch the track")],
        meaning="turn of the block by the key's play", resolution=0.001,
    )  # fmt: skip
    tip = M.result(
        "play_tip", r"\delta_{\mathrm{p}}", "mm", turn * reach, meaning=meaning, resolution=0.001,
        because="a small turn moves the tip by the turn times the reach",
    )  # fmt: skip
    return turn, tip
