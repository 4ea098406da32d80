"""What moisture does to sizes of wood: stated once, for every model that has wood in two climates.

Each function states its givens and relations on the model it is handed, in the words of a handbook.

Sources: Wood Handbook, FPL-GTR-190, equation 4-5 and FPL-RN-0268 (1998) for the moisture; table 13-5 and equation
13-2 for movement across the grain; chapter 4 for shrinkage along the grain.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.stop.moisture import MODEL as MOISTURE

ASSUMPTIONS = (
    "the wood has come to rest with the air both times",
    "between 6 and 14 % moisture the movement is in proportion to the change of moisture",
)
ALONG_ASSUMPTION = "along the grain wood moves evenly from fiber saturation to ovendry"
ACROSS_SOURCES = (
    "Wood Handbook, FPL-GTR-190, equation 4-5, and FPL-RN-0268 (1998): equilibrium moisture",
    "Wood Handbook, FPL-GTR-190, table 13-5 and (from memory) equation 13-2: movement across the grain",
)
ALONG_SOURCE = "Wood Handbook, FPL-GTR-190, chapter 4, from memory: shrinkage along the grain, fiber saturation"


def across_givens(M: Model, part: str) -> tuple[sp.Symbol, sp.Symbol, sp.Symbol]:
    """State how the growth rings of `part` lie and how its wood moves; return (cut, tangential, radial)."""
    cut = M.choice(
        "cut",
        "q",
        ("flat-sawn", "quarter-sawn"),
        "flat-sawn",
        "how the growth rings lie: the width runs along them (flat-sawn) or across",
    )
    tangential = M.given(
        "tangential",
        r"C_{\mathrm{T}}",
        "0.00353 ± 0.0004 1/%",
        (0.001, 0.006),
        "movement along the growth rings per percent of moisture",
    )
    M.measured("table")
    M.source("Wood Handbook, FPL-GTR-190, table 13-5, sugar maple")
    radial = M.given(
        "radial",
        r"C_{\mathrm{R}}",
        "0.00165 ± 0.0002 1/%",
        (0.0005, 0.004),
        "movement across the growth rings per percent of moisture",
    )
    M.measured("table")
    M.source("Wood Handbook, FPL-GTR-190, table 13-5, sugar maple")
    M.pick(
        "wood",
        "woods",
        "hard maple",
        {"tangential": "tangential_coefficient", "radial": "radial_coefficient"},
        f"wood of {part}",
    )
    return cut, tangential, radial


def along_givens(M: Model) -> tuple[sp.Symbol, sp.Symbol]:
    """State the shrinkage along the grain and the moisture it starts from; return both."""
    shrinkage = M.given(
        "shrinkage_along", r"S_{\mathrm{L}}", "0.15 ± 0.05 %", (0.05, 2), "shrinkage along the grain, green to ovendry"
    )
    M.measured("table; reaction or juvenile wood up to 2 %")
    M.source("Wood Handbook, FPL-GTR-190, chapter 4, 0.1 to 0.2 %, from memory")
    saturation = M.given(
        "fiber_saturation", r"u_{\mathrm{f}}", "30 ± 2 %", (20, 40), "moisture content at fiber saturation"
    )
    M.measured("table")
    M.source("Wood Handbook, FPL-GTR-190, chapter 4, from memory")
    return shrinkage, saturation


def moistures(M: Model) -> tuple[sp.Symbol, sp.Symbol]:
    """State the air when fitted and in use; return the wood's moisture in each."""
    zero = M.constant("ice", "T_{0}", "273.15 K", "zero of the Celsius scale", "definition of the scale")
    degree = M.constant("degree", r"\mathrm{K}", "1 K", "one degree", "unit")
    climates = {}
    for when, words, humidity, temperature in (("made", "when fitted", 40, 18), ("used", "in use", 65, 22)):
        H = M.given(
            f"{when}_humidity",
            rf"H_{{\mathrm{{{when}}}}}",
            f"{humidity} ± 3 %",
            (5, 95),
            f"relative humidity of the air {words}",
        )
        M.measured("hygrometer, checked over wet salt")
        T = M.given(
            f"{when}_temperature",
            rf"T_{{\mathrm{{{when}}}}}",
            f"{temperature} ± 1 degC",
            (0, 60),
            f"temperature of the air {words}",
        )
        M.measured("thermometer")
        air = {"humidity": H, "temperature": T, "ice": zero, "degree": degree}
        climates[when] = M.include(MOISTURE, prefix=when, label=when, bind=air)
    return climates["made"]["moisture"], climates["used"]["moisture"]


def gained(M: Model, made: sp.Symbol, used: sp.Symbol) -> sp.Symbol:
    """State the change of moisture from one climate to the other."""
    moisture_change = M.result(
        "moisture_change",
        r"\Delta u",
        "%",
        "change of moisture content; below zero: it dries",
        resolution=0.1,
        within=(-100, 100),
    )
    M.equals(used - made, "only the difference of the two climates moves the wood")
    return moisture_change


def coefficient_across(M: Model, cut: sp.Symbol, tangential: sp.Symbol, radial: sp.Symbol) -> sp.Symbol:
    """State the coefficient that the lie of the growth rings chooses."""
    coefficient = M.relation("coefficient", "C", "1/%")
    M.equals(
        sp.Piecewise((tangential, sp.Eq(cut, 0)), (radial, True)), "the width runs along or across the growth rings"
    )
    return coefficient


def width_change(M: Model, width: sp.Expr, C: sp.Symbol, gain: sp.Symbol, part: str) -> sp.Symbol:
    """State how much a `width` across the grain changes with the moisture gained."""
    change = M.result(
        "width_change",
        r"\Delta w",
        "mm",
        f"change of the width of {part}; below zero: it shrinks",
        resolution=0.001,
        signed=True,
    )
    M.equals(width * C * gain, "each percent moves each millimeter by the coefficient")
    return change


def coefficient_along(M: Model, shrinkage: sp.Symbol, saturation: sp.Symbol) -> sp.Symbol:
    """State the coefficient along the grain."""
    coefficient = M.relation("coefficient_along", r"\alpha", "1/%")
    M.equals(shrinkage / saturation, "the whole shrinkage is spread evenly down from fiber saturation")
    return coefficient


def moisture_cautions(M: Model, made: sp.Symbol, used: sp.Symbol) -> None:
    """State where the coefficients are less sure."""
    low, high = sp.Rational(6, 100), sp.Rational(14, 100)
    for words, moisture in (("when fitted", made), ("in use", used)):
        outside = sp.Or(sp.Lt(moisture, low), sp.Gt(moisture, high))
        M.caution(f"The moisture {words} leaves 6 to 14 %: the coefficients are less sure there.", when=outside)
