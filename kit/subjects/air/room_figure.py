"""A room from the side: air comes in through openings, and the collector blows it out or back."""

from collections.abc import Mapping

from kit.core.quantity import Display, show, unit
from kit.drawing.scene import Layer, Scene

WIDE, TALL, WALL = 120.0, 60.0, 4.0


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `air.room` at the values `v`: the room in signs, with its flows and its suction."""
    leaves = v["leaving"] > 0
    flow, suction = _words(v["flow"], "m^3/h", d, 1), _words(v["suction"], "Pa", d, 0.1)
    scene = Scene(
        "Air of the room",
        f"A collector moves {flow} and blows {'out of the room' if leaves else 'back into the room'}. Air comes in "
        f"through {_words(v['openings'], 'cm^2', d, 1)} of openings; the room is under a suction of {suction}.",
        caption="From the side, not to scale",
    )
    scene.rectangle((0, -WALL), (WIDE, 0), fill="medium")
    scene.rectangle((0, TALL), (WIDE, TALL + WALL), fill="medium")
    for low, high in ((0, 34), (46, TALL)):
        scene.rectangle((-WALL, low), (0, high), fill="medium")
    for low, high in ((0, 40), (48, TALL)) if leaves else ((0, TALL),):
        scene.rectangle((WIDE, low), (WIDE + WALL, high), fill="medium")
    scene.rectangle((80, 0), (98, 22), fill="light")
    scene.text((89, 11), "collector")
    pipe = [(89, 22), (89, 44), (WIDE + (12 if leaves else -14), 44)]
    scene.polyline(pipe)
    scene.arrow(pipe[-1], 0.0, length=9)
    scene.rectangle((18, 0), (30, 18))
    scene.polyline([(24, 18), (24, TALL + 14)])
    scene.text((24, 0), "stove", "below", gap=6)
    scene.arrow((10, 40), 0.0, length=12)
    scene.leader((-WALL / 2, 46), (-8, 10), f"A = {_words(v['openings'], 'cm^2', d, 1)}")
    scene.leader((89, 34), (-8, 8), f"Q = {flow}", end="dot")
    scene.text((58, 30), f"Δp = {suction}", "center")
    scene.explain(Layer.FORCE, "air")
    return scene


def _words(value: float, named: str, d: Display, resolution: float) -> str:
    return show(value, named, d, resolution=resolution * unit(named).factor)
