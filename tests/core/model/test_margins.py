"""How surely limits hold: by Monte Carlo near the limit, against chances that can be worked by hand."""

import math
from collections.abc import Callable

import pytest
import sympy as sp

from kit.core.model import Model
from kit.core.model.margins import DRAWS
from tests.core.model.small import blank

FOUR_SIGMA = 4 * math.sqrt(0.25 / DRAWS)  # of a chance that is counted, at the most


def limited(spread: str, allowed: str, expr: Callable[[sp.Symbol, sp.Symbol], sp.Expr] = lambda x, _most: x) -> Model:
    m = blank()
    x = m.given("x", "x", "10 ± 1 mm", (0, 100), "what is measured")
    m.measured(spread=spread)
    most = m.given("most", "a", allowed, (0, 200), "what is allowed")
    y = m.result("y", "y", "mm", "what follows")
    m.equals(expr(x, most), "so")
    m.limit("most", "it is", y, "<=", most)
    m.mend("measure better")
    return m.done()


@pytest.mark.parametrize(
    ("spread", "allowed", "chance"),
    # The share of the distribution below the limit, by its area: of a rectangle from 9 to 11 mm, of a triangle over it.
    [
        ("rectangular", "10.4 mm", 0.7),
        ("rectangular", "9.5 mm", 0.25),
        ("rectangular", "11.1 mm", 1.0),
        ("triangular", "10.4 mm", 1 - 0.6**2 / 2),
    ],
)
def test_a_chance_near_the_limit_follows_the_shape_of_the_spread(spread: str, allowed: str, chance: float) -> None:
    check = limited(spread, allowed).at().checks[0]
    assert check.drawn is not None
    assert check.chance == pytest.approx(chance, abs=FOUR_SIGMA)


def test_a_bent_margin_is_judged_as_it_is_bent() -> None:
    """With d = x - 10 mm: 3 |d| + d <= 1 mm holds for d from -1/2 to 1/4 mm, 0.375 of a rectangle of ± 1 mm."""
    check = limited("rectangular", "1 mm", lambda x, a: 3 * sp.Abs(x - 10 * a) + x - 10 * a).at().checks[0]
    assert check.chance == pytest.approx(0.375, abs=FOUR_SIGMA)


def test_what_cannot_be_counts_against_a_limit() -> None:
    """A length d = x - 9.9 mm lies from 0 to 0.5 mm for a quarter of a rectangle of ± 1 mm; below 0 it is none."""
    check = limited("rectangular", "0.5 mm", lambda x, a: x - 19.8 * a).at().checks[0]
    assert check.chance == pytest.approx(0.25, abs=FOUR_SIGMA)


def test_far_from_the_limit_nothing_is_drawn() -> None:
    far = limited("rectangular", "12 mm").at().checks[0]  # the margin is 3.5 standard uncertainties of 1/√3 mm
    assert far.drawn is None
    assert far.chance > 0.999


def test_who_asks_twice_is_told_the_same() -> None:
    model = limited("rectangular", "10.4 mm")
    assert model.at().checks == model.at().checks
