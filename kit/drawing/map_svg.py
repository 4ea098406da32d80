"""A map of a model over two givens as SVG: a result in bands with labelled lines, every limit as a border, the design.

Written directly rather than as a plot, since it follows a moving control. Its ground is light in every theme, what
stands beside it follows the page.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

import contourpy
import numpy as np
import shapely

from kit.core.model import Case
from kit.core.model.grid import Grid
from kit.core.quantity import Display
from kit.drawing.axes_svg import fitted, in_digits, open_path, percent, plain_label, ticks
from kit.drawing.plots import FAIL_COLOR, axis_label, relation_of, shown_unit

if TYPE_CHECKING:
    Array = np.ndarray[Any, Any]

WIDTH, HEIGHT = 660.0, 470.0  # of the picture without its legend; all lengths here are CSS pixels
LEFT, RIGHT, TOP, BOTTOM = 74.0, 26.0, 12.0, 56.0
BOX = (LEFT, TOP, WIDTH - LEFT - RIGHT, HEIGHT - TOP - BOTTOM)
"""Left, top, width and height of the plot in its picture."""
ROW = 19.0  # of the legend
BANDS = 8
CHANCES = (0.95, 0.5, 0.99, 0.8, 0.9)  # the first are labelled first
PALE, DEEP = (247, 250, 253), (126, 165, 204)  # of the bands: they differ in lightness, so that gray shows them too
EQUAL = 'stroke="#00695c" stroke-width="1.6" stroke-dasharray="1 4"'
STRAY = 0.25  # how far a line may be simplified
DASHES = ("", "9 4", "3 3", "9 3 2 3", "14 4", "2 6", "6 6")
ANGLES = (45, 135, 0, 90, 65, 155, 20)


class Frame(NamedTuple):
    """Where a grid lies in the picture: its ends in base units, and the box in pixels."""

    x: tuple[float, float]
    y: tuple[float, float]

    def across(self, base: Any) -> Any:
        """Return pixels from the left."""
        low, high = self.x
        return LEFT + (base - low) / (high - low) * (WIDTH - LEFT - RIGHT)

    def down(self, base: Any) -> Any:
        """Return pixels from the top."""
        low, high = self.y
        return HEIGHT - BOTTOM - (base - low) / (high - low) * (HEIGHT - TOP - BOTTOM)

    def at(self, across: float, up: float) -> tuple[float, float]:
        """Return base values at shares of the box's width and height, both within 0 and 1."""
        share_x, share_y = min(max(across, 0.0), 1.0), min(max(up, 0.0), 1.0)
        return self.x[0] + share_x * (self.x[1] - self.x[0]), self.y[0] + share_y * (self.y[1] - self.y[0])


def frame_of(made: Grid) -> Frame:
    """Return where a grid lies in its picture."""
    return Frame((float(made.x[0]), float(made.x[-1])), (float(made.y[0]), float(made.y[-1])))


@dataclass(frozen=True, eq=False)
class Equal:
    """A quantity of which lines of equal value are drawn, and its values (m, n) over the grid, base units."""

    name: str
    values: Array


@dataclass(frozen=True)
class Sampled:
    """Whether no limit of what is built fails at one point [base units]; None where it cannot be built."""

    x: float
    y: float
    holds: bool | None


def map_svg(
    case: Case,
    made: Grid,
    display: Display,
    *,
    chance: Array | None = None,
    equal: Equal | None = None,
    levels: Sequence[float] | None = None,
    place: tuple[float, float, float] | None = None,
    sampled: Sequence[Sampled] = (),
    ids: str = "map",
) -> str:
    """Return the map as SVG; `chance` (m, n), where given, is shown in the result's place. `ids` begins its ids.

    `equal` adds lines of equal value of another quantity. `levels` are the borders of the bands, in the reader's unit.
    `sampled` are points at which the limits of what is built were looked at, each with its mark.
    With a `place`, left, top and width in another picture, it stands there without its legend.
    """
    frame = frame_of(made)
    x, y = frame.across(made.x), frame.down(made.y)
    model = case.model
    part = relation_of(case, made.name)
    unit = shown_unit(part, display)
    if chance is None:
        field = np.asarray(unit.from_base(made.result))
        levels = round_levels(field) if levels is None else levels
        title, fmt = plain_label(axis_label(part, display, 200)), in_digits
    else:
        field, levels = chance, CHANCES
        title, fmt = "how likely all limits hold, at least", percent
    height = HEIGHT + ROW * (len(made.margins) + 1 + bool(np.isnan(made.result).any()))
    if place:
        left, top, wide = place
        size = f'x="{left:g}" y="{top:g}" width="{wide:g}" height="{wide * HEIGHT / WIDTH:g}"'
        height = HEIGHT
    else:
        size = 'style="display:block;width:100%;height:auto"'
        height += ROW * (bool(equal) + bool(sampled))
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:g}" role="img" '
        f'aria-label="{escape(_words(case, made, title, display))}" font-family="sans-serif" font-size="12" '
        f'fill="var(--fw-ink,#000)" {size}>'
    ]
    box = f'x="{LEFT:g}" y="{TOP:g}" width="{WIDTH - LEFT - RIGHT:g}" height="{HEIGHT - TOP - BOTTOM:g}"'
    parts.append(f'<rect {box} fill="#e4e4e4"/>')
    parts += _bands(x, y, field, sorted(levels))
    parts += _lines(x, y, field, levels, fmt)
    more = ""
    if equal:
        of = model.part(equal.name)
        seen = np.asarray(shown_unit(of, display).from_base(equal.values))
        parts += _lines(x, y, seen, round_levels(seen), in_digits, EQUAL)
        more = plain_label(axis_label(of, display, 200))
    borders = _Borders(ids)
    for number, (name, margin) in enumerate(made.margins.items(), 1):
        borders.add(number, model.limits[name].words, x, y, margin)
    parts += borders.drawn
    parts.append(f'<rect {box} fill="none" stroke="var(--fw-ink,#000)"/>')
    across, up = model.givens[made.across], model.givens[made.up]
    parts += _axes(frame, shown_unit(across, display), shown_unit(up, display))
    middle_x, middle_y = (LEFT + WIDTH - RIGHT) / 2, (TOP + HEIGHT - BOTTOM) / 2
    words_x, words_y = (
        escape(fitted(plain_label(axis_label(given, display, 200)), room))
        for given, room in ((across, WIDTH - LEFT - RIGHT), (up, HEIGHT - TOP - BOTTOM))
    )
    parts.append(f'<text x="{middle_x:g}" y="{HEIGHT - 16:g}" text-anchor="middle">{words_x}</text>')
    parts.append(f'<text transform="translate(16 {middle_y:g}) rotate(-90)" text-anchor="middle">{words_y}</text>')
    parts += (_mark(frame.across(each.x), frame.down(each.y), each.holds) for each in sampled)
    parts += _design(frame, case.base[made.across], case.base[made.up])
    if not place:
        parts += _legend(title, borders.legend, more, no_value=bool(np.isnan(made.result).any()), sampled=bool(sampled))
    return "".join(parts) + "</svg>"


def _words(case: Case, made: Grid, title: str, display: Display) -> str:
    """Return the map in words, for those who do not see it."""
    here = f"{case.show(made.across, display)} and {case.show(made.up, display)}"
    failing = [check.words(display) for check in case.checks if not check.ok]
    state = f"failing there: {'; '.join(failing)}" if failing else "all limits hold there"
    axes = " and ".join(map(case.model.called, (made.across, made.up)))
    return f"Map of {title} over {axes}; the design is at {here}, {state}"


class _Borders:
    """The limits of a map: where each fails, its border with its number, and its line in the legend."""

    def __init__(self, ids: str) -> None:
        self.ids = ids
        self.drawn: list[str] = []
        self.legend: list[tuple[int, str, str]] = []
        self._marks: list[tuple[float, float]] = []

    def add(self, number: int, name: str, x: Array, y: Array, margin: Array) -> None:
        dash, angle = DASHES[(number - 1) % len(DASHES)], ANGLES[(number - 1) % len(ANGLES)]
        known = margin[np.isfinite(margin)]
        if not known.size:
            self.legend.append((number, dash, f"{name}: no value anywhere here"))
            return
        if known.min() >= 0 or known.max() < 0:
            self.legend.append((number, dash, f"{name}: {'holds' if known.min() >= 0 else 'fails'} everywhere here"))
            if known.min() >= 0:
                return
        pattern = f"{self.ids}-{number}"
        self.drawn.append(
            f'<pattern id="{pattern}" width="9" height="9" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({angle})"><path d="M0 0V9" stroke="{FAIL_COLOR}" stroke-width="1.1"/></pattern>'
        )
        generator = _generator(x, y, margin)
        inside = _rings(*generator.filled(-math.inf, 0.0))
        self.drawn.append(f'<path d="{inside}" fill="url(#{pattern})" fill-rule="evenodd"/>')
        lines = [_simple(line) for line in generator.lines(0.0)]
        if not lines:
            return
        self.legend.append((number, dash, f"{name}: fails on the hatched side"))
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self.drawn.append(
            f'<path d="{"".join(open_path(line) for line in lines)}" fill="none" stroke="{FAIL_COLOR}" '
            f'stroke-width="2.2"{dashed}/>'
        )
        at_x, at_y = self._place(max(lines, key=_length))
        self.drawn.append(
            f'<circle cx="{at_x:.1f}" cy="{at_y:.1f}" r="9" fill="#fff" stroke="{FAIL_COLOR}"/>'
            f'<text x="{at_x:.1f}" y="{at_y + 4:.1f}" text-anchor="middle" font-weight="bold" '
            f'fill="{FAIL_COLOR}">{number}</text>'
        )

    def _place(self, line: Array) -> tuple[float, float]:
        """Return a place on a border for its number, far from the numbers that are there."""
        shares = (0.5, 0.3, 0.7, 0.15, 0.85)
        spots = [_along(line, share) for share in shares]
        best = max(spots, key=lambda spot: min([40.0, *(math.dist(spot, mark) for mark in self._marks)]))
        self._marks.append(best)
        return best


def _bands(x: Array, y: Array, field: Array, levels: Sequence[float]) -> Iterator[str]:
    generator = _generator(x, y, field)
    ends = [-math.inf, *levels, math.inf]
    for number, (low, high) in enumerate(pairwise(ends)):
        share = number / max(len(levels), 1)
        color = ",".join(f"{round(a + share * (b - a))}" for a, b in zip(PALE, DEEP, strict=True))
        if path := _rings(*generator.filled(low, high)):
            yield f'<path d="{path}" fill="rgb({color})" fill-rule="evenodd"/>'


def _lines(
    x: Array,
    y: Array,
    field: Array,
    levels: Sequence[float],
    fmt: Any,
    style: str = 'stroke="#444" stroke-width="0.8"',
) -> Iterator[str]:
    generator = _generator(x, y, field)
    labels: list[str] = []
    taken: list[tuple[float, float]] = []
    for number, level in enumerate(levels):
        lines = [_simple(line) for line in generator.lines(level)]
        if not lines:
            continue
        yield f'<path d="{"".join(open_path(line) for line in lines)}" fill="none" {style}/>'
        longest = max(lines, key=_length)
        if _length(longest) > 60:
            at_x, at_y = _along(longest, 0.35 + 0.3 * (number % 2))
            at_x = min(max(at_x, LEFT + 16), WIDTH - RIGHT - 16)
            at_y = min(max(at_y, TOP + 12), HEIGHT - BOTTOM - 6)
            if any(abs(at_x - x0) < 36 and abs(at_y - y0) < 14 for x0, y0 in taken):
                continue
            taken.append((at_x, at_y))
            labels.append(
                f'<text x="{at_x:.1f}" y="{at_y + 4:.1f}" text-anchor="middle" font-size="11" fill="#000" '
                f'stroke="#fff" stroke-width="3" paint-order="stroke">{fmt(level)}</text>'
            )
    yield from labels


def _axes(frame: Frame, unit_x: Any, unit_y: Any) -> Iterator[str]:
    bottom = HEIGHT - BOTTOM
    for tick in _seen_ticks(frame.x, unit_x):
        x = frame.across(unit_x.to_base(tick))
        yield f'<path d="M{x:.1f} {bottom:g}v5" stroke="var(--fw-ink,#000)"/>'
        yield f'<text x="{x:.1f}" y="{bottom + 18:g}" text-anchor="middle">{in_digits(tick)}</text>'
    for tick in _seen_ticks(frame.y, unit_y):
        y = frame.down(unit_y.to_base(tick))
        yield f'<path d="M{LEFT:g} {y:.1f}h-5" stroke="var(--fw-ink,#000)"/>'
        yield f'<text x="{LEFT - 8:g}" y="{y + 4:.1f}" text-anchor="end">{in_digits(tick)}</text>'


def _design(frame: Frame, x: float, y: float) -> Iterator[str]:
    if not (frame.x[0] <= x <= frame.x[1] and frame.y[0] <= y <= frame.y[1]):
        return
    px, py = frame.across(x), frame.down(y)
    yield (
        f'<path d="M{px:.1f} {TOP:g}V{HEIGHT - BOTTOM:g}M{LEFT:g} {py:.1f}H{WIDTH - RIGHT:g}" stroke="#000" '
        'stroke-width="0.7" stroke-dasharray="2 3"/>'
        f'<circle class="fw-design" cx="{px:.1f}" cy="{py:.1f}" r="6.5" fill="#fff" stroke="#000" stroke-width="2"/>'
    )


def _mark(px: float, py: float, holds: bool | None) -> str:
    """Return a dot where no limit of the geometry fails, a cross where one does, a bar where nothing can be built."""
    if holds:
        return f'<circle cx="{px:.1f}" cy="{py:.1f}" r="3" fill="#000" stroke="#fff" stroke-width="1.5"/>'
    arm = "m-5 -5l10 10m0 -10l-10 10" if holds is False else "m-5 0h10"
    path = f'd="M{px:.1f} {py:.1f}{arm}" fill="none"'
    return f'<path {path} stroke="#fff" stroke-width="5"/><path {path} stroke="#000" stroke-width="2"/>'


def _legend(
    title: str, limits: Sequence[tuple[int, str, str]], more: str, *, no_value: bool, sampled: bool
) -> Iterator[str]:
    y = HEIGHT + 4.0
    yield f'<text x="{LEFT:g}" y="{y:g}"><tspan font-weight="bold">bands:</tspan> {escape(title)}; ○ the design</text>'
    for number, dash, words in limits:
        y += ROW
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        yield f'<path d="M{LEFT:g} {y - 4:g}h34" stroke="var(--fw-bad,{FAIL_COLOR})" stroke-width="2.2"{dashed}/>'
        yield f'<text x="{LEFT + 44:g}" y="{y:g}"><tspan font-weight="bold">{number}</tspan> {escape(words)}</text>'
    if more:
        y += ROW
        yield f'<path d="M{LEFT:g} {y - 4:g}h34" {EQUAL}/>'
        yield f'<text x="{LEFT + 44:g}" y="{y:g}">lines of equal {escape(more)}</text>'
    if sampled:
        y += ROW
        yield f'<rect x="{LEFT - 4:g}" y="{y - 12:g}" width="44" height="16" fill="#eef2f7"/>'
        yield "".join(_mark(LEFT + 4 + 14 * k, y - 4, holds) for k, holds in enumerate((True, False, None)))
        words = "limits of the geometry, sampled at these points alone: none fails, one fails, cannot be built"
        yield f'<text x="{LEFT + 44:g}" y="{y:g}">{words}</text>'
    if no_value:
        y += ROW
        yield f'<rect x="{LEFT:g}" y="{y - 11:g}" width="34" height="12" fill="#e4e4e4" stroke="#888"/>'
        yield f'<text x="{LEFT + 44:g}" y="{y:g}">the model has no value here</text>'


def _generator(x: Array, y: Array, z: Array) -> Any:
    return contourpy.contour_generator(
        x,
        y,
        np.ma.masked_invalid(z),
        fill_type=contourpy.FillType.OuterOffset,
        line_type=contourpy.LineType.Separate,
    )


def _rings(polygons: Sequence[Array], offsets: Sequence[Array]) -> str:
    """Return the path of filled areas."""
    path = []
    for points, cuts in zip(polygons, offsets, strict=True):
        path += [open_path(_simple(points[a:b])) + "Z" for a, b in pairwise(cuts)]
    return "".join(path)


def _simple(points: Array) -> Array:
    """Return a line without the points that it does not need."""
    return np.asarray(shapely.simplify(shapely.linestrings(points), STRAY).coords)


def _length(points: Array) -> float:
    return float(np.hypot(*np.diff(points, axis=0).T).sum())


def _along(points: Array, share: float) -> tuple[float, float]:
    """Return the point at a share of a line's length."""
    run = np.concatenate([[0.0], np.hypot(*np.diff(points, axis=0).T).cumsum()])
    return tuple(float(np.interp(share * run[-1], run, points[:, axis])) for axis in (0, 1))  # type: ignore[return-value]


def round_levels(values: Any) -> list[float]:
    """Return round numbers among most of the values, for the borders of bands."""
    known = np.asarray(values)[np.isfinite(values)]
    if not known.size:
        return []
    low, high = np.percentile(known, (2, 98))
    # What hardly changes has no bands: its round numbers would differ by rounding alone.
    return ticks(float(low), float(high), BANDS) if high - low > 1e-9 * max(abs(low), abs(high)) else []


def _seen_ticks(ends: tuple[float, float], unit: Any) -> list[float]:
    return ticks(float(unit.from_base(ends[0])), float(unit.from_base(ends[1])))
