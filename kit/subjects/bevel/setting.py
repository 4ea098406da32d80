"""Setting an angle by a rise over a measured base, how surely it is then known, and the saw's different zeros.

The question in the trade's words: the scale on the saw is too coarse. If I set the blade so that it rises so much
over so much, what angle is that, how sure is it, and what does the scale read that counts from the other zero?

The picture: a right triangle. Its base lies along a known line (table, fence, or the square position); the rise
stands square to it. With a tape along the base the tangent holds; with a bar of known length along the slope the
sine.

Sources: plane trigonometry; propagation of uncertainty after the GUM (JCGM 100:2008, 5.1.2).
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model
from kit.subjects.bevel.planes import square_of
from kit.subjects.safety import SAW

M = Model(
    "bevel.setting",
    title="Setting an angle by rise and base",
    question="What angle do a rise and a base set, how surely, and what do the other scales read?",
    picture=(
        "A right triangle with its base along a known line of the machine. The base is measured along that line, or "
        "along the slope like a sine bar; the rise is measured square to the line."
    ),
    assumptions=(
        "the rise is square to the line and the line is straight",
        "errors of rise and base are independent and given as standard uncertainties",
        "square position means blade upright, or miter gauge square to the blade",
    ),
    sources=("plane trigonometry", "JCGM 100:2008 (GUM), 5.1.2, law of propagation of uncertainty"),
)

a = M.given("rise", "a", "mm", 93, span=(1, 190), meaning="rise, square to the line", half=0.1,
            how="caliper or gauge blocks")  # fmt: skip
b = M.given("base", "b", "mm", 200, span=(200, 1000), meaning="base", half=0.2, how="steel rule")  # fmt: skip
along = M.choice(
    "base_along", "i", ("line", "slope"), "line", meaning="whether the base lies along the line or the slope"
)
zero = M.choice("line", "j", ("vertical", "square cut", "table", "fence"), "vertical",
                meaning="the known line from which the rise is taken")  # fmt: skip
ua = M.given("rise_u", "u_{a}", "mm", 0.06, span=(0, 2), meaning="standard uncertainty of the rise",
             how="half-width over √3 for a reading between limits")  # fmt: skip
ub = M.given("base_u", "u_{b}", "mm", 0.12, span=(0, 5), meaning="standard uncertainty of the base",
             how="half-width over √3 for a reading between limits")  # fmt: skip
want = M.given(
    "wanted", r"\alpha_{0}", "deg", 25, span=(0.5, 65), meaning="wanted angle, from the known line"
)
close = M.given(
    "allowed", r"\varepsilon", "deg", 0.1, span=(0.01, 2), meaning="how close the setting must be"
)

on_line = sp.Eq(along, 0)
alpha = M.result(
    "angle",
    r"\alpha",
    "deg",
    sp.Piecewise((sp.atan(a / b), on_line), (sp.asin(a / b), True)),
    resolution=0.01,
    meaning="angle from the known line",
    because="along the line the rise over the base is the tangent; along the slope it is the sine",
)
foot = M.relation("foot", "c", "mm", sp.Piecewise((b, on_line), (sp.sqrt(b**2 - a**2), True)),
                  because="Pythagoras gives the leg on the line", meaning="leg of the triangle on the line",
                  lines=[(a / sp.tan(alpha), "rise over tangent")])  # fmt: skip
slant = M.relation("slant", "l", "mm", sp.Piecewise((sp.sqrt(a**2 + b**2), on_line), (b, True)),
                   because="Pythagoras gives the long side", meaning="long side of the triangle",
                   lines=[(a / sp.sin(alpha), "rise over sine")])  # fmt: skip
ka = M.relation(
    "rise_effect",
    "k_{a}",
    "1/mm",
    sp.Piecewise((foot / slant**2, on_line), (1 / foot, True)),
    because="the change of the angle for a small change of the rise",
    lines=[
        (
            sp.Piecewise(
                (sp.Derivative(sp.atan(a / b), a), on_line), (sp.Derivative(sp.asin(a / b), a), True)
            ),
            "the partial derivative by the rise",
        )
    ],
)
kb = M.relation(
    "base_effect",
    "k_{b}",
    "1/mm",
    sp.Piecewise((-a / slant**2, on_line), (-a / (b * foot), True)),
    because="the change of the angle for a small change of the base",
    lines=[
        (
            sp.Piecewise(
                (sp.Derivative(sp.atan(a / b), b), on_line), (sp.Derivative(sp.asin(a / b), b), True)
            ),
            "the partial derivative by the base",
        )
    ],
)
u = M.result("angle_u", r"u_{\alpha}", "deg", sp.sqrt((ka * ua) ** 2 + (kb * ub) ** 2), resolution=0.001,
             meaning="standard uncertainty of the angle", because="independent errors add by their squares",
             source="JCGM 100:2008, 5.1.2")  # fmt: skip
spread = M.result(
    "angle_expanded",
    r"U_{\alpha}",
    "deg",
    2 * u,
    resolution=0.001,
    meaning="expanded uncertainty of the angle, coverage factor 2",
    because="about 95 % of settings lie within it",
    source="JCGM 100:2008, 6.2",
)
square = sp.Or(sp.Eq(zero, 0), sp.Eq(zero, 1))
M.result(
    "from_square",
    r"\alpha_{1}",
    "deg",
    sp.Piecewise((alpha, square), (square_of(alpha), True)),
    resolution=0.01,
    meaning="blade tilt from vertical, or miter from a square cut",
    because="vertical and square cut are the square position; table and fence lie a quarter turn off",
)
M.result(
    "from_flat",
    r"\alpha_{2}",
    "deg",
    square_of(M.relations["from_square"].symbol),
    resolution=0.01,
    meaning="blade from the table, or cut from the fence",
    because="the two zeros lie a quarter turn apart",
)
M.result(
    "protractor",
    r"\alpha_{3}",
    "deg",
    sp.pi - alpha,
    resolution=0.01,
    meaning="reading of a protractor laid against the other side of the line",
    because="both sides of a line make a half turn",
)
M.result(
    "rise_wanted",
    "a_{0}",
    "mm",
    sp.Piecewise((b * sp.tan(want), on_line), (b * sp.sin(want), True)),
    resolution=0.01,
    meaning="rise that sets the wanted angle over this base",
    because="the tangent or the sine, turned round",
)
off = M.result("off", r"\Delta", "deg", alpha - want, resolution=0.01, meaning="setting less the wanted angle",
               because="what is set, less what is wanted")  # fmt: skip

M.limit("off", "the setting is off by", value=sp.Abs(off), allowed=close, in_unit="deg", resolution=0.01,
        mend="set the rise that is printed as the rise wanted")  # fmt: skip
M.limit("sure", "the setting is sure to", value=spread, allowed=close, resolution=0.001,
        mend="take a longer base, or measure the rise with a caliper or blocks")  # fmt: skip
M.caution(*SAW)
M.caution("Measure from the saw plate between two teeth, never from a tooth: teeth are set to the side.")
M.caution("Above 60° a sine bar is unsure: measure the complement instead.",
          when=sp.And(sp.Eq(along, 1), sp.Gt(alpha, sp.pi / 3)))  # fmt: skip

MODEL = M.done()
