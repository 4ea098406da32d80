"""What several leveling models share: shares of three places in a fourth, weights, and cautions."""

from __future__ import annotations

from collections.abc import Sequence

import sympy as sp

from kit.model import Model

CAUTIONS = (
    "Unplug the machine and let it stand still before you measure at it, lift it or put pads under it.",
    "Lift a heavy machine with help or a hoist, and never reach under it while it hangs or stands on a lever.",
    "Guards stay on, and hands stay 150 mm (6 in) from the blade when it runs again.",
    "The machine's manual and the rules of your shop come before anything printed here.",
)

Place = tuple[sp.Expr, sp.Expr]


def warn(M: Model) -> None:
    """State the cautions of every work under and at a standing machine."""
    for text in CAUTIONS:
        M.caution(text)


def state_place(
    M: Model,
    i: int,
    place: tuple[tuple[float, float], tuple[float, float], float, float],
    *,
    what: str,
    ways: tuple[str, str],
    how: str,
) -> Place:
    """State where the `i`-th place of three is; `place` holds the spans and the values of x and y in mm."""
    x_span, y_span, *at = place
    x, y = (
        M.given(
            f"{axis}_{i}", f"{axis}_{{{i}}}", "mm", value, span=span, half=1,
            meaning=f"{what} {i}, {told}", how=how,
        )
        for axis, value, span, told in zip("xy", at, (x_span, y_span), ways, strict=True)
    )  # fmt: skip
    return x, y


def twice_area(a: Place, b: Place, c: Place) -> sp.Expr:
    """Return twice the area of the triangle a, b, c; above zero if they run counterclockwise."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def opposite(places: Sequence[Place], n: int, at: Place) -> sp.Expr:
    """Return twice the area of the triangle that remains when place `n` of three moves to `at`."""
    moved = [at if i == n else place for i, place in enumerate(places)]
    return twice_area(*moved)


def gravity(M: Model) -> sp.Symbol:
    """State the standard acceleration of free fall."""
    return M.constant(
        "gravity", "g", "m/s^2", 9.80665, meaning="standard acceleration of free fall",
        source="definition, third General Conference on Weights and Measures, 1901",
    )  # fmt: skip


def below(x: sp.Expr, u: sp.Expr) -> sp.Expr:
    """Return the probability that a normal error of standard uncertainty `u` stays below `x`."""
    return (1 + sp.erf(x / (sp.sqrt(2) * u))) / 2


def folds(p: sp.Expr, p_1: sp.Expr, p_2: sp.Expr) -> sp.Expr:
    """Return how far a pressure `p` lies before `p_1`, in the measure of the doublings from `p_1` to `p_2`.

    A pile of cards that gives way alike for each doubling is thicker under `p` by that times the change of thickness.
    """
    return sp.log(p_1 / p) / sp.log(p_2 / p_1)
