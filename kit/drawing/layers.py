"""The kinds of line on a drawing: type and width after ISO 128-2 (from memory), one layer each.

Type, width and label carry the meaning; color only helps, so no two kinds share type and width unless their
shape (arrows, hatching) tells them apart. Bend lines of sheet metal are continuous narrow in ISO 128 (from
memory); here fold lines have a type of their own, because they must not be taken for dimension lines on a
flat pattern.
"""

from dataclasses import dataclass
from enum import Enum

NARROW = 0.25
"""Width of a narrow line, paper mm; a wide line is twice, an extra wide one four times as wide (ISO 128-2, from
memory)."""
WIDE, EXTRA = 2 * NARROW, 4 * NARROW

# Dash elements in multiples of the line width (ISO 128-2, from memory), except the dot: the standard allows
# at most half a width, which no screen shows, so ours is two widths long.
_CONTINUOUS: tuple[float, ...] = ()
_DASHED = (12.0, 3.0)
_DOTTED = (2.0, 3.0)
_DASH_DOT = (12.0, 3.0, 2.0, 3.0)
_LONG_DOT = (24.0, 3.0, 2.0, 3.0)
_LONG_TWO_DOTS = (24.0, 3.0, 2.0, 3.0, 2.0, 3.0)
_LONG_TWO_DASHES = (24.0, 3.0, 6.0, 3.0, 6.0, 3.0)


@dataclass(frozen=True, slots=True)
class LineKind:
    """How one kind of line is drawn: ISO number, words for the legend, width (paper mm), dashes (widths).

    `color` is a pair, for a light and for a dark page; none means the color of the words.
    """

    iso: str
    label: str
    width: float
    pattern: tuple[float, ...] = _CONTINUOUS
    color: tuple[str, str] | None = None
    swatch: str = "line"

    @property
    def dashes(self) -> tuple[float, ...]:
        """Lengths of dash, gap, dash, ... in paper mm; empty for a continuous line."""
        return tuple(round(part * self.width, 3) for part in self.pattern)


class Layer(Enum):
    """The line kinds, in the order in which they are drawn and listed in the legend."""

    GRAIN = LineKind("01.1", "grain, warp or feed direction", NARROW, color=("#00745A", "#35C9A0"), swatch="both")
    HATCH = LineKind("01.1", "cut material", NARROW, swatch="hatch")
    CONSTRUCTION = LineKind("01.1", "construction line", NARROW)
    CENTER = LineKind("04.1", "center line", NARROW, _LONG_DOT)
    HIDDEN = LineKind("02.1", "hidden edge", NARROW, _DASHED)
    PHANTOM = LineKind(
        "05.1", "other position or neighboring part", NARROW, _LONG_TWO_DOTS, color=("#6B6B6B", "#A6A6A6")
    )
    FOLD = LineKind("09.1", "fold line", NARROW, _LONG_TWO_DASHES, color=("#00745A", "#35C9A0"))
    STAPLE = LineKind("10.1", "staple line", NARROW, _DASH_DOT, color=("#0068A8", "#5CB8F0"))
    MARK = LineKind("01.1", "match mark", NARROW, color=("#A8407F", "#E58AC4"), swatch="tick")
    OUTLINE = LineKind("01.2", "visible outline", WIDE)
    CUT = LineKind("04.2", "saw line or cutting plane", WIDE, _LONG_DOT, color=("#A8407F", "#E58AC4"))
    SEAM = LineKind("07.2", "sewn or glued line", WIDE, _DOTTED, color=("#A8407F", "#E58AC4"))
    DEFLECTED = LineKind("02.2", "deflected shape", WIDE, _DASHED, color=("#B84A00", "#FF9A4D"))
    FORCE = LineKind("01.2", "force or moment", WIDE, color=("#0068A8", "#5CB8F0"), swatch="arrow")
    CHOSEN = LineKind("01.3", "edge pointed out", EXTRA, color=("#0068A8", "#5CB8F0"))
    DIMENSION = LineKind("01.1", "dimension or note", NARROW, swatch="dimension")

    @property
    def css(self) -> str:
        """The class name and layer name in exported files: ``outline``, ``hidden`` ..."""
        return self.name.lower()
