"""A scale to print at true size: a strip with ticks and numbers, for a stop that reads direct or over its block.

The place of every tick is worked out from its own number, never from the tick before, so that nothing adds up.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, isfinite
from typing import Literal

from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.drawing.layers import Layer
from kit.drawing.primitives import Place
from kit.drawing.scene import Scene

UNITS = {"mm": Fraction(1), "in": Fraction(254, 10)}
"""What a whole number on the strip is, mm."""
DIVISIONS = {"mm": (1, 2), "in": (2, 4, 8, 16, 32)}
"""Into how many parts a millimeter or an inch may be divided; closer ticks run together in print."""
LONGEST = 10_000.0  # mm; no bench is longer
STRETCH = 0.05  # most that a printer is compensated
HAIR = Fraction(1, 10**9)  # steps; a tick so near beyond an end stands on it


@dataclass(frozen=True, slots=True)
class Strip:
    """What is printed on a strip. Lengths in mm.

    The strip begins at reading `first`, where it is cut or butts against the recess's end, and is `length` long.
    `reads` tells to which side numbers grow. With `shift`, the block's length, a second row below shows the target
    over the block: its zero stands at reading `shift`. `division` is the number of parts of a millimeter or inch.
    `stretch` makes it larger along and across by a printer's factors, for SVG only: a PDF's paper plan has its own.

    Raises:
        KitError: a length, division or stretch out of its range, or a second row that would be empty.
    """

    length: float
    first: float = 0.0
    unit: Literal["mm", "in"] = "mm"
    division: int = 1
    reads: Literal["right", "left"] = "right"
    shift: float = 0.0
    width: float = 13.0
    stretch: tuple[float, float] = (1.0, 1.0)

    def __post_init__(self) -> None:
        if self.unit not in UNITS:
            raise KitError(f"The strip's unit was given as {self.unit!r}; allowed are 'mm' and 'in'.")
        if self.reads not in ("right", "left"):
            raise KitError(f"The strip is to read to the {self.reads!r}; allowed are 'right' and 'left'.")
        if self.division not in DIVISIONS[self.unit]:
            allowed = ", ".join(map(str, DIVISIONS[self.unit]))
            raise KitError(
                f"The strip divides a {self.unit} into {self.division}; allowed are {allowed}, for closer ticks run "
                "together in print."
            )
        _between("length", self.length, 10.0, LONGEST)
        _between("first reading", self.first, 0.0, LONGEST)
        _between("shift of the second row", self.shift, 0.0, LONGEST)
        _between("width", self.width, 11.0 if self.shift else 6.0, 60.0)
        if self.shift >= self.first + self.length:
            raise KitError(
                f"The block is {self.shift:g} mm long and the strip ends at reading {self.first + self.length:g} mm, "
                "so that its second row would be empty; take a shorter block or a longer strip."
            )
        for factor in self.stretch:
            if not abs(factor - 1) <= STRETCH:
                raise KitError(
                    f"The strip is to be stretched {factor:g} times; a printer is compensated between {1 - STRETCH:g} "
                    f"and {1 + STRETCH:g}, and more means a wrong print setting."
                )


@dataclass(frozen=True, slots=True)
class Tick:
    """One tick: its number in whole parts of the unit, its place from the strip's beginning (mm), its rank from 0.

    Rank 0 is the longest and bears a number.
    """

    number: int
    place: float
    rank: int


def ticks(strip: Strip, zero: float = 0.0) -> Iterator[Tick]:
    """Yield the ticks of a row whose zero stands at reading `zero` mm, those on the strip's ends included."""
    step = UNITS[strip.unit] / strip.division
    start, end = (
        Fraction(strip.first) - Fraction(zero),
        Fraction(strip.first) + Fraction(strip.length) - Fraction(zero),
    )
    for number in range(max(0, ceil(start / step - HAIR)), floor(end / step + HAIR) + 1):
        yield Tick(number, float(number * step - start), _rank(strip, number))


def _rank(strip: Strip, number: int) -> int:
    """Return 0 for ten millimeters or an inch, then 1, 2 … for what divides it less and less."""
    sizes: tuple[int, ...]
    if strip.unit == "mm":
        sizes = (10 * strip.division, 5 * strip.division, strip.division, 1)
    else:
        sizes = tuple(strip.division >> power for power in range(strip.division.bit_length()))
    return next(rank for rank, size in enumerate(sizes) if number % size == 0)


def strip_scene(strip: Strip, display: Display | None = None) -> Scene:
    """Return a strip as a scene to print at full size; `display` is for its words.

    The strip lies between x = 0 and its length, y = 0 and its width, its beginning at x = 0 if it reads to the right
    and at its length if to the left.
    """
    display = display or Display(system=strip.unit)
    words = " to ".join(show(end, "mm", display) for end in (strip.first, strip.first + strip.length))
    rows = f"; second row {show(strip.shift, 'mm', display)} further on" if strip.shift else ""
    scene = Scene(
        f"Scale strip {words}", f"A scale from {words}, reading to the {strip.reads}{rows}. Print at full size."
    )
    x, y = strip.stretch
    long, wide = strip.length * x, strip.width * y
    scene.rectangle((0.0, 0.0), (long, wide), Layer.CONSTRUCTION)
    _row(scene, strip, 0.0, edge=wide, inward=-1.0)
    if strip.shift:
        scene.line((0.0, wide / 2), (long, wide / 2), Layer.CONSTRUCTION)
        _row(scene, strip, strip.shift, edge=0.0, inward=1.0)
        side: Place = "left" if strip.reads == "right" else "right"
        for height, text in ((0.75, "direct"), (0.25, f"over the block, {show(strip.shift, 'mm', display)}")):
            scene.text((0.0 if side == "left" else long, height * wide), text, side, gap=2.0)
    bar = 100.0 if strip.unit == "mm" else 4 * 25.4
    if strip.length >= bar:
        scene.dim((0.0, 0.0), (bar * x, 0.0), -7.0, f"measure: {'100 mm' if strip.unit == 'mm' else '4 in'}")
    return scene


def _row(scene: Scene, strip: Strip, zero: float, *, edge: float, inward: float) -> None:
    """Draw the ticks of one row from an edge of the strip inward, and the numbers beyond them."""
    x, y = strip.stretch
    longest = (0.22 if strip.shift else 0.42) * strip.width
    height = min(2.5, 0.16 * strip.width)
    count = len(DIVISIONS["in"]) if strip.unit == "in" else 3
    for tick in ticks(strip, zero):
        along = x * (tick.place if strip.reads == "right" else strip.length - tick.place)
        reach = longest * (1 - 0.7 * min(tick.rank, count) / count)
        scene.line((along, edge), (along, edge + inward * reach * y), Layer.CONSTRUCTION)
        room = height * 0.5 < tick.place < strip.length - height * 0.5
        if tick.rank == 0 and room:
            text = str(tick.number // strip.division)
            middle = edge + inward * (longest + 0.6 + height / 2) * y
            scene.text((along, middle), text, "center", gap=0.0, height=height)


def _between(what: str, given: float, low: float, high: float) -> None:
    if not (isfinite(given) and low <= given <= high):
        raise KitError(f"The strip's {what} is {given:g} mm; it must be between {low:g} and {high:g} mm.")
