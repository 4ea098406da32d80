"""What several bevel figures draw: a board on the saw table with its tilted cut, and a board's face."""

from math import cos, pi, sin, tan

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, wedge
from kit.drawing.scene import Layer, Point, View


def board_end(view: View, thickness: float, tilt: float, letter: str, d: Display) -> None:
    """Draw a board's end on the saw table, outside down, with the saw line leaning by `tilt` from vertical.

    The origin is the outer arris at the cut; a tilt above 0 leaves the outside longer.
    """
    t = thickness
    inner = (-t * tan(tilt), t)
    far = -1.8 * t + min(0.0, inner[0])
    outline = [(far, 0.0), (0.0, 0.0), inner, (far, t)]
    view.polyline(outline, closed=True, fill="light")
    view.hatch([outline])
    reach = 1.8 * t
    view.line((0.0, 0.0), (0.0, reach), Layer.CONSTRUCTION)
    view.line((0.5 * t * sin(tilt), -0.5 * t * cos(tilt)), (-reach * sin(tilt), reach * cos(tilt)), Layer.CUT)
    view.line((far, 0.0), (0.5 * t, 0.0))
    wedge(view, (0.0, 0.0), pi / 2, tilt, 14.0, angle_words(letter, tilt, d))


def board_face(view: View, width: float, miter: float, letter: str, d: Display, *, left: bool = False) -> None:
    """Draw the end of a board's outside face, bottom edge down, the cut leaning by `miter` from a square cut.

    The origin is the lower corner of the cut, at the right end of the board or, with `left`, at its left end.
    """
    side = -1.0 if left else 1.0
    top = (-side * width * tan(miter), width)
    far = -side * (0.9 * width + abs(top[0]))
    outline = [(far, 0.0), (0.0, 0.0), top, (far, width)]
    view.polyline(outline, closed=True, fill="light")
    view.line((0.0, 0.0), (0.0, 1.25 * width), Layer.CONSTRUCTION)
    wedge(view, (0.0, 0.0), pi / 2, side * miter, 12.0, angle_words(letter, miter, d))


def trapezoid(bottom: float, top: float, width: float) -> list[Point]:
    """Return the outline of a board's face, standing on its bottom edge about x = 0; a crossing one ends in a tip."""
    if top < 0:
        return [(-bottom / 2, 0.0), (bottom / 2, 0.0), (0.0, width * bottom / (bottom - top))]
    return [(-bottom / 2, 0.0), (bottom / 2, 0.0), (top / 2, width), (-top / 2, width)]
