"""What a drawing is made of: frozen primitives in model millimeters (y up) and radians.

`offset`, `shift`, `gap`, `length` of an arrow, `radius` of an angle dimension or moment, and every text
height are PAPER millimeters: they keep their size whatever the scale.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import isfinite, pi
from typing import Literal

from kit.core.errors import KitError
from kit.drawing.layers import Layer

Point = tuple[float, float]
Tone = Literal["light", "medium", "strong"]
TONES: dict[Tone, float] = {"light": 0.07, "medium": 0.16, "strong": 0.3}
"""Share of the ink in a fill tone."""
Place = Literal["center", "left", "right", "above", "below", "above left", "above right", "below left", "below right"]
PLACES: dict[str, tuple[int, int]] = {
    "center": (0, 0), "left": (-1, 0), "right": (1, 0), "above": (0, 1), "below": (0, -1),
    "above left": (-1, 1), "above right": (1, 1), "below left": (-1, -1), "below right": (1, -1),
}  # fmt: skip
TEXT = 2.5
"""Height of capital letters, paper mm (ISO 3098 series, from memory)."""

LEAST_SPACING = 0.5
"""Of hatch lines, paper mm: closer ones run together."""
LEAST_RADIUS = 3.0
"""Of an angle dimension or a moment, paper mm: arrowheads need the room."""


def _finite(what: str, *numbers: float) -> None:
    # One sum tells for all: anything infinite or not a number makes it so.
    if not isfinite(sum(numbers)):
        given = ", ".join(f"{number:g}" for number in numbers)
        raise KitError(
            f"{what} has a coordinate that is not a finite number ({given}); check the values it is drawn from."
        )


def _finite_points(what: str, points: tuple[Point, ...], least: int) -> None:
    if len(points) < least:
        raise KitError(f"{what} has {len(points)} point(s); it needs at least {least}.")
    for index, (x, y) in enumerate(points):
        if not isfinite(x + y):
            raise KitError(
                f"{what} has a coordinate that is not a finite number (point {index}: {x:g}, {y:g}); "
                "check the values it is drawn from."
            )


def _at_least(what: str, size: str, value: float, least: float) -> None:
    if value < least:
        raise KitError(f"{what} has a {size} of {value:g} mm; it must be at least {least:g} mm.")


def _known(what: str, value: str, allowed: Iterable[str]) -> None:
    if value not in allowed:
        raise KitError(f"{what} was given {value!r}; allowed are {', '.join(map(repr, allowed))}.")


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from `p` to `q`, mm."""

    p: Point
    q: Point
    layer: Layer = Layer.OUTLINE

    def __post_init__(self) -> None:
        _finite(f"A line on layer {self.layer.css!r}", *self.p, *self.q)


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight lines through `points` (mm), closed or open; a closed one may carry a fill tone."""

    points: tuple[Point, ...]
    layer: Layer = Layer.OUTLINE
    closed: bool = False
    fill: Tone | None = None

    def __post_init__(self) -> None:
        _finite_points(f"A polyline on layer {self.layer.css!r}", self.points, 2)
        if self.fill is not None:
            _known("The fill of a polyline", self.fill, TONES)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc about `center` (mm) from angle `start` by `sweep` (rad, positive counterclockwise)."""

    center: Point
    radius: float
    start: float = 0.0
    sweep: float = 2 * pi
    layer: Layer = Layer.OUTLINE

    def __post_init__(self) -> None:
        what = f"An arc on layer {self.layer.css!r}"
        _finite(what, *self.center, self.radius, self.start, self.sweep)
        _at_least(what, "radius", self.radius, 0.0)


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle about `center`, mm; may carry a fill tone."""

    center: Point
    radius: float
    layer: Layer = Layer.OUTLINE
    fill: Tone | None = None

    def __post_init__(self) -> None:
        what = f"A circle on layer {self.layer.css!r}"
        _finite(what, *self.center, self.radius)
        _at_least(what, "radius", self.radius, 0.0)
        if self.fill is not None:
            _known("The fill of a circle", self.fill, TONES)


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines between `rings` (mm, even-odd) at `angle` (rad), `spacing` paper mm apart."""

    rings: tuple[tuple[Point, ...], ...]
    angle: float = pi / 4
    spacing: float = 2.5
    layer: Layer = Layer.HATCH

    def __post_init__(self) -> None:
        _finite("A hatch", self.angle, self.spacing)
        for ring in self.rings:
            _finite_points("A hatch", ring, 3)
        _at_least("A hatch", "line spacing", self.spacing, LEAST_SPACING)


@dataclass(frozen=True, slots=True)
class Text:
    """Words at `at` (mm); `place` says on which side of the point they stand, `gap` how far off (paper mm).

    ``_{...}`` makes a subscript. `angle` (rad) turns the words about the point.
    """

    at: Point
    text: str
    place: Place = "center"
    gap: float = 1.0
    angle: float = 0.0
    height: float = TEXT
    bold: bool = False

    def __post_init__(self) -> None:
        _finite(f"The text {self.text!r}", *self.at, self.gap, self.angle, self.height)
        _known("The place of a text", self.place, PLACES)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A linear dimension between `p` and `q` (mm), its line `offset` paper mm away (ISO 129-1, from memory).

    `along` is ``"aligned"`` (positive offset: to the left going from p to q), ``"horizontal"`` (positive:
    above both) or ``"vertical"`` (positive: to the right of both). Words that do not fit go beyond the end
    `overflow`.
    """

    p: Point
    q: Point
    offset: float
    text: str
    along: Literal["aligned", "horizontal", "vertical"] = "aligned"
    overflow: Literal["p", "q"] = "q"

    def __post_init__(self) -> None:
        _finite(f"The dimension {self.text!r}", *self.p, *self.q, self.offset)
        _known("The direction of a dimension", self.along, ("aligned", "horizontal", "vertical"))
        _known("The overflow of a dimension", self.overflow, ("p", "q"))


@dataclass(frozen=True, slots=True)
class AngleDimension:
    """An angle at `center` from the direction of `p` counterclockwise to that of `q`; `radius`: paper mm."""

    center: Point
    p: Point
    q: Point
    radius: float
    text: str

    def __post_init__(self) -> None:
        _finite(f"The angle {self.text!r}", *self.center, *self.p, *self.q, self.radius)
        _at_least(f"The angle {self.text!r}", "radius", self.radius, LEAST_RADIUS)


@dataclass(frozen=True, slots=True)
class Leader:
    """A note that points at `tip` (mm); its words begin `shift` paper mm away; ends in an arrow or a dot."""

    tip: Point
    shift: Point
    text: str
    end: Literal["arrow", "dot"] = "arrow"

    def __post_init__(self) -> None:
        _finite(f"The leader {self.text!r}", *self.tip, *self.shift)
        _known("The end of a leader", self.end, ("arrow", "dot"))


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow in direction `angle` (rad), `length` paper mm, held at the point `at` (mm) by its `grip`."""

    at: Point
    angle: float
    text: str = ""
    length: float = 12.0
    grip: Literal["tip", "tail", "middle"] = "tip"
    both: bool = False
    layer: Layer = Layer.FORCE

    def __post_init__(self) -> None:
        _finite(f"The arrow {self.text!r}", *self.at, self.angle, self.length)
        _known("The grip of an arrow", self.grip, ("tip", "tail", "middle"))


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment about `center` (mm): a curved arrow, `radius` paper mm, from `start` by `sweep` (rad).

    A positive sweep is counterclockwise.
    """

    center: Point
    text: str = ""
    radius: float = 6.0
    start: float = -pi / 3
    sweep: float = 4 * pi / 3
    layer: Layer = Layer.FORCE

    def __post_init__(self) -> None:
        _finite(f"The moment {self.text!r}", *self.center, self.radius, self.start, self.sweep)
        _at_least(f"The moment {self.text!r}", "radius", self.radius, LEAST_RADIUS)


Outline = Line | Polyline | Arc | Circle
"""What scales with the drawing."""
Note = Text | Dimension | AngleDimension | Leader | Arrow | Moment
"""What keeps its paper size and stands at points that scale."""
Primitive = Outline | Note | Hatch
