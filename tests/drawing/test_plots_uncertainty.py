"""Plots of uncertainty: bars and lines stand where sums by hand put them."""

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.core.uncertainty import monte_carlo
from kit.drawing.plots import picture
from kit.drawing.plots_uncertainty import histogram, tornado
from kit.subjects import model

CHAIN = model("accuracy.chain")


def test_tornado_bars_are_slope_times_half_width_largest_on_top() -> None:
    case = CHAIN.at(tape="0.3 mm", reading="0.2 mm", bias="0.1 mm")
    axes = tornado(case, "part_error").axes[0]
    bars = axes.patches
    assert len(bars) == 12
    assert [bar.get_width() for bar in bars[:2]] == pytest.approx([0.6, 0.4])
    assert bars[0].get_x() + 0.3 == pytest.approx(0.1)
    heights = [bar.get_y() for bar in bars]
    assert heights == sorted(heights, reverse=True)
    assert axes.get_yticklabels()[0].get_text().startswith("the scale's error $")
    # 0.3²/3 of the variance u², which the page works out by itself
    share = axes.texts[0].get_text()
    assert share == f"{100 * 0.03 / case.base['u'] ** 2:.0f} %"


def test_tornado_in_inches_and_with_falling_slopes() -> None:
    case = model("stop.deflection").at(push="60 ± 20 N", clamp_stiffness="2000 ± 400 N/mm")
    axes = tornado(case, "slip_tip", Display(system="in")).axes[0]
    # δ = F/k = 0.03 mm: by the push ± 0.01 mm, by the stiffness ∓ 0.006 mm
    assert [bar.get_width() * 25.4 for bar in axes.patches] == pytest.approx([0.02, 0.012])
    assert [(bar.get_x() + bar.get_width() / 2) * 25.4 for bar in axes.patches] == pytest.approx([0.03, 0.03])
    assert axes.get_xlabel().endswith("in in")


def test_histogram_sets_the_conventions_side_by_side() -> None:
    case = CHAIN.at(bias="0.1 mm")
    draws = monte_carlo(case, ("part_error",), draws=100_000)["part_error"]
    axes = histogram(case, draws).axes[0]
    v = case.base
    places = [line.get_xdata()[0] for line in axes.lines if len(line.get_xdata()) == 2]
    low, high = np.quantile(draws.sample, [0.025, 0.975])
    ends = [(low, high)] + [(0.1 - h, 0.1 + h) for h in (2 * v["u"], v["root_sum"], v["worst"] - 0.1)]
    assert places == pytest.approx([end for pair in ends for end in pair])
    told = axes.get_legend_handles_labels()[1]
    assert [text.split(":")[0] for text in told if ":" in text] == [
        "Monte Carlo, 95 %", "first order, k = 2", "root sum of squares", "worst case",
    ]  # fmt: skip
    area = sum(bar.get_width() * bar.get_height() for bar in axes.patches)
    assert area == pytest.approx(1)
    bell = next(line for line in axes.lines if len(line.get_xdata()) > 2)
    assert np.trapezoid(bell.get_ydata(), bell.get_xdata()) == pytest.approx(1, abs=1e-3)
    assert picture(histogram(case, draws), "alt").startswith("<svg ")


def test_nothing_to_plot_is_said() -> None:
    case = model("accuracy.batch").at(mean="600.2 mm")
    with pytest.raises(KitError, match="no uncertainty is stated for what bias rests on"):
        tornado(case, "bias")
    with pytest.raises(KitError, match="tape is given, not worked out"):
        tornado(CHAIN.at(), "tape")
    still = monte_carlo(case, ("bias",), draws=100)["bias"]
    with pytest.raises(KitError, match="nothing to draw a histogram of"):
        histogram(case, still)
