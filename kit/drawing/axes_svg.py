"""Axes of small pictures written directly as SVG: round numbers, labels, and a frame with two axes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from kit.core.model import Given, Relation
from kit.core.quantity import Display
from kit.core.quantity.digits import significant
from kit.drawing.plots import axis_label, shown_unit

if TYPE_CHECKING:
    import numpy as np

    Array = np.ndarray[Any, Any]

LEFT, RIGHT, TOP, BOTTOM = 78.0, 22.0, 14.0, 54.0  # around the plot, CSS pixels
INK = "var(--fw-ink,#000)"  # of the sheet or panel that it stands in; black in a file of its own
_LETTER = 6.8  # pixels that a letter takes on average, generously, in the widest of the usual fonts
FONT = 'font-family="sans-serif" font-size="12"'


@dataclass(frozen=True)
class Axis:
    """One axis: what it shows, and its ends in base units."""

    part: Given | Relation
    ends: tuple[float, float]
    display: Display

    @property
    def label(self) -> str:
        """What stands along it."""
        return plain_label(axis_label(self.part, self.display, 200))

    def ticks(self) -> list[tuple[float, str]]:
        """Return round numbers of the reader's unit: each in base units, and as text."""
        unit = shown_unit(self.part, self.display)
        low, high = (float(unit.from_base(end)) for end in self.ends)
        return [(float(unit.to_base(each)), in_digits(each)) for each in ticks(low, high)]


@dataclass(frozen=True)
class Plot:
    """A frame with an axis below and one on the left; all lengths are CSS pixels."""

    x: Axis
    y: Axis
    width: float = 660.0
    height: float = 360.0

    def at(self, x: Any, y: Any) -> tuple[Any, Any]:
        """Return pixels from the left and from the top, of base values or arrays of them."""
        (a, b), (c, d) = self.x.ends, self.y.ends
        across = LEFT + (x - a) / ((b - a) or 1.0) * (self.width - LEFT - RIGHT)
        down = self.height - BOTTOM - (y - c) / ((d - c) or 1.0) * (self.height - TOP - BOTTOM)
        return across, down

    def frame(self) -> Iterator[str]:
        """Yield the frame with its axes."""
        bottom, right = self.height - BOTTOM, self.width - RIGHT
        yield (
            f'<rect x="{LEFT:g}" y="{TOP:g}" width="{right - LEFT:g}" height="{bottom - TOP:g}" fill="none" '
            f'stroke="{INK}"/>'
        )
        for base, text in self.x.ticks():
            x = self.at(base, 0.0)[0]
            yield f'<path d="M{x:.1f} {bottom:g}v5" stroke="{INK}"/>'
            yield f'<text x="{x:.1f}" y="{bottom + 18:g}" text-anchor="middle">{text}</text>'
        for base, text in self.y.ticks():
            y = self.at(0.0, base)[1]
            yield f'<path d="M{LEFT:g} {y:.1f}h-5" stroke="{INK}"/>'
            yield f'<text x="{LEFT - 8:g}" y="{y + 4:.1f}" text-anchor="end">{text}</text>'
        middle_x, middle_y = (LEFT + right) / 2, (TOP + bottom) / 2
        yield (
            f'<text x="{middle_x:g}" y="{self.height - 14:g}" text-anchor="middle">'
            f"{escape(fitted(self.x.label, right - LEFT))}</text>"
            f'<text transform="translate(16 {middle_y:g}) rotate(-90)" text-anchor="middle">'
            f"{escape(fitted(self.y.label, bottom - TOP + 2 * TOP))}</text>"
        )


def opened(width: float, height: float, words: str) -> str:
    """Return the begin of a picture in the reader's ink, `words` for those who do not see it; "</svg>" ends it."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" role="img" '
        f'aria-label="{escape(words)}" {FONT} fill="{INK}" '
        f'style="display:block;width:100%;max-width:{width:g}px;height:auto">'
    )


def ticks(low: float, high: float, most: int = 7) -> list[float]:
    """Return round numbers from `low` to `high`, in steps of 1, 2 or 5 times a power of ten."""
    if not high > low:
        return [low]
    rough = (high - low) / most
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * each for each in (1, 2, 5, 10) if power * each >= rough * (1 - 1e-9))
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [number * step for number in range(first, last + 1)]


def in_digits(value: float) -> str:
    """Return a number along an axis or a line, of six digits at most."""
    return significant(value, 6).replace("-", "\u2212")


def percent(value: float) -> str:
    """Return a share as whole percents."""
    return f"{100 * value:.0f} %"


def plain_label(label: str) -> str:
    """Return an axis' label without its symbol, which is set in mathematics."""
    before, _, rest = label.partition(" $")
    return before + (rest.partition("$")[2] if rest else "")


def fitted(label: str, room: float) -> str:
    """Return a label that fits along so many pixels: its words are cut short, its unit stays whole."""
    most = int(room / _LETTER)
    if len(label) <= most:
        return label
    words, between, unit = label.rpartition(" in ")
    end = between + unit if between else ""
    return f"{(words if between else label)[: max(most - len(end) - 1, 1)].rstrip()}…{end}"


def open_path(points: Array) -> str:
    """Return the path of a line through points (n, 2), pixels."""
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
