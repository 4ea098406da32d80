"""Error of an adhesive tape.

How far may a tape be off at a reading, by its class, by warmth and by the pull with which it was laid?

In the trade's words: the tape beside the fence says 1235. How far from that can it honestly be, and how much of it did
I do myself, by pulling it straight while the glue took?

Picture: A thin tape on the fence: glued, it keeps its pull and grows with the fence; free, it grows by itself. Beside
it the band of the class, a step wider with every meter.

Assumptions:
- the glue holds, and the carrier is much stiffer than the tape
- the carrier does not move with moisture along the tape
- the reference temperature of the tape is 20 °C, and the part is measured where it was cut
- strains are small and add

Sources:
- Directive 2014/32/EU, Annex X (MI-008), chapter I, sections 1 and 2, via legislation.gov.uk/uksi/2016/1153/schedule/1I
- JCGM 100:2008 (GUM), 4.3.7: a rectangle between limits, from memory
- Hooke's law; thermal expansion in proportion to the change of temperature

Notes: A thin steel tape lies on a carrier, fence or bench. Glued, it keeps the pull with which it was laid and from
then on grows with the carrier. Held at one end only, it lies free and grows by itself. Also: Directive 2014/32/EU,
Annex X, chapter I (read), for the classes: the error grows with the length, rounded up to the next whole meter, from 20
°C.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import SCALE, TEST_CUT

M = Model("scale.tape", __doc__)
R = M.given("reading", "R", "1235 mm", (10, 5000), "length read on the tape")
ends = M.choice(
    "begins",
    "e",
    ("at a mark", "at the tape's end surface"),
    "at a mark",
    "where the length begins: at a printed mark, or at the end of the tape itself",
)
laid = M.choice("laid", "q", ("glued", "free"), "glued", "glued to its carrier, or held at one end only")
a = M.given("base_error", "a", "0.3 mm", (0.05, 2), "part of the class's error that does not grow")
M.measured("the class is printed near the tape's beginning")
M.source("Directive 2014/32/EU")
b = M.given("growth", "b", "0.2 mm/m", (0.05, 2), "growth of the class's error")
M.measured("as above")
M.source("Directive 2014/32/EU")
c = M.given("surface_error", r"c_{\mathrm{e}}", "0.2 mm", (0.05, 2), "the class's addition for an end surface")
M.measured("as above")
M.source("Directive 2014/32/EU")
M.pick(
    "accuracy",
    "tape_classes",
    "class II",
    {"base_error": "base_error", "growth": "growth", "surface_error": "surface_error"},
    "accuracy class of the tape",
)
P = M.given("pull", "P", "5 ± 3 N", (0, 100), "pull with which the tape was laid")
M.measured("spring scale at the tape's end")
wide = M.given("tape_width", "w", "13 ± 0.2 mm", (5, 30), "width of the tape")
M.measured("calipers")
t = M.given(
    "tape_thickness", "t", "0.13 ± 0.01 mm", (0.05, 0.5), "thickness of the tape's steel, without glue and paint"
)
M.measured("micrometer on a scraped end")
E = M.given("tape_modulus", "E", "200 ± 10 GPa", (50, 220), "elastic modulus of the tape")
M.source("steel, common handbooks, from memory")
alpha = M.given("tape_expansion", r"\alpha", "11.5e-6 ± 0.5e-6 1/K", (5e-6, 25e-6), "thermal expansion of the tape")
M.source("steel tape 11.5e-6 to 12e-6 per kelvin, common handbooks, from memory")
beta = M.given(
    "carrier_expansion",
    r"\beta",
    "23.4e-6 ± 0.5e-6 1/K",
    (3e-6, 30e-6),
    "thermal expansion of what the tape is glued to",
)
M.measured("aluminum 23e-6, wood along the grain 3e-6 to 5e-6")
M.source("common handbooks, from memory")
T_1 = M.given("laid_at", "T_{1}", "18 ± 1 degC", (-10, 45), "temperature when laid")
M.measured("thermometer")
T_2 = M.given("used_at", "T_{2}", "24 ± 2 degC", (-10, 45), "temperature in use")
M.measured("thermometer")
allowed = M.given("allowed", r"\delta_{\mathrm{max}}", "1 mm", (0.05, 10), "allowed error of the tape")
T_0 = M.constant("reference", "T_{0}", "20 degC", "reference temperature of the class", "Directive 2014/32/EU")
meter = M.constant("meter", r"\ell", "1 m", "step in which the class counts", "Directive 2014/32/EU")

L = M.relation("whole_meters", "L", "m", "length rounded up to the next whole meter")
M.equals(sp.ceiling(R / meter) * meter, "the class counts every meter that has been begun")
mpe = M.result(
    "class_error",
    r"\delta_{\mathrm{c}}",
    "mm",
    "maximum permissible error of the class, plus or minus",
    resolution=0.01,
)
M.equals(
    a + b * L + sp.Piecewise((0, sp.Eq(ends, 0)), (c, True)),
    "the base, the growth for the meters begun, and more where an end surface is in play",
)
M.source("Directive 2014/32/EU, Annex X, chapter I, section 2")
x, y = sp.symbols("x y", real=True)
u = M.result("class_u", r"u_{\mathrm{c}}", "mm", "standard uncertainty by the class", resolution=0.01)
M.step(sp.sqrt(sp.Integral(y**2 / (2 * mpe), (y, -mpe, mpe))), "mean square y over a rectangle from limit to limit")
M.equals(mpe / sp.sqrt(3), "all that is known is that the error lies between the limits")
M.source("JCGM 100:2008, 4.3.7")
glued = sp.Eq(laid, 0)
pulled = M.relation(
    "pull_strain", r"\varepsilon_{P}", "um/m", "strain by the pull that the glue has frozen", resolution=1
)
M.equals(
    sp.Piecewise((P / (E * wide * t), glued), (0, True)),
    "stress is pull over section, strain is stress over modulus; without glue the tape springs back",
)
warm = M.relation("warm_strain", r"\varepsilon_{T}", "um/m", "strain by warmth", resolution=1)
M.equals(
    sp.Piecewise((alpha * (T_1 - T_0) + beta * (T_2 - T_1), glued), (alpha * (T_2 - T_0), True)),
    "the tape grows by itself until it is glued, then with its carrier",
)
stretch = M.result(
    "stretch_error", r"\delta_{P}", "mm", "what a length is longer than its reading by the pull", resolution=0.001
)
M.equals(pulled * R, "every millimeter is stretched alike")
heat = M.result(
    "warm_error",
    r"\delta_{T}",
    "mm",
    "what a length is longer than its reading by warmth",
    resolution=0.001,
    signed=True,
)
M.equals(warm * R, "every millimeter has grown alike")
known = M.result(
    "known_error",
    r"\delta_{\mathrm{k}}",
    "mm",
    "error that pull and warmth make, which can be taken off",
    resolution=0.001,
    signed=True,
)
M.step(sp.Integral(pulled + warm, (x, 0, R)), "from mark to mark, x along the tape")
M.equals(stretch + heat, "small strains add")
worst = M.result("worst", r"\delta", "mm", "largest error of the tape at this reading", resolution=0.01)
M.equals(sp.Abs(known) + mpe, "at worst the class's error lies on the same side")
M.result("true_length", "R_{0}", "mm", "length that the reading stands for, without the class's error", resolution=0.01)
M.equals(R + known, "marks that stand farther apart make longer parts")
M.limit("worst", "at this reading the tape is off by up to", worst, "<=", allowed)
M.mend("lay a tape of a better class without pull, or calibrate the scale by test cuts")
M.caution(*SCALE)
M.caution(TEST_CUT)
M.caution(
    "Lay the tape loose on a clean face and roll it down: pulled straight, it stays too long.",
    when=sp.And(glued, sp.Gt(stretch, mpe / 4)),
)
M.caution(
    "A free tape buckles or creeps under its cover: fix one end only, and keep dust from under it.", when=sp.Eq(laid, 1)
)
MODEL = M.done()
