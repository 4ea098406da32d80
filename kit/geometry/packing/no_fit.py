"""The stock as cells: where each way of lying has room, sheet beside sheet in one grid."""

import math
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from kit.core.errors import KitError
from kit.geometry.packing.cells import Cells, Turned, convolved, covered
from kit.geometry.packing.stock import CutPart, Cutting, Placed, Roll, Stock, usable
from kit.geometry.ties import first_least

MOST_CELLS = 3_000_000


@dataclass(frozen=True, eq=False)
class Field:
    """One sheet, or the roll, in the grid: where parts may lie, its least x and y, its columns.

    number: of the sheet among all pieces of stock; `begin` and `end`: its columns in the grid.
    """

    number: int
    room: BaseGeometry
    corner: tuple[float, float]
    begin: int
    end: int


@dataclass(frozen=True, eq=False)
class Ground:
    """The grid: size of a cell [mm], half the kerf [mm], cells along x and y, the sheets in it."""

    size: float
    half: float
    across: tuple[int, int]
    fields: tuple[Field, ...]
    roll: bool
    _rooms: dict[int, Cells] = field(default_factory=dict)

    @property
    def area(self) -> float:
        """The area of all room, mm²."""
        return float(sum(piece.room.area for piece in self.fields))

    def field(self, x: int) -> int:
        """Return the place among `fields` of the sheet to which a column belongs."""
        return next(k for k, piece in enumerate(self.fields) if piece.begin <= x < piece.end)

    def room(self, way: Turned) -> Cells:
        """Return the places (least x, least y of its frame) where a part has room on the bare stock."""
        if id(way) not in self._rooms:
            self._rooms[id(way)] = self._room(way)
        return self._rooms[id(way)]

    def _room(self, way: Turned) -> Cells:
        wide, high = way.cells.shape
        nx, ny = self.across[0] - wide + 1, self.across[1] - high + 1
        if self.roll and self._blocked(self.fields[0]) is None:
            left, low, right, top = self.fields[0].room.bounds
            spans = right - left - way.bare.bounds[2], top - low - way.bare.bounds[3]
            most = [math.floor(span / self.size + 1e-6) + 1 for span in spans]
            return np.broadcast_to(True, (max(0, min(most[0], nx)), max(0, min(most[1], ny))))
        free = np.zeros((max(nx, 0), max(ny, 0)), dtype=bool)
        for piece in self.fields:
            left, low, right, top = piece.room.bounds
            span_x = math.floor((right - left - way.bare.bounds[2]) / self.size + 1e-6)
            span_y = math.floor((top - low - way.bare.bounds[3]) / self.size + 1e-6)
            if span_x < 0 or span_y < 0:
                continue
            here = np.ones((span_x + 1, span_y + 1), dtype=bool)
            blocked = self._blocked(piece)
            if blocked is not None:
                near = min(span_x, int(np.flatnonzero(blocked.any(axis=1))[-1]) + 1)  # beyond it nothing is blocked
                mask = np.zeros((near + wide, span_y + high), dtype=bool)
                part = blocked[: mask.shape[0], : mask.shape[1]]
                mask[: part.shape[0], : part.shape[1]] = part
                hit = convolved(mask.astype(np.float32), way.core[::-1, ::-1].astype(np.float32))
                here[: near + 1] &= np.rint(hit[wide - 1 :, high - 1 :][: near + 1, : span_y + 1]) == 0
            free[piece.begin : piece.begin + span_x + 1, : span_y + 1] = here[: max(0, nx - piece.begin), : max(0, ny)]
        return free

    def _blocked(self, piece: Field) -> Cells | None:
        """Return the cells within a field's box where parts may not lie, None if there are none."""
        if id(piece) not in self._rooms:
            left, low, right, top = piece.room.bounds
            rest = shapely.box(left, low, right, top).difference(piece.room)
            if rest.is_empty:
                self._rooms[id(piece)] = np.zeros((0, 0), dtype=bool)
                return None
            frame = affinity.translate(rest, self.half - left, self.half - low)
            self._rooms[id(piece)] = covered(frame, self.size, (piece.end - piece.begin, self.across[1]))
        found = self._rooms[id(piece)]
        return found if found.any() else None

    def at(self, x: int, y: int, way: Turned) -> Placed:
        """Return the place of a part whose frame begins at the cell (x, y)."""
        piece = self.fields[self.field(x)]
        left, low = piece.corner
        dx = left + (x - piece.begin) * self.size + way.shift[0]
        dy = low + y * self.size + way.shift[1]
        return Placed(way.part, piece.number, way.turn, way.over, dx, dy)


def ground(parts: tuple[CutPart, ...], stock: Stock, cutting: Cutting, cells: int, *, sure: bool = True) -> Ground:
    """Return the grid for an order: `cells` cells lie along the side of a square of the parts' mean area.

    sure: a roll is long enough for all parts one behind another; else only for twice their boxes, which nearly always
    do and take far fewer cells.
    Raises: KitError where margins leave nothing of a stock.
    """
    half = cutting.kerf / 2
    count = sum(part.count for part in parts)
    size = math.sqrt(sum(part.count * part.outline.area for part in parts) / count) / cells
    size = _even(parts, cutting.kerf, size)
    rooms: list[tuple[int, BaseGeometry]] = []
    if isinstance(stock, Roll):
        high = stock.width - 2 * cutting.margin
        if high <= 0:
            raise KitError(
                f"the {stock.name} is {stock.width:g} mm wide, and the margins take all of it; make them smaller"
            )
        far = (_longest if sure else _likely)(parts, high, cutting.kerf) + sum(
            defect.bounds[2] - defect.bounds[0] for defect in stock.defects
        )
        far += max((defect.bounds[2] for defect in stock.defects), default=0.0)
        rooms = [(0, usable(shapely.box(0, 0, far, stock.width), stock.defects, cutting.margin))]
    else:
        first = 0
        for sheet in stock:
            room = usable(sheet.outline, sheet.defects, cutting.margin)
            if room.is_empty:
                raise KitError(f"the margins and defects take all of the stock {sheet.name}; make them smaller")
            rooms += [(first + k, room) for k in range(min(sheet.count, count))]  # a part is on one piece alone
            first += sheet.count
    boxes = sum((room.bounds[2] - room.bounds[0]) * (room.bounds[3] - room.bounds[1]) for _, room in rooms)
    size = max(size, math.sqrt(boxes / MOST_CELLS))
    fields = []
    begin = highest = 0
    for number, room in rooms:
        left, low, right, top = room.bounds
        end = begin + math.ceil((right - left + cutting.kerf) / size) + 1
        highest = max(highest, math.ceil((top - low + cutting.kerf) / size) + 1)
        fields.append(Field(number, room, (left, low), begin, end))
        begin = end
    return Ground(size, half, (begin, highest), tuple(fields), isinstance(stock, Roll))


def _even(parts: tuple[CutPart, ...], kerf: float, near: float) -> float:
    """Return a size of cell not above `near` by which the parts' sides, kerf included, are least rounded up."""
    sides, weights = [], []
    for part in parts:
        left, low, right, top = part.outline.bounds
        for side, other in ((right - left, top - low), (top - low, right - left)):
            sides.append(side + kerf)
            weights.append(part.count * other)
    side, weight = np.array(sides), np.array(weights)
    sizes = np.concatenate(
        [np.linspace(0.8, 1.0, 41) * near, *(side / np.ceil(side / (near * f)) for f in (0.85, 1.0))]
    )
    lost = ((np.ceil(side / sizes[:, None] - 1e-6) * sizes[:, None] - side) * weight).sum(axis=1)
    return float(sizes[first_least(lost)])


def _longest(parts: tuple[CutPart, ...], high: float, kerf: float) -> float:
    """A length of roll that certainly holds all parts: one behind the other, at their longest."""
    boxes = [part.outline.minimum_rotated_rectangle.length for part in parts]
    behind = sum((box / 2 + kerf) * part.count for box, part in zip(boxes, parts, strict=True))
    return max(float(behind), high)


def _likely(parts: tuple[CutPart, ...], high: float, kerf: float) -> float:
    """A length of roll that nearly always holds all parts: rows of boxes half full, and the longest part twice."""
    longest = max(part.outline.minimum_rotated_rectangle.length / 2 + kerf for part in parts)
    sides = [np.subtract(part.outline.bounds[2:], part.outline.bounds[:2]) + kerf for part in parts]
    area = sum(float(np.prod(side)) * part.count for side, part in zip(sides, parts, strict=True))
    return float(min(2 * area / high + 2 * longest, _longest(parts, high, kerf)))
