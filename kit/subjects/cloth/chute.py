"""Drop chute from a rectangle to a hose.

How is a cloth chute cut that hangs from a rectangular opening and ends round a hose?

Picture: From above the opening with round corners and the hose in it, eight creases from the ends of the straight sides
to the hose; beside it from the front, with the hose below, tilted.

Assumptions:
- The opening lies level under the bench; x runs to the right, y to the back, the hose hangs below.
- Lengths here are those of the form under the cloth; the pattern is measured on the middle of the cloth.
- Each flat triangle touches the hose at one point; the corners between them are leaning cones.
- Areas and angles of these cones are weighed at both creases and in the middle (Simpson's rule): estimates, rougher
  with a tilted hose.

Sources:
- square-to-round transition by triangulation, as sheet-metal workers lay it out (textbooks of pattern drafting)
- vector geometry: planes that touch a circle; Simpson's rule (textbooks)
- page on hems of this book

Notes: Each straight side and one point of the hose span a flat triangle, where the plane through the side touches the
hose. Between two triangles a part of a leaning cone runs from a corner of the opening to an arc of the hose. So the
surface bends without stretching. Cloth thickness is left to the developed pattern. Also: transition pieces by
triangulation, as sheet-metal workers lay them out.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.geometry.sewing import lockstitch_thread, thread_to_buy
from kit.subjects.cloth.pattern_inputs import PATTERN_INPUTS
from kit.subjects.cloth.relief import MODEL as RELIEF
from kit.subjects.cloth.ruling import simpson, tolerated_twist
from kit.subjects.fold.hem import MODEL as HEM
from kit.subjects.fold.neutral_axis import state_cloth
from kit.subjects.hood.offcut import state_offcut
from kit.subjects.safety import CLOTH_KNIFE, SEWING

SIDES = {"right": ("R", 0), "back": ("B", 1), "left": ("L", 2), "front": ("F", 3)}  # quarter turns from x
CORNERS = tuple(zip(SIDES, (*list(SIDES)[1:], "right"), strict=True))

M = Model("cloth.chute", __doc__)

bx = M.given("opening_x", "b_{x}", "420 ± 1 mm", (100, 800), "opening, from left to right")
M.measured("rule, between the frame's outsides")
by = M.given("opening_y", "b_{y}", "300 ± 1 mm", (100, 800), "opening, from front to back")
M.measured("rule, between the frame's outsides")
rho = M.given("corner_radius", r"\varrho", "60 ± 1 mm", (0, 70), "radius of the opening's corners; zero: sharp")
M.measured("radius gauge or template")
d = M.given("hose", "d", "101 ± 0.5 mm", (30, 250), "outside diameter of the hose")
M.measured("caliper over the hose")
h = M.given("height", "h", "380 ± 1 mm", (300, 1200), "height from the opening down to the middle of the hose's rim")
M.measured("plumb line")
ox = M.given("offset_x", "o_{x}", "40 ± 1 mm", (-150, 150), "hose to the right of the opening's middle")
M.measured("plumb line from the opening's middle")
oy = M.given("offset_y", "o_{y}", "60 ± 1 mm", (-150, 150), "hose to the back of the opening's middle")
M.measured("plumb line from the opening's middle")
tau = M.given("tilt", r"\tau", "12 ± 0.5 deg", (0, 40), "tilt of the hose's rim from level")
M.measured("bevel gauge against a level")
alpha = M.given(
    "tilt_toward",
    r"\alpha",
    "60 ± 2 deg",
    (-180, 180),
    "direction in which the rim is low, counterclockwise from the right",
)
M.measured("protractor, in plan")
seam_at = M.choice("seam", "k_s", (*SIDES, "least cloth"), "front", "side on whose middle the seam lies")
wear = M.choice("wear", "k_w", (*SIDES, "none"), "back", "side on which offcuts land: no seam there")
panels = M.count("panels", "n", 1, (1, 4), "panels, and as many seams")
c = state_cloth(M, "sewn")
tolerated = M.given(
    "tolerated", r"\varepsilon_{\mathrm{c}}", "1 %", (0.05, 15), "strain that the cloth takes without showing it"
)
M.measured("pull an offcut along and across its threads")
M.pick(
    "stretch",
    "cloths",
    "PVC-coated polyester, 18 oz",
    {"tolerated": "tolerated_strain"},
    "cloth whose strain is tolerated",
)
roll = M.given("cloth_width", "W", "1400 ± 5 mm", (300, 3500), "usable width of the cloth", changes="often")
M.measured("tape across the roll, without selvages")
room = M.given("seam_allowance", "a", "12 ± 0.5 mm", (3, 40), "cloth beyond the sew line of a seam", changes="often")
M.measured("10 to 15 mm is usual")
M.source("common practice, no source")
band = M.given("clamp_margin", "m", "35 ± 1 mm", (5, 120), "cloth that goes over the hose, under the clamp")
M.measured("width of the hose clamp and as much again")
hem_width = M.given("hem_width", "b", "14 ± 0.5 mm", (4, 60), "finished width of the hem round the opening")
M.measured("rule")
eased = M.given("hem_strain", r"\varepsilon_{\mathrm{h}}", "12 %", (2, 40), "strain the folded hem may keep as puckers")
M.measured("fold a curved offcut and look")
M.source("common practice, no source")
clear = M.given("cut_clear", "q", "3 mm", (0, 15), "least distance of a cut from the fold")
M.measured("a stitch line's width and a margin against tearing")
M.source("common practice, no source")
chord = M.given("chord_error", "f", "0.2 mm", (0.02, 2), "allowed chord error of the pattern")
M.measured("less than you can cut to")
stitch = M.given("stitch", r"\ell_{\mathrm{st}}", "3 mm", (1, 8), "length of a stitch")
M.measured("ten stitches on a rule")
waste = M.given("thread_waste", "q_t", "15 %", (0, 60), "thread lost at ends and in trials")
M.measured("10 to 15 % in the trade")
M.source("apparelscience.com: 15 %")
step = M.given("staple_step", "p", "35 mm", (5, 200), "greatest distance of staples at the opening")
M.measured("30 to 50 mm is usual")
M.source("common practice, no source")
slide = M.given(
    "least_slope",
    r"\sigma_{\mathrm{min}}",
    "50 deg",
    (0, 85),
    "least slope of a wall, from level, on which dust and offcuts slide",
)
M.measured("tilt a sample of the cloth until sawdust slides")
M.source("common practice, no source")

r = M.relation("rim", "r", "mm", "radius of the hose")
M.equals(d / 2, "half the diameter")
pull_x = M.relation("pull_x", r"\kappa_{x}", "", "how the tilt shortens the rim along x", resolution=0.0001)
M.equals((1 - sp.cos(tau)) * sp.cos(alpha), "in plan the tilt shortens the rim along its direction: along x by this")
pull_y = M.relation("pull_y", r"\kappa_{y}", "", "how the tilt shortens the rim along y", resolution=0.0001)
M.equals((1 - sp.cos(tau)) * sp.sin(alpha), "and along y by this")
sink = M.relation("sink", r"\kappa_{z}", "", "how the rim sinks toward its low side", resolution=0.0001)
M.equals(sp.sin(tau), "and the rim sinks by the sine of the tilt toward its low side")


def level(quarter: int) -> sp.Matrix:
    """Return the outward direction of a side, in plan."""
    return sp.Matrix([(1, 0), (0, 1), (-1, 0), (0, -1)][quarter])


def spoke(cosine: sp.Expr, sine: sp.Expr, low: sp.Expr) -> sp.Matrix:
    """Return the direction from the hose's middle to its rim: in plan shortened along the tilt, and lower there."""
    return sp.Matrix([cosine - pull_x * low, sine - pull_y * low, -sink * low])


touch, height, drop, run, foot, crease, seam = {}, {}, {}, {}, {}, {}, {}
slopes = []
for side, (i, quarter) in SIDES.items():
    nu = level(quarter)
    along = sp.Matrix([-nu[1], nu[0]])
    half = (bx if quarter % 2 == 0 else by) / 2
    straight = (by if quarter % 2 == 0 else bx) / 2 - rho
    offset = sp.Matrix([ox, oy])
    shown = side == "front"  # the other sides are computed alike
    aside = M.relation(
        f"aside_{side}",
        f"e_{{{i}}}",
        "mm",
        f"distance of the hose's middle from the {side} side, in plan",
        resolution=0.1,
    )
    M.equals(
        half - nu.dot(offset),
        f"in plan the hose's middle lies inside the {side} side by half the opening less the offset",
    )
    normal = sp.Matrix([*(h * nu), -aside])  # square to the side and to the line from it to the hose's middle
    g = []
    for k, base in ((1, spoke(1, 0, sp.cos(alpha))), (2, spoke(0, 1, sp.sin(alpha)))):
        part = M.relation(
            f"g{k}_{side}", f"g_{{{k}{i}}}", "mm", f"normal of the {side} plane, part {k} along the rim", resolution=0.1
        )
        words = "first direction" if k == 1 else "second direction, a quarter turn on"
        M.equals(
            normal.dot(base), f"the plane of side and hose's middle has this part of its normal along the rim's {words}"
        )
        g.append(part)
    lean = r * sink * sp.sin(alpha - quarter * sp.pi / 2)
    theta = touch[side] = M.relation(
        f"touch_{side}",
        rf"\theta_{{{i}}}",
        "deg",
        f"where the {side} wall touches the hose, round its rim",
        resolution=0.1,
    )
    if shown:
        M.step(
            equal(g[1] * sp.cos(theta) - g[0] * sp.sin(theta), lean),
            "normal times tangent equals the radius times what the side climbs over the rim's plane",
        )
    M.equals(
        sp.atan2(g[1], g[0]) - sp.asin(lean / sp.sqrt(g[0] ** 2 + g[1] ** 2)),
        f"there the plane through the {side} side touches the hose: it holds the rim's tangent",
    )
    low = M.relation(
        f"low_{side}",
        rf"\lambda_{{{i}}}",
        "",
        f"share of the radius toward the low side, where the {side} wall touches",
        resolution=0.0001,
    )
    if shown:
        M.step(sp.cos(theta) * sp.cos(alpha) + sp.sin(theta) * sp.sin(alpha), "its parts along it")
    M.equals(sp.cos(theta - alpha), "of a radius this share points toward the low side")
    way = spoke(sp.cos(theta), sp.sin(theta), low)
    out = run[side] = M.relation(f"run_{side}", f"t_{{{i}}}", "mm", f"run of the {side} wall", resolution=0.1)
    M.equals(aside - r * nu.dot(way[:2, 0]), f"in plan the {side} wall runs in from its side to that point")
    at = foot[side] = M.relation(
        f"foot_{side}", f"u_{{{i}}}", "mm", f"where the {side} triangle's tip stands along its side", resolution=0.1
    )
    M.equals(
        along.dot(offset) + r * along.dot(way[:2, 0]),
        "and that point lies so far along the side from its middle, counterclockwise",
    )
    down = drop[side] = M.relation(
        f"drop_{side}", f"z_{{{i}}}", "mm", f"how far the {side} triangle's tip lies below the opening", resolution=0.1
    )
    M.equals(h - r * way[2], "it hangs as low as the hose's middle, and lower where the rim is low")
    w = height[side] = M.relation(
        f"height_{side}",
        f"w_{{{i}}}",
        "mm",
        f"height of the {side} wall's flat triangle, down its face",
        resolution=0.1,
    )
    M.equals(sp.sqrt(out**2 + down**2), "run and drop are the legs of a right triangle")
    slope = M.result(
        f"slope_{side}",
        rf"\sigma_{{{i}}}",
        "deg",
        f"slope of the {side} wall from level; above 90° it hangs outward",
        resolution=0.1,
    )
    M.equals(sp.atan2(down, out), "the wall falls by the drop over its run")
    slopes.append(slope)
    seam[side] = M.relation(f"seam_{side}", f"s_{{{i}}}", "mm", resolution=0.1)
    M.equals(sp.sqrt(w**2 + at**2), f"from the middle of the {side} side to the point where its wall touches the hose")
    for end, sign in (("begin", -1), ("end", 1)):
        corner = half * nu + sign * straight * along - offset - r * sp.Matrix(way[:2, 0])
        crease[side, end] = M.result(
            f"crease_{side}_{end}",
            f"c_{{{i}{'12'[sign > 0]}}}",
            "mm",
            f"true length of the {side} triangle's {'first' if sign < 0 else 'second'} crease",
            resolution=0.1,
        )
        if shown:
            M.step(sp.sqrt(corner.dot(corner) + down**2), "from point to point")
        M.equals(
            sp.sqrt(w**2 + (sign * straight - at) ** 2), "true length: the triangle's height and the way along the side"
        )

flat = M.relation("triangles", r"A_{\mathrm{flat}}", "m^2", resolution=0.0001)
M.equals(
    sum((w * ((by if k % 2 == 0 else bx) / 2 - rho) for k, w in enumerate(height.values())), sp.Integer(0)),
    "each flat triangle has the area of half its base times its height",
)

arcs, cones, turns = [], [], []
for one, two in CORNERS:
    ij, at, between = SIDES[one][0] + SIDES[two][0], f"{one}_{two}", f"between {one} and {two}"
    span = touch[two] - touch[one]
    turn = M.relation(f"arc_{at}", rf"\Delta_{{{ij}}}", "deg", f"arc of the hose {between}", resolution=0.1)
    M.equals(
        span + 2 * sp.pi * sp.floor((sp.pi - span) / (2 * sp.pi)),
        "the corner's cone takes the hose from one touching point to the next, less than half way round",
    )
    inward = M.relation(
        f"run_{at}",
        f"t_{{{ij}}}",
        "mm",
        f"run of the cone in the middle {between}",
        resolution=0.1,
    )
    M.equals(
        (run[one] + run[two]) / sp.sqrt(2) + (sp.sqrt(2) - 1) * (r - rho),
        "half way round the corner both runs count by the cosine of 45°; what the hose is wider than the round corner "
        "counts once, not twice by that cosine",
    )
    upright = M.relation(
        f"height_{at}",
        f"w_{{{ij}}}",
        "mm",
        f"height of the cone in the middle {between}",
        resolution=0.1,
    )
    M.equals(
        sp.sqrt(inward**2 + (h + (drop[one] + drop[two] - 2 * h) / sp.sqrt(2)) ** 2),
        "run and drop again; what the rim is lower than its middle counts by the cosine of 45° too",
    )
    cone = M.relation(f"cone_{at}", f"A_{{{ij}}}", "m^2", f"area of the cone {between}", resolution=0.0001)
    M.equals(
        (r * turn * (1 - sink**2 / 4) + rho * sp.pi / 2) / 2 * simpson(height[one], upright, height[two]),
        "two near rulings bound a trapezoid: half of both steps times its height; a tilted rim leans to the walls, so "
        "that on the average of a round its steps count by the root of 1 - κ² cos², about 1 - κ²/4",
    )
    cones.append(cone)
    bent = M.relation(
        f"turn_{at}",
        rf"\beta_{{{ij}}}",
        "deg",
        f"how far the long edge turns on the flat panel at the corner {one} {two}",
        resolution=0.1,
    )
    M.equals(
        sp.pi / 2 * simpson(run[one] / height[one], inward / upright, run[two] / height[two]),
        "on the flat panel a level edge keeps of its bend the cosine of the wall's slope: run over height",
    )
    length_one, length_two = ((by if SIDES[side][1] % 2 == 0 else bx) / 2 - rho for side in (one, two))
    M.result(
        f"sector_{at}",
        rf"\psi_{{{ij}}}",
        "deg",
        f"angle on the flat panel between the creases at the corner {one} {two}; negative: closing in below",
        resolution=0.1,
    )
    M.equals(
        sp.pi - bent - sp.atan2(height[one], length_one - foot[one]) - sp.atan2(height[two], length_two + foot[two]),
        "at the corner two triangles, the cone and the edge's turn make half a turn",
    )
    arcs.append(turn)
    turns.append(bent)
M.result("hose_girth", "U_d", "mm", "girth of the hose, the short edge of the pattern", resolution=0.1)
M.step(sum((r * arc for arc in arcs), sp.Integer(0)), "arc by arc: no part of the rim is left out or doubled")
M.equals(sp.pi * d, "the four corners' arcs close round the hose")
girth = M.result("opening_girth", "U_b", "mm", "girth of the opening, the long edge of the pattern", resolution=0.1)
M.step(4 * (bx / 2 - rho) + 4 * (by / 2 - rho) + 4 * rho * sp.pi / 2, "straight parts and quarter circles")
M.equals(2 * (bx + by) - (8 - 2 * sp.pi) * rho, "each round corner replaces two straight parts by a quarter circle")
whole = M.result(
    "area", "A", "m^2", "area of the chute without allowances (estimate; the pattern is exact)", resolution=0.001
)
M.equals(flat + sum(cones, sp.Integer(0)), "four triangles and four cones")
flattest = M.relation("flattest", r"\sigma", "deg", "slope of the flattest wall", resolution=0.1)
M.equals(sp.Min(*slopes), "the flattest wall decides")
folded = {"cloth_thickness": c, "hem_width": hem_width, "turn_in": hem_width - 2 * c, "crease_radius": sp.Integer(0)}
laid = {"across": sp.Integer(0), "cut_length": height["front"], "edges": sp.Integer(1)}
hem = M.include(HEM, prefix="hem", label="h", bind=folded | laid)
margin = M.result("hem_margin", "U", "mm", "cloth beyond the opening's edge, to the cut line", resolution=0.1)
M.equals(hem["take_up"], "the hem needs its plies less what its folds save")
turn = M.result("edge_turn", r"\beta", "deg", "largest turn of the pattern's long edge at a corner", resolution=0.1)
M.equals(sp.Max(*turns), "the corner where the walls are flattest turns most")
bent = sp.Max(turn, sp.Rational(1, 10**6))  # an edge that hardly turns, or turns outward, needs no notches
round_ = {"edge": sp.Integer(0), "radius": sp.Max(rho, c) * sp.pi / (2 * bent), "turn": bent}
relief = M.include(RELIEF, prefix="cut", label="q", bind=round_ | {"depth": margin, "tolerated": eased, "clear": clear})
M.result("notches", "n_q", "", "notches in the hem at that corner", resolution=1, whole=True)
M.equals(
    sp.Piecewise((relief["cuts"], rho > 0), (0, True)),
    "on a round corner the hem is notched; at a sharp one it is mitered",
)
length = M.result("seam_length", "s", "mm", "length of the seam at the chosen side", resolution=0.1)
M.equals(
    sp.Piecewise(*((seam[side], sp.Eq(seam_at, k)) for k, side in enumerate(SIDES)), (sp.Max(*seam.values()), True)),
    "the seam lies on the middle of the chosen side; of the least-cloth seam only the longest is sure",
)
M.result("thread", "L_t", "m", "sewing thread for the seams, needle and bobbin together", resolution=0.1)
M.step(panels * length * 2 * (stitch + 2 * c) / stitch * (1 + waste), "stitch by stitch")
M.equals(
    thread_to_buy(panels * lockstitch_thread(length, 2 * c, stitch), waste),
    "a lockstitch takes two threads, each one stitch long and once through half of both plies and back, and something "
    "is lost",
)
M.source("2 + 2 T S, textilecalculations.com")
M.result("staples", "n_s", "", "staples round the opening", resolution=1, whole=True)
M.equals(sp.ceiling(girth / step), "round a closed edge there are as many staples as gaps")
M.result("facets", "N", "", "facets round the hose for the allowed chord error", resolution=1, whole=True)
M.equals(
    sp.ceiling(sp.pi / sp.acos(1 - chord / r)),
    "half a facet, its distance r - f from the middle and the radius make a right triangle",
)
twist_allowed = M.result(
    "twist_allowed",
    r"\delta_{\mathrm{c}}",
    "deg",
    "twist of a ruling that the cloth takes; right rulings have none",
    resolution=0.1,
)
M.step(equal(1 - sp.cos(twist_allowed / 2), tolerated), "solved for the angle")
M.equals(tolerated_twist(tolerated), "a twist δ asks for a strain 1 - cos δ/2, about δ²/8")
deep = M.relation("deepest", "w", "mm", resolution=1)
M.equals(sp.Max(*crease.values()) + margin + band, "the longest crease, the hem and the clamp's margin lie in one line")
M.limit("roll", "the pattern is deep by", deep, "<=", roll)
M.mend("take wider cloth, or lay it along the roll")
M.limit("allowance", "beside the stitches the seam leaves", room - stitch, ">=", stitch, in_unit="mm", resolution=0.5)
M.mend("leave more seam allowance, or stitch shorter")
M.limit("slope", "the flattest wall stands at", flattest, ">=", slide)
M.mend("hang the hose lower, or move it nearer to the middle")
M.limit("corner", "the corner radius is", rho, "<=", sp.Min(bx, by) / 2, in_unit="mm", resolution=1)
M.mend("round the corners less: two do not fit on one side")
M.limit("foot", "the plies of the hem are thick by", hem["bulk"], "<=", hem["foot_lift"])
M.mend("take a single hem, or thinner cloth")
M.limit("leg", "the staple leg is", hem["staple_leg"], ">=", hem["hem_leg"], in_unit="mm", resolution=0.5)
M.mend("take longer staples, or a single hem")
M.caution(*CLOTH_KNIFE, *SEWING)
M.caution(
    "The seam lies where offcuts land: they will wear its thread through; lay it on another side.",
    when=sp.Eq(seam_at, wear),
)
M.caution("Switch the machine off and unplug it before you reach into the chute, and keep cloth clear of the blade.")
state_offcut(M, d)
M.ask(
    *PATTERN_INPUTS,
)

M.wish("least cloth", whole)
MODEL = M.done()
