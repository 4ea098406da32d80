"""A person from the side, plain enough to be read at a glance, for the figures of this chapter."""

from kit.drawing.scene import View

HEAD, SHOULDER, HIP = 0.07, 0.82, 0.52
"""Radius of the head, height of the shoulders and of the hips, of the person's height: for the picture alone."""


def stand(view: View, tall: float, *arm: tuple[float, float]) -> None:
    """Draw a person `tall` mm on the floor y = 0, ankles at x = 0; `arm` goes on from the shoulder to the hands, mm."""
    shoulder = (0.0, SHOULDER * tall)
    view.polyline([(0.12 * tall, 0.0), (0.0, 0.02 * tall), (0.0, HIP * tall), shoulder, (0.0, (1 - 2 * HEAD) * tall)])
    view.circle((0.02 * tall, (1 - HEAD) * tall), HEAD * tall, fill="light")
    view.polyline([shoulder, *arm])
    view.circle(arm[-1], 0.015 * tall, fill="strong")
