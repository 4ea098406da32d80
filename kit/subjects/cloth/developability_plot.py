"""Whether folds vanish as rulings are doubled: the proof that a surface can be laid flat, as a plot."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from kit.geometry.development.develop import Refinement

if TYPE_CHECKING:
    from matplotlib.figure import Figure

STYLES = (("o", "-", "#0068A8"), ("s", "--", "#B84A00"), ("^", ":", "#00745A"))


def refinement_plot(found: Mapping[str, Refinement]) -> Figure:
    """Plot the largest fold over the number of rulings, both on logarithmic scales, one line for each name."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.4, 3.6), layout="constrained")
    axes = figure.add_subplot()
    for (name, each), (marker, dashes, color) in zip(found.items(), STYLES, strict=False):
        folds = np.degrees(each.folds)
        axes.loglog(each.rulings, folds, dashes, marker=marker, color=color, label=name)
        axes.annotate(f"{folds[-1]:.2g}°", (each.rulings[-1], folds[-1]), xytext=(6, -3), textcoords="offset points")
    counts = next(iter(found.values())).rulings
    axes.set_xticks(counts, [str(count) for count in counts])
    axes.set_xticks([], minor=True)
    axes.set_xlabel("rulings")
    axes.set_ylabel("largest fold between facets, degrees")
    axes.grid(True, which="both", linewidth=0.3)
    axes.legend()
    return figure
