"""Accuracy of the whole chain: against batches drawn, scipy's quadrature, and parts laid out in the plane."""

import math

import numpy as np
import pytest
from scipy.stats import norm

from kit.core.model import find
from kit.core.uncertainty import budget, monte_carlo, needed, root_sum_square, worst_case
from kit.subjects import model
from kit.subjects.accuracy.contributors import Contributor
from kit.subjects.accuracy.small_samples import all_within, of_summary

ACCURACY = model("accuracy.chain")
BATCH = model("accuracy.batch")
SHARED = ("tape", "zero", "reading", "block", "play", "fence", "heat", "swelling", "end_square")
ANEW = ("give", "blade", "seating")


def test_the_chance_of_a_batch_by_drawing_batches() -> None:
    """100,000 batches of 12 parts, each error drawn where the chain says it comes from."""
    case = ACCURACY.at(parts=12, tolerance="0.4 mm", bias="0.1 mm")
    rng = np.random.default_rng(17)
    batches = 100_000

    def errors(names: tuple[str, ...], shape: tuple[int, ...]) -> np.ndarray:
        return sum(rng.uniform(-1, 1, shape) * case.base[name] for name in names)  # type: ignore[return-value]

    parts = 0.1 + errors(SHARED, (batches, 1)) + errors(ANEW, (batches, 12))
    within = np.abs(parts) <= 0.4
    # the bell is not quite that of evenly spread errors: half a percent and the draws' own scatter
    assert within.mean() == pytest.approx(case.base["one_within"], abs=0.01)
    assert within.all(axis=1).mean() == pytest.approx(case.base["batch_within"], abs=0.012)
    assert parts.std() == pytest.approx(case.base["u"], rel=0.005)
    assert parts.std(axis=1, ddof=1).mean() == pytest.approx(case.base["each_u"], rel=0.05)
    assert np.abs(parts).max() <= case.base["worst"]


@pytest.mark.parametrize("parts", [1, 2, 20, 300])
@pytest.mark.parametrize("blade", [0.02, 0.1, 1.0])
@pytest.mark.parametrize("bias", [0.0, 0.3])
def test_the_sum_over_the_shared_bell_against_quadrature(parts: int, blade: float, bias: float) -> None:
    v = ACCURACY.at(parts=parts, blade=blade, bias=bias).base
    by_quadrature = all_within(v["tolerance"], v["bias"], v["common_u"], v["each_u"], parts)
    assert v["batch_within"] == pytest.approx(by_quadrature, abs=1e-5)  # a hundredth of the digit shown


def test_the_sum_where_the_shared_error_is_nearly_all() -> None:
    """The worst for twentieths: parts that hardly differ. Printed to a tenth of a percent, it may be off by a half."""
    for tolerance in np.linspace(0.1, 0.6, 26):
        v = ACCURACY.at(parts=50, tolerance=tolerance, blade=0.005, push=0, squareness=0, seating=0, tape=0.6).base
        assert v["each_u"] / v["common_u"] < 0.01
        by_quadrature = all_within(v["tolerance"], 0, v["common_u"], v["each_u"], 50)
        assert v["batch_within"] == pytest.approx(by_quadrature, abs=0.04)


def test_shared_errors_help_a_batch() -> None:
    """For exchangeable parts P₁ⁿ ≤ Pₙ ≤ P₁ (Jensen's inequality), so multiplying chances says too little."""
    for parts in (2, 10, 100):
        v = ACCURACY.at(parts=parts, tolerance="0.35 mm").base
        assert v["batch_alone"] < v["batch_within"] < v["one_within"]


def test_the_budget_and_the_page_agree() -> None:
    """The budget is by slopes at the middle, the page by half-widths over √3."""
    case = ACCURACY.at(bias="0.05 mm")
    found = budget(case, "part_error")
    assert found.u == pytest.approx(case.base["u"], rel=1e-12)
    assert worst_case(found) + 0.05 == pytest.approx(case.base["worst"], rel=1e-12)
    assert root_sum_square(found) == pytest.approx(case.base["root_sum"], rel=1e-12)
    drawn = monte_carlo(case, ("part_error",))["part_error"]
    assert drawn.u == pytest.approx(found.u, rel=0.01)
    assert drawn.mean == pytest.approx(0.05, abs=0.002)


def test_from_0_4_to_0_2() -> None:
    """None alone does it; the four largest together, each to the same contribution, do, and the page says so, too."""
    case = ACCURACY.at()
    assert case.base["expanded"] == pytest.approx(0.4, abs=0.005)
    plan = needed(budget(case, "part_error"), 0.2)
    assert all(row.factor is None for row in plan.rows)
    assert {row.entry.given.name for row in plan.together} == {
        "tape_chance", "reading_chance", "play_chance", "zero_chance",
    }  # fmt: skip
    smaller = {
        row.entry.given.name.removesuffix("_chance"): row.factor * row.contribution * math.sqrt(3)
        for row in plan.together
        if row.factor is not None
    }
    assert ACCURACY.at(**smaller).base["expanded"] == pytest.approx(0.2, rel=1e-9)
    assert ACCURACY.at(**smaller).base["common_u"] == pytest.approx(case.base["common_needed"], rel=1e-9)


def test_wishes_turned_round() -> None:
    case = ACCURACY.at()
    found = find(case, "tape", "expanded", "0.3 mm")
    assert found.how == "closed form"
    others = (0.15**2 - case.base["u"] ** 2 + case.base["tape"] ** 2 / 3) * 3
    assert found.values[-1] == pytest.approx(math.sqrt(others), rel=1e-6)


def test_guard_lets_one_in_twenty_through() -> None:
    v = ACCURACY.at(tolerance="0.2 mm").base
    assert v["guard"] > 0
    too_short = norm.cdf(-v["tolerance"], loc=v["guard"], scale=v["u"])
    assert too_short == pytest.approx(0.05, abs=1e-4)
    assert v["aim"] == pytest.approx(600 + v["guard"])
    assert ACCURACY.at(tolerance="2 mm").base["guard"] == 0


def test_fence_and_squareness_in_the_plane() -> None:
    """A part is laid against a parabola's end, and cut; its length is measured a distance across from its edge."""
    v = ACCURACY.at(fence_bow=1, fence_length=1000, face_distance=80, squareness=0.5).base
    at = np.linspace(0, 1e-3, 3)
    x, y = at, 4 * 1 * at * (1000 - at) / 1000**2
    turned = math.atan2(y[2] - y[0], x[2] - x[0])
    assert v["fence"] == pytest.approx(80 * math.tan(turned), rel=1e-5)
    c, k = math.cos(math.radians(0.5)), math.sin(math.radians(0.5))
    end = np.array([[0, 0], [0, 80]]) @ np.array([[c, k], [-k, c]])
    run = abs(np.interp(80, end[:, 1], end[:, 0] * (80 / end[:, 1].max())))
    assert v["end_square"] == pytest.approx(run, rel=1e-6)


def test_every_contributor_is_in_the_sum() -> None:
    case = ACCURACY.at()
    chances = [name for name in ACCURACY.givens if name.endswith("_chance")]
    assert chances == [f"{name}_chance" for name in (*SHARED, *ANEW)]
    assert not set(chances) & set(ACCURACY.free)  # nobody sets them
    slopes = {row.entry.given.name: row.sensitivity for row in budget(case, "part_error").rows}
    assert {name: slopes[f"{name}_chance"] for name in (*SHARED, *ANEW)} == pytest.approx(
        {name: case.base[name] for name in (*SHARED, *ANEW)}
    )
    assert Contributor._fields == ("half", "label", "words")


# -- test cuts ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("parts", [2, 3, 5, 10, 30, 100])
def test_the_page_against_scipy(parts: int) -> None:
    v = BATCH.at(cuts=f"{parts} parts", mean="600.1 mm", deviation="0.05 mm", tool_u="0 mm").base
    by_scipy = of_summary(parts, 600.1, 0.05)
    assert v["bias_expanded"] == pytest.approx(by_scipy.mean_half, rel=3e-3)  # t to two decimals
    assert v["scatter_from"] == pytest.approx(by_scipy.low, abs=0.05 * 0.000051)  # four decimals
    assert v["scatter_to"] == pytest.approx(by_scipy.high, abs=0.05 * 0.000051)
    assert v["next_within"] == pytest.approx(by_scipy.next_half, rel=3e-3)


def test_both_together_by_a_fine_grid() -> None:
    """Prior and likelihood as bells on a grid, multiplied: their mean and deviation (Bayes's rule)."""
    v = BATCH.at(predicted="0.1 mm", predicted_u="0.05 mm").base
    d = np.linspace(-1, 1, 400_001)
    together = norm.pdf(d, 0.1, 0.05) * norm.pdf(d, v["bias"], v["bias_expanded"] / 2)
    together /= together.sum()
    mean = float((d * together).sum())
    assert v["estimate"] == pytest.approx(mean, abs=1e-6)
    assert v["estimate_u"] == pytest.approx(math.sqrt(((d - mean) ** 2 * together).sum()), rel=1e-5)
    assert v["set_to"] == pytest.approx(600 - mean)


def test_what_the_limits_say() -> None:
    off = BATCH.at(mean="601 mm")
    assert [state.name for state in off.checks if not state.ok] == ["agrees", "within"]
    wild = BATCH.at(deviation="0.3 mm")
    assert [state.name for state in wild.checks if not state.ok] == ["scatter_more", "within"]
    calm = BATCH.at(deviation="0.005 mm")
    assert [state.name for state in calm.checks if not state.ok] == ["scatter_less"]
    assert any("leave the setting" in text for text in BATCH.at(mean="600.03 mm").cautions)
