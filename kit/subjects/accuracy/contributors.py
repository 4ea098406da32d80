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
        M,
        "tape",
        r"\mathrm{t}",
        0.24,
        "scale at this reading",
        "class of the tape; or what test cuts leave of it, then zero and scale are in it",
    )
    zero = _given(
        M,
        "zero",
        "0",
        0.1,
        "zero of the scale",
        "test cut, or feeler gauge at the blade at rest; 0 where test cuts calibrated the scale",
    )
    reading = _given(
        M,
        "reading",
        r"\mathrm{r}",
        0.15,
        "cursor's parallax and estimate of the reading",
        "several people read it",
    )
    block = _given(
        M,
        "block",
        r"\mathrm{B}",
        0.05,
        "length of the stop block; 0 where it is not in the reading",
        "calipers",
    )
    play = _given(
        M,
        "play",
        r"\mathrm{p}",
        0.12,
        "tip of the stop by the key's play in its track",
        "dial gauge, tip rocked",
    )
    s = M.given("fence_bow", "s", "0.1 mm", (0, 2), "bow of the fence at its middle, either way")
    M.measured("feeler gauge under a straightedge")
    L = M.given("fence_length", r"L_{\mathrm{f}}", "1200 mm", (200, 4000), "length over which the fence bows")
    M.measured("tape")
    warm = M.given(
        "warmth", r"\Delta\theta", "5 K", (0, 30), "half-width: shop from the temperature at which the scale is true"
    )
    M.measured("thermometer")
    alpha = M.given(
        "expansion", r"\alpha_{\theta}", "18e-6 1/K", (0, 30e-6), "expansion of the scale less that of the part"
    )
    M.source("aluminum 23e-6, wood along the grain 3e-6 to 5e-6: common handbooks, from memory")
    B = M.given("wood", "B", "400 mm", (0, 2000), "length of wood along the grain in the chain, as of a block")
    M.measured("tape")
    damp = M.given("moisture", r"\Delta u", "2 %", (0, 8), "half-width: that wood's moisture from when it was measured")
    M.measured("moisture meter")
    gamma = M.given(
        "squareness", r"\gamma", "0.05 deg", (0, 3), "half-width: blade from square to the fence, as the batch finds it"
    )
    M.measured("square and feeler gauge, saw unplugged")
    x = sp.Symbol("x", real=True)
    fence = _worked(
        M,
        "fence",
        r"\mathrm{f}",
        4 * s / L * across,
        "slope of the bowed fence",
        "the part turns with the fence, and its length with the distance across",
        (
            (
                across * sp.Derivative(4 * s * x * (L - x) / L**2, x).doit().subs(x, 0),
                "a bow is near a parabola, x along it, and steepest at its ends",
            ),
        ),
    )
    heat = _worked(
        M,
        "heat",
        r"\theta",
        target * alpha * warm,
        "warmth",
        "every millimeter grows by the expansion for each kelvin",
    )
    swell = _worked(
        M,
        "swelling",
        "u",
        B * coefficient_along(M, *along_givens(M)) * damp,
        "moisture",
        "every percent moves every millimeter of wood",
    )
    square = _worked(
        M,
        "end_square",
        r"\gamma",
        across * sp.tan(gamma),
        "parts' ends out of square",
        "from where it touches to where it is measured the end runs off by the tangent, with each part alike",
    )
    return (
        Contributor(tape, r"\mathrm{t}", "the scale's error"),
        Contributor(zero, "0", "the zero's error"),
        Contributor(reading, r"\mathrm{r}", "the reading's error"),
        Contributor(block, r"\mathrm{B}", "the error of the block's length"),
        Contributor(play, r"\mathrm{p}", "the key's lie in its play"),
        Contributor(fence, r"\mathrm{f}", "the fence's slope"),
        Contributor(heat, r"\theta", "the warmth"),
        Contributor(swell, "u", "the wood's moisture"),
        Contributor(square, r"\gamma", "the blade's squareness"),
    )


def anew(M: Model, across: sp.Symbol) -> tuple[Contributor, ...]:
    """State what comes anew with each part."""
    push = M.given("push", r"\Delta F", "20 N", (0, 200), "half-width: push of the work, from part to part")
    M.measured("spring scale")
    stiff = M.given("tip_stiffness", r"k_{\mathrm{t}}", "400 N/mm", (20, 10000), "push over movement of the tip")
    M.measured("spring scale and dial gauge")
    blade = _given(
        M,
        "blade",
        r"\mathrm{w}",
        0.05,
        "rim of the blade, from cut to cut",
        "dial gauge, unplugged, turned by hand",
        least=0.005,
    )
    seat = _given(
        M,
        "seating",
        r"\mathrm{d}",
        0.03,
        "seat of the part at the stop: dust, fuzz",
        "one part set ten times",
    )
    give = _worked(
        M,
        "give",
        "F",
        push / stiff,
        "stop's tip under an uneven push",
        "push over stiffness; an even push is already in the zero",
    )
    return (
        Contributor(give, "F", "the push's unevenness"),
        Contributor(blade, r"\mathrm{w}", "the blade's rim"),
        Contributor(seat, r"\mathrm{d}", "the part's seat"),
    )


def _given(M: Model, name: str, label: str, value: float, words: str, how: str, *, least: float = 0) -> sp.Symbol:
    half = M.given(name, rf"h_{{{label}}}", f"{value} mm", (least, 3), f"half-width: {words}")
    M.measured(how)
    return half


def _worked(
    M: Model,
    name: str,
    label: str,
    expr: sp.Expr,
    words: str,
    because: str,
    lines: tuple[tuple[sp.Expr, str], ...] = (),
) -> sp.Symbol:
    half = M.relation(name, rf"h_{{{label}}}", "mm", f"half-width: {words}", resolution=0.001)
    for claim, why in lines:
        M.step(claim, why)
    M.equals(expr, because)
    return half
