"""A key, bar or track in its groove, in section."""

from kit.drawing.scene import View

HEIGHT = 0.5
"""Of the drawn key over its width; the models do not ask for it."""


def key_in_groove(view: View, w: float, play: float) -> None:
    """Draw a key of width `w` (mm) from x = 0 with half of `play` on each side; below zero, the two overlap."""
    side, floor, high = play / 2, -0.15 * w, HEIGHT * w
    out = 0.6 * w
    view.rectangle((0, 0), (w, high), fill="medium")
    outline = [
        (-out, high * 0.8),
        (-side, high * 0.8),
        (-side, floor),
        (w + side, floor),
        (w + side, high * 0.8),
        (w + out, high * 0.8),
    ]
    view.polyline(outline)
    view.hatch([[*outline, (w + out, floor - 0.25 * w), (-out, floor - 0.25 * w)]])
