"""What is packed and onto what: parts with their grain, rolls and sheets with their defects, and a layout of them.

All lengths in mm, angles in rad. Grain runs along x in a part's outline, along a roll's length and along x of a sheet.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import shapely
from shapely import Polygon, affinity
from shapely.geometry.base import BaseGeometry
from shapely.validation import explain_validity

from kit.core.errors import KitError

ONE_WAY = (0.0,)
TWO_WAY = (0.0, math.pi)


def any_of(angles: int) -> tuple[float, ...]:
    """Return that many equally spaced turns, from 0.

    Raises: KitError for less than one.
    """
    if angles < 1:
        raise KitError(f"a part is to be turned to {angles} angles; give 1 or more")
    return tuple(2 * math.pi * k / angles for k in range(angles))


@dataclass(frozen=True)
class CutPart:
    """A piece to be cut `count` times.

    outline: may have holes, grain along x; turns: angles to which it may be turned from there; over: whether it may
    be turned over, about its grain line.
    """

    name: str
    outline: Polygon
    count: int = 1
    turns: tuple[float, ...] = ONE_WAY
    over: bool = False

    def __post_init__(self) -> None:
        if self.count < 1:
            raise KitError(f"the part {self.name} is wanted {self.count} times; give 1 or more, or leave it out")
        if not self.turns:
            raise KitError(f"the part {self.name} may lie at no angle; allow at least one, such as 0°")
        _sound(self.outline, f"the part {self.name}")

    def laid(self, turn: float, over: bool) -> Polygon:
        """Return the outline turned over or not, then turned, about the origin."""
        return turned(self.outline, turn, over)


def turned(outline: Polygon, turn: float, over: bool) -> Polygon:
    """Return an outline turned over or not about x, then turned, about the origin."""
    flat = affinity.scale(outline, yfact=-1.0, origin=(0, 0)) if over else outline
    return affinity.rotate(flat, turn, origin=(0, 0), use_radians=True) if turn else flat


@dataclass(frozen=True)
class Roll:
    """Cloth or film of a width, as long as need be; defects lie at their place from its beginning.

    name: as it is read after "the".
    """

    name: str
    width: float
    defects: tuple[Polygon, ...] = ()

    def __post_init__(self) -> None:
        if not self.width > 0:
            raise KitError(f"the {self.name} is {self.width:g} mm wide; give a width above 0 mm")
        for defect in self.defects:
            _sound(defect, f"a defect of the {self.name}")


@dataclass(frozen=True)
class Sheet:
    """A board, sheet or offcut, `count` of them alike; the outline may have holes."""

    name: str
    outline: Polygon
    count: int = 1
    defects: tuple[Polygon, ...] = ()

    def __post_init__(self) -> None:
        if self.count < 1:
            raise KitError(f"the stock {self.name} is there {self.count} times; give 1 or more, or leave it out")
        _sound(self.outline, f"the stock {self.name}")
        for defect in self.defects:
            _sound(defect, f"a defect of the stock {self.name}")


Stock = Roll | tuple[Sheet, ...]


def board(name: str, length: float, width: float, count: int = 1, defects: Sequence[Polygon] = ()) -> Sheet:
    """Return a rectangular sheet, its length and grain along x.

    Raises: KitError for a side that is not above 0 mm.
    """
    if not (length > 0 and width > 0):
        raise KitError(f"the board {name} is {length:g} mm by {width:g} mm; give sides above 0 mm")
    return Sheet(name, shapely.box(0, 0, length, width), count, tuple(defects))


@dataclass(frozen=True)
class Cutting:
    """How the stock is cut: margin left along its edges, holes and defects, and kerf between parts, mm."""

    margin: float = 0.0
    kerf: float = 0.0

    def __post_init__(self) -> None:
        for word, value in (("edge margin", self.margin), ("kerf", self.kerf)):
            if not (math.isfinite(value) and value >= 0):
                raise KitError(f"the {word} is {value:g} mm; give 0 mm or more")


@dataclass(frozen=True)
class Placed:
    """One part where it lies: its number in the order, its sheet (0 for a roll), how it is turned, then moved."""

    part: int
    sheet: int
    turn: float
    over: bool
    x: float
    y: float


@dataclass(frozen=True)
class Layout:
    """Parts laid on a stock; `left` counts the copies of each part that found no place.

    Sheets are numbered through their counts: `sheet(k)` is the k-th piece of stock.
    """

    parts: tuple[CutPart, ...]
    stock: Stock
    cutting: Cutting
    placed: tuple[Placed, ...]
    by: str = ""
    left: tuple[int, ...] = field(default=())

    @cached_property
    def polygons(self) -> tuple[Polygon, ...]:
        """The outlines where they lie, in the order of `placed`."""
        return tuple(affinity.translate(self.parts[p.part].laid(p.turn, p.over), p.x, p.y) for p in self.placed)

    @cached_property
    def length(self) -> float:
        """The length of roll that is used, with the margin at both ends; 0 for sheets, mm."""
        if not isinstance(self.stock, Roll) or not self.placed:
            return 0.0
        return float(max(polygon.bounds[2] for polygon in self.polygons)) + self.cutting.margin

    @property
    def area(self) -> float:
        """The area of all parts that are placed, mm²."""
        return float(sum(polygon.area for polygon in self.polygons))

    @property
    def sheets_used(self) -> tuple[int, ...]:
        """The numbers of the sheets that carry parts, in order."""
        return tuple(sorted({p.sheet for p in self.placed}))

    @property
    def used(self) -> float:
        """The area of stock that is used: width times length of a roll, or the sheets that carry parts, mm²."""
        if isinstance(self.stock, Roll):
            return self.stock.width * self.length
        pieces = each(self.stock)
        return float(sum(pieces[k].outline.area for k in self.sheets_used))

    @property
    def density(self) -> float:
        """Area of parts over area used: what the area bound allows to be 1."""
        return self.area / self.used if self.placed else 0.0

    @property
    def missing(self) -> int:
        """How many copies found no place."""
        return sum(self.left)


def each(sheets: Sequence[Sheet]) -> list[Sheet]:
    """Return every single piece of stock, one after another."""
    return [sheet for sheet in sheets for _ in range(sheet.count)]


def usable(outline: Polygon, defects: Sequence[Polygon], margin: float) -> BaseGeometry:
    """Return where parts may lie: the outline less defects, less the margin along every edge."""
    clear = outline.difference(shapely.union_all(list(defects))) if defects else outline
    return clear.buffer(-margin, join_style="mitre") if margin else clear


def _sound(outline: Polygon, what: str) -> None:
    if not isinstance(outline, Polygon) or outline.is_empty:
        raise KitError(f"{what} has no outline; give at least three corners")
    if outline.convex_hull.area <= 0:
        raise KitError(f"{what} encloses no area; give corners that do not lie in one line")
    if not outline.is_valid:
        _, _, at = explain_validity(outline).partition("[")
        place = at.rstrip("]").split()
        where = f" near x = {float(place[0]):.1f} mm, y = {float(place[1]):.1f} mm" if len(place) >= 2 else ""
        raise KitError(f"{what} has an outline that crosses or touches itself{where}; give its corners in order")
