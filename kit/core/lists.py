"""What a part of a job brings to the lists of the whole: what weighs, what is cut, what is bought, what is set."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from kit.core.build import Build
from kit.core.place import Point

Built = Callable[[], Build]
"""What gives the best that can be built of a part, for lists that need it: it may take seconds."""

ONE_PERSON = 0.023
"""t, what one person may lift under the best conditions: the load constant of NIOSH 94-110."""
TEAM = (Fraction(1), Fraction(4, 3), Fraction(3, 2))
"""How much more than one alone one, two and three people lift together: HSE, Manual Handling Operations Regulations."""

WOOD_GLUE = "wood glue"
GLUE = 200e-12
"""t/mm², wood glue spread on one of two faces that meet: common practice, no source; its maker's sheet comes first."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Triangles by numbers of points, mm, in the part's own axes; `fill` is a color of a view in space by name."""

    name: str
    points: tuple[Point, ...]
    faces: tuple[tuple[int, int, int], ...]
    fill: str = "wood"
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Body:
    """Something that weighs: its mass (t) and its center of mass (mm) in the part's own axes, where they are known.

    With a shape it is seen in the picture of the station. `share` is its volume or area (mm³ or mm²): a mass that is
    stated for several bodies of a part is shared out by it.
    """

    name: str
    mass: float | None
    center: Point | None = None
    shape: Shape | None = None
    share: float = 0.0


@dataclass(frozen=True, slots=True)
class Piece:
    """Something to be cut, `count` times: its sides (mm, the longest way of the grain first), and of what."""

    name: str
    count: int
    sides: tuple[float, ...]
    of: str = ""


@dataclass(frozen=True, slots=True)
class Need:
    """Something to be bought: an amount in base units, shown in `unit` ("" for pieces); sides (mm) where it has some.

    `cost` is that of the whole amount, in the currency of the prices; None where no price is stated. What is a `tool`
    serves one part after the other: as many are needed as the part takes that takes most.
    """

    name: str
    amount: float
    unit: str = ""
    sides: tuple[float, ...] = ()
    cost: float | None = None
    tool: bool = False


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting of a machine, its angles or lengths by name (rad, mm), and what is cut at it."""

    machine: str
    values: tuple[tuple[str, float, str], ...]
    cuts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Lists:
    """All that a part brings. `room` is what must stay free; `open` says what of it is not known, in sentences."""

    bodies: tuple[Body, ...] = ()
    pieces: tuple[Piece, ...] = ()
    needs: tuple[Need, ...] = ()
    settings: tuple[Setting, ...] = ()
    room: tuple[Shape, ...] = ()
    open: tuple[str, ...] = ()


def glue(area: float) -> tuple[Need, ...]:
    """Return the wood glue for joints of an area, mm², spread on one face of each; none where there is none."""
    return (Need(WOOD_GLUE, area * GLUE, "g"),) if area > 0 else ()
