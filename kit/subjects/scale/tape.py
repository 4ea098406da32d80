"""How far may a tape be off, by its class, by warmth, and by the pull with which it was laid?

The question in the trade's words: the tape beside the fence says 1235. How far from that can it honestly be, and how
much of it did I do myself, by pulling it straight while the glue took?

The picture: a thin steel tape lies on a carrier, fence or bench. Glued, it keeps the pull with which it was laid
and from then on grows with the carrier. Held at one end only, it lies free and grows by itself.

Assumptions: the glue holds and the carrier is much stiffer than the tape; moisture does not move the carrier along
the tape (wood: along the grain); the part is measured where and when it was cut; small strains add.

Sources: Directive 2014/32/EU, Annex X, chapter I (read), for the classes: the error grows with the length, rounded
up to the next whole meter, from 20 °C; Hooke's law; JCGM 100:2008 (GUM), 4.3.7, for the rectangle.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import SCALE, TEST_CUT

M = Model(
    "scale.tape",
    title="Error of an adhesive tape",
    question="How far may a tape be off at a reading, by its class, by warmth and by the pull with which it was laid?",
    picture="A thin tape on the fence: glued, it keeps its pull and grows with the fence; free, it grows by itself. "
    "Beside it the band of the class, a step wider with every meter.",
    assumptions=(
        "the glue holds, and the carrier is much stiffer than the tape",
        "the carrier does not move with moisture along the tape",
        "the reference temperature of the tape is 20 °C, and the part is measured where it was cut",
        "strains are small and add",
    ),
    sources=(
        "Directive 2014/32/EU, Annex X (MI-008), chapter I, sections 1 and 2, via "
        "legislation.gov.uk/uksi/2016/1153/schedule/1I",
        "JCGM 100:2008 (GUM), 4.3.7: a rectangle between limits, from memory",
        "Hooke's law; thermal expansion in proportion to the change of temperature",
    ),
)
R = M.given("reading", "R", "mm", 1235, span=(10, 5000), meaning="length read on the tape")
ends = M.choice(
    "begins", "e", ("at a mark", "at the tape's end surface"), "at a mark",
    meaning="where the length begins: at a printed mark, or at the end of the tape itself",
)  # fmt: skip
laid = M.choice(
    "laid", "q", ("glued", "free"), "glued", meaning="glued to its carrier, or held at one end only"
)
a = M.given(
    "base_error", "a", "mm", 0.3, span=(0.05, 2), meaning="part of the class's error that does not grow",
    how="the class is printed near the tape's beginning", source="Directive 2014/32/EU",
)  # fmt: skip
b = M.given(
    "growth", "b", "mm/m", 0.2, span=(0.05, 2), meaning="growth of the class's error", how="as above",
    source="Directive 2014/32/EU",
)  # fmt: skip
c = M.given(
    "surface_error", r"c_{\mathrm{e}}", "mm", 0.2, span=(0.05, 2), meaning="the class's addition for an end surface",
    how="as above", source="Directive 2014/32/EU",
)  # fmt: skip
M.pick(
    "accuracy", table="tape_classes", row="class II",
    fills={"base_error": "base_error", "growth": "growth", "surface_error": "surface_error"},
    meaning="accuracy class of the tape",
)  # fmt: skip
P = M.given(
    "pull", "P", "N", 5, span=(0, 100), half=3,
    meaning="pull with which the tape was laid", how="spring scale at the tape's end",
)  # fmt: skip
wide = M.given(
    "tape_width", "w", "mm", 13, span=(5, 30), half=0.2, meaning="width of the tape", how="calipers"
)
t = M.given(
    "tape_thickness", "t", "mm", 0.13, span=(0.05, 0.5), half=0.01,
    meaning="thickness of the tape's steel, without glue and paint", how="micrometer on a scraped end",
)  # fmt: skip
E = M.given(
    "tape_modulus", "E", "GPa", 200, span=(50, 220), half=10, meaning="elastic modulus of the tape",
    source="steel, common handbooks, from memory",
)  # fmt: skip
alpha = M.given(
    "tape_expansion", r"\alpha", "1/K", 11.5e-6, span=(5e-6, 25e-6), half=0.5e-6,
    meaning="thermal expansion of the tape",
    source="steel tape 11.5e-6 to 12e-6 per kelvin, common handbooks, from memory",
)  # fmt: skip
beta = M.given(
    "carrier_expansion", r"\beta", "1/K", 23.4e-6, span=(3e-6, 30e-6), half=0.5e-6,
    meaning="thermal expansion of what the tape is glued to", how="aluminum 23e-6, wood along the grain 3e-6 to 5e-6",
    source="common handbooks, from memory",
)  # fmt: skip
T_1 = M.given(
    "laid_at", "T_{1}", "degC", 18, span=(-10, 45), half=1, meaning="temperature when laid", how="thermometer"
)
T_2 = M.given(
    "used_at", "T_{2}", "degC", 24, span=(-10, 45), half=2, meaning="temperature in use", how="thermometer"
)
allowed = M.given(
    "allowed", r"\delta_{\mathrm{max}}", "mm", 1, span=(0.05, 10), meaning="allowed error of the tape"
)
T_0 = M.constant(
    "reference",
    "T_{0}",
    "degC",
    20,
    meaning="reference temperature of the class",
    source="Directive 2014/32/EU",
)
meter = M.constant(
    "meter", r"\ell", "m", 1, meaning="step in which the class counts", source="Directive 2014/32/EU"
)

L = M.relation(
    "whole_meters", "L", "m", sp.ceiling(R / meter) * meter, meaning="length rounded up to the next whole meter",
    because="the class counts every meter that has been begun",
)  # fmt: skip
mpe = M.result(
    "class_error", r"\delta_{\mathrm{c}}", "mm", a + b * L + sp.Piecewise((0, sp.Eq(ends, 0)), (c, True)),
    resolution=0.01,
    meaning="maximum permissible error of the class, plus or minus",
    because="the base, the growth for the meters begun, and more where an end surface is in play",
    source="Directive 2014/32/EU, Annex X, chapter I, section 2",
)  # fmt: skip
u = M.result(
    "class_u", r"u_{\mathrm{c}}", "mm", mpe / sp.sqrt(3), resolution=0.01,
    meaning="standard uncertainty by the class", because="all that is known is that the error lies between the limits",
    lines=[(sp.sqrt(sp.Integral(sp.Symbol("y", real=True) ** 2 / (2 * mpe), (sp.Symbol("y", real=True), -mpe, mpe))),
            "mean square y over a rectangle from limit to limit")],
    source="JCGM 100:2008, 4.3.7",
)  # fmt: skip
glued = sp.Eq(laid, 0)
pulled = M.relation(
    "pull_strain", r"\varepsilon_{P}", "um/m", sp.Piecewise((P / (E * wide * t), glued), (0, True)),
    meaning="strain by the pull that the glue has frozen", resolution=1,
    because="stress is pull over section, strain is stress over modulus; without glue the tape springs back",
)  # fmt: skip
warm = M.relation(
    "warm_strain", r"\varepsilon_{T}", "um/m",
    sp.Piecewise((alpha * (T_1 - T_0) + beta * (T_2 - T_1), glued), (alpha * (T_2 - T_0), True)),
    meaning="strain by warmth", resolution=1,
    because="the tape grows by itself until it is glued, then with its carrier",
)  # fmt: skip
stretch = M.result(
    "stretch_error", r"\delta_{P}", "mm", pulled * R, resolution=0.001,
    meaning="what a length is longer than its reading by the pull", because="every millimeter is stretched alike",
)  # fmt: skip
heat = M.result(
    "warm_error", r"\delta_{T}", "mm", warm * R, resolution=0.001,
    meaning="what a length is longer than its reading by warmth", because="every millimeter has grown alike",
)  # fmt: skip
known = M.result(
    "known_error", r"\delta_{\mathrm{k}}", "mm", stretch + heat, resolution=0.001,
    meaning="error that pull and warmth make, which can be taken off",
    because="small strains add",
    lines=[(sp.Integral(pulled + warm, (sp.Symbol("x", real=True), 0, R)), "from mark to mark, x along the tape")],
)  # fmt: skip
worst = M.result(
    "worst", r"\delta", "mm", sp.Abs(known) + mpe, resolution=0.01,
    meaning="largest error of the tape at this reading",
    because="at worst the class's error lies on the same side",
)  # fmt: skip
M.result(
    "true_length", "R_{0}", "mm", R + known, resolution=0.01,
    meaning="length that the reading stands for, without the class's error",
    because="marks that stand farther apart make longer parts",
)  # fmt: skip
M.limit(
    "worst", "at this reading the tape is off by up to", value=worst, allowed=allowed,
    mend="lay a tape of a better class without pull, or calibrate the scale by test cuts",
)  # fmt: skip
M.caution(*SCALE)
M.caution(TEST_CUT)
M.caution("Lay the tape loose on a clean face and roll it down: pulled straight, it stays too long.",
          when=sp.And(glued, sp.Gt(stretch, mpe / 4)))  # fmt: skip
M.caution("A free tape buckles or creeps under its cover: fix one end only, and keep dust from under it.",
          when=sp.Eq(laid, 1))  # fmt: skip
MODEL = M.done()
