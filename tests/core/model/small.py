"""Statements of a few lines for the tests of the core."""

from collections.abc import Callable

import sympy as sp

from kit.core.model import Model

HEAD = """A test.

What follows?

Picture: Nothing.

Assumptions:
- none

Sources:
- test
"""


def blank(name: str = "test.small") -> Model:
    """Return a model in which nothing is stated yet."""
    return Model(name, HEAD)


def one(
    expr: Callable[[sp.Symbol], sp.Expr],
    span: tuple[float, float] = (0, 10),
    *,
    in_unit: str = "",
    result_unit: str = "",
    value: float | None = None,
) -> Model:
    """Return a closed model of one given `x` and one result `y` = expr(x)."""
    m = blank()
    at = sum(span) / 2 if value is None else value
    x = m.given("x", "x", f"{at} {in_unit}", span, "what is varied")
    m.result("y", "y", result_unit, "what follows")
    m.equals(expr(x), "it is stated so")
    return m.done()
