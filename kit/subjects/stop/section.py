"""Stop block with a rib.

How stiff is a block with a rib glued to it against a sideways push?

In the trade's words: a block alone bends too much when the work is pushed against it, so a rib is glued to its back, on
top or below. How much stiffer does it become against a sideways push, in one wood or two?

Picture: A section across the block: the push comes from the left onto its front face; the rib stands on the middle of
the back, of the top or of the underside.

Assumptions:
- the glue line does not slip, and plane sections stay plane
- the grain of block and rib runs along the block
- the rib stands on the middle of its face, and the push does not twist the block
- shear stress is spread evenly over each part's own size up and down

Sources:
- S. P. Timoshenko, Strength of Materials I: transformed section, shear stress in beams, from memory
- Wood Handbook, FPL-GTR-190 and FPL-GTR-282, tables 5-1 and 5-3b, for the woods

Notes: y runs from that face in the direction of the push, z runs up from the block's underside. The step at a rib two
thirds as high as the block makes a real block some 6 % softer in shear (found by finite elements in the tests).
"""

import sympy as sp

from kit.core.model import Model, equal

_MODULUS_SOURCE = "Wood Handbook, FPL-GTR-282, table 5-3b, sugar maple, raised by 10 %"
_RATIO_SOURCE = "Wood Handbook, FPL-GTR-190, table 5-1, sugar maple, in the LT plane"

M = Model("stop.section", __doc__)
b = M.given("block_width", "b", "40 ± 0.2 mm", (10, 150), "size of the block in the direction of the push")
M.measured("calipers")
h = M.given("block_height", "h", "60 ± 0.2 mm", (10, 150), "size of the block up and down")
M.measured("calipers")
face = M.choice(
    "rib_face", r"f_{\mathrm{r}}", ("on the back", "on top", "below"), "on the back", "face that the rib is glued to"
)
h_r = M.given(
    "rib_height", r"h_{\mathrm{r}}", "40 ± 0.2 mm", (0, 150), "how far the rib stands off its face; 0 for none"
)
M.measured("calipers")
b_r = M.given("rib_width", r"b_{\mathrm{r}}", "40 ± 0.2 mm", (5, 150), "size of the rib along its face")
M.measured("calipers")
E_b = M.given("block_modulus", r"E_{\mathrm{b}}", "13.88 ± 6 GPa", (1, 220), "block's modulus along the grain")
M.measured(
    "table, or load a strip at mid-span; single boards differ by 22 % (one standard deviation, from memory)",
    spread="normal",
)
M.source(_MODULUS_SOURCE)
g_b = M.given(
    "block_shear_ratio",
    r"\gamma_{\mathrm{b}}",
    "0.063 ± 0.012",
    (0.03, 0.4),
    "block's shear modulus over its modulus along the grain",
)
M.measured("table; the LR plane counts where the growth rings lie edge-on to the push")
M.source(_RATIO_SOURCE)
E_r = M.given("rib_modulus", r"E_{\mathrm{r}}", "13.88 ± 6 GPa", (1, 220), "rib's modulus along the grain")
M.measured("as for the block", spread="normal")
M.source(_MODULUS_SOURCE)
g_r = M.given(
    "rib_shear_ratio",
    r"\gamma_{\mathrm{r}}",
    "0.063 ± 0.012",
    (0.03, 0.4),
    "rib's shear modulus over its modulus along the grain",
)
M.measured("as for the block")
M.source(_RATIO_SOURCE)
for part in ("block", "rib"):
    fills = {f"{part}_modulus": "modulus_along", f"{part}_shear_ratio": "shear_lt_ratio"}
    M.pick(f"{part}_wood", "woods", "hard maple", fills, f"wood of the {part}")

back = sp.Eq(face, 0)
y, v, z = sp.symbols("y v z", real=True)

n = M.relation("modular_ratio", "n", "")
M.equals(E_r / E_b, "a rib n times as stiff counts as n times as much of the block's wood")
t_r = M.relation("rib_depth", r"t_{\mathrm{r}}", "mm")
M.equals(sp.Piecewise((h_r, back), (b_r, True)), "this is the rib's size in the direction of the push")
s_r = M.relation("rib_rise", r"s_{\mathrm{r}}", "mm")
M.equals(sp.Piecewise((b_r, back), (h_r, True)), "this is the rib's size up and down")
y_r = M.relation("rib_middle", r"y_{\mathrm{r}}", "mm")
M.equals(
    sp.Piecewise((b + h_r / 2, back), (b / 2, True)),
    "a rib on the back lies behind the block, any other lies over or under its middle",
)
z_r = M.relation("rib_level", r"z_{\mathrm{r}}", "mm")
M.equals(
    sp.Piecewise((h / 2, back), (h + h_r / 2, sp.Eq(face, 1)), (-h_r / 2, True)), "the same looking along the bench"
)


def over(f: sp.Expr, g: sp.Expr | None = None) -> sp.Expr:
    """Sum f(y) over the block, and the same (or g) over the rib, whose wood counts n times."""
    rib = (y, y_r - t_r / 2, y_r + t_r / 2)
    return sp.Integral(h * f, (y, 0, b)) + n * sp.Integral(s_r * (f if g is None else g), rib)


A = M.result("area", "A", "mm^2", "area of the section, reckoned in the block's wood", resolution=1)
M.step(over(sp.Integer(1)), "the section is two strips, the block from its front face on and the rib")
M.equals(b * h + n * s_r * t_r, "the rib's area counts n times")
c = M.result("centroid", r"\bar{y}", "mm", "distance of the centroid from the front face", resolution=0.1)
M.equals((b**2 * h / 2 + n * s_r * t_r * y_r) / A, "the strips' areas, each at its middle, balance about the centroid")
M.result(
    "centroid_height",
    r"\bar{z}",
    "mm",
    "height of the centroid above the block's underside; below zero: in a rib below",
    resolution=0.1,
    signed=True,
)
M.equals((b * h**2 / 2 + n * s_r * t_r * z_r) / A, "the same balance up and down")
I = M.result(
    "second_moment",
    "I",
    "mm^4",
    "second moment of area against a sideways push, reckoned in the block's wood",
    resolution=100,
)
M.step(equal(over(y - c), sp.Integer(0)), "bending without an axial force leaves no first moment about the centroid")
M.step(over((y - c) ** 2), "the second moment sums the squared distances from the centroid")
M.equals(
    h * b**3 / 12 + b * h * (c - b / 2) ** 2 + n * (s_r * t_r**3 / 12 + s_r * t_r * (y_r - c) ** 2),
    "each part has its own second moment and, by the parallel axes, area times squared distance",
)
M.mistake(
    b * h**3 / 12 + b * h * (c - b / 2) ** 2 + n * (t_r * s_r**3 / 12 + s_r * t_r * (y_r - c) ** 2),
    "width and height were swapped: the push is sideways, so the size across the block counts three times",
)
M.mistake(
    h * b**3 / 12 + n * s_r * t_r**3 / 12,
    "the distances from the common centroid were forgotten: block and rib were only added",
)
EI = M.result("bending_stiffness", "(EI)", "N*m^2", "bending stiffness against a sideways push", resolution=1)
M.equals(E_b * I, "the section is reckoned in the block's wood")


def shear_sum(rise: sp.Expr, depth: sp.Expr, far: sp.Expr) -> tuple[sp.Expr, sp.Expr]:
    """Return the integral of a part's squared static moment over its rise, as written and carried out.

    v runs inward from the part's free face, which is `far` from the centroid.
    """
    static = sp.Integral(rise * (far - z), (z, 0, v))
    written = sp.Integral(static**2 / rise, (v, 0, depth))
    return written, rise * depth**3 * (far**2 / 3 - far * depth / 4 + depth**2 / 20)


d = M.relation("rib_far_face", "d", "mm")
M.equals(y_r + t_r / 2 - c, "the rib's free face lies this far behind the centroid")
names = (("block", r"J_{\mathrm{b}}", h, b, c, "front"), ("rib", r"J_{\mathrm{r}}", s_r, t_r, d, "free"))
J = []
for part, tex, rise, depth, far, side in names:
    J_i = M.relation(f"{part}_shear_sum", tex, "mm^6")
    M.step(
        shear_sum(rise, depth, far)[0],
        f"the shear stress at depth v below the {side} face goes with the static moment of what lies outside",
    )
    M.equals(shear_sum(rise, depth, far)[1], "carried out, that is a polynomial in the part's depth")
    J.append(J_i)
GA = M.result("shear_stiffness", r"(\kappa GA)", "kN", "shear stiffness against a sideways push", resolution=1)
M.equals(
    I**2 / (J[0] / (g_b * E_b) + n**2 * J[1] / (g_r * E_r)),
    "the work of a unit push in shear equals the energy of its shear stress: 1/(κGA) is the sum of the squared shear "
    "flow over the shear moduli",
)
M.result(
    "shear_factor", r"\kappa", "", "part of the area that works in shear (5/6 for one rectangle)", resolution=0.001
)
M.equals(GA / (g_b * E_b * b * h + g_r * E_r * s_r * t_r), "a stress spread evenly would make all of GA count")
flat = M.relation("face_width", r"w_{\mathrm{f}}", "mm")
M.equals(sp.Piecewise((h, back), (b, True)), "so wide is the face that the rib stands on")

M.limit("rib_fits", "the rib is wide", b_r, "<=", flat)
M.mend("make the rib narrower or the block larger")
M.caution("Plane both faces flat before glueing, and keep the clamps on for the time the glue's maker states.")
M.caution("Rip ribs from long stock with a push stick and the guard on; keep hands 150 mm (6 in) from the blade.")
M.caution(
    "The rib has less than half the block's modulus: a stiffer wood, or the same, makes better use of the glue line.",
    when=sp.Lt(2 * E_r, E_b),
)
MODEL = M.done()
