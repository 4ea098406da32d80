"""Marks on a PDF page: lines with their ISO 128 dashes, arcs, arrowheads, and words as real text.

The font is DejaVu Sans, which is free to embed (Bitstream Vera license with additions in the public domain) and
comes with matplotlib, so that no font of the machine is needed. reportlab is loaded when the first page is made.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import cache
from importlib.util import find_spec
from math import ceil, cos, pi, sin, tan
from pathlib import Path
from typing import Any

from kit.drawing.layers import Layer
from kit.drawing.marks import SUBSCRIPT, Anchor, Curve, Label, Mark, Solid, Stroke, pieces, text_width
from kit.drawing.primitives import TEXT, TONES, Point

POINTS = 72 / 25.4
"""PDF units in a millimeter."""
CAPITALS = 1493 / 2048
"""Height of DejaVu Sans's capitals, as a share of the font size (its OS/2 table)."""
FACE, BOLD = "DejaVuSans", "DejaVuSans-Bold"
TIGHTEST = 0.6
"""How narrow words are set before they are cut off, as a share of their own width."""
ARC = pi / 6
"""Longest arc drawn as one Bézier curve: its error is below 1e-6 of the radius."""


@cache
def _register_fonts() -> None:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    found = find_spec("matplotlib")  # looked up, not loaded: its fonts are all that is needed
    assert found is not None
    assert found.origin is not None
    folder = Path(found.origin).parent / "mpl-data" / "fonts" / "ttf"
    for face in (FACE, BOLD):
        pdfmetrics.registerFont(TTFont(face, folder / f"{face}.ttf"))


def finished(canvas: Any) -> None:
    """Write a canvas to its stream, without the detour of bytes as printable text."""
    from reportlab import rl_config

    kept, rl_config.useA85 = rl_config.useA85, 0
    try:
        canvas.save()
    finally:
        rl_config.useA85 = kept


def new_canvas(stream: Any, *, title: str, subject: str, creator: str) -> Any:
    """Return a reportlab canvas whose bytes depend only on what is drawn, asking to be printed at actual size."""
    from reportlab.pdfgen.canvas import Canvas

    _register_fonts()
    canvas = Canvas(stream, pageCompression=1, invariant=1, initialFontName=FACE, lang="en")
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setCreator(creator)
    canvas.setAuthor("")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("Duplex", "Simplex")
    return canvas


class Pen:
    """Draws on a canvas whose unit is one millimeter. Black, widths in mm."""

    def __init__(self, canvas: Any) -> None:
        self.canvas = canvas

    def form(self, name: str, at: Point = (0.0, 0.0)) -> None:
        """Draw a form of the document, its origin at a point."""
        self.canvas.saveState()
        self.canvas.translate(*at)
        self.canvas.doForm(name)
        self.canvas.restoreState()

    def line(self, *points: Point, width: float, dashes: Sequence[float] = (), closed: bool = False) -> None:
        """Draw straight lines through points."""
        self._kind(width, dashes)
        self.canvas.drawPath(self._path([Stroke(Layer.OUTLINE, points, closed)]))

    def circle(self, center: Point, radius: float, width: float) -> None:
        """Draw a circle."""
        self._kind(width, ())
        self.canvas.drawPath(self._path([Curve(Layer.OUTLINE, center, radius, 0.0, 2 * pi)]))

    def marks(self, marks: Iterable[Mark], *, thicker: float = 1.0, words: bool = True) -> None:
        """Draw marks: fills first, then line kinds in their order, words on top; lines `thicker` times as wide."""
        lines: defaultdict[Layer, list[Stroke | Curve]] = defaultdict(list)
        solids: defaultdict[Layer, list[Mark]] = defaultdict(list)
        labels: list[Label] = []
        for mark in marks:
            if isinstance(mark, Label):
                labels.append(mark)
            elif isinstance(mark, Solid):
                solids[mark.layer].append(mark)
            else:
                lines[mark.layer].append(mark)
                if mark.fill:
                    self.canvas.setFillGray(1 - TONES[mark.fill])
                    self.canvas.drawPath(self._path([mark]), stroke=0, fill=1)
        self.canvas.setFillGray(0)
        self.canvas.setLineJoin(1)
        for layer in Layer:
            kind = layer.value
            if layer in lines:
                self._kind(kind.width * thicker, [dash * thicker for dash in kind.dashes])
                for mark in lines[layer]:
                    self.canvas.drawPath(self._path([mark]))
            if layer in solids:
                self.canvas.drawPath(self._path(solids[layer]), stroke=0, fill=1)
        if words:
            for label in labels:
                # As wide as the layout took the words to be; DejaVu is a wide face.
                room = text_width(label.text, label.height, label.bold)
                self._write(label.at, label.text, label.height, label.anchor, label.angle, label.bold, room)

    def words(
        self,
        at: Point,
        text: str,
        *,
        height: float = TEXT,
        anchor: Anchor = "start",
        angle: float = 0.0,
        bold: bool = False,
        room: float = float("inf"),
    ) -> None:
        """Write one line: baseline point, height of capitals; set narrower to fit `room`, then cut off."""
        shown = text
        while len(shown) > 2 and TIGHTEST * natural_width(shown, height, bold) > room:
            shown = shown[:-2].rstrip() + "…"
        self._write(at, shown, height, anchor, angle, bold, room)

    def _write(
        self, at: Point, text: str, height: float, anchor: Anchor, angle: float, bold: bool, room: float
    ) -> None:
        natural = natural_width(text, height, bold)
        narrow = min(1.0, room / natural) if natural else 1.0
        size = height / CAPITALS
        back = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * natural * narrow
        c, s = cos(angle), sin(angle)
        written = self.canvas.beginText()
        written.setTextTransform(c, s, -s, c, at[0] - back * c, at[1] - back * s)
        written.setHorizScale(100 * narrow)
        for part, lowered in pieces(text):
            written.setFont(BOLD if bold else FACE, SUBSCRIPT * size if lowered else size)
            written.setRise(-0.25 * size if lowered else 0)
            written.textOut(part)
        self.canvas.drawText(written)

    def _kind(self, width: float, dashes: Sequence[float]) -> None:
        self.canvas.setLineWidth(width)
        self.canvas.setDash(list(dashes))

    def _path(self, marks: Iterable[Mark]) -> Any:
        path = self.canvas.beginPath()
        for mark in marks:
            if isinstance(mark, Curve):
                _add_arc(path, mark)
            elif isinstance(mark, Stroke | Solid):
                path.moveTo(*mark.points[0])
                for x, y in mark.points[1:]:
                    path.lineTo(x, y)
                if isinstance(mark, Solid) or mark.closed:
                    path.close()
        return path


def natural_width(text: str, height: float, bold: bool = False) -> float:
    """Return the width of words in the embedded font, mm; `height`: of capitals."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    _register_fonts()
    size = height / CAPITALS
    face = BOLD if bold else FACE
    return float(sum(stringWidth(part, face, SUBSCRIPT * size if low else size) for part, low in pieces(text)))


def _add_arc(path: Any, curve: Curve) -> None:
    (x, y), r = curve.center, curve.radius
    sweep = max(-2 * pi, min(2 * pi, curve.sweep))
    parts = max(1, ceil(abs(sweep) / ARC - 1e-9))
    part = sweep / parts
    reach = 4 / 3 * tan(part / 4) * r  # of the control points along the tangents
    a = curve.start
    path.moveTo(x + r * cos(a), y + r * sin(a))
    for k in range(parts):
        a, b = curve.start + k * part, curve.start + (k + 1) * part
        path.curveTo(
            x + r * cos(a) - reach * sin(a),
            y + r * sin(a) + reach * cos(a),
            x + r * cos(b) + reach * sin(b),
            y + r * sin(b) - reach * cos(b),
            x + r * cos(b),
            y + r * sin(b),
        )
    if abs(sweep) == 2 * pi:
        path.close()
