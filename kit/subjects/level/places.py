"""What several leveling models share: shares of three places in a fourth, weights, and cautions."""

from __future__ import annotations

from collections.abc import Sequence

import sympy as sp

from kit.core.model import Model

Place = tuple[sp.Expr, sp.Expr]


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
    both = []
    for axis, value, span, way in zip("xy", at, (x_span, y_span), ways, strict=True):
        at_axis = M.given(f"{axis}_{i}", f"{axis}_{{{i}}}", f"{value} ± 1 mm", span, f"{what} {i}, {way}")
        M.measured(how)
        both.append(at_axis)
    x, y = both
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
        "gravity",
        "g",
        "9.80665 m/s^2",
        "standard acceleration of free fall",
        "definition, third General Conference on Weights and Measures, 1901",
    )
