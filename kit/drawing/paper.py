"""What a drawing is printed on: paper, orientation, margin, overlap, and how true the printer prints.

``x`` is the direction along the short side of a sheet (across a roll), ``y`` along its long side (the way a roll
feeds). A printer's error belongs to these directions, so it is the same for upright and lying pages.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import Any, Literal, NamedTuple

from kit.core.errors import KitError
from kit.core.model.input_terms import amount, record, text
from kit.core.quantity import Quantity, parse
from kit.core.tables import table

# All in mm.
BARS = (100.0, 200.0)
"""Lengths of the check bars of which one is measured on paper."""
WORST = 0.05
"""The largest error of a printer, as a share, that is compensated: more means a wrong setting."""
LEAST_OVERLAP = 4.0  # registration crosses need the room
FOOT = 15.0  # height of the strip below the drawing: check bar and title block
SIDE = 8.0  # width of the strip to its right: the other check bar
LEAST = (160.0, 105.0)  # width and height of the window on the drawing: check bars and title block need them
SCALES = (1.0, 0.5, 0.2, 0.1, 0.05, 0.02)  # full size, and reductions of ISO 5455 (from memory)
LONGEST = 5080.0
"""Side of the largest page: 14 400 units of 1/72 in (PDF 1.7, annex C, from memory)."""


@dataclass(frozen=True, slots=True)
class PrinterScale:
    """How long the check bars of an uncompensated page came out on paper, mm: along the sheet's x and its y.

    Each is the length of the 100 mm or of the 200 mm bar, whichever was measured.

    Raises:
        KitError: a length is more than 5 % off both bars.
    """

    x: float = 100.0
    y: float = 100.0

    def __post_init__(self) -> None:
        for side, printed in (("x", self.x), ("y", self.y)):
            _factor(side, printed, f"{printed:g} mm")

    @classmethod
    def measured(cls, x: str | Quantity, y: str | Quantity) -> "PrinterScale":
        """Return the scale from two measured lengths, such as ``"99.6 mm"``; a bare number is in mm.

        Raises:
            KitError: a text that is no length, or a length so far off that it is a mistake.
        """
        lengths = []
        for side, given in (("x", x), ("y", y)):
            quantity = parse(given, "mm") if isinstance(given, str) else given
            length = quantity.to("mm").value
            _factor(side, length, str(quantity))
            lengths.append(length)
        return cls(*lengths)

    @property
    def factors(self) -> tuple[float, float]:
        """How many times larger a page is drawn, along x and y, to come out true.

        Raises:
            KitError: a measured length so far off that it is a mistake.
        """
        return _factor("x", self.x, ""), _factor("y", self.y, "")


def _factor(side: str, printed: float, words: str) -> float:
    for bar in BARS:
        if abs(printed / bar - 1) <= WORST:
            return bar / printed
    raise KitError(
        f"The check bar along {side} was measured as {words}; the 100 mm bar must come out between 95 and 105 mm "
        "(3.74 to 4.13 in), the 200 mm bar between 190 and 210 mm: print at actual size, without fitting to the "
        "page, and measure again."
    )


@dataclass(frozen=True, slots=True)
class PaperPlan:
    """How a drawing is put on paper. Lengths in mm.

    `paper` is a row of the table of papers; `roll`, the width of a roll plotter's paper, takes its place. `margin`
    is what the printer cannot reach, `overlap` what neighboring sheets share. `scale` is paper mm per model mm.

    Raises:
        KitError: an unknown paper, a number that is not finite or out of its range.
    """

    paper: str = "A4"
    orientation: Literal["auto", "portrait", "landscape"] = "auto"
    overlap: float = 10.0
    margin: float = 6.0
    scale: float = 1.0
    roll: float | None = None
    printer: PrinterScale = field(default_factory=PrinterScale)

    def __post_init__(self) -> None:
        if self.orientation not in ("auto", "portrait", "landscape"):
            raise KitError(
                f"The orientation was given as {self.orientation!r}; allowed are 'auto', 'portrait' and 'landscape'."
            )
        if not 0 < self.scale < float("inf"):
            raise KitError(f"The scale of the drawing is {self.scale:g}; it must be a number above 0.")
        if not LEAST_OVERLAP <= self.overlap <= 100:
            raise KitError(
                f"The overlap of the sheets is {self.overlap:g} mm; it must be between {LEAST_OVERLAP:g} mm, which "
                "the registration crosses need, and 100 mm."
            )
        if not 0 <= self.margin <= 100:
            raise KitError(
                f"The margin the printer cannot reach is {self.margin:g} mm; it must be between 0 and 100 mm."
            )
        if self.roll is not None and not (isfinite(self.roll) and self.roll <= LONGEST):
            raise KitError(f"The roll is {self.roll:g} mm wide; it must be at most {LONGEST:g} mm.")
        self.sheets()

    @property
    def name(self) -> str:
        """The paper in words fit for a file name: ``"A4"`` or ``"roll914"``."""
        return table("papers").row(self.paper).id if self.roll is None else f"roll{self.roll:.4g}"

    @property
    def size(self) -> tuple[float, float]:
        """Short and long side of the paper, mm; of a roll, its width and the longest page."""
        if self.roll is not None:
            return self.roll, LONGEST
        row = table("papers").row(self.paper)
        return row["width"], row["height"]

    def sheets(self) -> list["Sheet"]:
        """Return the sheet in each orientation that is allowed and has room enough, upright first.

        Raises:
            KitError: no orientation has room for the check bars, the title block and the overlap.
        """
        x, y = self.printer.factors
        short, long = self.size
        upright = Sheet(short, long, self.margin, x, y, lying=False)
        lying = Sheet(long, short, self.margin, y, x, lying=True)
        allowed = {"auto": [upright, lying], "portrait": [upright], "landscape": [lying]}[self.orientation]
        least = [max(side, 3 * self.overlap) if self.roll is None else side for side in LEAST]
        fit = [each for each in allowed if each.window[0] >= least[0] and each.window[1] >= least[1]]
        if not fit:
            across, up = allowed[-1].window
            raise KitError(
                f"{self.name} leaves {across:.0f} × {up:.0f} mm for the drawing inside margins of {self.margin:g} mm "
                f"and the strips for check bars and title; with an overlap of {self.overlap:g} mm at least "
                f"{least[0]:.0f} × {least[1]:.0f} mm are needed: take a larger paper, or a smaller margin or overlap."
            )
        return fit

    @property
    def scale_words(self) -> str:
        """The scale as drawings state it: ``"1:1"``, ``"1:5"``, ``"2:1"``."""
        return f"1:{1 / self.scale:.4g}" if self.scale <= 1 else f"{self.scale:.4g}:1"


class Sheet(NamedTuple):
    """A sheet as it lies under the drawing: size and margin in mm of paper, and the compensation along each side.

    Everything inside the margins is measured in mm as they come out of the printer.
    """

    width: float
    height: float
    margin: float
    stretch_x: float
    stretch_y: float
    lying: bool

    @property
    def room(self) -> tuple[float, float]:
        """Width and height inside the margins."""
        return (
            (self.width - 2 * self.margin) / self.stretch_x,
            (self.height - 2 * self.margin) / self.stretch_y,
        )

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of the part that shows the drawing; its lower left corner is at (0, FOOT)."""
        return self.room[0] - SIDE, self.room[1] - FOOT

    @property
    def sides(self) -> tuple[str, str]:
        """Which direction of the printer lies along the width and which along the height."""
        return ("y", "x") if self.lying else ("x", "y")

    def cut_to(self, across: float, up: float) -> "Sheet":
        """Return the sheet cut so that its window is `across` × `up`, mm as printed."""
        return self._replace(
            width=(across + SIDE) * self.stretch_x + 2 * self.margin,
            height=(up + FOOT) * self.stretch_y + 2 * self.margin,
        )


PAPER = (
    text("paper", "the paper that drawings are printed on", default="A4"),
    record(
        "printer",
        "the check bars of a test page as this printer prints them; those of the job's machine where none are stated",
        amount("x", "the bar along the paper's short side", default="100 mm"),
        amount("y", "the bar along its long side", default="100 mm"),
    ),
)
"""The inputs of every page that prints at full size; `paper_plan` reads them."""


def paper_plan(stated: Mapping[str, Any], printer: Mapping[str, str]) -> PaperPlan:
    """Return the paper of `PAPER` as stated; `printer` are the job's own check bars by "x" and "y", as texts.

    Raises:
        KitError: an unknown paper, or bars that are no lengths or too far off.
    """
    bars = stated["printer"] or {side: printer.get(side, "100 mm") for side in ("x", "y")}
    return PaperPlan(stated["paper"], printer=PrinterScale.measured(bars["x"], bars["y"]))
