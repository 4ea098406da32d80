"""A cloth skin over a frame: what do rails, hems and seams take beyond the shape, and how fine must facets be?

The picture: a panel on its frame, seen along a rail. The cloth's middle lies half a thickness out; it goes round the
rail and ends in a staple tail; another edge is hemmed; a seam joins the next panel. Where an edge is bent the panel
is drawn in facets, whose chords miss the bend by a little. Where the shape is bent both ways no flat panel fits, and
the threads must give: less, the narrower the panel.

Assumptions: the cloth bends without resistance and keeps its thickness; its middle keeps its length, but for the
strain of double bending, which is shared between the middle and the edges of a panel.
Sources: the fold and hem pages; lengths of arcs and parallels (geometry); thread of a lockstitch (textile textbooks).
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.fold.hem import MODEL as HEM
from kit.subjects.fold.neutral_axis import allowance, state_cloth
from kit.subjects.fold.wrap import MODEL as WRAP
from kit.subjects.safety import CLOTH_KNIFE

M = Model(
    "cloth.skin",
    title="Cloth skin over a frame",
    question="What do rails, hems and seams take beyond the shape, and how narrow must panels and facets be?",
    picture="Left a section through the rail with the cloth round it and its staple; beside it a bent edge with its "
    "facets; right a panel on a doubly bent shape, with its middle and its shorter edges.",
    assumptions=(
        "The cloth lies tight; its middle keeps its length at folds and rails.",
        "A bent edge is an arc where it bends most tightly, and its facets are equal.",
        "A doubly bent shape is like a ball there; the panel is long and runs along a great circle, and its strain is "
        "shared so that its energy is least.",
        "Seams are lockstitched through two plies.",
    ),
    sources=(
        "pages on wrapped rails and hems of this book",
        "thread of a lockstitch, 2 + 2 T S for each length of seam (textilecalculations.com)",
        "arcs, chords and parallels of a sphere: plane and solid geometry",
    ),
)  # fmt: skip

c = state_cloth(M, "sewn")
layer = M.choice(
    "layer", "j", ("on the frame", "over another skin"), "on the frame", meaning="what the skin lies on"
)
roll = M.given(
    "cloth_width", "W", "mm", 1500, span=(100, 3500), half=5,
    meaning="usable width of the cloth", how="tape across the roll, without selvages",
)  # fmt: skip
along = M.choice("along", "k_w", ("warp", "weft"), "warp", meaning="thread that runs along the panels")
e = M.given(
    "chord_error", "e", "mm", 0.2, span=(0.01, 5),
    meaning="wished chord error: how far facets may miss the shape", how="a wish; a pencil line is 0.3 mm wide",
)  # fmt: skip
R = M.given(
    "bend_radius", "R", "mm", 320, span=(20, 5000), half=2,
    meaning="tightest radius of an edge of the frame", how="chord and rise of the bent rail",
)  # fmt: skip
phi = M.given(
    "bend_turn", r"\varphi", "deg", 60, span=(1, 360), half=1,
    meaning="angle through which that edge bends", how="bevel gauge between the tangents at its ends",
)  # fmt: skip
width = M.given(
    "panel_width", "w", "mm", 420, span=(50, 2500), half=1,
    meaning="width of a panel across its threads", how="tape over the frame",
)  # fmt: skip
ball = M.given(
    "double_radius", "B", "mm", 2400, span=(500, 50000), half=50,
    meaning="radius of the ball that fits the doubly bent shape; large: bent one way only",
    how="chord and rise along and across; the mean of both radii",
)  # fmt: skip
warp = M.given(
    "warp_limit", r"\varepsilon_{1}", "%", 0.6, span=(0.05, 15), half=0.1,
    meaning="strain that the cloth takes along the warp without wrinkles", source="invented demo value",
    how="pull a strip 50 mm wide as hard as two hands stretch a skin, measure 500 mm on it before and after",
)  # fmt: skip
weft = M.given(
    "weft_limit", r"\varepsilon_{2}", "%", 1.2, span=(0.05, 15), half=0.2,
    meaning="strain that the cloth takes along the weft without wrinkles", source="invented demo value",
    how="as along the warp, on a strip cut across the roll",
)  # fmt: skip
seam = M.given(
    "seam_length", r"\ell_{\mathrm{s}}", "mm", 1700, span=(10, 50000), half=5,
    meaning="all seams together", how="from the pattern",
)  # fmt: skip
room = M.given(
    "seam_allowance", "a", "mm", 12, span=(3, 60), half=0.5,
    meaning="cloth beyond the sew line of a seam", how="10 to 15 mm is usual",
    source="common practice, no source",
)  # fmt: skip
stitch = M.given(
    "stitch", r"s_{\mathrm{t}}", "mm", 3, span=(1, 8), half=0.1,
    meaning="length of a stitch", how="ten stitches on a rule; coated cloth tears along short ones",
)  # fmt: skip
waste = M.given(
    "thread_waste", r"q", "%", 15, span=(0, 60),
    meaning="thread lost at ends and in trials", how="10 to 15 % in the trade", source="apparelscience.com: 15 %",
)  # fmt: skip
marks = M.count("marks", "n_m", 3, span=(1, 12), meaning="match marks on each seam between its ends")
edge = M.given(
    "stapled_length", r"\ell_{\mathrm{n}}", "mm", 1850, span=(10, 50000), half=5,
    meaning="length of an edge that is stapled", how="tape along the rail",
)  # fmt: skip
step = M.given(
    "staple_step", "p", "mm", 40, span=(5, 300), half=2,
    meaning="greatest distance of staples", how="30 to 50 mm is usual for a skin",
    source="common practice, no source",
)  # fmt: skip

m = M.result(
    "offset", "m", "mm", (layer + sp.Rational(1, 2)) * c,
    because="the middle of the cloth, which keeps its length, lies half a thickness above what it lies on",
    meaning="how far out panels are measured, to the middle of the cloth", resolution=0.01,
)  # fmt: skip
x = sp.Symbol("x", real=True)
M.result(
    "bend_extra", r"\Delta", "mm", allowance(phi, R, 1, m) - phi * R,
    because="round the outside of a bend the middle of the cloth runs on a radius larger by m",
    lines=[(sp.Integral((R + m) - R, (x, 0, phi)), "each step dφ is longer by m dφ, whatever the radius")],
    meaning="how much longer than the edge the cloth runs round its bend", resolution=0.01,
)  # fmt: skip
half = M.relation(
    "half_facet", r"\beta", "deg", sp.acos(1 - e / R),
    because="half a facet, its distance R - e from the center and the radius R make a right triangle",
    meaning="half the angle of the longest facet",
)  # fmt: skip
M.result(
    "facet", "f", "mm", 2 * R * sp.sin(half),
    because="the chord over that angle",
    lines=[(sp.sqrt(8 * R * e - 4 * e**2), "Pythagoras: half the chord squared is R² - (R - e)²")],
    meaning="longest facet that misses the bend by no more than wished", resolution=0.1,
)  # fmt: skip
count = M.result(
    "facets", "N", "", sp.ceiling(phi / (2 * half)),
    because="the whole bend needs whole facets", meaning="facets round the bend",
)  # fmt: skip
M.result(
    "error_met", r"e_{N}", "mm", R * (1 - sp.cos(phi / (2 * count))),
    because="equal facets are a little shorter than the longest that are allowed, and miss by less",
    lines=[(2 * R * sp.sin(phi / (4 * count)) ** 2, "half-angle formula")],
    meaning="chord error of these facets", resolution=0.001,
)  # fmt: skip
thick = M.relation(
    "seam_thickness", r"T", "mm", 2 * c, because="two plies lie on each other under the foot",
)  # fmt: skip
rate = M.relation(
    "thread_rate", "k_t", "", 2 + 2 * thick / stitch,
    because="for each stitch needle and bobbin thread run its length, and each goes half way in and half way out",
    lines=[(2 * (stitch + 2 * thick / 2) / stitch, "two threads, each one stitch long and twice half the thickness")],
    source="textilecalculations.com", meaning="thread for each length of seam", resolution=0.01,
)  # fmt: skip
M.result(
    "thread", "L_t", "m", seam * rate * (1 + waste),
    because="all seams, and what is lost", meaning="sewing thread, needle and bobbin together", resolution=0.1,
)  # fmt: skip
M.result(
    "mark_step", r"p_m", "mm", seam / (marks + 1),
    because="marks part a seam evenly; here all seams are taken as one",
    meaning="distance of match marks", resolution=1,
)  # fmt: skip
gaps = M.relation(
    "staple_gaps", "g_s", "", sp.ceiling(edge / step), because="no gap may be longer than the step",
)  # fmt: skip
M.result(
    "staples", "n_s", "", gaps + 1, because="one staple more than there are gaps",
    meaning="staples along that edge, one at each end",
)  # fmt: skip
M.result(
    "staple_gap", "p_s", "mm", edge / gaps, because="the gaps share the edge evenly",
    meaning="distance of staples as stapled", resolution=1,
)  # fmt: skip

rail = M.include(
    WRAP, prefix="", label="r",
    bind={"cloth_thickness": c, "plies": layer + 1, "least_tail": step, "coating_strain": warp},
)  # fmt: skip
M.result(
    "staple_margin", "C", "mm", rail["outer_cloth"],
    because="beyond the rail's edge the skin goes round its edges as the outermost ply and ends in the tail",
    lines=[(rail["rail_path"] + rail["wrap_angle"] * m, "the way along the wood, and m more for each unit of angle")],
    meaning="cloth beyond the edge of the rail, to the cut line", resolution=0.5,
)  # fmt: skip
M.result(
    "staple_line", r"C_s", "mm", rail["outer_cloth"] - rail["flat_tail"] / 2,
    because="staples go through the middle of the flat part of the tail",
    meaning="staple line, from the edge of the rail", resolution=0.5,
)  # fmt: skip
grip = M.given(
    "grip", "g", "mm", 6, span=(2, 20), meaning="depth that staples need in the wood",
    how="less in hardwood, more in softwood", source="common practice, no source",
)  # fmt: skip
leg = M.given("staple_leg", "s", "mm", 8, span=(4, 25), meaning="staple leg at hand", how="print on the box")
hem_width = M.given(
    "hem_width", "b", "mm", 20, span=(5, 100), half=0.5, meaning="finished width of a hem", how="rule",
)  # fmt: skip
hem = M.include(
    HEM, prefix="hem", label="h",
    bind={
        "cloth_thickness": c, "hem_width": hem_width, "turn_in": hem_width - 2 * c, "crease_radius": sp.Integer(0),
        "across": sp.Integer(0), "cut_length": width, "edges": sp.Integer(1), "grip": grip, "staple_leg": leg,
    },
)  # fmt: skip
M.result(
    "hem_margin", "U", "mm", hem["take_up"],
    because="a hem needs its plies less what its folds save", meaning="cloth beyond a hemmed edge, to the cut line",
    resolution=0.1,
)  # fmt: skip
need = M.relation(
    "rail_leg", r"s_{\mathrm{r}}", "mm", (layer + 1) * c + grip,
    because="at the rail the legs pass the skin and what lies below it before they grip",
    meaning="staple leg needed at the rail", resolution=0.5,
)  # fmt: skip

apart = M.relation(
    "spread", r"\alpha", "deg", width / (2 * ball),
    because="from the middle of a panel to its edge is half its width, an arc on the ball",
)  # fmt: skip
short = M.result(
    "gore", r"\delta", "%", 1 - sp.cos(apart),
    because="a parallel at that angle from the great circle is shorter by the cosine",
    lines=[
        ((2 * sp.pi * ball - 2 * sp.pi * (ball * sp.cos(apart))) / (2 * sp.pi * ball), "all the way round, as a share"),
        (2 * sp.sin(apart / 2) ** 2, "half-angle formula: about w² over 8 B²"),
    ],
    meaning="how much shorter a panel's edges are than its middle", resolution=0.01,
)  # fmt: skip
x = sp.Symbol("x", positive=True)
middle = M.result(
    "middle", r"\mu", "%", 1 - sp.sin(apart) / apart,
    because="left to itself, the cloth draws in where it is too long and gives where it is too short; the energy is "
    "least where strains cancel on average, so the middle takes the mean of what is missing across the panel",
    lines=[(sp.Integral(1 - sp.cos(x), (x, 0, apart)) / apart, "mean over the angles from the middle to the edge")],
    meaning="how much the thread in the middle of a panel draws in", resolution=0.01,
)  # fmt: skip
strain = M.result(
    "strain", r"\varepsilon", "%", short - middle,
    because="the edges must give by the rest",
    lines=[(sp.sin(apart) / apart - sp.cos(apart), "about w² over 12 B²: two thirds of what is missing")],
    meaning="strain of the thread along the edges of a panel", resolution=0.01,
)  # fmt: skip
limit = M.relation(
    "limit", r"\varepsilon_{\mathrm{l}}", "%", sp.Piecewise((warp, sp.Eq(along, 0)), (weft, True)),
    because="the thread that runs along the panel takes the strain", meaning="strain that this thread takes",
)  # fmt: skip

M.limit(
    "strain", "the thread along a panel is strained by", value=strain, allowed=limit,
    mend="make panels narrower by another seam, or take darts",
)  # fmt: skip
M.limit("roll", "a panel with its seams takes", value=width + 2 * room, allowed=roll, in_unit="mm", resolution=1,
        mend="part it by a seam, or take wider cloth")  # fmt: skip
M.limit("leg", "the staple leg is", value=leg, allowed=need, sense=">=", in_unit="mm", resolution=0.5,
        mend="take longer staples")  # fmt: skip
M.limit("foot", "the plies of a hem are thick by", value=hem["bulk"], allowed=hem["foot_lift"],
        mend="take a single hem, or thinner cloth")  # fmt: skip
M.limit(
    "allowance", "beside the stitches the seam leaves", value=room - stitch, allowed=stitch, sense=">=", in_unit="mm",
    resolution=0.5, mend="leave more seam allowance, or stitch shorter: the thread tears out of a narrow edge",
)  # fmt: skip
M.caution(*CLOTH_KNIFE)
M.caution(
    "Coated cloth sticks under the foot and drags, so that plies creep: lay a strip of paper under the foot, tear it "
    "off afterward, and test on an offcut first."
)
M.caution(
    "Keep fingers off the needle's way: switch the machine off to thread it, and turn it by hand over thick places."
)
M.caution(
    "Wear eye protection when stapling, never point the stapler at anyone, and keep the other hand off its line."
)
M.caution("The skin must never hinder a guard, its return, or the view of the blade.")
MODEL = M.done()
