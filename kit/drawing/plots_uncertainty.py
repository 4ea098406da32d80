"""A plot of uncertainty, in the style of `kit.drawing.plots`: worst case, root sum of squares and Monte Carlo."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display
from kit.core.uncertainty import Draws, budget, root_sum_square, worst_case
from kit.drawing.plots import COLORS, FAIL_COLOR, axis_label, new_figure, relation_of, shown_unit

if TYPE_CHECKING:
    from kit.drawing.plots import Figure

_BINS = 120


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
