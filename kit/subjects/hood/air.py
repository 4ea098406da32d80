"""The air through a hood: does it come in fast enough at the opening, and does the hose carry the dust away?

The question in the trade's words: this collector, that hose, this hood. How fast does air come in where the hood is
open, how fast does it run in the hose, and how large an opening can the collector hold?

The picture: air comes in evenly through the free opening of the hood, gathers at the mouth of the hose, runs through
the hose with its bends to the collector, and leaves through the filter. The collector's fan gives less pressure the
more air passes; the way needs more. Where both are equal, there it runs.

Assumptions: the flow is turbulent and steady; all losses but the filter's grow with the square of the flow; the fan's
pressure falls from its shut-off value with the square of the flow; friction is taken at the wished speed.

Sources: fluid mechanics of pipes (Darcy and Weisbach; P. K. Swamee and A. K. Jain, 1976); velocity before a suction
opening by J. M. DallaValle, 1930s; entry losses and speeds as in industrial ventilation handbooks of the ACGIH kind.
"""

import sympy as sp

from kit.core.model import Model, equal

M = Model(
    "hood.air",
    title="Air through a hood, hose and collector",
    question="Does the air come in fast enough at the hood, does the hose carry the dust, and how much may stay open?",
    picture="Air comes in through the free opening of the hood, gathers at the mouth of the hose and runs through its "
    "bends to the collector. Below it the fan's pressure over the flow, falling, and what the way needs, rising; "
    "they cross where the collector runs.",
    assumptions=(
        "air comes in through the free opening evenly, and nowhere else",
        "the flow is turbulent and steady; losses grow with the square of the speed, that of the filter stays as given",
        "the fan's pressure falls from its shut-off value with the square of the flow to nothing at free flow",
        "friction in the hose is taken at the wished speed; at the real one it differs by a few percent",
        "before the opening the air slows down as before a suction opening with no walls near it (DallaValle)",
    ),
    sources=(
        "Darcy and Weisbach: loss in a pipe, textbook of fluid mechanics, from memory",
        "P. K. Swamee, A. K. Jain, Explicit equations for pipe-flow problems, J. Hydraulics Div. ASCE 102 (1976): "
        "friction factor, checked against a published value",
        "J. M. DallaValle, Exhaust Hoods: speed before an opening, Q = v (10 x² + A), flanged 0.75 of it; read in a "
        "handbook on the web, the 0.75 from memory",
        "ACGIH, Industrial Ventilation: entry losses, velocity pressure, from memory; duct speeds for wood dust read "
        "in a duct maker's table after it",
    ),
)

known = M.choice(
    "known", "q", ("fan curve", "measured flow"), "fan curve", meaning="what is known of the collector"
)
Q0 = M.given(
    "free_flow",
    "Q_{0}",
    "m^3/h",
    1150,
    span=(100, 10000),
    half=60,
    meaning="fan: flow with nothing connected",
    how="maker's curve, where the pressure is nothing",
)
p0 = M.given(
    "shut_pressure",
    "p_{0}",
    "Pa",
    1900,
    span=(500, 10000),
    half=50,
    meaning="fan: pressure with the inlet shut",
    how="maker's curve, or U-tube at the shut inlet",
)
Qm = M.given(
    "measured_flow",
    r"Q_{\mathrm{m}}",
    "m^3/h",
    650,
    span=(10, 10000),
    half=60,
    meaning="flow measured with hood and hose connected",
    how="anemometer across the opening, in squares",
)
pf = M.given(
    "filter_drop",
    r"\Delta p_{\mathrm{f}}",
    "Pa",
    150,
    span=(0, 450),
    half=30,
    meaning="pressure lost in filter and collector",
    how="U-tube before and behind, filter in use",
)
A = M.given(
    "inlet",
    "A",
    "cm^2",
    2435,
    span=(10, 20000),
    half=20,
    meaning="free area through which air comes into the hood",
    how="hood's opening and notches, from its model",
)
D = M.given("diameter", "D", "mm", 100, span=(30, 400), half=0.5, meaning="inside diameter of the hose",
            how="caliper")  # fmt: skip
L = M.given("length", r"\ell", "mm", 2500, span=(100, 15000), half=20, meaning="length of the hose, drawn straight",
            how="tape")  # fmt: skip
eps = M.given(
    "roughness",
    r"\varepsilon",
    "mm",
    1,
    span=(0.001, 3),
    half=0.4,
    meaning="roughness inside the hose",
    how="0.15 mm spiral duct, about 1 mm ribbed hose drawn straight, more if pushed together",
    source="duct 0.15 mm: textbooks, from memory; ribbed hose: from a ventilation table's loss per foot",
)
n = M.count("bends", "n", 2, span=(0, 12), meaning="right-angled bends in the hose")
zb = M.given("bend_loss", r"\zeta_{\mathrm{b}}", "", 0.4, span=(0.1, 1.5), half=0.15,
             meaning="loss of one bend, in velocity pressures", how="0.2 to 0.4 at a radius of 2 diameters, 1.2 sharp",
             source="ventilation handbooks, from memory")  # fmt: skip
mouth = M.choice("mouth", "e", ("plain end", "flanged end", "taper 45°", "bell mouth"), "flanged end",
                 meaning="how the hose begins in the hood")  # fmt: skip
free = M.choice("front", "w", ("free", "flange or wall around"), "flange or wall around",
                meaning="what is round the hood's opening")  # fmt: skip
rho = M.given("density", r"\rho", "kg/m^3", 1.2, span=(0.9, 1.4), half=0.03, meaning="density of the air",
              how="1.20 at 20 °C and sea level", source="gas law, standard air, from memory")  # fmt: skip
nu = M.given("viscosity", r"\nu", "mm^2/s", 15.1, span=(12, 20), half=0.5, meaning="kinematic viscosity of the air",
             how="15.1 at 20 °C", source="textbook of fluid mechanics, from memory")  # fmt: skip
vw = M.given("face_wished", r"v_{\mathrm{w}}", "m/s", 0.75, span=(0.1, 5),
             meaning="speed wished where air comes in", how="0.5 to 1 m/s for booths and enclosing hoods",
             source="ventilation handbooks, 100 to 200 ft/min, from memory")  # fmt: skip
vt = M.given(
    "transport",
    r"v_{\mathrm{t}}",
    "m/s",
    20,
    span=(8, 35),
    meaning="speed that keeps chips and dust moving",
    how="18 to 20 m/s dry dust and shavings, 20 to 24 heavy or damp, 28 wet chips",
    source="a duct maker's table after ACGIH, read; EN 12779: 20 and 28 m/s, from memory",
)
vc = M.given("capture", r"v_{\mathrm{c}}", "m/s", 0.5, span=(0.1, 5),
             meaning="speed that still turns floating dust round",
             how="0.25 to 0.5 m/s in still air; nothing turns what the blade throws",
             source="ventilation handbooks, from memory")  # fmt: skip

a = M.relation("hose_area", "a", "mm^2", sp.pi * D**2 / 4, because="the hose is round")
Re = M.relation("reynolds", r"\mathrm{Re}", "", vt * D / nu, resolution=100,
                because="inertia against viscosity, at the wished speed")  # fmt: skip
lam = M.result(
    "friction", r"\lambda", "", 0.25 / sp.log(eps / D / sp.Rational(37, 10) + 5.74 / Re**0.9, 10) ** 2,
    meaning="friction factor of the hose", resolution=0.0001,
    because="roughness holds the air back at high speed, viscosity at low; this formula joins both",
    source="Swamee and Jain, 1976",
)  # fmt: skip
ze = M.relation(
    "entry_loss", r"\zeta_{\mathrm{e}}", "",
    sp.Piecewise((0.93, sp.Eq(mouth, 0)), (0.49, sp.Eq(mouth, 1)), (0.25, sp.Eq(mouth, 2)), (0.04, True)),
    because="the air bunches behind the edge of the mouth, the less the rounder it is",
    source="ACGIH, Industrial Ventilation, from memory; taper 0.15 to 0.25",
)  # fmt: skip
zeta = M.result(
    "loss", r"\zeta", "", 1 + ze + n * zb + lam * L / D, resolution=0.01,
    meaning="loss of the way, in velocity pressures",
    because="setting the air going takes one velocity pressure; entry, bends and friction add theirs",
)  # fmt: skip
Qu = sp.Symbol("fan_flow", real=True)
Qf = M.relation(
    "fan_flow", r"Q_{\mathrm{f}}", "m^3/h", sp.sqrt((p0 - pf) / (p0 / Q0**2 + zeta * rho / (2 * a**2))), resolution=1,
    meaning="flow at which the fan gives what the way needs",
    because="the collector runs where the falling curve of the fan crosses the rising one of the way",
    lines=[(equal(p0 * (1 - (Qu / Q0) ** 2), pf + zeta * rho / 2 * (Qu / a) ** 2),
            "on the left what the fan gives, on the right what the way needs")],
)  # fmt: skip
Q = M.result(
    "flow", "Q", "m^3/h", sp.Piecewise((Qf, sp.Eq(known, 0)), (Qm, True)), resolution=1,
    meaning="flow through hood and hose", because="from the fan's curve, or as measured",
)  # fmt: skip
v = M.result("hose_speed", "v", "m/s", Q / a, resolution=0.1, meaning="speed in the hose",
             because="the flow spreads over the hose's area")  # fmt: skip
vf = M.result("face_speed", r"v_{\mathrm{A}}", "m/s", Q / A, resolution=0.01, meaning="speed where air comes in",
              because="the same flow spreads over the free opening",
              lines=[(v * a / A, "what runs in the hose has come in at the opening")])  # fmt: skip
most = M.result("largest_opening", r"A_{\mathrm{max}}", "cm^2", Q / vw, resolution=10,
                meaning="largest free opening that this flow can hold",
                because="at that area the air comes in just at the wished speed")  # fmt: skip
share = M.relation("around", "k", "", sp.Piecewise((sp.Integer(1), sp.Eq(free, 0)), (sp.Rational(3, 4), True)),
                   because="a flange or wall keeps out the air from behind, a quarter of the whole",
                   source="DallaValle; 0.75 from memory")  # fmt: skip
spare = M.relation(
    "reach_area", "S", "cm^2", (Q / (share * vc) - A) / 10, resolution=1,
    because="before the opening the flow passes through a surface that grows with the distance, 10 x² + A",
    lines=[(equal(Q, share * vc * (10 * sp.Symbol("reach_area", real=True) + A)), "solved for x²")],
)  # fmt: skip
x = M.result(
    "capture_reach",
    "x",
    "mm",
    sp.sqrt(sp.Max(spare, 0)),
    resolution=1,
    meaning="how far before the opening floating dust is still drawn in",
    because="the distance at which the air has slowed to the capture speed; nothing if it never is as fast",
)
pv = M.relation(
    "velocity_pressure",
    r"p_{\mathrm{v}}",
    "Pa",
    rho * v**2 / 2,
    resolution=1,
    meaning="velocity pressure in the hose",
    because="the work that sets the air going, for each volume",
)
M.result("hood_pressure", r"p_{\mathrm{h}}", "Pa", (1 + ze) * pv, resolution=1,
         meaning="suction that a U-tube shows at the hose close behind the hood",
         because="setting the air going and the loss at the entry are paid there")  # fmt: skip
dp = M.result(
    "total_loss",
    r"\Delta p",
    "Pa",
    zeta * pv + pf,
    resolution=1,
    meaning="pressure that the whole way needs",
    because="the way's losses, and the filter's",
)
M.result("needed_flow", r"Q_{\mathrm{t}}", "m^3/h", vt * a, resolution=1,
         meaning="flow that this hose needs to stay clean",
         because="the wished speed over the hose's area")  # fmt: skip

M.limit(
    "face",
    "where it comes in the air runs at",
    value=vf,
    allowed=vw,
    sense=">=",
    resolution=0.01,
    mend="close part of the opening, shorten or widen the hose, or take a stronger collector",
)
M.limit("transport", "in the hose the air runs at", value=v, allowed=vt, sense=">=", resolution=0.1,
        mend="take a narrower hose, or shorten it; else dust settles and can smolder")  # fmt: skip

M.caution("Fine wood dust burns and explodes in air: no sparks, no metal, no grinding on this hose; no smoking; empty "
          "the collector outdoors every day.")  # fmt: skip
M.caution(
    "Collectors, ducts and filters for combustible dust are ruled by law and standards (explosion vents, "
    "grounding, place of the collector): ask the local rules and a qualified person before you build."
)
M.caution("Hose and hood charge up: use hose with a wire, and ground wire, hood and collector together.")
M.caution("A hood does not make the air clean: wood dust harms lungs, that of many hardwoods causes cancer. Measure or "
          "wear a respirator; the filter decides what comes back into the room.")  # fmt: skip
M.caution(
    "Guards stay on; no hood replaces one. Unplug the machine and switch the collector off before reaching in."
)
M.caution("The air runs more than half as fast again as the hose needs: it is loud and wears the bends; a wider hose "
          "would take less.", when=sp.Gt(v, sp.Rational(3, 2) * vt))  # fmt: skip
M.caution(
    "The opening is slow enough for a draft in the room to blow dust out.",
    when=sp.Lt(vf, sp.Rational(1, 2) * vw),
)
M.caution("The measured flow is more than the fan gives with nothing connected: measure again.",
          when=sp.And(sp.Eq(known, 1), sp.Gt(Qm, Q0)))  # fmt: skip

MODEL = M.done()
