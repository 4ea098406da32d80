"""Setting an angle: the right triangle of rise and base at the blade or at the gauge, with both zeros."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, length_words, wedge
from kit.drawing.scene import Layer, Scene

# Which line carries the base, and what is set: in the order of the model's choice.
LINES = (
    ("vertical", "table", "blade"),
    ("square cut", "fence", "cut"),
    ("table", "vertical", "blade"),
    ("fence", "square cut", "cut"),
)


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the triangle at the values `v` (base units)."""
    known, other, moved = LINES[round(v["line"])]
    scene = Scene(
        f"Setting the {moved} from the {known}",
        f"A right triangle with its base along the {known}, its rise square to it and the {moved} along the long side; "
        f"the {other} lies a quarter turn from the {known}.",
    )
    foot, rise, slant = v["foot"], v["rise"], v["slant"]
    upright = round(v["line"]) in (0, 1)
    # The blade leans left from the upright; the flat line runs left from the same point.
    along = (0.0, 1.0) if upright else (-1.0, 0.0)
    across = (-1.0, 0.0) if upright else (0.0, 1.0)
    corner = (foot * along[0], foot * along[1])
    tip = (corner[0] + rise * across[0], corner[1] + rise * across[1])
    reach = 1.15 * slant
    scene.polyline([(0.0, 0.0), corner, tip], Layer.CONSTRUCTION, closed=True, fill="light")
    scene.polyline([(0.0, 0.0), corner, tip])
    scene.line((0.0, 0.0), (0.0, reach), Layer.CENTER)
    scene.line((0.1 * reach, 0.0), (-reach, 0.0), Layer.CENTER)
    scene.line((0.0, 0.0), (tip[0] * reach / slant, tip[1] * reach / slant), Layer.CUT)
    scene.explain(Layer.CENTER, "zero line")
    scene.explain(Layer.CUT, moved)
    scene.text((0.0, reach), known if upright else other, "above")
    scene.text((-reach, 0.0), other if upright else known, "left")
    sense = 1.0 if upright else -1.0
    base = length_words("b", v["base"], d)
    if round(v["base_along"]) == 0:
        scene.dim((0.0, 0.0), corner, -10 * sense, base)
    else:
        scene.dim((0.0, 0.0), tip, 10 * sense, base)
    scene.dim(corner, tip, -10 * sense, length_words("a", rise, d))
    wedge(scene, (0.0, 0.0), pi / 2, v["from_square"], 26.0, angle_words("α_{1}", v["from_square"], d))
    wedge(
        scene,
        (0.0, 0.0),
        pi / 2 + v["from_square"],
        v["from_flat"],
        18.0,
        angle_words("α_{2}", v["from_flat"], d),
    )
    return scene
