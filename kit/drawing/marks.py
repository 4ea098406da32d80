"""What remains of a scene at a chosen scale: plain marks in paper millimeters, y up.

Every file format is written from these.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import atan2, ceil, cos, floor, hypot, pi, sin, tau
from typing import Literal, NamedTuple

from kit.drawing.layers import Layer
from kit.drawing.primitives import Point, Tone

Anchor = Literal["start", "middle", "end"]


class Box(NamedTuple):
    """An upright rectangle, mm."""

    left: float
    bottom: float
    right: float
    top: float

    def join(self, other: "Box") -> "Box":
        """Return the smallest box around both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


class Stroke(NamedTuple):
    """Straight lines through points, perhaps closed and filled with a tone."""

    layer: Layer
    points: tuple[Point, ...]
    closed: bool = False
    fill: Tone | None = None


class Curve(NamedTuple):
    """A circular arc; a full circle has a sweep of 2π."""

    layer: Layer
    center: Point
    radius: float
    start: float
    sweep: float
    fill: Tone | None = None


class Solid(NamedTuple):
    """A filled polygon in the line's own color: an arrowhead or a dot."""

    layer: Layer
    points: tuple[Point, ...]


class Label(NamedTuple):
    """One line of words: baseline point, anchor, angle (rad), height of capitals."""

    at: Point
    text: str
    anchor: Anchor = "start"
    angle: float = 0.0
    height: float = 2.5
    bold: bool = False


Mark = Stroke | Curve | Solid | Label

# Widths in thousandths of the font's size, of the sans-serif faces that share those of Helvetica (its metrics as a PDF
# library has them; Greek and signs from memory). Words are set to these widths whatever face they are drawn in.
_GROUPS = {
    191: "'′", 222: "ijl", 278: "ftI .,:;!/[]|·", 333: "r()-²³`", 354: "″", 395: "τ", 400: "°",
    446: "εξζ", 500: "cksvxyzJγκλν", 549: "√≤≥≈∞≠", 556: "abdeghnopqu0123456789L$_#?–", 575: "βαδηθμ",
    584: "+=<>~×÷±−ρ", 611: "FTZσΣ", 667: "ABEKPSVXY&ϕφψ", 722: "CDHNRUwΔωΩπ", 778: "GOQΦ", 833: "mM", 889: "%",
    944: "W", 1000: "—…→←↑↓@⌀",
}  # fmt: skip
_WIDTHS = {letter: width for width, letters in _GROUPS.items() for letter in letters}
_UNKNOWN = 667
CAPITALS = 0.716
"""Height of capital letters in a common sans-serif face, as a share of the font size."""
BOLDER = 1.08
"""How much wider bold words are."""
SUBSCRIPT = 0.7


def pieces(text: str) -> list[tuple[str, bool]]:
    """Split ``"F_{s} = 3"`` into ``[("F", False), ("s", True), (" = 3", False)]``; True marks a subscript."""
    found: list[tuple[str, bool]] = []
    for index, part in enumerate(text.split("_{")):
        sub, brace, rest = part.partition("}")
        if index and brace:
            found += [(sub, True), (rest, False)]
        else:
            found.append(("_{" + part if index else part, False))
    return [(words, lowered) for words, lowered in found if words]


@lru_cache(maxsize=4096)
def text_width(text: str, height: float, bold: bool = False) -> float:
    """Return the width to which words are set, mm; `height`: of capitals, mm."""
    total = 0.0
    for words, lowered in pieces(text):
        width = sum(_WIDTHS.get(c, _UNKNOWN) for c in words)
        total += width * SUBSCRIPT if lowered else width
    return total * height / CAPITALS / 1000 * (BOLDER if bold else 1.0)


def around(points: Sequence[Point]) -> Box | None:
    """Return the box around points; None if there are none."""
    if not points:
        return None
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def extent(marks: Iterable[Mark]) -> Box | None:
    """Return the box around all marks; None if there are none."""
    points: list[Point] = []
    for mark in marks:
        if isinstance(mark, Label):
            points += label_corners(mark)
        elif isinstance(mark, Curve):
            points += curve_extremes(mark.center, mark.radius, mark.start, mark.sweep)
        else:
            points += mark.points
    return around(points)


def shifted(mark: Mark, dx: float, dy: float) -> Mark:
    """Return a mark moved by (dx, dy)."""
    if isinstance(mark, Stroke):
        return Stroke(mark.layer, tuple([(x + dx, y + dy) for x, y in mark.points]), mark.closed, mark.fill)
    if isinstance(mark, Solid):
        return Solid(mark.layer, tuple([(x + dx, y + dy) for x, y in mark.points]))
    if isinstance(mark, Label):
        return mark._replace(at=(mark.at[0] + dx, mark.at[1] + dy))
    return mark._replace(center=(mark.center[0] + dx, mark.center[1] + dy))


def label_corners(label: Label) -> tuple[Point, ...]:
    """Return corners of the words' box, descenders included: two opposite ones if level, else all four."""
    width = text_width(label.text, label.height, label.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    x, y = label.at
    if not label.angle:
        low, high = y - 0.35 * label.height, y + 1.1 * label.height
        return ((x + left, low), (x + left + width, high))
    c, s = cos(label.angle), sin(label.angle)
    corners = [(left + w, h) for w in (0.0, width) for h in (-0.35 * label.height, 1.1 * label.height)]
    return tuple((x + u * c - v * s, y + u * s + v * c) for u, v in corners)


def curve_extremes(center: Point, radius: float, start: float, sweep: float) -> tuple[Point, ...]:
    """Return the ends of an arc and those of its four axis points that lie on it."""
    low, high = sorted((start, start + sweep))
    high = min(high, low + tau)
    angles = [low, high]
    angles += [k * pi / 2 for k in range(ceil(low / (pi / 2)), floor(high / (pi / 2)) + 1)]
    return tuple((center[0] + radius * cos(a), center[1] + radius * sin(a)) for a in angles)


def direction(p: Point, q: Point) -> tuple[float, Point]:
    """Return the distance from p to q and the unit vector; (0, (1, 0)) where they coincide."""
    length = hypot(q[0] - p[0], q[1] - p[1])
    if length == 0:
        return 0.0, (1.0, 0.0)
    return length, ((q[0] - p[0]) / length, (q[1] - p[1]) / length)


def heading(vector: Point) -> float:
    """Return the angle of a vector, rad."""
    return atan2(vector[1], vector[0])
