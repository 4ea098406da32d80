"""The strain of flat pieces of cloth as a map: colors, lines of equal strain with numbers, the worst place marked.

Orange is a thread that is longer on the shape than on the table, purple one that is shorter: the color-blind tell them
apart, the numbers do without color, and what is beyond the limit is hatched.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from kit.core.quantity.digits import signed
from kit.subjects.cloth.geometry.covering import FlatPiece
from kit.subjects.cloth.pattern_drawing import side_by_side

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

Floats = NDArray[np.float64]
LEAST = 1e-4  # strain below which a map shows nothing but zero: 0.01 %
LEVELS = 6  # lines of equal strain, about


def strain_map(pieces: Sequence[FlatPiece], limit: tuple[float, float]) -> Figure:
    """Plot the strain of all pieces along the warp and along the weft; `limit`: what each thread takes."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.2, 4.0), layout="constrained")
    low_high = [(piece.flat.min(axis=0), piece.flat.max(axis=0)) for piece in pieces]
    shifts = side_by_side(low_high, 30.0)
    for place, (thread, allowed) in enumerate(zip(("warp", "weft"), limit, strict=True), 1):
        axes = figure.add_subplot(1, 2, place)
        _thread(axes, pieces, shifts, thread, allowed)
    return figure


def _thread(axes: Axes, pieces: Sequence[FlatPiece], shifts: Sequence[Floats], thread: str, allowed: float) -> None:
    values = [piece.warp if thread == "warp" else piece.weft for piece in pieces]
    largest = max(float(np.abs(each).max()) for each in values)
    reach = 100 * max(largest, allowed)
    worst = ""
    for piece, shift, strain in zip(pieces, shifts, values, strict=True):
        at = piece.flat + shift
        mapped = axes.tripcolor(
            at[:, 0],
            at[:, 1],
            piece.triangles,
            100 * strain,
            cmap="PuOr_r",
            vmin=-reach,
            vmax=reach,
            rasterized=True,
        )
        if np.ptp(strain) > LEAST:
            _lines(axes, at, piece, strain, allowed)
        for edge in piece.edges:
            axes.plot(*(edge.line + shift).T, color="black", linewidth=1.0)
        middle = at[piece.triangles].mean(axis=1)
        axes.annotate(piece.name, (float(at[:, 0].mean()), float(at[:, 1].max()) + 6), ha="center", fontsize=8)
        tail = middle.mean(axis=0)
        angle = piece.grain + (np.pi / 2 if thread == "weft" else 0.0)
        ahead = 0.12 * float(np.ptp(at, axis=0).max()) * np.array([np.cos(angle), np.sin(angle)])
        axes.annotate(
            "", tuple(tail + ahead), tuple(tail - ahead), arrowprops={"arrowstyle": "<->", "color": "#444444"}
        )
        if largest > LEAST and float(np.abs(strain).max()) == largest:
            k = int(np.abs(strain).argmax())
            axes.plot(*middle[k], marker="X", color="white", markeredgecolor="black", markersize=8)
            worst = f"{signed(100 * strain[k], 2)} % at the cross"
    axes.figure.colorbar(mapped, ax=axes, location="bottom", shrink=0.9, label=f"strain along the {thread}, %")
    words = worst or "below 0.01 %"
    axes.set_title(f"{thread}: {words}, of {100 * allowed:.2f} % allowed", fontsize=9)
    axes.set_aspect("equal")
    axes.set_axis_off()


def _lines(axes: Axes, at: Floats, piece: FlatPiece, strain: Floats, allowed: float) -> None:
    """Draw lines of equal strain over values smoothed to the vertices, and hatch what is beyond the limit."""
    total, count = np.zeros(len(at)), np.zeros(len(at))
    for k in range(3):
        np.add.at(total, piece.triangles[:, k], 100 * strain)
        np.add.at(count, piece.triangles[:, k], 1)
    smooth = total / np.maximum(count, 1)
    lines = axes.tricontour(at[:, 0], at[:, 1], piece.triangles, smooth, LEVELS, colors="black", linewidths=0.6)
    axes.clabel(lines, fontsize=7, fmt="%.2f")
    beyond = np.abs(smooth)
    if beyond.max() > 100 * allowed:
        axes.tricontourf(
            at[:, 0],
            at[:, 1],
            piece.triangles,
            beyond,
            [100 * allowed, beyond.max() + 1e-9],
            colors="none",
            hatches=["///"],
        )
