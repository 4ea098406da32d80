"""Printed pad with a lip.

How large must the model of a pad be so that the print comes out right, and what does it weigh?

In the trade's words: the foot is so long and wide with rounded corners. The pad must hold it by a lip on two sides with
a little clearance. A print shrinks as it cools, and its first layer spreads: how large must I make the model so that
the pad comes out right, and how much filament does it take?

Picture: From above: the foot's outline, round it the clearance, and a lip along two sides; from the side: a plate of
the pad's height with the lip on it, printed plate down.

Assumptions:
- the foot is a rectangle with alike rounded corners
- the print shrinks evenly, and its first layer spreads evenly outward
- the share of solid holds for the whole pad

Sources:
- J. Steiner: area of a widened convex outline, A + U c + π c²; from memory
- L. A. Santaló, Integral Geometry and Geometric Probability: mixed areas, from memory

Notes: Printed plate down, as it lies under the foot. Shrinkage is even. Outlines that are traced are computed in
kit.subjects.level.pad_solid in the same way. Also: shrinkage as its own definition.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.core.model.input_terms import amount, amounts, choice, file, many, point
from kit.drawing.paper import PAPER
from kit.subjects.safety import HEAVY_MACHINE

M = Model("level.print", __doc__)
P = M.given("length", "P", "62 ± 0.2 mm", (30, 300), "length of the foot, along x")
M.measured("calipers")
Q = M.given("width", "Q", "48 ± 0.2 mm", (30, 300), "width of the foot, along y")
M.measured("calipers")
R = M.given("radius", "R", "8 ± 0.5 mm", (0, 15), "radius of its corners")
M.measured("radius gauge or coins")
c = M.given("clearance", "c", "0.3 mm", (0, 3), "clearance between foot and lip, on each side")
w = M.given("lip_width", "w", "5 mm", (1, 20), "thickness of the lip")
l = M.given("lip_height", r"\ell", "8 mm", (1, 40), "height of the lip above the plate")
h = M.given("height", "h", "3.3 ± 0.05 mm", (0.4, 50), "height of the pad under the foot")
M.measured("from 'Height of a pad'")
s_xy = M.given("shrink", r"s_{xy}", "0.4 ± 0.1 %", (0, 5), "shrinkage of a print, in length and width")
M.measured("a printed 100 mm bar, calipers")
s_z = M.given("shrink_up", r"s_{z}", "0.2 ± 0.1 %", (0, 5), "shrinkage of a print, in height")
M.measured("a printed 50 mm post, calipers")
e = M.given("spread", "e", "0.2 ± 0.05 mm", (0, 1), "how far the first layer spreads, on each side")
M.measured("calipers on the first layer and higher up")
rho = M.given("density", r"\varrho", "1.24 ± 0.02 g/cm^3", (0.5, 3), "density of the filament")
M.measured("print on the spool")
M.source("typical for polylactic acid, from memory")
phi = M.given("solid", r"\varphi", "60 ± 10 %", (5, 100), "share of solid in the print: walls and filling")
load = M.given("load", "F", "96 ± 10 N", (0, 3000), "weight on this foot")
M.measured("from the four feet")
pressure = M.given(
    "pressure_allowed", r"p_{\mathrm{max}}", "2 MPa", (0.05, 50), "pressure that you trust the print with for years"
)
M.source("common practice, no source: a tenth of its strength, less the filling")
a = sp.Symbol("a", real=True)

A_0 = M.relation("foot_area", "A_{0}", "mm^2", "area of the foot", resolution=1)
M.equals(P * Q - (4 - sp.pi) * R**2, "each rounded corner leaves out a square less a quarter circle")
U = M.relation("girth", "U", "mm", "girth of the foot", resolution=0.1)
M.equals(2 * (P + Q) - (8 - 2 * sp.pi) * R, "each corner saves two radii less a quarter circle")
A_c = M.relation("free_area", r"A_{\mathrm{c}}", "mm^2", "area of foot and clearance", resolution=1)
M.step(A_0 + sp.Integral(U + 2 * sp.pi * a, (a, 0, c)), "each widening da adds the girth, which grows by 2 π a")
M.equals(A_0 + U * c + sp.pi * c**2, "along the sides a strip, at the corners together one more circle")
A_l = M.result("lip_area", r"A_{\ell}", "mm^2", "area of the lip, from above", resolution=1)
M.step(w * (P + 2 * c) + w * (Q + 2 * c) + w**2, "far side, right side, corner")
M.equals(
    w * (P + Q + 4 * c + w),
    "moved by w to the right and by w to the far side, the outline sweeps its width, its depth, and the corner square "
    "between",
)
V = M.result("volume", "V", "cm^3", "volume of the pad, as it should come out", resolution=0.01)
M.equals((A_c + A_l) * h + A_l * l, "a plate under foot, clearance and lip, and the lip on it")
mass = M.result("mass", "m", "g", "mass of the print", resolution=0.1)
M.equals(phi * rho * V, "share of solid, density, volume")
sizes = []
for name, tex, size, words in (("x", "X", P + 2 * c + w, "length"), ("y", "Y", Q + 2 * c + w, "width")):
    outside = M.relation(
        f"size_{name}", f"{tex}_{{0}}", "mm", f"{words} of the pad, as it should come out", resolution=0.05
    )
    M.equals(size, "foot, clearance on both sides, and the lip on one")
    sizes.append(outside)
for name, tex, size, words in (("x", "X", sizes[0], "length"), ("y", "Y", sizes[1], "width")):
    drawn = M.result(f"model_{name}", tex, "mm", f"{words} of the model to print", resolution=0.01)
    M.step(equal(drawn - drawn * s_xy, size), "as it cools, the print loses its share")
    M.equals(size / (1 - s_xy), "solved for the size that must be drawn")
M.result("model_z", "Z", "mm", "height of the model to print", resolution=0.01)
M.equals((h + l) / (1 - s_z), "plate and lip, larger by what the print loses in height")
M.result("first_x", r"X_{1}", "mm", "length of the model's first layer", resolution=0.01)
M.equals((sizes[0] - 2 * e) / (1 - s_xy), "it is drawn smaller on both sides by what it spreads")
stress = M.result("pressure", "p", "MPa", "pressure of the foot on the pad", resolution=0.01)
M.equals(load / A_0, "weight over area of the foot")

M.limit("pressure", "the foot presses with", stress, "<=", pressure)
M.mend("fill the print more, or make the pad of hardwood")
M.limit("lip", "the lip is thick by", w, ">=", l / 3, in_unit="mm")
M.mend("make the lip thicker or lower, so that a bump does not break it off")
M.caution(*HEAVY_MACHINE)
M.caution("A print creeps under load in a hot shed: check the bed's height again after the first summer.")
M.caution("The corners are rounder than the foot is wide: measure the foot again.", when=sp.Gt(2 * R, sp.Min(P, Q)))
SIDES = ("right", "far", "left", "near")

M.ask(
    *PAPER,
    file("rubbing", "a scanned rubbing of the foot", ".png", ".jpg", ".jpeg", ".tif", ".tiff", ".bmp", ".pgm"),
    amount("bar", "length of the bar drawn beside the rubbing", span=(1, 2000)),
    many(
        "corners",
        "the foot's corners, in turn, where it is no rectangle",
        point("corner", "a corner, x and y", 2),
        least=3,
    ),
    amounts("radii", "radii of these corners: one for all, or one each"),
    many("lip", "the two sides that carry a lip", choice("side", "a side", *SIDES), least=2, most=2),
    amount("layer", "height of the first printed layer", span=(0.01, 2), default="0.2 mm"),
)

MODEL = M.done()
