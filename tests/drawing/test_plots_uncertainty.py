"""Plots of uncertainty: bars and lines stand where sums by hand put them."""

import re
from xml.etree import ElementTree

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.core.uncertainty import monte_carlo
from kit.drawing.plots import picture
from kit.drawing.plots_uncertainty import histogram
from kit.drawing.tornado_svg import moved, symbol, tornado
from kit.subjects import model, names

CHAIN = model("accuracy.chain")
PUSHED = model("stop.deflection").at(push="60 ± 20 N", clamp_stiffness="2000 ± 400 N/mm")
SVG = "{http://www.w3.org/2000/svg}"


def test_bars_are_slope_times_half_width_largest_on_top() -> None:
    case = CHAIN.at(tape="0.3 mm", reading="0.2 mm", bias="0.1 mm")
    bars = moved(case, "part_error")
    assert len(bars) == 12
    assert [bar.high - bar.low for bar in bars[:2]] == pytest.approx([0.6, 0.4])
    assert [(bar.low + bar.high) / 2 for bar in bars] == pytest.approx([0.1] * 12)
    lengths = [bar.high - bar.low for bar in bars]
    assert lengths == sorted(lengths, reverse=True)
    # 0.3²/3 of the variance u², which the page works out by itself
    assert bars[0].share == pytest.approx(0.03 / case.base["u"] ** 2)


def test_bars_with_falling_slopes() -> None:
    bars = moved(PUSHED, "slip_tip")
    # δ = F/k = 0.03 mm: by the push ± 0.01 mm, by the stiffness ∓ 0.006 mm
    assert [bar.high - bar.low for bar in bars] == pytest.approx([0.02, 0.012])
    assert [(bar.low + bar.high) / 2 for bar in bars] == pytest.approx([0.03, 0.03])


def test_a_tornado_is_drawn_to_the_scale_of_its_axis() -> None:
    drawn = ElementTree.fromstring(tornado(PUSHED, "slip_tip", Display(system="in")))
    told = [("".join(each.itertext()), float(each.get("x", 0))) for each in drawn.iter(f"{SVG}text")]
    ticks = [(float(text), x) for text, x in told if text.replace(".", "").isdigit()]
    pixels = (ticks[-1][1] - ticks[0][1]) / (ticks[-1][0] - ticks[0][0]) / 25.4  # of a millimeter
    bars = [[float(each.get(side, 0)) for side in ("x", "width", "y")] for each in drawn.iter(f"{SVG}rect")]
    assert [width / pixels for _, width, _ in bars] == pytest.approx([0.02, 0.012], rel=1e-3)
    for x, width, _ in bars:
        assert ticks[0][0] + (x + width / 2 - ticks[0][1]) / pixels / 25.4 == pytest.approx(0.03 / 25.4, rel=1e-3)
    assert bars[0][2] < bars[1][2]
    texts = [text for text, _ in told]
    assert texts[-1].endswith("in in")
    share = PUSHED.entries["push"].u / 2000  # of the variance: the push's, by (u/k)²
    other = 60 * PUSHED.entries["clamp_stiffness"].u / 2000**2
    assert f"{100 * share**2 / (share**2 + other**2):.0f} %" in texts
    assert "push at the clamp over how far it gives way kc" in texts
    rises = [float(each.get("dy", 0)) for each in drawn.iter(f"{SVG}tspan")]
    assert min(rises) < 0 < max(rises)  # what follows an index stands on the line again
    assert drawn.get("aria-label", "").startswith("What moves")
    named = ElementTree.fromstring(tornado(PUSHED, "slip_tip", words="a < b"))
    assert named.get("aria-label") == "a < b"


def test_every_symbol_is_written_in_plain_signs() -> None:
    for name in names():
        for part in (*model(name).givens.values(), *model(name).relations.values()):
            assert re.fullmatch(r"[^\\^&]+", symbol(part.tex)), part.tex
    for tex, plain in (
        (r"\ell_{\mathrm{flat},\mathrm{q}}", "ℓ_{flat,q}"),
        (r"u_{\hat{\delta}}", "u_{δ̂}"),
        (r"\varepsilon_0", "ε_{0}"),
        (r"\Delta p_{\mathrm{max}}", "Δp_{max}"),
        (r"\nu^{-1}", "ν⁻¹"),
        (r"\psi^{\prime}", "ψ′"),
        (r"\sqrt[3]{x^{n}}", ""),
    ):
        assert symbol(tex) == plain


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
