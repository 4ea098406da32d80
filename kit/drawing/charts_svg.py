"""Small charts as SVG: a result over a given for several designs, shares as bars, two wishes against each other.

What tells lines, bars and points apart is never color alone: dashes, marks, hatches and words stand beside it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display
from kit.drawing.axes_svg import BOTTOM, INK, LEFT, RIGHT, TOP, Axis, Plot, fitted, open_path, opened, percent
from kit.drawing.plots import COLORS

if TYPE_CHECKING:
    Array = np.ndarray[Any, Any]

ROW = 19.0  # of a legend or a bar
POINTS = 241
DASHES = ("", "9 4", "3 3", "9 3 2 3", "14 4", "2 6")
MARKS = (
    "M-5 0a5 5 0 1 0 10 0a5 5 0 1 0 -10 0Z",
    "M-5 -5h10v10h-10Z",
    "M0 -6L6 5H-6Z",
    "M0 -6L6 0L0 6L-6 0Z",
    "M0 6L6 -5H-6Z",
)
"""Circle, square, triangle, diamond, and a triangle on its head, around the origin."""


def curves_svg(cases: Mapping[str, Case], given: str, result: str, display: Display) -> str:
    """Return a result over a given for several designs of one model, each marked where it is itself.

    Raises:
        KitError: a given that has no axis, or a result that has no value anywhere.
    """
    first = next(iter(cases.values()))
    called = first.model.called
    over = first.model.givens[given]
    if over.kind not in ("real", "count") or not over.span[0] < over.span[1]:
        raise KitError(f"{called(given)} cannot be an axis; take a measure or a count")
    low, high = over.span
    x = np.arange(np.ceil(low), np.floor(high) + 1.0) if over.kind == "count" else np.linspace(low, high, POINTS)
    found = {name: np.broadcast_to(case.compute({given: x}, [result])[result], x.shape) for name, case in cases.items()}
    known = np.concatenate([values[np.isfinite(values)] for values in found.values()])
    if not known.size:
        raise KitError(f"{called(result)} has no value anywhere over {called(given)}; take another given")
    ends = _roomy([*np.percentile(known, (1, 99)), *(case.base[result] for case in cases.values())])
    plot = Plot(Axis(over, (low, high), display), Axis(first.model.part(result), ends, display))
    words = f"{called(result)} over {called(given)} of {', '.join(cases)}"
    parts = [opened(plot.width, plot.height + ROW * len(cases), words), *plot.frame()]
    for number, (name, case) in enumerate(cases.items()):
        color, dash = COLORS[number % len(COLORS)], DASHES[number % len(DASHES)]
        style = f'stroke="{color}" stroke-width="2" fill="none"' + (f' stroke-dasharray="{dash}"' if dash else "")
        for run in _runs(found[name], ends):
            points = np.column_stack(plot.at(x[run], found[name][run]))
            parts.append(f'<path d="{open_path(points)}" {style}/>')
        here = plot.at(case.base[given], case.base[result])
        parts.append(_mark(number, *here, color))
        y = plot.height + ROW * number + 4
        parts.append(f'<path d="M{LEFT:g} {y:g}h34" {style}/>{_mark(number, LEFT + 17, y, color)}')
        parts.append(f'<text x="{LEFT + 44:g}" y="{y + 4:g}">{escape(name)}</text>')
    return "".join(parts) + "</svg>"


@dataclass(frozen=True)
class Bar:
    """One bar: a name, its share from 0 to 1, what it says beside, and a second share that holds the first."""

    name: str
    share: float
    says: str = ""
    whole: float | None = None


def bars_svg(bars: Sequence[Bar], title: str, legend: tuple[str, str] | None = None, *, ids: str = "bars") -> str:
    """Return shares as bars, one below the other; `legend` tells what a bar's dark and its hatched part are.

    `ids` begins the ids in it.
    """
    width, left, top, each = 660.0, 4.0, 26.0, 2 * ROW  # a name above its bar: names are long
    room = width - left - 190.0
    height = top + each * len(bars) + ROW * bool(legend) + 8
    told = ", ".join(f"{bar.name} {percent(bar.share)}" for bar in bars)
    parts = [opened(width, height, f"{title}: {told}"), f'<text x="4" y="15" font-weight="bold">{escape(title)}</text>']
    parts.append(
        f'<defs><pattern id="{ids}-hatched" width="5" height="5" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate(45)"><path d="M0 0V5" stroke="{INK}"/></pattern></defs>'
    )
    for number, bar in enumerate(bars):
        y = top + each * number + ROW
        parts.append(f'<text x="{left:g}" y="{y - 5:g}">{escape(fitted(bar.name, width))}</text>')
        if bar.whole is not None:
            long = room * min(max(bar.whole, 0.0), 1.0)
            parts.append(
                f'<rect x="{left:g}" y="{y:g}" width="{long:.1f}" height="14" '
                f'fill="url(#{ids}-hatched)" stroke="{INK}"/>'
            )
        long = room * min(max(bar.share, 0.0), 1.0)
        parts.append(f'<rect x="{left:g}" y="{y:g}" width="{long:.1f}" height="14" fill="#3b6ea5"/>')
        shown = percent(bar.share) if bar.whole is None else f"{percent(bar.share)} / {percent(bar.whole)}"
        beside = left + room * min(max(bar.share, bar.whole or 0.0, 0.0), 1.0) + 6
        parts.append(f'<text x="{beside:.1f}" y="{y + 12:g}">{shown} {escape(bar.says)}</text>')
    if legend:
        y = top + each * len(bars) + 6
        parts.append(f'<rect x="{left:g}" y="{y:g}" width="24" height="12" fill="#3b6ea5"/>')
        parts.append(f'<text x="{left + 30:g}" y="{y + 11:g}">{escape(legend[0])}</text>')
        parts.append(
            f'<rect x="{left + 200:g}" y="{y:g}" width="24" height="12" fill="url(#{ids}-hatched)" stroke="{INK}"/>'
        )
        parts.append(f'<text x="{left + 230:g}" y="{y + 11:g}">{escape(legend[1])}</text>')
    return "".join(parts) + "</svg>"


def front_plot(cases: Sequence[Case], across: str, up: str, here: Case, display: Display) -> Plot:
    """Return the frame of a front: two quantities of some designs, and the design at hand.

    Raises:
        KitError: there is no design.
    """
    if not cases:
        raise KitError("there is no design to show; widen what is varied or lower the chance")
    x, y = ([case.base[name] for case in (*cases, here)] for name in (across, up))
    model = here.model
    return Plot(Axis(model.part(across), _roomy(x), display), Axis(model.part(up), _roomy(y), display))


def front_svg(plot: Plot, cases: Sequence[Case], across: str, up: str, here: Case) -> str:
    """Return designs among which one wish can be met better only at the other's cost; `here` is the design at hand."""
    places = [plot.at(case.base[across], case.base[up]) for case in cases]
    words = f"{len(cases)} best designs between {here.model.called(across)} and {here.model.called(up)}"
    parts = [opened(plot.width, plot.height + ROW, words), *plot.frame()]
    parts.append(f'<path d="{open_path(np.array(places))}" fill="none" stroke="#3b6ea5" stroke-dasharray="4 4"/>')
    for number, (x, y) in enumerate(places, 1):
        parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="9" fill="#fff" stroke="#3b6ea5" stroke-width="2"/>')
        parts.append(
            f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" font-size="10" fill="#000">{number}</text>'
        )
    parts.append(_mark(3, *plot.at(here.base[across], here.base[up]), INK))
    y = plot.height + 4
    parts.append(f'{_mark(3, LEFT + 8, y, INK)}<text x="{LEFT + 22:g}" y="{y + 4:g}">the design at hand</text>')
    return "".join(parts) + "</svg>"


def nearest(plot: Plot, cases: Sequence[Case], across: str, up: str, x: float, y: float) -> int:
    """Return which design lies nearest a place, shares of the plot's width and height from its lower left."""
    at = (LEFT + x * (plot.width - LEFT - RIGHT), plot.height - BOTTOM - y * (plot.height - TOP - BOTTOM))
    places = np.array([plot.at(case.base[across], case.base[up]) for case in cases])
    return int(np.argmin(np.hypot(*(places - at).T)))


def box_of(plot: Plot) -> list[float]:
    """Return left, top, width and height of the plot within its picture, CSS pixels."""
    return [LEFT, TOP, plot.width - LEFT - RIGHT, plot.height - TOP - BOTTOM]


def _mark(number: int, x: float, y: float, color: str) -> str:
    return (
        f'<path transform="translate({x:.1f} {y:.1f})" d="{MARKS[number % len(MARKS)]}" fill="#fff" stroke="{color}" '
        'stroke-width="2"/>'
    )


def _roomy(values: Sequence[float]) -> tuple[float, float]:
    """Return ends that hold all values with some room; of one value, a tenth of it on both sides."""
    low, high = float(min(values)), float(max(values))
    room = 0.06 * (high - low) or 0.1 * abs(high) or 1.0
    return low - room, high + room


def _runs(values: Array, ends: tuple[float, float]) -> list[slice]:
    """Return the stretches of a curve that have values and lie within its plot."""
    shown = np.isfinite(values) & (values >= ends[0]) & (values <= ends[1])
    edges = np.flatnonzero(np.diff(np.concatenate([[0], shown.astype(int), [0]])))
    return [slice(a, b) for a, b in pairwise(edges) if shown[a] and b - a > 1]
