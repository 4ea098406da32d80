"""Letters with their values, and angles dimensioned, as figures print them."""

from math import cos, degrees, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Point, View

DRAWN_LEAST = 0.2  # degrees: a smaller angle is stated by its words only


def angle_words(letter: str, value: float, d: Display) -> str:
    """Return a letter and its angle as printed: ``β = 28.0°``."""
    return f"{letter} = {show(value, 'deg', d)}"


def length_words(letter: str, value: float, d: Display, resolution: float | None = None) -> str:
    """Return a letter and its length as printed, rounded to `resolution` (mm) if given: ``L = 360.0 mm``."""
    return f"{letter} = {show(value, 'mm', d, resolution=resolution)}"


def wedge(view: View, center: Point, start: float, turn: float, radius: float, text: str) -> None:
    """Dimension the angle at `center` from direction `start` by `turn` (rad, either sense; `radius` paper mm)."""
    if abs(degrees(turn)) < DRAWN_LEAST:
        view.text(center, text, "above left", gap=2.0)
        return
    first, last = sorted((start, start + turn))
    p = (center[0] + cos(first), center[1] + sin(first))
    q = (center[0] + cos(last), center[1] + sin(last))
    view.angle(center, p, q, radius, text)
