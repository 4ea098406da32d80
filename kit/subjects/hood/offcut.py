"""What gets into a hose that carries dust: how long a piece may be, and the cautions of the way to the fan."""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import HOSE

BOX = ("none", "drop box first")


def state_offcut(M: Model, hose: sp.Symbol) -> None:
    """State the largest piece that gets into a hose of diameter `hose`, its limit, and the cautions."""
    piece = M.given(
        "offcut", r"\ell_{\mathrm{o}}", "20 ± 5 mm", (0, 1000), "longest side of the largest piece that gets in"
    )
    M.measured("sort what lies under the machine after a day's work")
    box = M.choice("drop_box", r"k_{\mathrm{o}}", BOX, BOX[0], "box in which pieces drop before hose and fan")
    M.limit(
        "offcut",
        "the largest piece is long",
        piece,
        "<=",
        sp.Piecewise((hose / 2, sp.Eq(box, 0)), (piece, True)),
        in_unit="mm",
        resolution=1,
    )
    M.mend(
        "put a drop box or a grid before the hose, or take a wider one: pieces longer than half of it jam in its bends "
        "and strike the fan"
    )
    M.caution(*HOSE)
