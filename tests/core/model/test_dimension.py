"""The dimension of a formula, against dimensions that follow from the definitions of the units."""

import pytest
import sympy as sp

from kit.core.model.dimension import NONE, DimensionError, dimension, words

LENGTH, FORCE, ANGLE = (1, 0, 0, 0), (1, 1, -2, 0), (0, 0, 0, 0)
a, b, F, t, n = (sp.Symbol(name, real=True) for name in "abFtn")
KNOWN = {a: LENGTH, b: LENGTH, F: FORCE, t: ANGLE, n: NONE}
y = sp.Symbol("y", real=True)


@pytest.mark.parametrize(
    ("expr", "dim"),
    [
        (a + b, LENGTH),
        (a - 2 * b, LENGTH),
        (a + sp.S.Zero, LENGTH),
        (a * b, (2, 0, 0, 0)),
        (F / a**2, (-1, 1, -2, 0)),  # a stress
        (sp.sqrt(a * b), LENGTH),
        (a ** sp.Rational(1, 3), (sp.Rational(1, 3), 0, 0, 0)),
        ((a / b) ** n, NONE),
        (sp.pi * a, LENGTH),
        (sp.E * a, LENGTH),
        (sp.sin(a / b), NONE),
        (sp.log(F * a / (F * b)), NONE),
        (sp.ceiling(a / b), NONE),
        (sp.atan2(a, b), NONE),
        (sp.sign(a), NONE),
        (sp.Abs(a - b), LENGTH),
        (sp.Min(a, b), LENGTH),
        (sp.Max(a, 0), LENGTH),
        (sp.Mod(a, b), LENGTH),
        (sp.Piecewise((a, a > b), (0, a > 0), (b, True)), LENGTH),
        (sp.Gt(a, b), NONE),
        (sp.And(a > b, n > 2), NONE),
        (sp.Not(sp.Eq(a, b)), NONE),
        (sp.true, NONE),
        (sp.Integral(F * y, (y, 0, a)), (3, 1, -2, 0)),  # ∫ F y dy
        (sp.Integral(y**2, (y, -a / 2, a / 2)), (3, 0, 0, 0)),
        (sp.Sum(a * y, (y, 1, n)), LENGTH),
        (sp.Derivative(F * a**3, a), (3, 1, -2, 0)),
        (sp.Derivative(F * a**3, (a, 2)), (2, 1, -2, 0)),
    ],
)
def test_dimension(expr: sp.Basic, dim: tuple[int, ...]) -> None:
    assert dimension(expr, KNOWN) == dim


@pytest.mark.parametrize("expr", [sp.S.Zero, sp.oo, -sp.oo])
def test_zero_and_infinity_fit_any(expr: sp.Expr) -> None:
    assert dimension(expr, KNOWN) is None


@pytest.mark.parametrize(
    ("expr", "named"),
    [
        (a + F, ("length", "length·mass/time^2")),
        (a + 1, ("length", "a plain number")),
        (sp.Min(a, F), ("length", "length·mass/time^2")),
        (sp.Max(a, 1), ("length", "a plain number")),
        (sp.Mod(a, F), ("length", "length·mass/time^2")),
        (sp.atan2(a, F), ("length", "length·mass/time^2")),
        (sp.Gt(a, F), ("length", "length·mass/time^2")),
        (sp.Gt(a, 5), ("length", "a plain number")),
        (sp.Piecewise((a, n > 0), (F, True)), ("length", "length·mass/time^2")),
        (sp.Piecewise((a, a < F), (b, True)), ("length", "length·mass/time^2")),
        (sp.sin(a), ("length", "a plain number or an angle")),
        (sp.exp(a), ("length", "a plain number")),
        (sp.ceiling(a), ("length", "a plain number")),
        ((a / b) ** F, ("length·mass/time^2", "a plain number")),
        (a**n, ("length", "a power that is not a fixed fraction")),
        (sp.Integral(F * y, (y, a, F)), ("length", "length·mass/time^2")),
        (sp.Integral(F + y, (y, 0, a)), ("length", "length·mass/time^2")),
        (sp.And(a > F, n > 2), ("length", "length·mass/time^2")),
        (sp.Derivative(a + F, a), ("length", "length·mass/time^2")),
        (sp.gamma(n), ("gamma", "not known")),
        (a + sp.Symbol("stray"), ("stray", "not a given or relation")),
    ],
)
def test_misfit_names_both_sides(expr: sp.Basic, named: tuple[str, str]) -> None:
    with pytest.raises(DimensionError) as error:
        dimension(expr, KNOWN)
    for part in named:
        assert part in str(error.value)


@pytest.mark.parametrize(
    ("dim", "said"),
    [
        (NONE, "a plain number"), ((0, 0, -1, 0), "1/time"), ((-1, 1, -2, 0), "mass/length/time^2"),
        ((4, 0, 0, 1), "length^4·temperature"),
    ],
)  # fmt: skip
def test_words(dim: tuple[int, ...], said: str) -> None:
    assert words(dim) == said
