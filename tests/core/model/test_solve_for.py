"""Inversion, against handbook inverses, roots that are known beforehand, and polynomial roots by numpy."""

import math
from collections.abc import Callable

import numpy as np
import pytest
import sympy as sp
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.core.errors import KitError
from kit.core.model import Model, find, prove
from kit.core.quantity import Quantity, unit
from tests.core.model.small import blank, one


def roots(expr: Callable[[sp.Symbol], sp.Expr], target: float, span: tuple[float, float] = (0, 10)) -> list[float]:
    m = one(expr, span)
    inside = next(float(x) for x in np.linspace(*span, 50) if np.isfinite(m.compute({"x": x}, ("y",))["y"]))
    found = find(m.at(x=inside), "x", "y", target)
    assert not found.runs
    assert (found.how == "none") == (not found.values)
    return list(found.values)


# -- closed forms -------------------------------------------------------------------------------------


def test_height_of_a_cantilever(bar: Model) -> None:
    """From δ = 4 F L³/(E b h³): h = ³√(4 F L³/(E b δ)), the handbook's inverse."""
    case = bar.at()
    found = find(case, "height", "tip", "1 mm")
    want = (4 * 50 * 600**3 / (12_000 * 40 * 1)) ** (1 / 3)
    assert found.how == "closed form"
    assert found.values == pytest.approx([want], rel=1e-12)
    assert found.runs == ()
    F, L, E, b, tip = sp.symbols("push length modulus width tip", positive=True)
    stated = found.formula.xreplace({sp.Symbol(s.name): s for s in (F, L, E, b, tip)})  # type: ignore[union-attr]
    assert sp.simplify(stated - sp.cbrt(4 * F * L**3 / (E * b * tip))) == 0


@pytest.mark.parametrize(
    ("unknown", "want"),
    [
        ("length", (3 * 12_000 * 90_000 * 1 / 50) ** (1 / 3)),
        ("push", 3 * 12_000 * 90_000 * 1 / 600**3),
        ("width", 40 * (50 * 600**3 / (3 * 12_000 * 90_000))),
        ("modulus", 12_000 * (50 * 600**3 / (3 * 12_000 * 90_000))),
    ],
)
def test_every_given_of_the_cantilever(bar: Model, unknown: str, want: float) -> None:
    found = find(bar.at(), unknown, "tip", "1 mm")
    inside = bar.givens[unknown].span[0] <= want <= bar.givens[unknown].span[1]
    assert found.how == ("closed form" if inside else "none")
    assert list(found.values) == pytest.approx([want] if inside else [], rel=1e-12)


def test_relations_aside_keep_their_symbols(bar: Model) -> None:
    """The length stands in the tip's relation only, so the second moment stays in the formula."""
    found = find(bar.at(), "length", "tip", "1 mm")
    assert found.formula is not None
    assert {s.name for s in found.formula.free_symbols} == {"push", "modulus", "second_moment", "tip"}


def test_choice_made_decides_the_formula(bar: Model) -> None:
    """Propped: δ = 7 F L³/(768 E I)."""
    found = find(bar.at(end="propped"), "push", "tip", "1 mm")
    assert found.how == "none"  # 549 N are beyond the span of 500 N
    found = find(bar.at(end="propped", height=20), "push", "tip", "0.5 mm")
    want = 768 * 12_000 * (40 * 20**3 / 12) * 0.5 / (7 * 600**3)
    assert found.values == pytest.approx([want], rel=1e-12)
    assert found.how == "closed form"


@pytest.mark.parametrize("target", ["1 mm", 1, Quantity(0.1, unit("cm")), "0.03937007874015748 in"])
def test_targets_of_every_kind(bar: Model, target: str | float | Quantity) -> None:
    assert find(bar.at(), "push", "tip", target).values == pytest.approx([15], rel=1e-9)


@pytest.mark.parametrize(
    ("expr", "target", "span", "want"),
    [
        (lambda x: sp.sin(x), 0.5, (0, 6.28), [math.pi / 6, 5 * math.pi / 6]),
        (lambda x: sp.sin(x), -0.5, (-4, 4), [-5 * math.pi / 6, -math.pi / 6, 7 * math.pi / 6]),
        (lambda x: sp.cos(x), 0.5, (0, 6.28), [math.pi / 3, 5 * math.pi / 3]),
        (lambda x: sp.tan(x), 1, (-3, 3), [-3 * math.pi / 4, math.pi / 4]),
        (lambda x: sp.sin(x), 0.5, (0, 20), [math.pi * (k + (-1) ** k / 6) for k in range(7)]),
        (lambda x: sp.asin(x / 10), 0.5, (0, 10), [10 * math.sin(0.5)]),
        (lambda x: sp.atan2(x, 3), math.pi / 4, (0, 10), [3]),
        (lambda x: sp.atan2(3, x), math.pi / 3, (1, 10), [math.sqrt(3)]),
        (lambda x: sp.exp(x), 5, (0, 10), [math.log(5)]),
        (lambda x: sp.log(x), 1, (1, 10), [math.e]),
        (lambda x: 2**x, 8, (0, 10), [3]),
        (lambda x: sp.sqrt(x + 2), 3, (0, 10), [7]),
        (lambda x: 1 / sp.sqrt(x), 0.5, (1, 10), [4]),
        (lambda x: (x - 5) ** 3, -8, (0, 10), [3]),
        (lambda x: (x - 5) ** 2, 4, (0, 10), [3, 7]),
        (lambda x: sp.Abs(x - 5), 2, (0, 10), [3, 7]),
        (lambda x: x**2 - 7 * x, -12, (0, 10), [3, 4]),
        (lambda x: x / (1 + x**2), 0.4, (0, 10), [0.5, 2]),
        (lambda x: 12 / x + x, 7, (1, 10), [3, 4]),
    ],
)
def test_all_branches(
    expr: Callable[[sp.Symbol], sp.Expr], target: float, span: tuple[float, float], want: list[float]
) -> None:
    assert roots(expr, target, span) == pytest.approx(want, rel=1e-9)


@pytest.mark.parametrize(
    "expr",
    [sp.sin, lambda x: (x - 5) ** 3, lambda x: x**2 - 7 * x, lambda x: 1 / (x + 1), lambda x: sp.Abs(x - 5)],
)
def test_formula_gives_the_first_value_and_holds(expr: Callable[[sp.Symbol], sp.Expr]) -> None:
    x, y = sp.Symbol("x", real=True), sp.Symbol("y")
    target = float(expr(sp.Float(2.5)))
    found = find(one(expr, (0, 6)).at(x=1), "x", "y", target)
    assert found.how == "closed form"
    assert found.formula is not None
    number = complex(found.formula.xreplace({y: sp.Float(target, 17)}))
    assert number.imag == pytest.approx(0, abs=1e-12)
    assert number.real == pytest.approx(found.values[0], rel=1e-12)
    for value in found.values:
        assert float(expr(x).subs(x, value)) == pytest.approx(target, rel=1e-12)


# -- without closed form ------------------------------------------------------------------------------


@pytest.mark.parametrize("coefficients", [(1, -15, 74, -120), (1, 0, -30, 0, 129, 10), (2, -31, 100, 50, 7)])
def test_polynomials_against_numpy(coefficients: tuple[int, ...]) -> None:
    want = sorted(r.real for r in np.roots(coefficients) if abs(r.imag) < 1e-9 and 0 <= r.real <= 10)
    assert want
    got = roots(lambda x: sp.Poly(coefficients, x).as_expr(), 0)
    assert got == pytest.approx(want, rel=1e-9)


def test_transcendental() -> None:
    """cos x = x at 0.7390851332151607 (the Dottie number, OEIS A003957)."""
    m = one(lambda x: sp.cos(x) - x, (0, 3))
    found = find(m.at(), "x", "y", 0)
    assert found.how == "bracketed"
    assert found.formula is None
    assert found.values == pytest.approx([0.7390851332151607], rel=1e-12)


@pytest.mark.parametrize("at", [5, 3.14159, 0.0123, 9.999])
def test_tangent_root(at: float) -> None:
    """x + a²/x never falls below 2 a, which it takes at a alone."""
    m = one(lambda x: x * sp.exp(-x / at), (0.001, 10.5))
    top = at / math.e  # x·exp(-x/a) is greatest at a
    found = find(m.at(), "x", "y", top)
    assert found.values == pytest.approx([at], rel=1e-6)  # a flat top hides the root: half the digits remain
    assert find(m.at(), "x", "y", top * (1 + 1e-6)).values == ()


@pytest.mark.parametrize("between", [0.0009, 0.0001, 1e-5])
def test_two_roots_between_two_grid_points(between: float) -> None:
    a = 3.00037
    got = roots(lambda x: (x - a) * (x - a - between) * sp.exp(x), 0)
    assert got == pytest.approx([a, a + between], rel=1e-9)


def test_poles_are_no_roots() -> None:
    """tan x + x = 1 has the roots 0.4797310073 and 2.2459 in (0, π); π/2 is a pole. Checked by sympy's nsolve."""
    y = sp.Symbol("y")
    want = [float(sp.nsolve(sp.tan(y) + y - 1, y, start)) for start in (0.5, 2.2)]
    assert roots(lambda x: sp.tan(x) + x, 1, (0, math.pi)) == pytest.approx(want, rel=1e-9)
    assert roots(lambda x: 1 / (x - 5) + x / 1e6, 2.5e-6 - 1 / 2.5) == pytest.approx([2.5], rel=1e-6)
    assert roots(lambda x: 1 / (x - math.e) + 0 * x, 0) == []


def test_a_pole_does_not_blunt_the_other_roots() -> None:
    """The middle of the span hits π/2, where tan is 1.6e16; a root nearby must not be judged by that."""
    shift = 1e-5
    grid_point = 1000 * math.pi / 4000
    target = math.tan(grid_point + shift) + grid_point + shift
    got = roots(lambda x: sp.tan(x) + x, target, (0, math.pi))
    assert got[0] == pytest.approx(grid_point + shift, rel=1e-12)


def test_jumps_are_no_roots() -> None:
    assert roots(lambda x: sp.ceiling(x) + x / 1000, 3.5) == []
    assert roots(lambda x: sp.Piecewise((x, x < 5), (x + 2, True)), 6) == []


def test_root_at_the_border_of_the_domain() -> None:
    assert roots(lambda x: sp.sqrt(x - math.pi) * (x + sp.sin(x)), 0) == pytest.approx([math.pi], rel=1e-9)


@pytest.mark.parametrize("end", [0.3, 7.7])
@pytest.mark.parametrize("expr", [lambda x: x + sp.sin(x) / 2, lambda x: x**2, lambda x: x * sp.exp(x)])
def test_span_ends_are_roots(expr: Callable[[sp.Symbol], sp.Expr], end: float) -> None:
    m = one(expr, (0.3, 7.7))
    assert find(m.at(), "x", "y", m.at(x=end).base["y"]).values == pytest.approx([end], rel=1e-9)


@pytest.mark.parametrize(("end", "sign"), [(0.3, -1), (7.7, 1)])
def test_span_end_reached_but_for_rounding(end: float, sign: int) -> None:
    """What another program computed for the end may lie a few roundings beyond what is reached there."""
    m = one(lambda x: x + sp.sin(x) / 2, (0.3, 7.7))
    beyond = m.at(x=end).base["y"] * (1 + sign * 1e-12)
    assert find(m.at(), "x", "y", beyond).values == pytest.approx([end], rel=1e-9)
    assert find(m.at(), "x", "y", beyond + sign * 1e-6).values == ()


def test_unknown_in_several_relations() -> None:
    """A box of square base a and height 2 a: volume 2 a³, surface 2 a² + 4·2 a² = 10 a²."""
    m = blank()
    a = m.given("side", "a", "100 mm", (1, 1000), "side")
    V = m.relation("volume", "V", "mm^3")
    m.equals(2 * a**3, "height is twice")
    A = m.relation("surface", "A", "mm^2")
    m.equals(10 * a**2, "six faces")
    m.result("both", "B", "")
    m.equals(V / a**3 + A / a**2 * sp.log(a * A / V) + A / (1000 * a**2), "all of it")
    m.result("ratio", "r", "1/mm")
    m.equals(A / V, "of surface and volume")
    m.done()
    assert find(m.at(), "side", "ratio", 0.05).values == pytest.approx([100], rel=1e-12)  # 5/a
    assert find(m.at(), "side", "ratio", 0.05).how == "closed form"
    whole = find(m.at(), "side", "both", m.at().base["both"])
    assert len(whole.runs) == 1  # it does not depend on the side at all
    assert whole.runs[0] == (1, 1000)


# -- steps, counts, choices ---------------------------------------------------------------------------


def test_steps_are_intervals(bar: Model) -> None:
    """ceil(L/130) + 1 = 6 for 520 mm < L <= 650 mm."""
    found = find(bar.at(), "length", "screws", 6)
    assert found.values == ()
    assert found.how == "bracketed"
    ((start, stop),) = found.runs
    assert (start, stop) == pytest.approx((520, 650), rel=1e-12)
    assert bar.at(length=stop).base["screws"] == 6
    assert bar.at(length=start).base["screws"] == 6
    assert found.words() == "length 520.0 mm to 650.0 mm gives screws 6 (by bracketing)"


def test_counts_are_tried() -> None:
    m = blank()
    n = m.count("sides", "N", 6, (3, 2000), "sides")
    m.result("inner", "i", "deg")
    m.equals(sp.pi * (1 - 2 / n), "the angles of a polygon sum to (N - 2)·180°")
    m.done()
    found = find(m.at(), "sides", "inner", "150 deg")
    assert (found.values, found.how) == ((12,), "counted")
    none = find(m.at(), "sides", "inner", "151 deg")
    assert (none.values, none.how) == ((), "none")
    assert none.nearest is not None
    assert none.nearest[0] == 12
    assert "nearest is 150.0° at sides 12" in none.words()


def test_choices_are_tried(bar: Model) -> None:
    found = find(bar.at(), "end", "tip", 7 * 50 * 600**3 / (768 * 12_000 * 90_000))
    assert (found.values, found.how) == ((1,), "counted")
    assert found.words() == "end propped gives tip 0.09 mm (by trying each)"
    case = bar.at().with_(end=found.unknown.unit.from_base(found.values[0]))
    assert case.show("end") == "propped"


# -- nothing found ------------------------------------------------------------------------------------


def test_none_says_reach_and_nearest(bar: Model) -> None:
    """At h = 10 mm the tip moves 90 mm, at h = 100 mm 0.09 mm."""
    found = find(bar.at(), "height", "tip", "100 mm")
    assert found.how == "none"
    assert found.reach == pytest.approx((0.09, 90), rel=1e-12)
    assert found.nearest == pytest.approx((10, 90), rel=1e-12)
    assert found.words() == (
        "no height from 10 mm to 100 mm gives tip 100.00 mm: it lies between 0.09 mm and 90.00 mm there; "
        "nearest is 90.00 mm at height 10.0 mm"
    )


def test_nearest_inside_the_span() -> None:
    m = one(lambda x: (x - sp.pi) ** 2 * sp.exp(x / 100) + 1)
    found = find(m.at(), "x", "y", 0)
    assert found.nearest is not None
    assert found.nearest == pytest.approx((math.pi, 1), abs=1e-5)


def test_none_where_the_model_has_no_value() -> None:
    m = blank()
    a = m.given("a", "a", "5", (0, 10), "a")
    b = m.given("b", "b", "1", (0, 10), "b")
    m.relation("apart", "p", "")
    m.equals(sp.Piecewise((sp.sqrt(-1 - b), sp.Eq(a, 0)), (b, True)), "so")
    m.result("y", "y", "")
    m.equals(sp.sqrt(a - 1 - b**2), "so")
    m.done()
    found = find(m.at(), "a", "y", -1)
    assert found.how == "none"
    assert found.reach == pytest.approx((0, math.sqrt(8)), rel=1e-3)


def test_unknown_names(bar: Model) -> None:
    for unknown, result, said in (
        ("hight", "tip", "'height'"),
        ("far", "tip", "far"),
        ("height", "tipp", "'tip'"),
    ):
        with pytest.raises(KitError, match=said):
            find(bar.at(), unknown, result, 1)
    with pytest.raises(KitError, match="a mass"):
        find(bar.at(), "height", "tip", "1 kg")


# -- properties ---------------------------------------------------------------------------------------

_MODELS = {
    "rising": one(lambda x: x**3 + x),
    "chain": one(lambda x: sp.exp(x / 3) * sp.sqrt(x + 1)),
    "waves": one(lambda x: sp.sin(2 * x) + x / 4),
    "hump": one(lambda x: x * (7 - x) * sp.cos(x / 5)),
    "quadratic": one(lambda x: 3 * x**2 - 20 * x + 1),
    "arc": one(lambda x: sp.sin(x / 3) ** 2),
    "cases": one(lambda x: sp.Piecewise((x**2, x < 3), (9 + sp.sqrt(x - 3), True))),
    "distance": one(lambda x: sp.sqrt((x - 3) ** 2 + 4)),
}


@pytest.mark.parametrize("name", _MODELS)
@settings(max_examples=40, deadline=None)
@given(x0=st.floats(0, 10, allow_subnormal=False))
def test_finds_what_it_came_from(name: str, x0: float) -> None:
    """find(f(x0)) contains x0; near a turning point only to the square root of the rounding."""
    m = _MODELS[name]
    target = float(m.compute({"x": x0}, ("y",))["y"])
    found = find(m.at(), "x", "y", target)
    assert min(abs(value - x0) for value in found.values) < 3e-4
    for value in found.values:
        again = float(m.compute({"x": value}, ("y",))["y"])
        assert again == pytest.approx(target, rel=2e-9, abs=1e-9)


@pytest.mark.parametrize("name", ["rising", "chain"])
@settings(max_examples=40, deadline=None)
@given(x0=st.floats(0.001, 10))
def test_monotone_models_give_the_one_root_closely(name: str, x0: float) -> None:
    m = _MODELS[name]
    found = find(m.at(), "x", "y", float(m.compute({"x": x0}, ("y",))["y"]))
    assert found.values == pytest.approx([x0], rel=1e-9)


@pytest.mark.parametrize("scale", [1e-9, 1e-3, 1.0, 1e6, 1e12])
@pytest.mark.parametrize("stretch", [1e-9, 1.0, 1e12])
@pytest.mark.parametrize(
    ("expr", "want"),
    [
        (lambda x: x**2, [3.0]),
        (lambda x: x + sp.sin(2 * x) / 4, [3.0]),
        (lambda x: sp.sin(x) * sp.exp(x / 7), [0.2117520764887641, 3.0]),  # by sympy's nsolve
        (lambda x: sp.tan(x / 4) + x, [3.0]),
    ],
)
def test_tolerances_are_relative(
    expr: Callable[[sp.Symbol], sp.Expr], want: list[float], stretch: float, scale: float
) -> None:
    """The same curve, blown up or shrunk in both directions, has the same roots."""
    m = one(lambda x: scale * expr(x / stretch), (0, 4 * stretch))
    found = find(m.at(), "x", "y", float(m.compute({"x": 3 * stretch}, ("y",))["y"]))
    values = [value / stretch for value in found.values]
    assert values[-1] == pytest.approx(3, rel=1e-9)
    assert values == pytest.approx(want, rel=1e-6)


def test_wide_span_near_its_low_end() -> None:
    m = one(lambda x: x + sp.sqrt(x) * sp.sin(x), (1e-4, 1e6))
    target = float(m.compute({"x": 0.01}, ("y",))["y"])
    assert find(m.at(), "x", "y", target).values == pytest.approx([0.01], rel=1e-9)


@pytest.mark.parametrize(("function", "count"), [(sp.sin, 4), (sp.cos, 4), (sp.tan, 8)])
@pytest.mark.parametrize("x0", [-6.2, -4, -2, -1, 0.5, 1.5, 3.5, 5])
def test_angles_of_a_full_turn_either_way_have_closed_forms(function: type[sp.Function], count: int, x0: float) -> None:
    m = one(function, (-2 * math.pi, 2 * math.pi), value=0.3)
    found = find(m.at(), "x", "y", float(function(x0)))
    assert found.how == "closed form"
    assert min(abs(value - x0) for value in found.values) < 1e-9
    assert len(found.values) == count / (2 if function is sp.tan else 1)


@pytest.mark.parametrize("x0", [0.2, 3.0, 8.0])
def test_closed_roots_stay_beside_bracketed_ones(x0: float) -> None:
    """Of sin x over three turns, sympy's branches give some roots and the scan the others."""
    target = math.sin(x0)
    want = sorted(
        x for k in range(-1, 4) for x in (x0 + 2 * math.pi * k, math.pi - x0 + 2 * math.pi * k) if 0 <= x <= 18
    )
    found = find(one(sp.sin, (0, 18)).at(), "x", "y", target)
    assert found.how == "bracketed"
    assert found.values == pytest.approx(want, rel=1e-9)


def test_long_chains_are_not_written_out() -> None:
    """Forty relations that each use the one before twice would make a formula of 2^40 terms."""
    m = blank()
    x = m.given("x", "x", "0.5", (0, 1), "x")
    last, value = x, 0.25
    for i in range(40):
        before, last = last, m.relation(f"r{i}", f"r_{i}", "")
        m.step(before / 2 + before**2 / 2, "apart")
        m.equals((before + before**2) / 2, "again")
        value = (value + value**2) / 2
    m.result("y", "y", "")
    m.equals(last, "the last")
    found = find(m.done().at(), "x", "y", value)
    assert found.how == "bracketed"
    assert found.values == pytest.approx([0.25], rel=1e-9)
    assert len(prove(m)) == 40


def test_bounds_are_kept_on_intervals_and_the_nearest_is_taken() -> None:
    model = one(lambda x: (x - 3) * (x - 5))  # below 0 between 3 and 5, at least -1, which it touches at 4
    case = model.at(x=7)
    inside = case.find("x", "y", 0, "<=")
    assert [end for run in inside.runs for end in run] == pytest.approx([3, 5], rel=1e-9)
    assert inside.first == pytest.approx(5, rel=1e-9)
    assert inside.into(case).base["y"] <= 1e-9
    outside = case.find("x", "y", 0, ">=")
    assert [end for run in outside.runs for end in run] == pytest.approx([0, 3, 5, 10], rel=1e-9)
    assert outside.first == 7
    assert "it is so already" in outside.words()
    assert [end for run in case.find("x", "y", -1, "<=").runs for end in run] == pytest.approx([4, 4], abs=1e-4)
    none = case.find("x", "y", -2, "<=")
    assert (none.how, none.first) == ("none", None)
    assert none.nearest == pytest.approx((4, -1), abs=1e-4)
    with pytest.raises(KitError, match="not a sense; take =, <= or >="):
        case.find("x", "y", 0, "<")  # type: ignore[arg-type]
