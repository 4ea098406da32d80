"""A drawing as a scene: write a figure for a topic in twenty lines.

A figure module ``<page>_figure.py`` beside its page in ``kit/subjects/<chapter>`` holds one function::

    from collections.abc import Mapping
    from math import pi
    from kit.drawing.scene import Layer, Scene, ratio
    from kit.core.quantity import Display, show

    def draw(v: Mapping[str, float], d: Display) -> Scene:
        L, h = v["length"], v["height"]
        scene = Scene("Held beam", "A long beam, held at its left end, bends under a push at the free end.")
        scene.rectangle((0, 0), (L, h), fill="light")              # visible outline, continuous wide
        scene.line((0, h / 2), (L, h / 2), Layer.CENTER)           # any other kind of line: name its layer
        scene.polyline(curve, Layer.DEFLECTED)                     # points (x, y), a list or an (n, 2) array
        scene.dim((0, 0), (L, 0), -10, f"L = {show(L, 'mm', d)}")  # below: negative offset
        scene.dim((L, 0), (L, h), 8, show(h, "mm", d), along="vertical")
        scene.angle((0, 0), (1, 0), (1, 0.3), 18, "17°")           # counterclockwise from p to q
        scene.arrow((L, 0), pi / 2, "F = 60 N")                    # tip at the point, pointing up
        scene.leader((L / 3, h), (8, 8), "clamp")
        scene.explain(Layer.DEFLECTED, "deflected, drawn 50 times too large")  # this figure's legend words
        section = scene.view("Section A–A", magnify=ratio(0.2 * L / h), below=True)
        section.rectangle((0, 0), (b, h))
        section.hatch([[(0, 0), (b, 0), (b, h), (0, h)]])
        return scene

Rules
- Coordinates are model mm, y up; angles are radians. Draw true size: the renderer picks the scale that fits.
- Offsets, gaps, radii of angle dimensions, arrow lengths and text heights are PAPER mm and never scale. Space
  stacked dimensions 8 mm apart, the first 8–10 mm from the outline.
- Never compute a result in a figure: take it from `v`. Exaggerated shapes say so with `explain`.
- Text is plain (escaped later); ``F_{s}`` sets a subscript. Labels belong beside lines (`place="above
  right"`), not on them.
- Say where words stand best; those that would lie on others give way by themselves (`kit/drawing/placing.py`).
- Fills lie under all lines whatever the order; lines come in the order of `Layer`; words on top.
- Plan and elevation that must line up: draw them in one view, one of them shifted. Another scale:
  `scene.view`.
- The alternative text tells in words what a blind reader needs; the title is one short line.
- A value that is not finite raises KitError naming the primitive. Zero sizes are drawn as they are.
"""

from collections.abc import Iterable, Sequence
from math import floor, log10, pi
from typing import Literal

from kit.core.errors import KitError
from kit.drawing.layers import Layer
from kit.drawing.primitives import (
    TEXT,
    AngleDimension,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Hatch,
    Leader,
    Line,
    Moment,
    Place,
    Point,
    Polyline,
    Primitive,
    Text,
    Tone,
)

__all__ = ["Layer", "Point", "Scene", "View", "ratio"]

Points = Iterable[Sequence[float]]


def ratio(wanted: float) -> float:
    """Return the largest of 1, 2, 5, 10, 20 ... (or 1/2, 1/5 ...) not above `wanted`; 1 if that is none.

    A magnification for a view that stays put while a slider moves (steps of ISO 5455, from memory).
    """
    if not 0 < wanted < float("inf"):
        return 1.0
    decade = 10.0 ** floor(log10(wanted))
    mantissa = max(step for step in (1, 2, 5) if step <= wanted / decade * (1 + 1e-12) or step == 1)
    return mantissa * decade


def _points(points: Points) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in points)


class View:
    """One picture with its own coordinates, drawn `magnify` times the scene's scale under its `caption`."""

    def __init__(self, caption: str = "", *, magnify: float = 1.0, below: bool = False) -> None:
        if not 0 < magnify < float("inf"):
            raise KitError(f"The view {caption!r} is magnified {magnify:g} times; it must be a number above 0.")
        self.caption = caption
        self.magnify = magnify
        self.below = below
        self.items: list[Primitive] = []

    def line(self, p: Point, q: Point, layer: Layer = Layer.OUTLINE) -> None:
        """Add a straight line from `p` to `q`, mm."""
        self.items.append(Line(p, q, layer))

    def polyline(
        self, points: Points, layer: Layer = Layer.OUTLINE, *, closed: bool = False, fill: Tone | None = None
    ) -> None:
        """Add lines through `points` : (n, 2), mm; `fill`: ``"light"``, ``"medium"`` or ``"strong"``."""
        self.items.append(Polyline(_points(points), layer, closed, fill))

    def rectangle(self, p: Point, q: Point, layer: Layer = Layer.OUTLINE, *, fill: Tone | None = None) -> None:
        """Add the upright rectangle with opposite corners `p` and `q`, mm."""
        self.polyline((p, (q[0], p[1]), q, (p[0], q[1])), layer, closed=True, fill=fill)

    def arc(self, center: Point, radius: float, start: float, end: float, layer: Layer = Layer.OUTLINE) -> None:
        """Add the arc from angle `start` to `end` (rad; `end` above `start`: counterclockwise), radius mm."""
        self.items.append(Arc(center, radius, start, end - start, layer))

    def circle(self, center: Point, radius: float, layer: Layer = Layer.OUTLINE, *, fill: Tone | None = None) -> None:
        """Add a circle, mm."""
        self.items.append(Circle(center, radius, layer, fill))

    def hatch(self, rings: Iterable[Points], *, angle: float = pi / 4, spacing: float = 2.5) -> None:
        """Hatch the region between `rings` (outer boundary, then holes), mm; `spacing` in paper mm.

        Neighboring parts take opposite angles. The boundary itself is not drawn.
        """
        self.items.append(Hatch(tuple(_points(ring) for ring in rings), angle, spacing))

    def text(
        self,
        at: Point,
        text: str,
        place: Place = "center",
        *,
        gap: float = 1.0,
        angle: float = 0.0,
        height: float = TEXT,
    ) -> None:
        """Add words on the side `place` of the point, `gap` paper mm off, turned by `angle` (rad)."""
        self.items.append(Text(at, text, place, gap, angle, height))

    def dim(
        self,
        p: Point,
        q: Point,
        offset: float,
        text: str,
        *,
        along: Literal["aligned", "horizontal", "vertical"] = "aligned",
        overflow: Literal["p", "q"] = "q",
    ) -> None:
        """Dimension the distance from `p` to `q`; see `Dimension` for the sense of `offset` (paper mm)."""
        self.items.append(Dimension(p, q, offset, text, along, overflow))

    def angle(self, center: Point, p: Point, q: Point, radius: float, text: str) -> None:
        """Dimension the angle at `center` counterclockwise from `p` to `q`; `radius` in paper mm."""
        self.items.append(AngleDimension(center, p, q, radius, text))

    def leader(self, tip: Point, shift: Point, text: str, *, end: Literal["arrow", "dot"] = "arrow") -> None:
        """Add a note `shift` paper mm from `tip`; end it in a dot when the tip lies inside an outline."""
        self.items.append(Leader(tip, shift, text, end))

    def arrow(
        self,
        at: Point,
        angle: float,
        text: str = "",
        *,
        length: float = 12.0,
        grip: Literal["tip", "tail", "middle"] = "tip",
        both: bool = False,
        layer: Layer = Layer.FORCE,
    ) -> None:
        """Add an arrow in direction `angle` (rad), `length` paper mm, held at `at` by its `grip`."""
        self.items.append(Arrow(at, angle, text, length, grip, both, layer))

    def moment(self, center: Point, text: str = "", *, radius: float = 6.0, clockwise: bool = False) -> None:
        """Add a moment's curved arrow about `center`, `radius` paper mm."""
        if clockwise:
            self.items.append(Moment(center, text, radius, 4 * pi / 3, -4 * pi / 3))
        else:
            self.items.append(Moment(center, text, radius))


class Scene(View):
    """A whole drawing: its first view (draw on the scene itself), more views, title and alternative text."""

    def __init__(self, title: str, alt: str, *, caption: str = "") -> None:
        super().__init__(caption)
        self.title = title
        self.alt = alt
        self.views: list[View] = [self]
        self.words: dict[Layer, str] = {}

    def view(self, caption: str, *, magnify: float = 1.0, below: bool = False) -> View:
        """Begin another view, to the right of the last one or in a new row below, and return it to draw on.

        It is drawn `magnify` times the scene's own scale, and its caption says so.
        """
        added = View(caption, magnify=magnify, below=below)
        self.views.append(added)
        return added

    def explain(self, layer: Layer, words: str) -> None:
        """Give a line kind this figure's own words in the legend."""
        self.words[layer] = words
