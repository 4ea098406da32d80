"""Cloth skin over a frame.

What do rails, hems and seams take beyond the shape, and how narrow must panels and facets be?

Picture: Left a section through the rail with the cloth round it and its staple; beside it a bent edge with its facets;
right a panel on a doubly bent shape, with its middle and its shorter edges.

Assumptions:
- The cloth lies tight; its middle keeps its length at folds and rails.
- A bent edge is an arc where it bends most tightly, and its facets are equal.
- A doubly bent shape is like a ball there; the panel is long and runs along a great circle, and its strain is shared so
  that its energy is least.
- Seams are lockstitched through two plies.

Sources:
- pages on wrapped rails and hems of this book
- thread of a lockstitch, 2 + 2 T S for each length of seam (textilecalculations.com)
- arcs, chords and parallels of a sphere: plane and solid geometry

Notes: A panel on its frame, seen along a rail. The cloth's middle lies half a thickness out. It goes round the rail and
ends in a staple tail. Another edge is hemmed. A seam joins the next panel. Where an edge is bent the panel is drawn in
facets, whose chords miss the bend by a little. Where the shape is bent both ways no flat panel fits, and the threads
must give: less, the narrower the panel. The cloth bends without resistance and keeps its thickness. Also: the fold and
hem pages; thread of a lockstitch (textile textbooks).
"""

import sympy as sp

from kit.core.model import Model
from kit.core.model.input_terms import amount, amounts, choice, many, named, point, rows, text
from kit.core.model.input_terms import count as whole
from kit.subjects.cloth.pattern_inputs import PATTERN_INPUTS
from kit.subjects.fold.hem import MODEL as HEM
from kit.subjects.fold.neutral_axis import allowance, state_cloth
from kit.subjects.fold.wrap import MODEL as WRAP
from kit.subjects.safety import CLOTH_KNIFE

M = Model("cloth.skin", __doc__)

c = state_cloth(M, "sewn")
layer = M.choice("layer", "j", ("on the frame", "over another skin"), "on the frame", "what the skin lies on")
roll = M.given("cloth_width", "W", "1500 ± 5 mm", (100, 3500), "usable width of the cloth", changes="often")
M.measured("tape across the roll, without selvages")
along = M.choice("along", "k_w", ("warp", "weft"), "warp", "thread that runs along the panels")
e = M.given("chord_error", "e", "0.2 mm", (0.01, 5), "allowed chord error: how far facets may miss the shape")
M.measured("a requirement; a pencil line is 0.3 mm wide")
R = M.given("bend_radius", "R", "320 ± 2 mm", (20, 5000), "tightest radius of an edge of the frame")
M.measured("chord and rise of the bent rail")
phi = M.given("bend_turn", r"\varphi", "60 ± 1 deg", (1, 360), "angle through which that edge bends")
M.measured("bevel gauge between the tangents at its ends")
width = M.given("panel_width", "w", "420 ± 1 mm", (50, 2500), "width of a panel across its threads")
M.measured("tape over the frame")
ball = M.given(
    "double_radius",
    "B",
    "2400 ± 50 mm",
    (500, 50000),
    "radius of the ball that fits the doubly bent shape; large: bent one way only",
)
M.measured("chord and rise along and across; the mean of both radii")
warp = M.given(
    "warp_limit",
    r"\varepsilon_{1}",
    "0.6 ± 0.1 %",
    (0.05, 15),
    "strain that the cloth takes along the warp without wrinkles",
)
M.measured("pull a strip 50 mm wide as hard as two hands stretch a skin, measure 500 mm on it before and after")
weft = M.given(
    "weft_limit",
    r"\varepsilon_{2}",
    "1.2 ± 0.2 %",
    (0.05, 15),
    "strain that the cloth takes along the weft without wrinkles",
)
M.measured("as along the warp, on a strip cut across the roll")
seam = M.given("seam_length", r"\ell_{\mathrm{s}}", "1700 ± 5 mm", (10, 50000), "all seams together")
M.measured("from the pattern")
room = M.given("seam_allowance", "a", "12 ± 0.5 mm", (3, 60), "cloth beyond the sew line of a seam", changes="often")
M.measured("10 to 15 mm is usual")
M.source("common practice, no source")
stitch = M.given("stitch", r"s_{\mathrm{t}}", "3 ± 0.1 mm", (1, 8), "length of a stitch")
M.measured("ten stitches on a rule; coated cloth tears along short ones")
waste = M.given("thread_waste", r"q", "15 %", (0, 60), "thread lost at ends and in trials")
M.measured("10 to 15 % in the trade")
M.source("apparelscience.com: 15 %")
marks = M.count("marks", "n_m", 3, (1, 12), "match marks on each seam between its ends")
edge = M.given("stapled_length", r"\ell_{\mathrm{n}}", "1850 ± 5 mm", (10, 50000), "length of an edge that is stapled")
M.measured("tape along the rail")
step = M.given("staple_step", "p", "40 ± 2 mm", (5, 300), "greatest distance of staples")
M.measured("30 to 50 mm is usual for a skin")
M.source("common practice, no source")

m = M.result("offset", "m", "mm", "how far out panels are measured, to the middle of the cloth", resolution=0.01)
M.equals(
    (layer + sp.Rational(1, 2)) * c,
    "the middle of the cloth, which keeps its length, lies half a thickness above what it lies on",
)
x = sp.Symbol("x", real=True)
M.result("bend_extra", r"\Delta", "mm", "how much longer than the edge the cloth runs round its bend", resolution=0.01)
M.step(sp.Integral((R + m) - R, (x, 0, phi)), "each step dφ is longer by m dφ, whatever the radius")
M.equals(
    allowance(phi, R, 1, m) - phi * R,
    "round the outside of a bend the middle of the cloth runs on a radius larger by m",
)
half = M.relation("half_facet", r"\beta", "deg", "half the angle of the longest facet")
M.equals(sp.acos(1 - e / R), "half a facet, its distance R - e from the center and the radius R make a right triangle")
M.result("facet", "f", "mm", "longest facet that misses the bend by no more than allowed", resolution=0.1)
M.step(sp.sqrt(8 * R * e - 4 * e**2), "Pythagoras: half the chord squared is R² - (R - e)²")
M.equals(2 * R * sp.sin(half), "the chord over that angle")
count = M.result("facets", "N", "", "facets round the bend", whole=True)
M.equals(sp.ceiling(phi / (2 * half)), "the whole bend needs whole facets")
M.result("error_met", r"e_{N}", "mm", "chord error of these facets", resolution=0.001)
M.step(2 * R * sp.sin(phi / (4 * count)) ** 2, "half-angle formula")
M.equals(
    R * (1 - sp.cos(phi / (2 * count))),
    "equal facets are a little shorter than the longest that are allowed, and miss by less",
)
thick = M.relation("seam_thickness", r"T", "mm")
M.equals(2 * c, "two plies lie on each other under the foot")
rate = M.relation("thread_rate", "k_t", "", "thread for each length of seam", resolution=0.01)
M.step(2 * (stitch + 2 * thick / 2) / stitch, "two threads, each one stitch long and twice half the thickness")
M.equals(
    2 + 2 * thick / stitch,
    "for each stitch needle and bobbin thread run its length, and each goes half way in and half way out",
)
M.source("textilecalculations.com")
M.result("thread", "L_t", "m", "sewing thread, needle and bobbin together", resolution=0.1)
M.equals(seam * rate * (1 + waste), "all seams, and what is lost")
M.result("mark_step", r"p_m", "mm", "distance of match marks", resolution=1)
M.equals(seam / (marks + 1), "marks part a seam evenly; here all seams are taken as one")
gaps = M.relation("staple_gaps", "g_s", "")
M.equals(sp.ceiling(edge / step), "no gap may be longer than the step")
M.result("staples", "n_s", "", "staples along that edge, one at each end", whole=True)
M.equals(gaps + 1, "one staple more than there are gaps")
M.result("staple_gap", "p_s", "mm", "distance of staples as stapled", resolution=1)
M.equals(edge / gaps, "the gaps share the edge evenly")

rail = M.include(
    WRAP,
    prefix="",
    label="r",
    bind={"cloth_thickness": c, "plies": layer + 1, "coating_strain": warp},
)
M.result("staple_margin", "C", "mm", "cloth beyond the edge of the rail, to the cut line", resolution=0.5)
M.step(rail["rail_path"] + rail["wrap_angle"] * m, "the way along the wood, and m more for each unit of angle")
M.equals(
    rail["outer_cloth"],
    "beyond the rail's edge the skin goes round its edges as the outermost ply and ends in the tail",
)
M.result("staple_line", r"C_s", "mm", "staple line, from the edge of the rail", resolution=0.5)
M.equals(rail["outer_cloth"] - rail["flat_tail"] / 2, "staples go through the middle of the flat part of the tail")
grip = M.given("grip", "g", "6 mm", (2, 20), "depth that staples need in the wood")
M.measured("less in hardwood, more in softwood")
M.source("common practice, no source")
leg = M.given("staple_leg", "s", "8 mm", (4, 25), "staple leg at hand")
M.measured("print on the box")
hem_width = M.given("hem_width", "b", "20 ± 0.5 mm", (5, 100), "finished width of a hem")
M.measured("rule")
hem = M.include(
    HEM,
    prefix="hem",
    label="h",
    bind={
        "cloth_thickness": c,
        "hem_width": hem_width,
        "turn_in": hem_width - 2 * c,
        "crease_radius": sp.Integer(0),
        "across": sp.Integer(0),
        "cut_length": width,
        "edges": sp.Integer(1),
        "grip": grip,
        "staple_leg": leg,
    },
)
M.result("hem_margin", "U", "mm", "cloth beyond a hemmed edge, to the cut line", resolution=0.1)
M.equals(hem["take_up"], "a hem needs its plies less what its folds save")
need = M.relation("rail_leg", r"s_{\mathrm{r}}", "mm", "staple leg needed at the rail", resolution=0.5)
M.equals((layer + 1) * c + grip, "at the rail the legs pass the skin and what lies below it before they grip")

apart = M.relation("spread", r"\alpha", "deg")
M.equals(width / (2 * ball), "from the middle of a panel to its edge is half its width, an arc on the ball")
short = M.result("gore", r"\delta", "%", "how much shorter a panel's edges are than its middle", resolution=0.01)
M.step((2 * sp.pi * ball - 2 * sp.pi * (ball * sp.cos(apart))) / (2 * sp.pi * ball), "all the way round, as a share")
M.step(2 * sp.sin(apart / 2) ** 2, "half-angle formula: about w² over 8 B²")
M.equals(1 - sp.cos(apart), "a parallel at that angle from the great circle is shorter by the cosine")
x = sp.Symbol("x", positive=True)
middle = M.result("middle", r"\mu", "%", "how much the thread in the middle of a panel draws in", resolution=0.01)
M.step(sp.Integral(1 - sp.cos(x), (x, 0, apart)) / apart, "mean over the angles from the middle to the edge")
M.equals(
    1 - sp.sin(apart) / apart,
    "left to itself, the cloth draws in where it is too long and gives where it is too short; the energy is least "
    "where strains cancel on average, so the middle takes the mean of what is missing across the panel",
)
strain = M.result("strain", r"\varepsilon", "%", "strain of the thread along the edges of a panel", resolution=0.01)
M.step(sp.sin(apart) / apart - sp.cos(apart), "about w² over 12 B²: two thirds of what is missing")
M.equals(short - middle, "the edges must give by the rest")
limit = M.relation("limit", r"\varepsilon_{\mathrm{l}}", "%", "strain that this thread takes")
M.equals(sp.Piecewise((warp, sp.Eq(along, 0)), (weft, True)), "the thread that runs along the panel takes the strain")

M.limit("strain", "the thread along a panel is strained by", strain, "<=", limit)
M.mend("make panels narrower by another seam, or take darts")
M.limit("roll", "a panel with its seams takes", width + 2 * room, "<=", roll, in_unit="mm", resolution=1)
M.mend("part it by a seam, or take wider cloth")
M.limit("leg", "the staple leg is", leg, ">=", need, in_unit="mm", resolution=0.5)
M.mend("take longer staples")
M.limit("foot", "the plies of a hem are thick by", hem["bulk"], "<=", hem["foot_lift"])
M.mend("take a single hem, or thinner cloth")
M.limit("tail", "the flat part of the tail is", rail["flat_tail"], ">=", rail["least_tail"], in_unit="mm")
M.mend("cut a longer tail or round the rail's edges less")
narrower = sp.Min(rail["rail_thickness"], rail["rail_width"])
M.limit("edge", "the rail's edge radius is", rail["edge_radius"], "<=", narrower / 2, in_unit="mm", resolution=0.1)
M.mend("round the edges less: two roundings do not fit on one face")
M.limit("hem", "the hem is wide by", hem_width, ">=", 3 * c, in_unit="mm", resolution=0.1)
M.mend("make the hem wider: three plies of this cloth do not turn in so little")
M.limit("keeps", "over its hem the panel is wide by", hem["finished_length"], ">=", hem_width, in_unit="mm")
M.mend("make the panel wider or its hem narrower")
M.limit("allowance", "beside the stitches the seam leaves", room - stitch, ">=", stitch, in_unit="mm", resolution=0.5)
M.mend("leave more seam allowance, or stitch shorter: the thread tears out of a narrow edge")
M.caution(*CLOTH_KNIFE)
M.caution(
    "Coated cloth sticks under the foot and drags, so that plies creep: lay a strip of paper under the foot, tear it "
    "off afterward, and test on an offcut first."
)
M.caution(
    "Keep fingers off the needle's way: switch the machine off to thread it, and turn it by hand over thick places."
)
M.caution("Wear eye protection when stapling, never point the stapler at anyone, and keep the other hand off its line.")
M.caution("The skin must never hinder a guard, its return, or the view of the blade.")
POINT = point("point", "x, y and z")
STRETCH = amounts("stretch", "where it begins and ends", least=2, most=2)
FINISHES = ("staple", "hem", "seam", "raw")
CORNERS = ("extended", "mitered", "notched")

M.ask(
    rows(
        "edges",
        "edge curves of the frame; those of a linked hood, or of a brow made up, where nothing is stated",
        text("name", "what the edge is called", needed=True),
        many("line", "its corners, in turn", POINT, least=2),
        many("arc", "its begin, a point on it, and its end", POINT, least=3, most=3),
        many("spline", "points on it, in turn", POINT, least=2),
        one_of=(("line",), ("arc",), ("spline",)),
    ),
    rows(
        "panels",
        "panels over two edges, or over four: below, above, left, right",
        text("name", "what the panel is called", needed=True),
        many("edges", "its edges", text("edge", "an edge", refers="edges"), least=2, most=4, needed=True),
        whole("parts", "into how many parts it is cut, if it has two edges", span=(1, 12)),
        amounts("seams", "or where along its first edge", span=(0, 100_000)),
        many("keep_clear", "stretches of the first edge where no seam is wanted: chips strike, air is drawn", STRETCH),
    ),
    named(
        "finish", "how outer edges are finished; stapled where nothing is stated", choice("way", "the way", *FINISHES)
    ),
    choice("corners", "how allowances end at corners", *CORNERS, default="extended"),
    rows(
        "cutouts",
        "openings in pieces, counted from the corner A, x toward the corner B",
        text("piece", "the piece", needed=True),
        point("center", "its center, x and y", 2, needed=True),
        amount("diameter", "of a round one", span=(0.1, 10_000)),
        point("size", "or width and height", 2),
        one_of=(("diameter",), ("size",)),
    ),
    *PATTERN_INPUTS,
)

MODEL = M.done()
