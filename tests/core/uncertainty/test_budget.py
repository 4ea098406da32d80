"""Propagation, against the examples of the GUM and its Supplement 1 and against the package `uncertainties`."""

import math

import numpy as np
import pytest
import sympy as sp
import uncertainties
from uncertainties import umath

from kit.core.errors import KitError
from kit.core.model import Model, NoValueError, Stated, compiled
from kit.core.uncertainty import budget, monte_carlo
from tests.core.model.small import blank, one

# -- JCGM 100:2008, H.1 -------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def end_gauge() -> Model:
    """Length of an end gauge against a standard: l = lS + d - lS (δα θ + αS δθ), JCGM 100:2008, (H.3).

    The standard uncertainties are stated as normal half-widths with k = 1.
    """
    m = blank("test.end_gauge")
    lS = m.given("standard", "l_S", "50.000623 ± 25e-6 mm", (1, 100), "standard")
    m.measured(spread="normal", k=1)
    d = m.given("difference", "d", "215e-6 ± 9.7e-6 mm", (-1, 1), "difference")
    m.measured(spread="normal", k=1)
    aS = m.given("expansion", r"\alpha_S", "11.5e-6 ± 1.2e-6 1/K", (0, 1e-4), "expansion")
    m.measured(spread="normal", k=1)
    th = m.given("deviation", r"\theta", "-0.1 ± 0.41 K", (-5, 5), "deviation from 20 °C")
    m.measured(spread="normal", k=1)
    da = m.given("expansion_apart", r"\delta\alpha", "0 ± 0.58e-6 1/K", (-1e-4, 1e-4), "difference of expansions")
    m.measured(spread="normal", k=1)
    dth = m.given("apart", r"\delta\theta", "0 ± 0.029 K", (-1, 1), "difference of temperatures")
    m.measured(spread="normal", k=1)
    m.result("gauge", "l", "mm")
    m.equals(lS + d - lS * (da * th + aS * dth), "at 20 °C both are their lengths")
    return m.done()


def test_end_gauge(end_gauge: Model) -> None:
    found = budget(end_gauge.at(), "gauge")
    nm = {row.entry.given.name: row.contribution * 1e6 for row in found.rows}
    # Table H.1: 25, 9.7, 2.9 and 16.6 nm; the expansion and the deviation bring nothing to first order
    assert nm["standard"] == pytest.approx(25, abs=0.5)
    assert nm["difference"] == pytest.approx(9.7, abs=0.05)
    assert nm["expansion_apart"] == pytest.approx(2.9, abs=0.05)
    assert nm["apart"] == pytest.approx(16.6, abs=0.1)  # 16.68 from the inputs as printed
    assert nm["expansion"] == nm["deviation"] == 0
    assert found.u * 1e6 == pytest.approx(32, abs=0.5)
    assert (found.u * 1e6) ** 2 == pytest.approx(1002, rel=0.005)  # H.1.6 prints 1002 nm²
    assert found.base == pytest.approx(50.000838, abs=5e-7)
    assert found.expanded == 2 * found.u
    assert [row.entry.given.name for row in found.rows[:2]] == ["standard", "apart"]  # largest first
    assert sum(row.share for row in found.rows) == pytest.approx(1, rel=1e-12)
    assert found.rows[0].share == pytest.approx(625 / 1002, rel=0.01)


def test_end_gauge_by_monte_carlo_shows_the_second_order(end_gauge: Model) -> None:
    """H.1.7: second-order terms of 11.7 nm and 1.7 nm raise u to 34 nm (from memory)."""
    (drawn,) = monte_carlo(end_gauge.at(), ("gauge",), draws=400_000, seed=2).values()
    assert drawn.u * 1e6 == pytest.approx(math.hypot(31.7, 11.7, 1.7), rel=0.01)
    assert drawn.lost == 0


def in_components(*, rounded: bool) -> Model:
    """The same example with its inputs as stated, each with its degrees of freedom (H.1.3 and H.1.6).

    `rounded`: the standard uncertainties of the comparator as the GUM prints them, 3.9 nm and 6.7 nm.
    """
    m = blank("test.end_gauge_in_components")

    def stated(name: str, unit: str, value: float, half: float, shape: str = "normal", k: float = 1,
               dof: float = math.inf) -> sp.Symbol:  # fmt: skip
        stated = m.given(name, name, f"{value} ± {half} {unit}", (-99, 99), name)
        m.measured(spread=shape, k=k, dof=dof)
        return stated  # type: ignore[arg-type]

    lS = stated("standard", "mm", 50.000623, 75e-6, k=3, dof=18)
    d = stated("readings", "mm", 215e-6, 5.8e-6, dof=24)
    if rounded:
        d_1, d_2 = stated("d_1", "mm", 0, 3.9e-6, dof=5), stated("d_2", "mm", 0, 6.7e-6, dof=8)
    else:
        d_1, d_2 = stated("d_1", "mm", 0, 10e-6, k=2.57, dof=5), stated("d_2", "mm", 0, 20e-6, k=3, dof=8)
    aS = stated("expansion", "1/K", 11.5e-6, 2e-6, "rectangular")
    th = stated("deviation", "K", -0.1, 0.41)
    da = stated("expansion_apart", "1/K", 0, 1e-6, "rectangular", dof=50)
    dth = stated("apart", "K", 0, 0.05, "rectangular", dof=2)
    m.result("gauge", "l", "mm")
    m.equals(lS + d + d_1 + d_2 - lS * (da * th + aS * dth), "as above")
    return m.done()


def test_degrees_of_freedom_of_the_end_gauge() -> None:
    """H.1.6: u 32 nm, 16.7 effective degrees of freedom, cut to 16, t99(16) = 2.92 and U99 = 93 nm."""
    found = budget(in_components(rounded=False).at(), "gauge")
    assert round(found.u * 1e6) == 32
    assert round(found.dof, 1) == 16.7
    assert round(found.k_for(0.99), 2) == 2.92
    assert round(round(found.k_for(0.99), 2) * round(found.u * 1e6)) == 93  # the GUM multiplies rounded figures
    assert round(found.k_for(0.95), 2) == 2.12  # Table G.2
    assert round(found.k_for(0.9545), 2) == 2.17


def test_degrees_of_freedom_against_a_library() -> None:
    """The test suite of MSLNZ/GTC, test_uncertain_real_dof.py, gives this example unrounded."""
    # its figures come out where warmth works on the nominal 50 mm instead of on the standard's own length
    found = budget(in_components(rounded=True).at(standard="50 mm"), "gauge")
    assert found.u * 1e6 == pytest.approx(31.6637674111, rel=1e-9)
    assert found.dof == pytest.approx(16.7521475092, rel=1e-9)


def test_coverage_factors() -> None:
    """Table G.2 of the GUM: t95 for 1, 2, 5, 10 and 50 degrees of freedom; 1.96 without end."""
    for dof, t95 in (
        (1, 12.71),
        (2, 4.30),
        (5, 2.57),
        (10, 2.23),
        (10.9, 2.23),
        (50, 2.01),
        (math.inf, 1.96),
    ):
        m = blank()
        x = m.given("x", "x", "0 ± 1", (-9, 9), "x")
        m.measured(spread="normal", k=1, dof=dof)
        m.result("y", "y", "")
        m.equals(3 * x, "thrice")
        found = budget(m.done().at(), "y")
        assert found.dof == pytest.approx(dof)
        assert round(found.k_for(), 2) == t95
    with pytest.raises(KitError, match="a coverage of 95 is not allowed"):
        found.k_for(95)


def test_degrees_of_freedom_are_stated_with_the_value() -> None:
    m = one(lambda x: 2 * x)
    found = budget(m.at(x=Stated("3 ± 0.3", spread="normal", k=1, dof=4)), "y")
    assert found.dof == pytest.approx(4)
    assert budget(m.at(x="3 ± 0.3"), "y").dof == math.inf


def test_correlated_readings_count_by_the_least() -> None:
    """The formula is for independent quantities (G.4.1); wholly correlated ones keep their own."""
    m = blank()
    stated = []
    for n, f in (("a", 4), ("b", 9)):
        stated_i = m.given(n, n, "0 ± 1", (-9, 9), n)
        m.measured(spread="normal", k=1, dof=f)
        stated.append(stated_i)
    a, b = stated
    m.result("y", "y", "")
    m.equals(a + b, "sum")
    case = m.done().at()
    assert budget(case, "y", {("a", "b"): 1.0}).dof == 4
    assert budget(case, "y").dof == pytest.approx(2**2 / (1 / 4 + 1 / 9))


# -- JCGM 101:2008, 9.2 -------------------------------------------------------------------------------


def additive(*halves: float, shape: str, k: float = 1.0) -> Model:
    m = blank("test.additive")
    terms = []
    for i, half in enumerate(halves):
        term = m.given(f"x{i}", f"x_{i}", f"0 ± {half}", (-99, 99), "x")
        m.measured(spread=shape, k=k)
        terms.append(term)
    m.result("sum", "y", "")
    m.equals(sp.Add(*terms), "the model is additive")
    return m.done()


@pytest.mark.parametrize(
    ("halves", "shape", "u", "end", "within"),
    [
        ([1.0] * 4, "normal", 2.0, 3.92, 0.02),  # 9.2.2, Table 2
        ([math.sqrt(3)] * 4, "rectangular", 2.0, 3.88, 0.02),  # 9.2.3, Table 3
        (
            [math.sqrt(3)] * 3 + [10 * math.sqrt(3)],
            "rectangular",
            10.1,
            17.0,
            0.05,
        ),  # 9.2.4, Table 4, from memory
    ],
)
def test_additive_model(halves: list[float], shape: str, u: float, end: float, within: float) -> None:
    case = additive(*halves, shape=shape).at()
    assert budget(case, "sum").u == pytest.approx(u, abs=0.05 if u > 5 else 1e-12)
    drawn = monte_carlo(case, ("sum",), draws=1_000_000, seed=4)["sum"]
    low, high = drawn.interval(0.95)
    assert drawn.mean == pytest.approx(0, abs=6 * u / 1000)
    assert drawn.u == pytest.approx(u, abs=0.06 if u > 5 else 0.01)
    assert (low, high) == pytest.approx((-end, end), abs=within)


def test_additive_model_to_the_digits_printed() -> None:
    """JCGM 101:2008, Tables 2 and 3 print u = 2.0 and ends of 3.92 and 3.88: ten million draws show the last digit."""
    for halves, shape, printed in (([1.0] * 4, "normal", 3.92), ([math.sqrt(3)] * 4, "rectangular", 3.88)):
        drawn = monte_carlo(additive(*halves, shape=shape).at(), ("sum",), draws=10_000_000, seed=9)["sum"]
        assert round(drawn.u, 1) == 2.0
        assert [round(end, 2) for end in drawn.interval(0.95)] == [-printed, printed]


# -- against `uncertainties` --------------------------------------------------------------------------


@pytest.fixture(scope="module")
def mixed() -> Model:
    m = blank("test.mixed")
    a = m.given("a", "a", "30 ± 0.4 mm", (1, 100), "a")
    m.measured(spread="rectangular")
    b = m.given("b", "b", "40 ± 0.3 mm", (1, 100), "b")
    m.measured(spread="triangular")
    c = m.given("c", "c", "35 ± 0.5 deg", (1, 89), "c")
    m.measured(spread="normal", k=2)
    n = m.given("n", "n", "1.7 ± 0.02", (0.1, 3), "n")
    m.measured(spread="normal", k=1)
    r = m.relation("r", "r", "mm")
    m.equals(sp.sqrt(a**2 + b**2 - 2 * a * b * sp.cos(c)), "cosine rule")
    s = m.relation("s", "s", "deg")
    m.equals(sp.asin(b * sp.sin(c) / r), "sine rule")
    m.result("t", "t", "")
    m.equals((a / b) ** n * sp.exp(-r / a) + sp.atan2(r, a) * sp.log(b / r), "a medley")
    m.result("v", "v", "mm^2")
    m.equals(r**2 * sp.tan(s) / 3 + sp.Abs(a - b) * r, "another")
    m.result("w", "w", "mm")
    m.equals(sp.Piecewise((r * n, a < b), (b / n, True)), "cases")
    return m.done()


def by_uncertainties(a: object, b: object, c: object, n: object) -> dict[str, object]:
    r = umath.sqrt(a**2 + b**2 - 2 * a * b * umath.cos(c))  # type: ignore[operator]
    less = a.nominal_value < b.nominal_value  # type: ignore[attr-defined]
    s = umath.asin(b * umath.sin(c) / r)  # type: ignore[operator]
    return {
        "t": (a / b) ** n * umath.exp(-r / a) + umath.atan2(r, a) * umath.log(b / r),  # type: ignore[operator]
        "v": r**2 * umath.tan(s) / 3 + (b - a if less else a - b) * r,  # type: ignore[operator]
        "w": r * n if less else b / n,  # type: ignore[operator]
    }


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("linked", [False, True])
def test_budget_against_the_package(mixed: Model, seed: int, linked: bool) -> None:
    rng = np.random.default_rng(seed)
    numbers = {
        "a": rng.uniform(20, 50),
        "b": rng.uniform(55, 90),
        "c": rng.uniform(10, 80),
        "n": rng.uniform(1, 3),
    }
    if seed % 2:
        numbers["a"], numbers["b"] = numbers["b"], numbers["a"]
    case = mixed.at(**numbers)
    names = list(numbers)
    root = rng.normal(size=(4, 6))
    matrix = np.corrcoef(root) if linked else np.eye(4)
    correlations = {
        (names[i], names[j]): float(matrix[i, j]) for i in range(4) for j in range(i) if linked
    }  # fmt: skip
    inputs = uncertainties.correlated_values_norm([(case.base[n], case.entries[n].u) for n in names], matrix)
    for result, want in by_uncertainties(*inputs).items():
        found = budget(case, result, correlations)
        assert found.base == pytest.approx(want.nominal_value, rel=1e-12)  # type: ignore[attr-defined]
        assert found.u == pytest.approx(want.std_dev, rel=1e-9)  # type: ignore[attr-defined]


def test_correlations_by_hand() -> None:
    """GUM (16): u² = 1 + 1 + 2 r; shares leave the correlation aside."""
    case = additive(1.0, 1.0, shape="normal").at()
    for r in (-1.0, -0.5, 0.0, 0.8, 1.0):
        found = budget(case, "sum", {("x0", "x1"): r})
        assert found.u == pytest.approx(math.sqrt(2 + 2 * r), abs=1e-7)
        assert budget(case, "sum", {("x1", "x0"): r}).u == found.u


# -- Monte Carlo --------------------------------------------------------------------------------------


def test_cores_do_not_change_the_sample(monkeypatch: pytest.MonkeyPatch, mixed: Model) -> None:
    shared = monte_carlo(mixed.at(), ("t",), draws=100_000)["t"].sample
    monkeypatch.setattr(compiled, "_CORES", 1)
    alone = monte_carlo(mixed.at(), ("t",), draws=100_000)["t"].sample
    assert shared.tobytes() == alone.tobytes()
    assert np.unique(shared).size == shared.size  # no block repeats another


@pytest.mark.parametrize("linked", [False, True])
def test_few_readings_are_drawn_from_students_t(linked: bool) -> None:
    """JCGM 101:2008, 6.4.9.2: the variance is dof/(dof - 2) times larger, and 95 % lies within t95(5) = 2.571."""
    m = blank()
    for name in ("a", "b"):
        x = m.given(name, name, "7 ± 2", (-99, 99), name)
        m.measured(spread="normal", k=1, dof=5)
        m.result(f"of_{name}", f"o_{name}", "")
        m.equals(x, "itself")
    drawn = monte_carlo(m.done().at(), ("of_a",), draws=400_000, correlations={("a", "b"): 0.5} if linked else None)
    assert drawn["of_a"].u == pytest.approx(2 * math.sqrt(5 / 3), rel=0.01)
    assert drawn["of_a"].interval() == pytest.approx((7 - 2 * 2.571, 7 + 2 * 2.571), abs=0.05)


def test_same_seed_same_sample(mixed: Model) -> None:
    first, second, third = (monte_carlo(mixed.at(), ("t", "v"), draws=500, seed=s) for s in (1, 1, 2))
    for name in ("t", "v"):
        assert first[name].sample.tobytes() == second[name].sample.tobytes()
        assert first[name].sample.tobytes() != third[name].sample.tobytes()


@pytest.mark.parametrize(
    ("shape", "reproduced"),
    [
        ("normal", lambda r: r),
        # of uniform variables joined by a Gaussian copula: 6/π·asin(r/2) (Pearson 1907, Spearman's coefficient)
        ("rectangular", lambda r: 6 / math.pi * math.asin(r / 2)),
    ],
)
@pytest.mark.parametrize("r", [-0.9, 0.5, 1.0])
def test_correlations_are_reproduced(shape: str, reproduced: object, r: float) -> None:
    m = blank()
    for name in ("a", "b", "c"):
        x = m.given(name, name, "0 ± 1", (-9, 9), name)
        m.measured(spread=shape)  # type: ignore[arg-type]
        m.result(f"of_{name}", f"o_{name}", "")
        m.equals(x, "itself")
    drawn = monte_carlo(m.done().at(), ("of_a", "of_b", "of_c"), draws=200_000, seed=5, correlations={("a", "b"): r})
    found = np.corrcoef([drawn[f"of_{name}"].sample for name in "abc"])
    want = reproduced(r)  # type: ignore[operator]
    assert found[0, 1] == pytest.approx(want, abs=0.006)
    assert abs(want - r) <= 0.02  # as the docstring promises
    assert abs(found[0, 2]) < 0.012
    for name in "abc":
        assert drawn[f"of_{name}"].u == pytest.approx(0.5 if shape == "normal" else 1 / math.sqrt(3), rel=0.01)


def test_lost_draws_are_counted() -> None:
    """Of x = 1 ± 1.25, rectangular, a tenth lies below 0, where the root has no value."""
    m = one(lambda x: sp.sqrt(x), (0, 10))
    drawn = monte_carlo(m.at(x="1 ± 1.25"), ("y",), draws=100_000, seed=3)["y"]
    assert drawn.lost == pytest.approx(10_000, abs=5 * math.sqrt(9000))
    assert drawn.sample.size == 100_000 - drawn.lost
    assert np.isfinite(drawn.sample).all()


def test_mostly_lost_is_refused() -> None:
    m = one(lambda x: sp.sqrt(1 - x) * sp.sqrt(x - 1) + x, (0, 10))
    with pytest.raises(KitError, match="y has no value at most of the points drawn"):
        monte_carlo(m.at(x="1 ± 0.1"), ("y",), draws=1000)


def test_nothing_uncertain() -> None:
    m = one(lambda x: x**2)
    assert budget(m.at(x=3), "y").u == 0
    assert budget(m.at(x=3), "y").rows == ()
    drawn = monte_carlo(m.at(x=3), ("y",), draws=1000)["y"]
    assert (drawn.mean, drawn.u, drawn.lost, drawn.interval()) == (9, 0, 0, (9, 9))


def test_half_width_stated_with_its_shape() -> None:
    m = one(lambda x: 2 * x)
    case = m.at(x=Stated("3 ± 0.3", spread="normal", k=3))
    assert budget(case, "y").u == pytest.approx(0.2, rel=1e-12)
    assert monte_carlo(case, ("y",), seed=8)["y"].u == pytest.approx(0.2, rel=0.01)


@pytest.mark.parametrize(
    ("correlations", "said"),
    [
        ({("x0", "x9"): 0.5}, "names 'x9'"),
        ({("x0", "x1"): 1.2}, "is 1.2; it must lie from -1 to 1"),
        ({("x0", "x1"): math.nan}, "is nan; it must lie"),
        ({("x0", "x1"): 0.9, ("x1", "x2"): 0.9, ("x0", "x2"): -0.9}, "contradict each other"),
        ({("x0", "x0"): 0.5}, "two different givens"),
        ({("x0", "x1"): 0.5, ("x1", "x0"): 0.5}, "name each pair once"),
    ],
)
def test_impossible_correlations(correlations: dict[tuple[str, str], float], said: str) -> None:
    case = additive(1.0, 1.0, 1.0, shape="normal").at()
    for ask in (
        lambda: budget(case, "sum", correlations),
        lambda: monte_carlo(case, ("sum",), correlations=correlations),
    ):
        with pytest.raises(KitError, match=said):
            ask()


def test_no_slope_is_said() -> None:
    m = one(lambda x: sp.sqrt(x))
    with pytest.raises(NoValueError, match="y has no slope at this point"):
        budget(m.at(x="0 ± 0.1"), "y")
