"""The plane through many gaps, against SciPy's curve fit and by drawing its errors."""

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import chi2

from kit.core.errors import KitError
from kit.subjects import model
from kit.subjects.level.plane_fit import balance, fit_plane, stepped

RNG = np.random.default_rng(11)
PLACES = RNG.uniform((0, 0), (900, 600), (9, 2))
U = RNG.uniform(0.03, 0.2, 9)


def test_against_curve_fit() -> None:
    depths = 2.0 + 0.001 * PLACES[:, 0] - 0.0007 * PLACES[:, 1] + RNG.normal(0, U)
    found = fit_plane(PLACES, depths, U)
    x0, y0 = found.middle
    terms, covariance = curve_fit(
        lambda at, z, sx, sy: z + sx * (at[0] - x0) + sy * (at[1] - y0), PLACES.T, depths, (0, 0, 0), U, True
    )
    assert found.terms == pytest.approx(terms, rel=1e-6)
    # curve_fit differentiates numerically; its scale is that of the terms' standard uncertainties
    scale = np.sqrt(np.outer(np.diag(covariance), np.diag(covariance)))
    assert found.covariance / scale == pytest.approx(covariance / scale, abs=1e-6)


def test_normal_equations() -> None:
    depths = RNG.normal(2, 1, 9)
    found = fit_plane(PLACES, depths, U)
    rows = np.column_stack([np.ones(9), PLACES - found.middle])
    inside = np.linalg.inv(rows.T @ np.diag(U**-2.0) @ rows)
    assert found.covariance == pytest.approx(inside, rel=1e-9, abs=1e-18)
    assert rows.T @ (found.residuals / U**2) == pytest.approx(np.zeros(3), abs=1e-6)
    at = np.array([[100.0, 50.0], [1500.0, -200.0]])
    beside = np.column_stack([np.ones(2), at - found.middle])
    assert found.u(at) == pytest.approx(np.sqrt(np.diag(beside @ inside @ beside.T)), rel=1e-9)


def test_errors_come_out_as_stated() -> None:
    """4000 beds: the depth at a foot scatters as stated, and the misfit as chi squared with n - 3."""
    foot = np.array([200.0, 550.0])
    fits = [fit_plane(PLACES, RNG.normal(0, U), U) for _ in range(4000)]
    depths = np.array([fit.depth(foot) for fit in fits])
    assert depths.std() == pytest.approx(float(fits[0].u(foot)), rel=0.04)
    misfits = np.array([fit.misfit for fit in fits])
    assert fits[0].free == 6
    assert np.mean(misfits < chi2.ppf(0.5, 6)) == pytest.approx(0.5, abs=0.03)


def test_three_places_are_the_model() -> None:
    v = model("level.plane").at(u_1="0.1 mm", u_2="0.05 mm", u_3="0.2 mm", u_edge=0).base
    places = [(v[f"x_{i}"], v[f"y_{i}"]) for i in (1, 2, 3)]
    found = fit_plane(places, [v[f"gap_{i}"] for i in (1, 2, 3)], [0.1, 0.05, 0.2])
    foot = (v["foot_x"], v["foot_y"])
    assert found.depth(foot) == pytest.approx(v["depth"], rel=1e-12)
    assert found.u(foot) == pytest.approx(v["u"], rel=1e-12)
    assert found.slopes == pytest.approx([v["slope_x"], v["slope_y"]], rel=1e-9)
    assert found.residuals == pytest.approx(np.zeros(3), abs=1e-12)


@pytest.mark.parametrize(
    ("places", "depths", "u", "told"),
    [
        ([(0, 0), (900, 0)], [1, 2], 0.1, "2 gaps do not fix a plane; measure at three places or more"),
        ([(0, 0), (300, 100), (900, 300)], [1, 2, 3], 0.1, "the 3 places lie in one line"),
        ([(5, 5), (5, 5), (5, 5), (5, 5)], [1, 2, 3, 4], 0.1, "the 4 places lie in one line"),
        ([(0, 0), (300, 0), (0, 300)], [1, 2, 3], 0.0, "standard uncertainty of 0 mm; give a number above 0"),
        ([(0, 0), (300, 0), (0, 300)], [1, 2, float("nan")], 0.1, "not a finite number"),
        ([(0, 0), (300, 0), (0, 300)], [1, 2], 0.1, r"give places \(n, 2\), depths \(n,\)"),
    ],
)
def test_refusals(places: list[tuple[float, float]], depths: list[float], u: float, told: str) -> None:
    with pytest.raises(KitError, match=told) as refused:
        fit_plane(places, depths, u)
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize(
    ("places", "weights"),
    [
        ([(0, 0), (400, 0), (400, 300), (0, 300)], (1, -1, 1, -1)),
        # a foot in the middle of three carries a third of each; a kite's diagonals cut each other in the given ratio
        ([(0, 0), (300, 0), (0, 300), (100, 100)], (-1 / 3, -1 / 3, -1 / 3, 1)),
        ([(-100, 0), (0, -100), (300, 0), (0, 100)], (1, -2 / 3, 1 / 3, -2 / 3)),
    ],
)
def test_balance_by_hand(places: list[tuple[float, float]], weights: tuple[float, ...]) -> None:
    assert balance(places) == pytest.approx(weights, abs=1e-12)


def test_balance_cancels_every_plane() -> None:
    places = RNG.uniform((0, 0), (900, 600), (4, 2))
    heights = 3 + places @ RNG.normal(0, 0.01, 2)
    assert balance(places) @ heights == pytest.approx(0, abs=1e-10)


def test_steps_by_trying_all() -> None:
    """Rounded each by itself, heights leave up to two steps of twist on a rectangle; shared, half a step."""
    weights = np.array([1.0, -1.0, 1.0, -1.0])
    for wanted in RNG.uniform(2, 4, (50, 4)):
        planar = wanted - weights * (weights @ wanted) / 4
        found = stepped(planar, 0.1, weights)
        assert np.allclose(np.round(found / 0.1), found / 0.1)
        assert abs(weights @ found) <= 0.05 + 1e-9
        assert np.abs(found - planar).max() < 0.1 + 1e-12
        nearest = stepped(planar, 0.1)
        assert np.abs(nearest - planar).max() <= 0.05 + 1e-12
        if abs(weights @ nearest) <= 0.05:
            assert found == pytest.approx(nearest)


def test_feet_that_are_not_four_or_in_a_line() -> None:
    with pytest.raises(KitError, match="3 feet are given"):
        balance([(0, 0), (1, 0), (0, 1)])
    with pytest.raises(KitError, match="in one line"):
        balance([(0, 0), (1, 1), (2, 2), (5, 5)])
    with pytest.raises(KitError, match="above 0"):
        stepped([1.0], 0.0)


BENCH = np.array([[0.0, 0.0], [1200.0, 0.0], [1200.0, 700.0], [0.0, 700.0]])
WEIGHTS = balance(BENCH)


def test_the_weights_depend_on_no_sign_of_a_vector(turned_round: None) -> None:
    assert balance(BENCH).tolist() == WEIGHTS.tolist()


def test_the_largest_weight_of_equal_ones_is_the_first() -> None:
    """A rectangle: 1, -1, 1, -1 from whichever corner it begins, as long as the corners are told in turn."""
    for first in range(4):
        for angle in np.linspace(0, 2 * np.pi, 12):
            c, s = np.cos(angle), np.sin(angle)
            at = np.roll(BENCH, first, axis=0) @ np.array([[c, -s], [s, c]]) + RNG.uniform(-900, 900, 2)
            assert balance(at) == pytest.approx([1, -1, 1, -1], abs=1e-9)


def test_weights_follow_the_feet() -> None:
    """Told in another order the same feet have the same weights, but for a common sign and size."""
    feet = np.array([[0.0, 0.0], [1000.0, 30.0], [900.0, 650.0], [-40.0, 500.0]])
    weights = balance(feet)
    for _ in range(20):
        order = RNG.permutation(4)
        again = balance(feet[order])
        assert again / again[0] == pytest.approx(weights[order] / weights[order[0]], rel=1e-9)
        heights = feet @ [0.02, -0.03] + 5.0
        assert float(again @ heights[order]) == pytest.approx(0.0, abs=1e-9)


def test_halves_go_up_whatever_noise_lies_on_them() -> None:
    for noise in (-1e-14, 0.0, 1e-14):
        assert stepped([2.5 + noise, -1.5 + noise], 1.0).tolist() == [3.0, -1.0]
