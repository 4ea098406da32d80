"""What all folds share: the sheet, where its neutral fiber lies, and how much flat stock a bend takes.

Bend angle: the angle through which the sheet is turned, 0 for a flat sheet, 180° for a hem. The angle that
opens between the legs is 180° less the bend angle; DIN 6935 counts in that one.
"""

import sympy as sp

from kit.core.model import Model

MACHINERY = "Machinery’s Handbook, 31st ed., p. 1421, Eq. 32 to 34 (shop formulas for the length of a bend)"
SHARPEST = sp.Rational(13, 20)
"""Least inside radius over thickness for which DIN 6935 states its factor; from memory, the formula itself was read."""
DIN = "DIN 6935 as printed in a German handbook of metalworking tables (Tabellenbuch Metall)"


def state_sheet(m: Model) -> tuple[sp.Symbol, sp.Symbol, sp.Symbol]:
    """State a sheet bent on a given tool and return thickness T, inside radius R and neutral-axis factor K."""
    T = m.given("thickness", "T", "1.5 ± 0.05 mm", (0.3, 6), "thickness of the sheet")
    m.measured("micrometer, at a clean edge away from burrs")
    R = m.given("inside_radius", "R", "2 ± 0.2 mm", (0.1, 60), "inside radius of the bend")
    m.measured("radius gauge in a trial bend, not the radius of the tool")
    method = m.choice(
        "method", "m", ("shop factor", "DIN 6935"), "shop factor", "rule for where the neutral fiber lies"
    )
    shop = m.given(
        "shop_factor", r"K_{\mathrm{shop}}", "0.407 ± 0.03", (0.2, 0.5), "neutral-axis factor of the material class"
    )
    m.measured("from the table, or from a measured trial bend")
    m.source(MACHINERY)
    m.pick(
        "material",
        "bend_factors",
        "aluminum, soft steel, half-hard copper and brass",
        {"shop_factor": "neutral_axis_factor"},
        "material class of the sheet",
    )
    k = m.relation("din_factor", "k", "")
    m.equals(
        sp.Piecewise((0.65 + sp.log(R / T) / (2 * sp.log(10)), R <= 5 * T), (1, True)),
        "the standard moves the neutral fiber inward in sharp bends and leaves it in the middle above R = 5 T; its "
        "factor multiplies half the thickness",
    )
    m.source(DIN)
    K = m.result("neutral_factor", "K", "", "neutral-axis factor in use", resolution=0.001, within=(0, 0.5))
    m.equals(
        sp.Piecewise((shop, sp.Eq(method, 0)), (k / 2, True)),
        "the neutral fiber, which keeps its length, lies K times the thickness from the inside face",
    )
    m.limit(
        "factor_holds",
        "the inside radius is",
        R,
        ">=",
        sp.Piecewise((SHARPEST * T, sp.Eq(method, 1)), (R, True)),
        in_unit="mm",
        resolution=0.01,
    )
    m.mend("bend a trial piece and enter its own factor: DIN 6935 has none for a bend sharper than 0.65 T")
    m.caution(
        "Factors shift with alloy, temper, tool and grain: bend a trial piece from the same sheet, measure it, "
        "and correct the factor before cutting the blanks."
    )
    m.caution(
        "Fresh-cut sheet edges cut skin: deburr them, wear gloves, and keep hands out of the folding machine. "
        "Its manual and the rules of your place come first."
    )
    return T, R, K


def allowance(angle: sp.Expr, R: sp.Expr, K: sp.Expr, T: sp.Expr) -> sp.Expr:
    """Return the length of the neutral fiber through a bend, the bend allowance."""
    return angle * (R + K * T)


def setback_factor(angle: sp.Expr) -> sp.Expr:
    """Return the outside setback per R + T.

    Up to 90° a leg is measured to the corner where the outside faces would meet; beyond 90° to the outermost
    point of the bend, as a caliper reads it and DIN 6935 has it.
    """
    return sp.Piecewise((sp.tan(angle / 2), 2 * angle <= sp.pi), (1, True))


def outer_strain(R: sp.Expr, K: sp.Expr, T: sp.Expr) -> sp.Expr:
    """Return the strain of the outside face of a bend whose neutral fiber lies K T from the inside face."""
    return (1 - K) * T / (R + K * T)


def state_cloth(m: Model, done: str) -> sp.Symbol:
    """State a cloth, of which `done` says what happens to it ("hemmed"), and return its thickness c."""
    c = m.given("cloth_thickness", "c", "0.55 ± 0.05 mm", (0.05, 3), "thickness of the cloth")
    m.measured("ten plies under a light weight, measured together and divided")
    m.pick("cloth", "cloths", "PVC-coated polyester, 18 oz", {"cloth_thickness": "thickness"}, f"cloth that is {done}")
    return c
