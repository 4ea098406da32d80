"""What can be off between the scale and the cut part: each contributor's half-width, along the part's length.

Shared errors stay for all parts that are cut at one setting; the others come anew with each part.
"""

from typing import NamedTuple

import sympy as sp

from kit.core.model import Model
from kit.subjects.stop.season import along_givens, coefficient_along


class Contributor(NamedTuple):
    """A half-width in the model, the label of its chance, and what it is the error of."""

    half: sp.Symbol
    label: str
    words: str


def shared(M: Model, target: sp.Symbol, across: sp.Symbol) -> tuple[Contributor, ...]:
    """State what stays for a batch; `across` lies between where the stop touches and where the part is measured."""
    tape = _given(
        M, "tape", r"\mathrm{t}", 0.24, "scale at this reading",
        "class of the tape, or what test cuts leave of it",
    )  # fmt: skip
    zero = _given(M, "zero", "0", 0.1, "zero of the scale", "test cut, or feeler gauge at the blade at rest")
    reading = _given(
        M, "reading", r"\mathrm{r}", 0.15, "cursor's parallax and estimate of the reading",
        "several people read it",
    )  # fmt: skip
    block = _given(
        M, "block", r"\mathrm{B}", 0.05, "length of the stop block; 0 where it is not in the reading",
        "calipers",
    )  # fmt: skip
    play = _given(
        M, "play", r"\mathrm{p}", 0.12, "tip of the stop by the key's play in its track",
        "dial gauge, tip rocked",
    )  # fmt: skip
    s = M.given(
        "fence_bow", "s", "mm", 0.1, span=(0, 2), meaning="bow of the fence at its middle, either way",
        how="feeler gauge under a straightedge",
    )  # fmt: skip
    L = M.given(
        "fence_length", r"L_{\mathrm{f}}", "mm", 1200, span=(200, 4000), meaning="length over which the fence bows",
        how="tape",
    )  # fmt: skip
    warm = M.given(
        "warmth", r"\Delta\theta", "K", 5, span=(0, 30), how="thermometer",
        meaning="half-width: shop from the temperature at which the scale is true",
    )  # fmt: skip
    alpha = M.given(
        "expansion", r"\alpha_{\theta}", "1/K", 18e-6, span=(0, 30e-6),
        meaning="expansion of the scale less that of the part",
        source="aluminum 23e-6, wood along the grain 3e-6 to 5e-6: common handbooks, from memory",
    )  # fmt: skip
    B = M.given(
        "wood", "B", "mm", 400, span=(0, 2000), how="tape",
        meaning="length of wood along the grain in the chain, as of a block",
    )  # fmt: skip
    damp = M.given(
        "moisture", r"\Delta u", "%", 2, span=(0, 8), how="moisture meter",
        meaning="half-width: that wood's moisture from when it was measured",
    )  # fmt: skip
    x = sp.Symbol("x", real=True)
    fence = _worked(
        M, "fence", r"\mathrm{f}", 4 * s / L * across, "slope of the bowed fence",
        "the part turns with the fence, and its length with the distance across",
        ((across * sp.Derivative(4 * s * x * (L - x) / L**2, x).doit().subs(x, 0),
          "a bow is near a parabola, x along it, and steepest at its ends"),),
    )  # fmt: skip
    heat = _worked(
        M,
        "heat",
        r"\theta",
        target * alpha * warm,
        "warmth",
        "every millimeter grows by the expansion for each kelvin",
    )
    swell = _worked(
        M, "swelling", "u", B * coefficient_along(M, *along_givens(M)) * damp, "moisture",
        "every percent moves every millimeter of wood",
    )  # fmt: skip
    return (
        Contributor(tape, r"\mathrm{t}", "the scale's error"),
        Contributor(zero, "0", "the zero's error"),
        Contributor(reading, r"\mathrm{r}", "the reading's error"),
        Contributor(block, r"\mathrm{B}", "the error of the block's length"),
        Contributor(play, r"\mathrm{p}", "the key's lie in its play"),
        Contributor(fence, r"\mathrm{f}", "the fence's slope"),
        Contributor(heat, r"\theta", "the warmth"),
        Contributor(swell, "u", "the wood's moisture"),
    )


def anew(M: Model, across: sp.Symbol) -> tuple[Contributor, ...]:
    """State what comes anew with each part."""
    push = M.given(
        "push", r"\Delta F", "N", 20, span=(0, 200), meaning="half-width: push of the work, from part to part",
        how="spring scale",
    )  # fmt: skip
    stiff = M.given(
        "tip_stiffness", r"k_{\mathrm{t}}", "N/mm", 400, span=(20, 10000),
        meaning="push over movement of the tip",
        how="spring scale and dial gauge",
    )  # fmt: skip
    blade = _given(
        M, "blade", r"\mathrm{w}", 0.05, "rim of the blade, from cut to cut",
        "dial gauge, unplugged, turned by hand", least=0.005,
    )  # fmt: skip
    gamma = M.given(
        "squareness", r"\gamma", "deg", 0.05, span=(0, 3), meaning="half-width: part's end from square",
        how="square and feeler gauge",
    )  # fmt: skip
    seat = _given(
        M, "seating", r"\mathrm{d}", 0.03, "seat of the part at the stop: dust, fuzz",
        "one part set ten times",
    )  # fmt: skip
    give = _worked(
        M, "give", "F", push / stiff, "stop's tip under an uneven push",
        "push over stiffness; an even push is already in the zero",
    )  # fmt: skip
    square = _worked(
        M, "end_square", r"\gamma", across * sp.tan(gamma), "part's end out of square",
        "from where it touches to where it is measured the end runs off by the tangent",
    )  # fmt: skip
    return (
        Contributor(give, "F", "the push's unevenness"),
        Contributor(blade, r"\mathrm{w}", "the blade's rim"),
        Contributor(square, r"\gamma", "the end's squareness"),
        Contributor(seat, r"\mathrm{d}", "the part's seat"),
    )


def _given(
    M: Model, name: str, label: str, value: float, words: str, how: str, *, least: float = 0
) -> sp.Symbol:
    return M.given(
        name, rf"h_{{{label}}}", "mm", value, span=(least, 3), meaning=f"half-width: {words}", how=how
    )


def _worked(
    M: Model, name: str, label: str, expr: sp.Expr, words: str, because: str,
    lines: tuple[tuple[sp.Expr, str], ...] = (),
) -> sp.Symbol:  # fmt: skip
    return M.relation(
        name,
        rf"h_{{{label}}}",
        "mm",
        expr,
        because=because,
        lines=lines,
        meaning=f"half-width: {words}",
        resolution=0.001,
    )
