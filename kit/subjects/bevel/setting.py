"""Setting an angle by rise and base.

What angle do a rise and a base set, how surely, and what do the other scales read?

In the trade's words: the scale on the saw is too coarse. If I set the blade so that it rises so much over so much, what
angle is that, how sure is it, and what does the scale read that counts from the other zero?

Picture: A right triangle with its base along a known line of the machine. The base is measured along that line, or
along the slope like a sine bar; the rise is measured square to the line.

Assumptions:
- the rise is square to the line and the line is straight
- errors of rise and base are independent and given as standard uncertainties
- square position means blade upright, or miter gauge square to the blade

Sources:
- plane trigonometry
- JCGM 100:2008 (GUM), 5.1.2, law of propagation of uncertainty

Notes: Its base lies along a known line (table, fence, or the square position). With a tape along the base the tangent
holds.
"""

from __future__ import annotations

import sympy as sp

from kit.core.model import Model
from kit.subjects.bevel.planes import square_of
from kit.subjects.safety import SAW

M = Model("bevel.setting", __doc__)

a = M.given("rise", "a", "93 ± 0.1 mm", (1, 190), "rise, square to the line")
M.measured("caliper or gauge blocks")
b = M.given("base", "b", "200 ± 0.2 mm", (200, 1000), "base")
M.measured("steel rule")
along = M.choice("base_along", "i", ("line", "slope"), "line", "whether the base lies along the line or the slope")
zero = M.choice(
    "line", "j", ("vertical", "square cut", "table", "fence"), "vertical", "the known line from which the rise is taken"
)
ua = M.given("rise_u", "u_{a}", "0.06 mm", (0, 2), "standard uncertainty of the rise")
M.measured("half-width over √3 for a reading between limits")
ub = M.given("base_u", "u_{b}", "0.12 mm", (0, 5), "standard uncertainty of the base")
M.measured("half-width over √3 for a reading between limits")
want = M.given("wanted", r"\alpha_{0}", "25 deg", (0.5, 65), "wanted angle, from the known line")
close = M.given("allowed", r"\varepsilon", "0.1 deg", (0.01, 2), "how close the setting must be")

on_line = sp.Eq(along, 0)
alpha = M.result("angle", r"\alpha", "deg", "angle from the known line", resolution=0.01)
M.equals(
    sp.Piecewise((sp.atan(a / b), on_line), (sp.asin(a / b), True)),
    "along the line the rise over the base is the tangent; along the slope it is the sine",
)
foot = M.relation("foot", "c", "mm", "leg of the triangle on the line")
M.step(a / sp.tan(alpha), "rise over tangent")
M.equals(sp.Piecewise((b, on_line), (sp.sqrt(b**2 - a**2), True)), "Pythagoras gives the leg on the line")
slant = M.relation("slant", "l", "mm", "long side of the triangle")
M.step(a / sp.sin(alpha), "rise over sine")
M.equals(sp.Piecewise((sp.sqrt(a**2 + b**2), on_line), (b, True)), "Pythagoras gives the long side")
ka = M.relation("rise_effect", "k_{a}", "1/mm")
M.step(
    sp.Piecewise((sp.Derivative(sp.atan(a / b), a), on_line), (sp.Derivative(sp.asin(a / b), a), True)),
    "the partial derivative by the rise",
)
M.equals(
    sp.Piecewise((foot / slant**2, on_line), (1 / foot, True)), "the change of the angle for a small change of the rise"
)
kb = M.relation("base_effect", "k_{b}", "1/mm")
M.step(
    sp.Piecewise((sp.Derivative(sp.atan(a / b), b), on_line), (sp.Derivative(sp.asin(a / b), b), True)),
    "the partial derivative by the base",
)
M.equals(
    sp.Piecewise((-a / slant**2, on_line), (-a / (b * foot), True)),
    "the change of the angle for a small change of the base",
)
u = M.result("angle_u", r"u_{\alpha}", "deg", "standard uncertainty of the angle", resolution=0.001)
M.equals(sp.sqrt((ka * ua) ** 2 + (kb * ub) ** 2), "independent errors add by their squares")
M.source("JCGM 100:2008, 5.1.2")
spread = M.result(
    "angle_expanded", r"U_{\alpha}", "deg", "expanded uncertainty of the angle, coverage factor 2", resolution=0.001
)
M.equals(2 * u, "about 95 % of settings lie within it")
M.source("JCGM 100:2008, 6.2")
square = sp.Or(sp.Eq(zero, 0), sp.Eq(zero, 1))
M.result(
    "from_square",
    r"\alpha_{1}",
    "deg",
    "blade tilt from vertical, or miter from a square cut",
    resolution=0.01,
    setting=True,
)
M.equals(
    sp.Piecewise((alpha, square), (square_of(alpha), True)),
    "vertical and square cut are the square position; table and fence lie a quarter turn off",
)
M.result(
    "from_flat", r"\alpha_{2}", "deg", "blade from the table, or cut from the fence", resolution=0.01, setting=True
)
M.equals(square_of(M.relations["from_square"].symbol), "the two zeros lie a quarter turn apart")
M.result(
    "protractor",
    r"\alpha_{3}",
    "deg",
    "reading of a protractor laid against the other side of the line",
    resolution=0.01,
    setting=True,
)
M.equals(sp.pi - alpha, "both sides of a line make a half turn")
M.result("rise_wanted", "a_{0}", "mm", "rise that sets the wanted angle over this base", resolution=0.01)
M.equals(
    sp.Piecewise((b * sp.tan(want), on_line), (b * sp.sin(want), True)),
    "the tangent or the sine, solved for the measured length",
)
off = M.result("off", r"\Delta", "deg", "setting less the wanted angle", resolution=0.01)
M.equals(alpha - want, "what is set, less what is wanted")

M.limit("off", "the setting is off by", sp.Abs(off), "<=", close, in_unit="deg", resolution=0.01)
M.mend("set the rise that is printed as the rise wanted")
M.limit("sure", "the setting is known to", spread, "<=", close, resolution=0.001)
M.mend("take a longer base, or measure the rise with a caliper or blocks")
M.caution(*SAW)
M.caution("Measure from the saw plate between two teeth, never from a tooth: teeth are set to the side.")
M.caution(
    "Above 60° a sine bar is unsure: measure the complement instead.",
    when=sp.And(sp.Eq(along, 1), sp.Gt(alpha, sp.pi / 3)),
)

MODEL = M.done()
