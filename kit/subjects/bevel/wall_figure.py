"""Curved edge against a wall: the face with its arc, the leaning board, and the edge's section at three places."""

from collections.abc import Mapping
from math import cos, pi, sin, tan

import numpy as np

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, length_words, wedge
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the brow at the values `v` (base units)."""
    scene = Scene(
        "Curved edge against an upright wall",
        "The board's face with the arc, its chord, rise and the station; the board leaning from the wall; and the "
        "section of the edge in the middle, at the station and at the end, with the wall and the saw line.",
        caption="Face of the board",
    )
    _face(scene, v, d)
    t, c = v["thickness"], v["chord"]
    _lean(scene.view("From the side", magnify=ratio(0.04 * c / t)), v, d)
    zoom = ratio(0.12 * c / t)
    places = (
        ("Middle", "β_{1}", v["bevel_most"]),
        ("Station", "β", v["bevel"]),
        ("End", "β_{2}", v["bevel_least"]),
    )
    for number, (name, letter, bevel) in enumerate(places):
        _edge(scene.view(name, magnify=zoom, below=number == 0), t, bevel, v["tilt"], letter, d)
    scene.views[-2].text((0.0, 0.0), length_words("g", v["gap"], d, 0.01), "below left", gap=2.0)
    scene.views[-3].text((0.0, 0.0), angle_words("saw at β_{0}", v["tilt"], d), "below left", gap=2.0)
    scene.explain(Layer.PHANTOM, "wall")
    return scene


def _face(view: View, v: Mapping[str, float], d: Display) -> None:
    c, h, radius, half = v["chord"], v["rise"], v["radius"], v["half_arc"]
    deep = -0.25 * c
    angle = np.linspace(-half, half, 61)
    arc = [(radius * sin(a), h - radius * (1 - cos(a))) for a in angle]
    view.polyline([(-c / 2, deep), *arc, (c / 2, deep)], closed=True, fill="light")
    view.line((-c / 2, 0.0), (c / 2, 0.0), Layer.CONSTRUCTION)
    view.line((0.0, deep), (0.0, h), Layer.CENTER)
    view.dim((-c / 2, deep), (c / 2, deep), -10, length_words("c", c, d))
    view.dim((c / 2, 0.0), (0.0, h), 10, length_words("h", h, d), along="vertical")
    tau = min(v["direction"], half)
    at = (radius * sin(tau), h - radius * (1 - cos(tau)))
    view.leader(at, (-6, -9), length_words("x", v["station"], d))
    view.text((0.0, deep / 2), length_words("R", radius, d), "right")


def _lean(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the middle of the board leaning from the wall; the outside looks away from the wall and up."""
    t, lean = v["thickness"], v["lean"]
    long = 5 * t
    down, out = (-sin(lean), -cos(lean)), (-cos(lean), sin(lean))  # along the board, and out of its face
    # The outside arris touches the wall at the origin; the cut there is upright, like the wall.
    inner = (0.0, -t / sin(lean))
    foot = (long * down[0], long * down[1])
    outline = [(0.0, 0.0), inner, (foot[0] - t * out[0], foot[1] - t * out[1]), foot]
    view.polyline(outline, closed=True)
    view.hatch([outline])
    low, high = min(foot[1], inner[1]) - t, 2.0 * t
    view.line((0.0, low), (0.0, high), Layer.PHANTOM)
    wedge(view, (0.0, 0.0), -pi / 2, -lean, 20.0, angle_words("λ", lean, d))
    view.text((0.0, high), "wall", "above")


def _edge(view: View, t: float, bevel: float, tilt: float, letter: str, d: Display) -> None:
    """Draw the board on the saw table, outside down, with the wall it must meet and the saw line through the arris."""
    cut = (-t * tan(tilt), t)
    outline = [(-2.5 * t, 0.0), (0.0, 0.0), cut, (min(-2.5 * t, 1.2 * cut[0]), t)]
    view.polyline(outline, closed=True, fill="light")
    view.hatch([outline])
    reach = 2.0 * t
    view.line((0.0, 0.0), (0.0, reach), Layer.CONSTRUCTION)
    view.line((0.0, 0.0), (-reach * sin(tilt), reach * cos(tilt)), Layer.CUT)
    view.line(
        (0.3 * t * sin(bevel), -0.3 * t * cos(bevel)),
        (-reach * sin(bevel), reach * cos(bevel)),
        Layer.PHANTOM,
    )
    wedge(view, (0.0, 0.0), pi / 2, bevel, 16.0, angle_words(letter, bevel, d))
