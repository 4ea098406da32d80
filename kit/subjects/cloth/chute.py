"""A drop chute of cloth from a rectangular opening to a round hose: how long, how steep, how much cloth?

The picture: the opening on top with its round corners, the hose below it, moved and tilted. Each straight side and one
point of the hose span a flat triangle, where the plane through the side touches the hose; between two triangles a part
of a leaning cone runs from a corner of the opening to an arc of the hose. So the surface bends without stretching.

Assumptions: opening and hose lie in planes, rim sizes are those of the form under the cloth; cloth thickness is left to
the developed pattern. Corner areas and angles are weighed at three places (Simpson's rule).
Sources: transition pieces by triangulation, as sheet-metal workers lay them out; vector geometry.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.cloth.geometry.sewing import lockstitch_thread, thread_to_buy
from kit.subjects.cloth.relief import MODEL as RELIEF
from kit.subjects.cloth.ruling import tolerated_twist, unknown
from kit.subjects.fold.hem import MODEL as HEM
from kit.subjects.fold.neutral_axis import state_cloth
from kit.subjects.safety import CLOTH_KNIFE, SEWING

SIDES = {"right": ("R", 0), "back": ("B", 1), "left": ("L", 2), "front": ("F", 3)}  # quarter turns from x
CORNERS = tuple(zip(SIDES, (*list(SIDES)[1:], "right"), strict=True))

M = Model(
    "cloth.chute",
    title="Drop chute from a rectangle to a hose",
    question="How is a cloth chute cut that hangs from a rectangular opening and ends round a hose?",
    picture="From above the opening with round corners and the hose in it, eight creases from the ends of the straight "
    "sides to the hose; beside it from the front, with the hose below, tilted.",
    assumptions=(
        "The opening lies level under the bench; x runs to the right, y to the back, the hose hangs below.",
        "Lengths here are those of the form under the cloth; the pattern is measured on the middle of the cloth.",
        "Each flat triangle touches the hose at one point; the corners between them are leaning cones.",
        "Areas and angles of these cones are weighed at both creases and in the middle (Simpson's rule); with a tilted "
        "hose they are estimates.",
    ),
    sources=(
        "square-to-round transition by triangulation, "
        "via gotthisnow.com/how-do-you-calculate-the-development-of-a-transition-piece",
        "vector geometry: planes that touch a circle; Simpson's rule (textbooks)",
        "page on hems of this book",
    ),
)  # fmt: skip

bx = M.given("opening_x", "b_{x}", "mm", 420, span=(150, 800), half=1, how="rule, between the frame's outsides",
             meaning="opening, from left to right")  # fmt: skip
by = M.given("opening_y", "b_{y}", "mm", 300, span=(150, 800), half=1, how="rule, between the frame's outsides",
             meaning="opening, from front to back")  # fmt: skip
rho = M.given("corner_radius", r"\varrho", "mm", 60, span=(0, 70), half=1, how="radius gauge or template",
              meaning="radius of the opening's corners; zero: sharp")  # fmt: skip
d = M.given("hose", "d", "mm", 101, span=(30, 250), half=0.5, how="caliper over the hose",
            meaning="outside diameter of the hose")  # fmt: skip
h = M.given("height", "h", "mm", 380, span=(300, 1200), half=1, how="plumb line",
            meaning="height from the opening down to the middle of the hose's rim")  # fmt: skip
ox = M.given("offset_x", "o_{x}", "mm", 40, span=(-150, 150), half=1, how="plumb line from the opening's middle",
             meaning="hose to the right of the opening's middle")  # fmt: skip
oy = M.given("offset_y", "o_{y}", "mm", 60, span=(-150, 150), half=1, how="plumb line from the opening's middle",
             meaning="hose to the back of the opening's middle")  # fmt: skip
tau = M.given("tilt", r"\tau", "deg", 12, span=(0, 20), half=0.5, how="bevel gauge against a level",
              meaning="tilt of the hose's rim from level")  # fmt: skip
alpha = M.given("tilt_toward", r"\alpha", "deg", 60, span=(-180, 180), half=2, how="protractor, in plan",
                meaning="direction in which the rim is low, counterclockwise from the right")  # fmt: skip
seam_at = M.choice(
    "seam", "k_s", (*SIDES, "least cloth"), "front", meaning="side on whose middle the seam lies"
)
wear = M.choice("wear", "k_w", (*SIDES, "none"), "back", meaning="side on which offcuts land: no seam there")
panels = M.count("panels", "n", 1, span=(1, 4), meaning="panels, and as many seams")
c = state_cloth(M, "sewn")
tolerated = M.given(
    "tolerated", r"\varepsilon_{\mathrm{c}}", "%", 1, span=(0.05, 15),
    meaning="strain that the cloth takes without showing it", how="pull an offcut along and across its threads",
)  # fmt: skip
M.pick("stretch", table="cloths", row="PVC-coated polyester, 18 oz", fills={"tolerated": "tolerated_strain"},
       meaning="cloth whose strain is tolerated")  # fmt: skip
roll = M.given("cloth_width", "W", "mm", 1400, span=(300, 3500), half=5, how="tape across the roll, without selvages",
               meaning="usable width of the cloth")  # fmt: skip
room = M.given("seam_allowance", "a", "mm", 12, span=(3, 40), half=0.5, how="10 to 15 mm is usual",
               source="common practice, no source", meaning="cloth beyond the sew line of a seam")  # fmt: skip
band = M.given("clamp_margin", "m", "mm", 35, span=(5, 120), half=1, how="width of the hose clamp and as much again",
               meaning="cloth that goes over the hose, under the clamp")  # fmt: skip
hem_width = M.given("hem_width", "b", "mm", 14, span=(4, 60), half=0.5, how="rule",
                    meaning="finished width of the hem round the opening")  # fmt: skip
eased = M.given("hem_strain", r"\varepsilon_{\mathrm{h}}", "%", 12, span=(2, 40), how="fold a curved offcut and look",
                source="common practice, no source", meaning="strain the folded hem may keep as puckers")  # fmt: skip
clear = M.given("cut_clear", "q", "mm", 3, span=(0, 15), how="a stitch line's width and a margin against tearing",
                source="common practice, no source", meaning="least distance of a cut from the fold")  # fmt: skip
chord = M.given("chord_error", "f", "mm", 0.2, span=(0.02, 2), how="less than you can cut to",
                meaning="allowed chord error of the pattern")  # fmt: skip
stitch = M.given("stitch", r"\ell_{\mathrm{st}}", "mm", 3, span=(1, 8), how="ten stitches on a rule",
                 meaning="length of a stitch")  # fmt: skip
waste = M.given("thread_waste", "q_t", "%", 15, span=(0, 60), source="apparelscience.com: 15 %",
                meaning="thread lost at ends and in trials", how="10 to 15 % in the trade")  # fmt: skip
step = M.given("staple_step", "p", "mm", 35, span=(5, 200), how="30 to 50 mm is usual",
               source="common practice, no source", meaning="greatest distance of staples at the opening")  # fmt: skip
slide = M.given("least_slope", r"\sigma_{\mathrm{min}}", "deg", 50, span=(0, 85),
                how="tilt a sample of the cloth until sawdust slides", source="common practice, no source",
                meaning="least slope of a wall, from level, on which dust and offcuts slide")  # fmt: skip

r = M.relation("rim", "r", "mm", d / 2, because="half the diameter", meaning="radius of the hose")
pull_x = M.relation("pull_x", r"\kappa_{x}", "", (1 - sp.cos(tau)) * sp.cos(alpha), resolution=0.0001,
                    meaning="how the tilt shortens the rim along x",
                    because="in plan the tilt shortens the rim along its direction: along x by this")  # fmt: skip
pull_y = M.relation("pull_y", r"\kappa_{y}", "", (1 - sp.cos(tau)) * sp.sin(alpha), resolution=0.0001,
                    meaning="how the tilt shortens the rim along y", because="and along y by this")  # fmt: skip
sink = M.relation("sink", r"\kappa_{z}", "", sp.sin(tau), resolution=0.0001,
                  meaning="how the rim sinks toward its low side",
                  because="and the rim sinks by the sine of the tilt toward its low side")  # fmt: skip


def level(quarter: int) -> sp.Matrix:
    """Return the outward direction of a side, in plan."""
    return sp.Matrix([(1, 0), (0, 1), (-1, 0), (0, -1)][quarter])


def spoke(cosine: sp.Expr, sine: sp.Expr, low: sp.Expr) -> sp.Matrix:
    """Return the direction from the hose's middle to its rim: in plan shortened along the tilt, and lower there."""
    return sp.Matrix([cosine - pull_x * low, sine - pull_y * low, -sink * low])


touch, height, drop, run, foot, crease, seam = {}, {}, {}, {}, {}, {}, {}
for side, (i, quarter) in SIDES.items():
    nu = level(quarter)
    along = sp.Matrix([-nu[1], nu[0]])
    half = (bx if quarter % 2 == 0 else by) / 2
    straight = (by if quarter % 2 == 0 else bx) / 2 - rho
    offset = sp.Matrix([ox, oy])
    shown = side == "front"  # the other sides are worked alike
    aside = M.relation(
        f"aside_{side}", f"e_{{{i}}}", "mm", half - nu.dot(offset),
        because=f"in plan the hose's middle lies inside the {side} side by half the opening less the offset",
        meaning=f"distance of the hose's middle from the {side} side, in plan", resolution=0.1,
    )  # fmt: skip
    normal = sp.Matrix([*(h * nu), -aside])  # square to the side and to the line from it to the hose's middle
    g = [
        M.relation(
            f"g{k}_{side}", f"g_{{{k}{i}}}", "mm", normal.dot(base),
            because="the plane of side and hose's middle has this part of its normal along the rim's "
            + ("first direction" if k == 1 else "second direction, a quarter turn on"),
            meaning=f"normal of the {side} plane, part {k} along the rim", resolution=0.1,
        )
        for k, base in ((1, spoke(1, 0, sp.cos(alpha))), (2, spoke(0, 1, sp.sin(alpha))))
    ]  # fmt: skip
    lean = r * sink * sp.sin(alpha - quarter * sp.pi / 2)
    theta = touch[side] = M.relation(
        f"touch_{side}", rf"\theta_{{{i}}}", "deg",
        sp.atan2(g[1], g[0]) - sp.asin(lean / sp.sqrt(g[0] ** 2 + g[1] ** 2)),
        because=f"there the plane through the {side} side touches the hose: it holds the rim's tangent",
        lines=[(equal(g[1] * sp.cos(unknown("touch_front")) - g[0] * sp.sin(unknown("touch_front")), lean),
                "normal times tangent equals the radius times what the side climbs over the rim's plane")] * shown,
        meaning=f"where the {side} wall touches the hose, round its rim", resolution=0.1,
    )  # fmt: skip
    low = M.relation(
        f"low_{side}", rf"\lambda_{{{i}}}", "", sp.cos(theta - alpha),
        meaning=f"share of the radius toward the low side, where the {side} wall touches",
        because="of a radius this share points toward the low side",
        lines=[(sp.cos(theta) * sp.cos(alpha) + sp.sin(theta) * sp.sin(alpha), "its parts along it")] * shown,
        resolution=0.0001,
    )  # fmt: skip
    way = spoke(sp.cos(theta), sp.sin(theta), low)
    out = run[side] = M.relation(
        f"run_{side}", f"t_{{{i}}}", "mm", aside - r * nu.dot(way[:2, 0]),
        because=f"in plan the {side} wall runs in from its side to that point",
        meaning=f"run of the {side} wall", resolution=0.1,
    )  # fmt: skip
    at = foot[side] = M.relation(
        f"foot_{side}", f"u_{{{i}}}", "mm", along.dot(offset) + r * along.dot(way[:2, 0]),
        because="and that point lies so far along the side from its middle, counterclockwise",
        meaning=f"where the {side} triangle's tip stands along its side", resolution=0.1,
    )  # fmt: skip
    down = drop[side] = M.relation(
        f"drop_{side}", f"z_{{{i}}}", "mm", h - r * way[2],
        because="it hangs as low as the hose's middle, and lower where the rim is low",
        meaning=f"how far the {side} triangle's tip lies below the opening", resolution=0.1,
    )  # fmt: skip
    w = height[side] = M.relation(
        f"height_{side}", f"w_{{{i}}}", "mm", sp.sqrt(out**2 + down**2),
        because="run and drop are the legs of a right triangle",
        meaning=f"height of the {side} wall's flat triangle, down its face", resolution=0.1,
    )  # fmt: skip
    M.result(
        f"slope_{side}", rf"\sigma_{{{i}}}", "deg", sp.atan2(down, out),
        because="the wall falls by the drop over its run",
        meaning=f"slope of the {side} wall from level; above 90° it hangs outward", resolution=0.1,
    )  # fmt: skip
    seam[side] = M.relation(
        f"seam_{side}", f"s_{{{i}}}", "mm", sp.sqrt(w**2 + at**2),
        because=f"from the middle of the {side} side to the point where its wall touches the hose", resolution=0.1,
    )  # fmt: skip
    for end, sign in (("begin", -1), ("end", 1)):
        corner = half * nu + sign * straight * along - offset - r * sp.Matrix(way[:2, 0])
        crease[side, end] = M.result(
            f"crease_{side}_{end}", f"c_{{{i}{'12'[sign > 0]}}}", "mm", sp.sqrt(w**2 + (sign * straight - at) ** 2),
            because="true length: the triangle's height and the way along the side",
            lines=[(sp.sqrt(corner.dot(corner) + down**2), "from point to point")] * shown,
            meaning=f"true length of the {side} triangle's {'first' if sign < 0 else 'second'} crease", resolution=0.1,
        )  # fmt: skip

flat = M.relation(
    "triangles", r"A_{\mathrm{flat}}", "m^2",
    sum((w * ((by if k % 2 == 0 else bx) / 2 - rho) for k, w in enumerate(height.values())), sp.Integer(0)),
    because="each flat triangle has the area of half its base times its height", resolution=0.0001,
)  # fmt: skip


def simpson(first: sp.Expr, middle: sp.Expr, last: sp.Expr) -> sp.Expr:
    """Return the mean by Simpson's rule."""
    return (first + 4 * middle + last) / 6


arcs, cones, turns = [], [], []
for one, two in CORNERS:
    ij = SIDES[one][0] + SIDES[two][0]
    span = touch[two] - touch[one]
    turn = M.relation(
        f"arc_{one}_{two}", rf"\Delta_{{{ij}}}", "deg", span + 2 * sp.pi * sp.floor((sp.pi - span) / (2 * sp.pi)),
        because="the corner's cone takes the hose from one touching point to the next, less than half way round",
        meaning=f"arc of the hose between {one} and {two}", resolution=0.1,
    )  # fmt: skip
    inward = M.relation(
        f"run_{one}_{two}", f"t_{{{ij}}}", "mm", (run[one] + run[two]) / sp.sqrt(2) + (sp.sqrt(2) - 1) * (r - rho),
        because="half way round the corner both runs count by the cosine of 45°; what the hose is wider than the round "
        "corner counts once, not twice by that cosine",
        meaning=f"run of the cone in the middle between {one} and {two}", resolution=0.1,
    )  # fmt: skip
    upright = M.relation(
        f"height_{one}_{two}", f"w_{{{ij}}}", "mm",
        sp.sqrt(inward**2 + (h + (drop[one] + drop[two] - 2 * h) / sp.sqrt(2)) ** 2),
        because="run and drop again; what the rim is lower than its middle counts by the cosine of 45° too",
        meaning=f"height of the cone in the middle between {one} and {two}", resolution=0.1,
    )  # fmt: skip
    cones.append(M.relation(
        f"cone_{one}_{two}", f"A_{{{ij}}}", "m^2",
        (r * turn * (1 - sink**2 / 4) + rho * sp.pi / 2) / 2 * simpson(height[one], upright, height[two]),
        because="two near rulings bound a trapezoid: half of both steps times its height; a tilted rim leans to the "
        "walls, so that on the average of a round its steps count by the root of 1 - κ² cos², about 1 - κ²/4",
        meaning=f"area of the cone between {one} and {two}", resolution=0.0001,
    ))  # fmt: skip
    bent = M.relation(
        f"turn_{one}_{two}", rf"\beta_{{{ij}}}", "deg",
        sp.pi / 2 * simpson(run[one] / height[one], inward / upright, run[two] / height[two]),
        because="on the flat panel a level edge keeps of its bend the cosine of the wall's slope: run over height",
        meaning=f"how far the long edge turns on the flat panel at the corner {one} {two}", resolution=0.1,
    )  # fmt: skip
    length_one, length_two = ((by if SIDES[side][1] % 2 == 0 else bx) / 2 - rho for side in (one, two))
    M.result(
        f"sector_{one}_{two}", rf"\psi_{{{ij}}}", "deg",
        sp.pi - bent - sp.atan2(height[one], length_one - foot[one]) - sp.atan2(height[two], length_two + foot[two]),
        because="at the corner two triangles, the cone and the edge's turn make half a turn",
        meaning=f"angle on the flat panel between the creases at the corner {one} {two}; negative: closing in below",
        resolution=0.1,
    )  # fmt: skip
    arcs.append(turn)
    turns.append(bent)
M.result(
    "hose_girth", "U_d", "mm", sp.pi * d, because="the four corners' arcs close round the hose",
    lines=[(sum((r * arc for arc in arcs), sp.Integer(0)), "arc by arc: no part of the rim is left out or doubled")],
    meaning="girth of the hose, the short edge of the pattern", resolution=0.1,
)  # fmt: skip
girth = M.result(
    "opening_girth", "U_b", "mm", 2 * (bx + by) - (8 - 2 * sp.pi) * rho,
    because="each round corner replaces two straight parts by a quarter circle",
    lines=[(4 * (bx / 2 - rho) + 4 * (by / 2 - rho) + 4 * rho * sp.pi / 2, "straight parts and quarter circles")],
    meaning="girth of the opening, the long edge of the pattern", resolution=0.1,
)  # fmt: skip
M.result(
    "area", "A", "m^2", flat + sum(cones, sp.Integer(0)), because="four triangles and four cones",
    meaning="area of the chute without allowances (estimate; the pattern is exact)", resolution=0.001,
)  # fmt: skip
flattest = M.relation(
    "flattest", r"\sigma", "deg", sp.Min(*(sp.Symbol(f"slope_{side}", real=True) for side in SIDES)),
    because="the flattest wall decides", meaning="slope of the flattest wall", resolution=0.1,
)  # fmt: skip
hem = M.include(
    HEM, prefix="hem", label="h",
    bind={
        "cloth_thickness": c, "hem_width": hem_width, "turn_in": hem_width - 2 * c, "crease_radius": sp.Integer(0),
        "across": sp.Integer(0), "cut_length": height["front"], "edges": sp.Integer(1),
    },
)  # fmt: skip
margin = M.result(
    "hem_margin", "U", "mm", hem["take_up"], because="the hem needs its plies less what its folds save",
    meaning="cloth beyond the opening's edge, to the cut line", resolution=0.1,
)  # fmt: skip
turn = M.result(
    "edge_turn", r"\beta", "deg", sp.Max(*turns),
    because="the corner where the walls are flattest turns most",
    meaning="largest turn of the pattern's long edge at a corner", resolution=0.1,
)  # fmt: skip
bent = sp.Max(turn, sp.Rational(1, 10**6))  # an edge that hardly turns, or turns outward, needs no notches
relief = M.include(
    RELIEF, prefix="cut", label="q",
    bind={"edge": sp.Integer(0), "radius": sp.Max(rho, c) * sp.pi / (2 * bent), "turn": bent, "depth": margin,
          "tolerated": eased, "clear": clear},
)  # fmt: skip
M.result(
    "notches", "n_q", "", sp.Piecewise((relief["cuts"], rho > 0), (0, True)),
    because="on a round corner the hem is notched; at a sharp one it is mitered",
    meaning="notches in the hem at that corner", resolution=1,
)  # fmt: skip
length = M.result(
    "seam_length", "s", "mm",
    sp.Piecewise(*((seam[side], sp.Eq(seam_at, k)) for k, side in enumerate(SIDES)), (sp.Max(*seam.values()), True)),
    because="the seam lies on the middle of the chosen side; of the least-cloth seam only the longest is sure",
    meaning="length of the seam at the chosen side", resolution=0.1,
)  # fmt: skip
M.result(
    "thread", "L_t", "m", thread_to_buy(panels * lockstitch_thread(length, 2 * c, stitch), waste),
    because="a lockstitch takes two threads, each one stitch long and once through half of both plies and back, "
    "and something is lost", source="2 + 2 T S, textilecalculations.com",
    lines=[(panels * length * 2 * (stitch + 2 * c) / stitch * (1 + waste), "stitch by stitch")],
    meaning="sewing thread for the seams, needle and bobbin together", resolution=0.1,
)  # fmt: skip
M.result(
    "staples", "n_s", "", sp.ceiling(girth / step), because="round a closed edge there are as many staples as gaps",
    meaning="staples round the opening", resolution=1,
)  # fmt: skip
M.result(
    "facets", "N", "", sp.ceiling(sp.pi / sp.acos(1 - chord / r)),
    because="half a facet, its distance r - f from the middle and the radius make a right triangle",
    meaning="facets round the hose for the allowed chord error", resolution=1,
)  # fmt: skip
M.result(
    "twist_allowed", r"\delta_{\mathrm{c}}", "deg", tolerated_twist(tolerated),
    because="a twist δ asks for a strain 1 - cos δ/2, about δ²/8",
    lines=[(equal(1 - sp.cos(unknown("twist_allowed") / 2), tolerated), "solved for the angle")],
    meaning="twist of a ruling that the cloth takes; right rulings have none", resolution=0.1,
)  # fmt: skip
deep = M.relation(
    "deepest", "w", "mm", sp.Max(*crease.values()) + margin + band,
    because="the longest crease, the hem and the clamp's margin lie in one line", resolution=1,
)  # fmt: skip
M.limit("roll", "the pattern is deep by", value=deep, allowed=roll,
        mend="take wider cloth, or lay it along the roll")  # fmt: skip
M.limit("allowance", "beside the stitches the seam leaves", value=room - stitch, allowed=stitch, sense=">=",
        in_unit="mm", resolution=0.5, mend="leave more seam allowance, or stitch shorter")  # fmt: skip
M.limit("slope", "the flattest wall stands at", value=flattest, allowed=slide, sense=">=",
        mend="hang the hose lower, or move it nearer to the middle")  # fmt: skip
M.limit("corner", "the corner radius is", value=rho, allowed=sp.Min(bx, by) / 2, in_unit="mm", resolution=1,
        mend="round the corners less: two do not fit on one side")  # fmt: skip
M.limit("foot", "the plies of the hem are thick by", value=hem["bulk"], allowed=hem["foot_lift"],
        mend="take a single hem, or thinner cloth")  # fmt: skip
M.limit("leg", "the staple leg is", value=hem["staple_leg"], allowed=hem["hem_leg"], sense=">=", in_unit="mm",
        resolution=0.5, mend="take longer staples, or a single hem")  # fmt: skip
M.caution(*CLOTH_KNIFE, *SEWING)
M.caution(
    "The seam lies where offcuts land: they will wear its thread through; lay it on another side.",
    when=sp.Eq(seam_at, wear),
)
M.caution(
    "Switch the machine off and unplug it before you reach into the chute, and keep cloth clear of the blade."
)
MODEL = M.done()
