"""Plots of uncertainty: what matters most, and worst case, root sum of squares and Monte Carlo side by side.

In the style of `kit.drawing.plots`: each function returns a new figure.
"""

from __future__ import annotations

from math import sqrt
from textwrap import fill
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display
from kit.core.uncertainty import Draws, budget, root_sum_square, worst_case
from kit.drawing.plots import COLORS, FAIL_COLOR, axis_label, new_figure, relation_of, short_words, shown_unit

if TYPE_CHECKING:
    from kit.drawing.plots import Figure

_MOST = 12  # bars; what comes after them is too small to see
_BINS = 120


def tornado(case: Case, result: str, display: Display | None = None) -> Figure:
    """Plot how far each given's half-width moves a result either way, the largest on top.

    A bar is the slope at the case times the half-width; its number is the given's share of the variance.

    Raises:
        KitError: an unknown name, a given instead of a result, or a result that no uncertainty moves.
    """
    part = relation_of(case, result)
    found = budget(case, result)
    rows = sorted(found.rows, key=lambda row: -abs(row.sensitivity) * row.entry.spread.half)
    rows = [row for row in rows if row.sensitivity][:_MOST]
    if not rows:
        raise KitError(f"no uncertainty is stated for what {result} rests on; state a half-width such as '600 ± 1 mm'")
    unit = shown_unit(part, display)
    middle = unit.from_base(found.base)
    places = np.arange(len(rows))[::-1]
    figure, axes = new_figure()
    low, high = (
        np.array([unit.from_base(found.base + sign * row.sensitivity * row.entry.spread.half) for row in rows])
        for sign in (-1, 1)
    )
    axes.barh(
        places,
        np.abs(high - low),
        left=np.minimum(low, high),
        height=0.62,
        color=COLORS[0],
        edgecolor="black",
        linewidth=0.6,
        zorder=2,
    )
    axes.set_yticks(places, [f"{fill(short_words(r.entry.given), 34)} ${r.entry.given.tex}$" for r in rows], fontsize=8)
    for place, row, end in zip(places, rows, np.maximum(low, high), strict=True):
        share = "< 1 %" if row.share < 0.005 else f"{100 * row.share:.0f} %"
        axes.annotate(share, (end, place), xytext=(4, 0), textcoords="offset points", va="center", fontsize=8)
    axes.axvline(middle, color="black", linewidth=0.8, zorder=3)
    axes.use_sticky_edges = False  # a bar begins at its left end, which is no edge of the plot
    axes.margins(x=0.1, y=0.02)
    axes.set_xlabel(axis_label(part, display), fontsize=9.5)
    axes.set_title("each half-width by itself; number: its share of the variance", fontsize=9)
    return figure


def histogram(case: Case, draws: Draws, display: Display | None = None) -> Figure:
    """Plot a result's Monte Carlo sample with the first order's bell, and the ends by each convention.

    Worst case: all half-widths at their ends together; root sum of squares: that of the half-widths, which covers
    99.73 percent if each is three standard deviations; first order: k = 2; Monte Carlo: 95 percent.

    Raises:
        KitError: an unknown name, or a result that no uncertainty moves.
    """
    part = relation_of(case, draws.result)
    found = budget(case, draws.result)
    if not (found.u > 0 and draws.u > 0):
        raise KitError(f"no uncertainty moves {draws.result}, so there is nothing to draw a histogram of")
    unit = shown_unit(part, display)
    figure, axes = new_figure()
    seen = np.asarray(unit.from_base(draws.sample))
    axes.hist(seen, bins=_BINS, density=True, color=COLORS[4], edgecolor="none", zorder=2, label=_sampled(draws))
    x = np.linspace(found.base - 4 * found.u, found.base + 4 * found.u, 201)
    scale = abs(unit.from_base(1.0) - unit.from_base(0.0)) * found.u
    bell = np.exp(-0.5 * ((x - found.base) / found.u) ** 2) / (scale * sqrt(2 * np.pi))
    axes.plot(unit.from_base(x), bell, color="black", linewidth=1.3, zorder=3, label="first order, as a normal bell")
    low, high = draws.interval()
    conventions: tuple[tuple[str, float, float, dict[str, Any]], ...] = (
        ("Monte Carlo, 95 %", low, high, {"color": COLORS[0], "linestyle": "-"}),
        ("first order, k = 2", *_both(found.base, found.expanded), {"color": "black", "linestyle": "--"}),
        (
            "root sum of squares",
            *_both(found.base, root_sum_square(found)),
            {"color": COLORS[2], "linestyle": "-."},
        ),
        ("worst case", *_both(found.base, worst_case(found)), {"color": FAIL_COLOR, "linestyle": ":"}),
    )
    for words, start, end, style in conventions:
        ends = f"{unit.from_base(start):.3g} to {unit.from_base(end):.3g}".replace("-", "−")
        for place, label in ((start, f"{words}: {ends}"), (end, None)):
            axes.axvline(unit.from_base(place), linewidth=1.5, zorder=4, label=label, **style)
    axes.set_xlabel(axis_label(part, display), fontsize=9.5)
    axes.set_yticks([])
    axes.set_ylabel("how often", fontsize=9.5)
    figure.legend(frameon=True, fontsize=8, loc="outside lower center", ncols=2)
    return figure


def _sampled(draws: Draws) -> str:
    return f"{draws.sample.size:,} draws"


def _both(middle: float, half: float) -> tuple[float, float]:
    return middle - half, middle + half
