"""Sag of a loaded shelf.

How far does a shelf sag under its load in the long run, and how near is it to breaking?

In the trade's words: this board, this span, so much weight spread over it and one heavy thing in the middle. Does it
stay straight enough to look at and to work on after years, and what does a lip along its edge bring?

Picture: From the front: a board lies on two supports, or is held fast at both ends; weight is spread along it, one
thing stands in the middle. In section, a lip may hang below its edge.

Assumptions:
- the sag is small against the span, and the span is long against the height, so that shear hardly adds to it
- all weight lies over the whole depth of the shelf and stays for years
- a held end is fully stiff; a screwed or housed one gives way, and the truth lies between the two cases
- the lip is glued along the whole span, bends with the board, and no twist is counted
- the panel's long way is along its stiffer grain; a shelf of solid wood has its grain along the span

Sources:
- S. P. Timoshenko, Strength of Materials I: simple and built-in beams, deflection by energy, parallel axes, from memory
- Wood Handbook, FPL-GTR-190, chapters 5 and 12: strength and stiffness of wood and panels, from memory

Notes: Anchors, brackets and the wall are not judged here.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import SHELF

M = Model("support.shelf", __doc__)

stock = M.choice("stock", "s", ("panel", "solid wood"), "panel", "what the shelf is of")
ends = M.choice("ends", "e", ("on supports", "held fast"), "on supports", "how its ends are held")
L = M.given("span", "L", "800 ± 2 mm", (100, 4000), "clear span between the supports")
M.measured("tape")
b = M.given("depth", "b", "250 ± 1 mm", (20, 1500), "depth of the shelf, front to back")
M.measured("tape")
t = M.given("thickness", "t", "18 ± 0.3 mm", (3, 120), "thickness of the shelf")
M.measured("calipers")
h = M.given("lip_height", "h", "30 ± 0.3 mm", (0, 200), "height of the lip below the shelf; 0 for none")
M.measured("calipers")
w = M.given("lip_thickness", "w", "20 ± 0.3 mm", (3, 200), "thickness of the lip, or of two lips together")
M.measured("calipers")
m = M.given("load", "m", "20 ± 2 kg", (0, 2000), "what lies on the shelf, spread evenly over the span")
M.measured("weighed, or counted up")
m_P = M.given("point_load", r"m_{\mathrm{P}}", "0 ± 0.5 kg", (0, 1000), "one thing in the middle of the span")
M.measured("weighed")
MODULUS = "Wood Handbook, FPL-GTR-190, table 12-1, from memory"
E_p = M.given(
    "panel_modulus", r"E_{\mathrm{p}}", "7.755 ± 0.795 GPa", (0.5, 40), "panel's bending modulus along the span"
)
M.measured("from a table, or bend a strip between two trestles")
M.source(MODULUS)
f_p = M.given("panel_strength", r"f_{\mathrm{p}}", "38.165 ± 4.445 MPa", (2, 400), "panel's bending strength")
M.measured("from a table")
M.source(MODULUS)
rho_p = M.given("panel_density", r"\rho_{\mathrm{p}}", "500 ± 100 kg/m^3", (50, 1600), "panel's density")
M.measured("weigh an offcut")
M.source(MODULUS)
M.pick(
    "panel",
    "sheet_goods",
    "plywood",
    {"panel_modulus": "modulus_along", "panel_strength": "rupture", "panel_density": "density"},
    "panel of the shelf",
)
WOOD = "Wood Handbook, FPL-GTR-282, table 5-3b, read in a transcription"
E_w = M.given("wood_modulus", r"E_{\mathrm{w}}", "13.88 ± 3 GPa", (1, 40), "wood's modulus along the grain")
M.measured("from a table, or bend a strip between two trestles", spread="normal")
M.source(WOOD)
f_w = M.given("wood_strength", r"f_{\mathrm{w}}", "109 ± 35 MPa", (5, 400), "wood's bending strength")
M.measured("from a table, clear wood", spread="normal")
M.source(WOOD)
rho_w = M.given("wood_density", r"\rho_{\mathrm{w}}", "706 ± 70 kg/m^3", (50, 1600), "wood's density")
M.measured("weigh an offcut", spread="normal")
M.source(WOOD)
M.pick(
    "wood",
    "woods",
    "hard maple",
    {"wood_modulus": "modulus_along", "wood_strength": "rupture", "wood_density": "density"},
    "wood of the lip, and of a shelf of solid wood",
)
k = M.given("creep", r"k_{\mathrm{c}}", "2 ± 0.3", (1, 4), "sag after years over sag at once")
M.measured("1.5 seasoned lumber, 2 panels kept dry; more where it is damp")
M.source("NDS for Wood Construction, creep factor of long-term deflection, from memory")
N = M.given("ratio", "N", "300", (50, 2000), "least span over sag")
M.source("span over 300 for what is looked at, 500 for what is measured from: common practice, no source")
S = M.given("safety", "S", "4", (1, 20), "least strength over stress")
M.source("covers knots, years of load and a knock: common practice, no source")
g = M.constant("gravity", "g", "9.80665 m/s^2", "standard gravity", "3rd CGPM, 1901")

panel = sp.Eq(stock, 0)
simple = sp.Eq(ends, 0)
x, y = sp.symbols("x y", real=True)

E = M.relation("modulus", "E", "GPa", "modulus of the shelf along its span")
M.equals(sp.Piecewise((E_p, panel), (E_w, True)), "what the shelf is of decides it")
rho = M.relation("density", r"\rho", "kg/m^3", "density of the shelf")
M.equals(sp.Piecewise((rho_p, panel), (rho_w, True)), "so with the density")
f = M.relation("strength", "f", "MPa", "bending strength of the shelf")
M.equals(sp.Piecewise((f_p, panel), (f_w, True)), "and so with the strength")

y_0 = M.relation("centroid", "y_{0}", "mm", "middle of the stiffness below the shelf's face", resolution=0.1)
M.step(
    (sp.Integral(E * b * y, (y, 0, t)) + sp.Integral(E_w * w * y, (y, t, t + h))) / (E * b * t + E_w * w * h),
    "every strip pulls with its stiffness; about the middle, pull and push cancel",
)
M.equals(
    (E * b * t * t / 2 + E_w * w * h * (t + h / 2)) / (E * b * t + E_w * w * h),
    "board and lip each count at their own middle",
)
EI = M.result("stiffness", "EI", "N*m^2", "bending stiffness of board and lip", resolution=0.1)
M.step(
    sp.Integral(E * b * (y - y_0) ** 2, (y, 0, t)) + sp.Integral(E_w * w * (y - y_0) ** 2, (y, t, t + h)),
    "every strip counts by its stiffness and its distance squared",
)
M.equals(
    E * b * t**3 / 12 + E_w * w * h**3 / 12 + E * b * t * E_w * w * h / (E * b * t + E_w * w * h) * ((t + h) / 2) ** 2,
    "each about its own middle, and both about the common one",
)
M.mistake(
    E * b * t**3 / 12 + E_w * w * h**3 / 12,
    "the distances to the common middle were forgotten: shelf and lip were only added",
)
M.mistake(
    E * t * b**3 / 12 + E_w * h * w**3 / 12 + E * b * t * E_w * w * h / (E * b * t + E_w * w * h) * ((t + h) / 2) ** 2,
    "width and height were swapped: thickness counts three times",
)
own = M.result("own_weight", "G", "N", "weight of the shelf itself", resolution=0.1)
M.equals((rho * b * t + rho_w * w * h) * L * g, "volume, density and gravity")
W = M.relation("even_load", "W", "N", "all that is spread along the span", resolution=1)
M.equals(m * g + own, "the shelf carries itself as well")
P = M.relation("middle_load", "P", "N", "force in the middle", resolution=1)
M.equals(m_P * g, "its weight presses at one place")

M_q = M.relation("even_end", r"M_{W}", "N*m", "moment at an end from what is spread")
M.step(
    sp.Piecewise((0, simple), (2 / L * sp.Integral(W * x / 2 - W * x**2 / (2 * L), (x, 0, L / 2)), True)),
    "held fast, the shelf is level at its end and at its middle: between them the moments cancel",
)
M.equals(sp.Piecewise((0, simple), (W * L / 12, True)), "a support turns freely, a held end does not")
M_P = M.relation("middle_end", r"M_{P}", "N*m", "moment at an end from the middle")
M.step(
    sp.Piecewise((0, simple), (2 / L * sp.Integral(P * x / 2, (x, 0, L / 2)), True)),
    "held fast, the same holds for the load in the middle",
)
M.equals(sp.Piecewise((0, simple), (P * L / 8, True)), "so much the held end takes over")

even = M.result("even_sag", r"\delta_{W}", "mm", "sag at once from what is spread", resolution=0.01)
M.step(
    2 * sp.Integral((W * x / 2 - W * x**2 / (2 * L) - M_q) / EI * x / 2, (x, 0, L / 2)),
    "each slice bends by moment over stiffness and lowers the middle by half its distance from the end; both halves",
)
M.equals((5 * W * L**3 / 384 - M_q * L**2 / 8) / EI, "on supports 5 W L³/(384 E I), held fast a fifth of it")
middle = M.result("middle_sag", r"\delta_{P}", "mm", "sag at once from the middle", resolution=0.01)
M.step(
    2 * sp.Integral((P * x / 2 - M_P) / EI * x / 2, (x, 0, L / 2)),
    "slice by slice, as before",
)
M.equals((P * L**3 / 48 - M_P * L**2 / 8) / EI, "on supports P L³/(48 E I), held fast a quarter of it")
first = M.result("first_sag", r"\delta_{0}", "mm", "sag at once", resolution=0.01)
M.equals(even + middle, "small sags add")
sag = M.result("sag", r"\delta", "mm", "sag after years", resolution=0.01)
M.equals(k * first, "wood goes on giving way under a load that stays")
most = M.relation("most_sag", r"\delta_{\mathrm{max}}", "mm", "sag that is allowed", resolution=0.01)
M.equals(L / N, "the eye, and a straightedge, judge the sag by the span")

M_m = M.relation("mid_moment", r"M_{\mathrm{m}}", "N*m", "moment at the middle", resolution=0.1)
M.equals(W * L / 8 + P * L / 4 - M_q - M_P, "that of a beam on supports, less what the ends take over")
peak = M.result("moment", "M", "N*m", "largest moment", resolution=0.1)
M.equals(sp.Piecewise((M_m, simple), (M_q + M_P, True)), "on supports at the middle, held fast at the ends")
stress = M.result("stress", r"\sigma", "MPa", "bending stress in the shelf's face", resolution=0.1)
M.equals(E * peak * y_0 / EI, "strain grows with the distance from the middle, stress with the modulus")
lip = M.result("lip_stress", r"\sigma_{\mathrm{w}}", "MPa", "bending stress in the lip's edge", resolution=0.1)
M.equals(
    sp.Piecewise((E_w * peak * (t + h - y_0) / EI, sp.Gt(h, 0)), (0, True)),
    "the lip's edge is farther from the middle, and its wood has its own modulus",
)

M.limit("sag", "after years the shelf sags", sag, "<=", most)
M.mend("glue on a lip, take a thicker board, or put a support in between")
M.limit("stress", "the shelf's face is stressed by", stress, "<=", f / S)
M.mend("take a thicker board or a shorter span")
M.limit("lip", "the lip's edge is stressed by", lip, "<=", f_w / S)
M.mend("make the lip thicker rather than higher")
M.caution(*SHELF)
M.caution(
    "The span is less than twelve heights: shear adds to the sag, which is more than shown.",
    when=sp.Lt(L, 12 * (t + h)),
)
M.caution("The sag at once is more than a hundredth of the span: take another board.", when=sp.Gt(first, L / 100))
M.caution(
    "A lip along one edge holds that edge, and the other sags more than shown: give the back a lip or a rail as well.",
    when=sp.Gt(h, 0),
)
M.caution("A held end needs a joint as stiff as the shelf; if in doubt, count on supports.", when=sp.Eq(ends, 1))
M.wish("least sag", sag)
M.wish("least weight", own)
MODEL = M.done()
