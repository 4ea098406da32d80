"""Plots of a model around a case: curves, parts of a whole, and maps of two givens.

Black on white like paper, or in the page's theme; colors that the color-blind tell apart, and line styles, labels and
hatching beside them. Every axis names its quantity, symbol and unit. No state is kept: each function returns a new
figure.
"""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from html import escape
from textwrap import fill
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError
from kit.core.model import Case, Given, Limit, Relation, called
from kit.core.quantity import Display, parse

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure as Figure  # also for those who display one

Over = tuple[str, str]

COLORS = ("#0072b2", "#d55e00", "#009e73", "#cc79a7", "#56b4e9")
"""Okabe and Ito's set for color-blind readers, in the order of use."""
_STYLES = ("-", "--", "-.", ":", (0, (5, 1, 1, 1)))
_HATCHES = ("", "///", "...", "xxx", "\\\\\\")
FAIL_COLOR = "#a30f0f"
THEMED = {
    "#000000": "var(--fw-ink,#000)",
    "#ffffff": "var(--fw-paper,#fff)",
    "#d0d0d0": "var(--fw-grid,#d0d0d0)",
    FAIL_COLOR: f"var(--fw-bad,{FAIL_COLOR})",
    **{color: f"var(--fw-series-{n},{color})" for n, color in enumerate(COLORS, 1)},
}
"""Colors that a page may give by a variable of its style sheet: a dark page has others."""
_UP = 36  # characters of a label that stands up
_SIZE = (6.4, 3.9)  # inches: as wide as a page between its margins


def sweep(
    case: Case,
    given: str,
    results: Sequence[str],
    display: Display | None = None,
    *,
    over: Over | None = None,
) -> Figure:
    """Plot results of one unit against a given, all else as in `case`; the case is marked, and a lone result's limit.

    `over` are the ends of the given's axis as typed, ("200 mm", "900 mm"); its span unless stated.

    Raises:
        KitError: an unknown name, results of different units, or a given that has no axis.
    """
    figure, axes = new_figure()
    x = _Axis(case, given, display, over)
    parts = [relation_of(case, name) for name in results]
    seen = {shown_unit(part, display).text for part in parts}
    if len(seen) != 1:
        raise KitError(f"results in {' and '.join(sorted(seen))} do not share an axis; plot them one by one")
    found = _compute(case, {given: x.base}, [*results])
    for number, (part, name) in enumerate(zip(parts, results, strict=True)):
        unit, color = shown_unit(part, display), COLORS[number % len(COLORS)]
        style: dict[str, Any] = {
            "color": color,
            "linestyle": _STYLES[number % len(_STYLES)],
            "label": _name(part),
        }
        axes.plot(x.seen, unit.from_base(found[name]), marker="o" if x.counted else None, **style)
        axes.plot(x.here, unit.from_base(case.base[name]), "o", color=color, markersize=8, zorder=5)
    if len(parts) == 1:
        _bound(axes, case, parts[0], given, x, display)
    x.name(axes.xaxis)
    label = axis_label(parts[0], display, _UP) if len(parts) == 1 else _plain_label(parts[0], display)
    axes.set_ylabel(label, fontsize=9.5)
    axes.axvline(x.here, color="black", linewidth=0.8, linestyle=":")
    axes.set_xlim(x.seen[0], x.seen[-1])
    if len(parts) > 1 or axes.get_legend_handles_labels()[1][1:]:
        axes.legend(frameon=True, fontsize=8.5)
    return figure


def shares(
    case: Case, given: str, parts: Sequence[str], display: Display | None = None, *, over: Over | None = None
) -> Figure:
    """Plot results of one unit stacked on each other against a given: what makes up their sum.

    Raises as `sweep`.
    """
    figure, axes = new_figure()
    x = _Axis(case, given, display, over)
    relations = [relation_of(case, name) for name in parts]
    found = _compute(case, {given: x.base}, [*parts])
    unit = shown_unit(relations[0], display)
    below = np.zeros_like(x.seen)
    for number, (name, part) in enumerate(zip(parts, relations, strict=True)):
        above = below + unit.from_base(found[name])
        axes.fill_between(
            x.seen,
            below,
            above,
            facecolor=COLORS[number % len(COLORS)],
            edgecolor="black",
            linewidth=0.6,
            hatch=_HATCHES[number % len(_HATCHES)],
            alpha=0.75,
            label=_name(part),
        )
        below = above
    x.name(axes.xaxis)
    axes.set_ylabel(_plain_label(relations[0], display), fontsize=9.5)
    axes.axvline(x.here, color="black", linewidth=1.2, linestyle=":", label="the case at hand")
    axes.set_xlim(x.seen[0], x.seen[-1])
    axes.set_ylim(bottom=0)
    handles, names = axes.get_legend_handles_labels()
    axes.legend(handles[::-1], names[::-1], loc="upper left", fontsize=8.5)  # in the order of the stack
    return figure


def trade_off(
    case: Case,
    across: str,
    up: str,
    result: str,
    display: Display | None = None,
    *,
    over_across: Over | None = None,
    over_up: Over | None = None,
) -> Figure:
    """Plot a result as a map over two givens, all else as in `case`; where its limit fails is hatched.

    Raises as `sweep`.
    """
    figure, axes = new_figure()
    x, y = _Axis(case, across, display, over_across), _Axis(case, up, display, over_up, _UP)
    part = relation_of(case, result)
    unit = shown_unit(part, display)
    names, limit = [result], _limit(case, part)
    if limit is not None and limit.bound:
        names.append(limit.bound)
    found = _compute(case, {across: x.base[None, :], up: y.base[:, None]}, names)
    z = unit.from_base(found[result])
    axes.contourf(x.seen, y.seen, z, levels=12, cmap="cividis", alpha=0.45)
    lines = axes.contour(x.seen, y.seen, z, levels=12, colors="black", linewidths=0.7)
    labels = axes.clabel(lines, fontsize=8, fmt=lambda level: f"{level:.4g}")
    for label in labels:
        label.set_bbox({"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.85})
    if limit is not None:
        _hatch_failing(axes, limit, _allowed(case, limit), x, y, found)
    axes.plot(x.here, y.here, "o", color="white", markeredgecolor="black", markersize=9)
    axes.annotate(
        "the case at hand",
        (x.here, y.here),
        xytext=(8, 8),
        textcoords="offset points",
        fontsize=8.5,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.5, "alpha": 0.85},
    )
    x.name(axes.xaxis)
    y.name(axes.yaxis)
    words = "" if limit is None else "; hatched: more than allowed" if _upper(limit) else "; hatched: too little"
    axes.set_title(f"{axis_label(part, display)}{words}", fontsize=9)
    return figure


def picture(figure: Figure, alt: str) -> str:
    """Return a figure as inline SVG that needs no font, in the page's theme, with `alt` for those who do not see it."""
    from matplotlib import rc_context

    text = io.StringIO()
    with rc_context({"svg.hashsalt": alt}):  # ids that differ from picture to picture, not from run to run
        figure.savefig(text, format="svg", metadata={"Date": None, "Creator": None})
    svg = re.sub(r"#[0-9a-f]{6}\b", lambda color: THEMED.get(color[0], color[0]), text.getvalue())
    looks = f"max-width:100%;height:auto;background:{THEMED['#ffffff']};fill:{THEMED['#000000']}"
    opening = f'<svg role="img" aria-label="{escape(alt)}" style="{looks}" '
    return svg[svg.index("<svg") :].replace("<svg ", opening, 1)


# -- inside --------------------------------------------------------------------------------------------


class _Axis:
    """The values of a given along an axis: in base units, in the reader's, and where the case stands."""

    def __init__(self, case: Case, name: str, display: Display | None, over: Over | None, width: int = 58) -> None:
        given = case.model.part(name)
        if not isinstance(given, Given) or given.kind not in ("real", "count"):
            raise KitError(f"{name} is no measure and has no axis; take one of {', '.join(_measures(case))}")
        unit = shown_unit(given, display)
        low, high = given.span if over is None else [parse(end, given.unit).base for end in over]
        if not low < high:
            raise KitError(f"an axis of {name} from {over} has no length; give the smaller end first")
        self.counted = given.kind == "count"
        self.base = np.arange(low, high + 1.0) if self.counted else np.linspace(low, high, 161)
        self.seen = np.asarray(unit.from_base(self.base))
        self.here = unit.from_base(case.base[name])
        self.label = axis_label(given, display, width)

    def name(self, axis: Any) -> None:
        """Write the label at an axis, and whole numbers along it where the given is counted."""
        axis.set_label_text(self.label, fontsize=9.5)
        if self.counted:
            axis.get_major_locator().set_params(integer=True)


def _measures(case: Case) -> list[str]:
    return [name for name, given in case.model.free.items() if given.kind in ("real", "count")]


def new_figure() -> tuple[Figure, Axes]:
    """Return an empty figure in this module's style, and its axes."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=_SIZE, layout="constrained", facecolor="white")
    axes = figure.add_subplot()
    axes.grid(visible=True, color="#d0d0d0", linewidth=0.6)
    axes.tick_params(labelsize=9)
    return figure, axes


def _compute(case: Case, values: dict[str, Any], want: list[str]) -> dict[str, Any]:
    fixed = {name: entry.base for name, entry in case.entries.items()}
    inputs = [name for name in want if name in case.model.givens]
    found = case.compute(values, [name for name in want if name not in inputs])
    return found | {name: (fixed | values)[name] for name in inputs}


def relation_of(case: Case, name: str) -> Relation:
    """Return the relation of that name.

    Raises:
        KitError: there is none, or it is a given.
    """
    part = case.model.part(name)
    if not isinstance(part, Relation):
        raise KitError(f"{name} is given, not worked out; take one of {', '.join(case.model.relations)}")
    return part


def shown_unit(part: Given | Relation, display: Display | None) -> Any:
    """Return the unit in which a reader sees a quantity."""
    return (display or Display()).unit_for(part.unit)


def short_words(part: Given | Relation) -> str:
    """Return what a quantity is called, without what follows a semicolon."""
    return called(part).split(";")[0]


def _name(part: Given | Relation) -> str:
    return f"{short_words(part)} ${part.tex}$"


def axis_label(part: Given | Relation, display: Display | None, width: int = 58) -> str:
    """Return what stands along an axis: a quantity's words, broken at `width` characters, its symbol and its unit."""
    unit: str = shown_unit(part, display).text
    looks = {"deg": "degrees"}.get(unit, unit)
    return fill(short_words(part), width) + f" ${part.tex}$" + (f" in {looks}" if looks else "")


def _plain_label(part: Relation, display: Display | None) -> str:
    unit: str = shown_unit(part, display).text
    return {"deg": "degrees", "": "plain number"}.get(unit, unit)


def _limit(case: Case, part: Relation) -> Limit | None:
    """Return the limit that judges a relation or its size, if there is one."""
    for limit in case.model.limits.values():
        if limit.judges == part.name:
            return limit
    return None


def _allowed(case: Case, limit: Limit) -> Any:
    """Return what a limit allows in the case itself, in base units."""
    return next(check.allowed for check in case.checks if check.name == limit.name)


def _upper(limit: Limit) -> bool:
    return limit.sense == "<="


def _bound(axes: Axes, case: Case, part: Relation, given: str, x: _Axis, display: Display | None) -> None:
    """Draw what is allowed of a relation as a line."""
    limit = _limit(case, part)
    if limit is None:
        return
    allowed: Any = np.full_like(x.base, _allowed(case, limit))
    if limit.bound:
        found = _compute(case, {given: x.base}, [limit.bound])[limit.bound]
        allowed = np.broadcast_to(found, x.base.shape)
    words = "allowed" if _upper(limit) else "least allowed"
    style: dict[str, Any] = {"color": FAIL_COLOR, "linewidth": 1.4, "linestyle": (0, (8, 3)), "label": words}
    axes.plot(x.seen, shown_unit(part, display).from_base(allowed), **style)


def _hatch_failing(axes: Axes, limit: Limit, here: float, x: _Axis, y: _Axis, found: dict[str, Any]) -> None:
    names = list(found)
    value = found[names[0]]
    if limit.size:
        value = np.abs(value)
    allowed = found[names[1]] if len(names) > 1 else here
    excess = (value - allowed) * (1 if _upper(limit) else -1)
    if not np.nanmin(excess) < 0 < np.nanmax(excess):
        return
    axes.contourf(x.seen, y.seen, excess, levels=[0, np.nanmax(excess)], colors="none", hatches=["///"])
    axes.contour(x.seen, y.seen, excess, levels=[0], colors=FAIL_COLOR, linewidths=2)
