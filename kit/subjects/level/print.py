"""A printed pad with a lip on two sides: what size must the model have, and what will it weigh?

The question in the trade's words: the foot is so long and wide with rounded corners. The pad must hold it by a lip
on two sides with a little clearance. A print shrinks as it cools, and its first layer spreads: how large must I make
the model so that the pad comes out right, and how much filament does it take?

The picture, from above: the foot's outline, round it the clearance, and along two sides, right and far, the lip. From
the side: a plate of the pad's height, and the lip standing on it. Printed plate down, as it lies under the foot.

Assumptions: the foot is a rectangle with alike rounded corners; shrinkage is even; the first layer spreads evenly
outward and is drawn smaller by as much; the share of solid holds for the whole pad. Outlines that are traced are
worked in kit.subjects.level.pad_solid in the same way.

Sources: Steiner's formula for the area of a widened outline and mixed areas, e.g. L. A. Santaló, Integral Geometry and
Geometric Probability, from memory; shrinkage as its own definition.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import HEAVY_MACHINE

M = Model(
    "level.print",
    title="Printed pad with a lip",
    question="How large must the model of a pad be so that the print comes out right, and what does it weigh?",
    picture="From above: the foot's outline, round it the clearance, and a lip along two sides; from the side: a "
    "plate of "
    "the pad's height with the lip on it, printed plate down.",
    assumptions=(
        "the foot is a rectangle with alike rounded corners",
        "the print shrinks evenly, and its first layer spreads evenly outward",
        "the share of solid holds for the whole pad",
    ),
    sources=(
        "J. Steiner: area of a widened convex outline, A + U c + π c²; from memory",
        "L. A. Santaló, Integral Geometry and Geometric Probability: mixed areas, from memory",
    ),
)
P = M.given(
    "length", "P", "mm", 62, span=(30, 300), half=0.2, meaning="length of the foot, along x", how="calipers"
)
Q = M.given(
    "width", "Q", "mm", 48, span=(30, 300), half=0.2, meaning="width of the foot, along y", how="calipers"
)
R = M.given(
    "radius", "R", "mm", 8, span=(0, 15), half=0.5, meaning="radius of its corners",
    how="radius gauge or coins",
)  # fmt: skip
c = M.given("clearance", "c", "mm", 0.3, span=(0, 3), meaning="clearance between foot and lip, on each side")
w = M.given("lip_width", "w", "mm", 5, span=(1, 20), meaning="thickness of the lip")
l = M.given("lip_height", r"\ell", "mm", 8, span=(1, 40), meaning="height of the lip above the plate")  # noqa: E741
h = M.given(
    "height", "h", "mm", 3.3, span=(0.4, 50), half=0.05, meaning="height of the pad under the foot",
    how="from 'Height of a pad'",
)  # fmt: skip
s_xy = M.given("shrink", r"s_{xy}", "%", 0.4, span=(0, 5), half=0.1,
               meaning="shrinkage of a print, in length and width",
               how="a printed 100 mm bar, calipers")  # fmt: skip
s_z = M.given("shrink_up", r"s_{z}", "%", 0.2, span=(0, 5), half=0.1, meaning="shrinkage of a print, in height",
              how="a printed 50 mm post, calipers")  # fmt: skip
e = M.given("spread", "e", "mm", 0.2, span=(0, 1), half=0.05, meaning="how far the first layer spreads, on each side",
            how="calipers on the first layer and higher up")  # fmt: skip
rho = M.given("density", r"\varrho", "g/cm^3", 1.24, span=(0.5, 3), half=0.02, meaning="density of the filament",
              how="print on the spool", source="typical for polylactic acid, from memory")  # fmt: skip
phi = M.given(
    "solid", r"\varphi", "%", 60, span=(5, 100), half=10,
    meaning="share of solid in the print: walls and filling",
)  # fmt: skip
load = M.given(
    "load", "F", "N", 96, span=(0, 3000), half=10, meaning="weight on this foot", how="from the four feet"
)
pressure = M.given("pressure_allowed", r"p_{\mathrm{max}}", "MPa", 2, span=(0.05, 50),
                   meaning="pressure that you trust the print with for years",
                   source="common practice, no source: a tenth of its strength, less the filling")  # fmt: skip
a = sp.Symbol("a", real=True)

A_0 = M.relation("foot_area", "A_{0}", "mm^2", P * Q - (4 - sp.pi) * R**2, resolution=1, meaning="area of the foot",
                 because="each rounded corner leaves out a square less a quarter circle")  # fmt: skip
U = M.relation("girth", "U", "mm", 2 * (P + Q) - (8 - 2 * sp.pi) * R, resolution=0.1, meaning="girth of the foot",
               because="each corner saves two radii less a quarter circle")  # fmt: skip
A_c = M.relation("free_area", r"A_{\mathrm{c}}", "mm^2", A_0 + U * c + sp.pi * c**2, resolution=1,
                 meaning="area of foot and clearance", because="along the sides a strip, at the corners together "
                 "one more circle",
                 lines=[(A_0 + sp.Integral(U + 2 * sp.pi * a, (a, 0, c)),
                 "each widening da adds the girth, which grows by 2 π a")])  # fmt: skip
A_l = M.result("lip_area", r"A_{\ell}", "mm^2", w * (P + Q + 4 * c + w), resolution=1,
               meaning="area of the lip, from above",
               because="moved by w to the right and by w to the far side, the outline sweeps its width, its "
               "depth, and the corner "
               "square between",
               lines=[(w * (P + 2 * c) + w * (Q + 2 * c) + w**2, "far side, right side, corner")])  # fmt: skip
V = M.result("volume", "V", "cm^3", (A_c + A_l) * h + A_l * l, resolution=0.01,
             meaning="volume of the pad, as it should come out",
             because="a plate under foot, clearance and lip, and the lip on it")  # fmt: skip
mass = M.result(
    "mass", "m", "g", phi * rho * V, resolution=0.1, meaning="mass of the print",
    because="share of solid, density, volume",
)  # fmt: skip
sizes = []
for name, tex, size, told in (("x", "X", P + 2 * c + w, "length"), ("y", "Y", Q + 2 * c + w, "width")):
    sizes.append(M.relation(f"size_{name}", f"{tex}_{{0}}", "mm", size, resolution=0.05,
                 meaning=f"{told} of the pad, as it should come out",
                            because="foot, clearance on both sides, and the lip on one"))  # fmt: skip
for name, tex, size, told in (("x", "X", sizes[0], "length"), ("y", "Y", sizes[1], "width")):
    drawn = sp.Symbol(f"model_{name}", real=True)
    M.result(f"model_{name}", tex, "mm", size / (1 - s_xy), resolution=0.01, meaning=f"{told} of the model to print",
             because="turned round, that is what must be drawn",
             lines=[(equal(drawn - drawn * s_xy, size), "as it cools, the print loses its share")])  # fmt: skip
M.result("model_z", "Z", "mm", (h + l) / (1 - s_z), resolution=0.01, meaning="height of the model to print",
         because="plate and lip, larger by what the print loses in height")  # fmt: skip
M.result("first_x", r"X_{1}", "mm", (sizes[0] - 2 * e) / (1 - s_xy), resolution=0.01,
         meaning="length of the model's first layer",
         because="it is drawn smaller on both sides by what it spreads")  # fmt: skip
stress = M.result(
    "pressure", "p", "MPa", load / A_0, resolution=0.01, meaning="pressure of the foot on the pad",
    because="weight over area of the foot",
)  # fmt: skip

M.limit(
    "pressure", "the foot presses with", value=stress, allowed=pressure,
    mend="fill the print more, or make the pad of hardwood",
)  # fmt: skip
M.limit("lip", "the lip is thick by", value=w, allowed=l / 3, sense=">=", in_unit="mm",
        mend="make the lip thicker or lower, so that a bump does not break it off")  # fmt: skip
M.caution(*HEAVY_MACHINE)
M.caution("A print creeps under load in a hot shed: check the bed's height again after the first summer.")
M.caution(
    "The corners are rounder than the foot is wide: measure the foot again.", when=sp.Gt(2 * R, sp.Min(P, Q))
)
MODEL = M.done()
