"""A section along a pocket screw: the held board with its pocket at the left, the board that holds at the right."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fastening.pocket` at the values `v`: the joint upright at 0, the middle of the boards level."""
    t, slant, seat, length = v["thickness"], v["slant"], v["seat"], v["length"]
    scene = Scene(
        "A pocket screw",
        f"A screw {show(length, 'mm', d)} long slants by {show(slant, 'deg', d)} and sits "
        f"{show(v['penetration'], 'mm', d)} in the board that holds.",
        caption="Section along the screw",
    )

    def at(along: float, beside: float = 0.0) -> tuple[float, float]:
        """Return the point so far along the screw from the joint, and so far beside it, upward."""
        return along * cos(slant) + beside * sin(slant), -along * sin(slant) + beside * cos(slant)

    wide = max(3 * t, 1.5 * length, (t / 2 + v["head"]) / sin(slant))
    for left, right, angle in ((-wide, 0.0, pi / 4), (0.0, v["main"], -pi / 4)):
        scene.rectangle((left, -t / 2), (right, t / 2))
        scene.hatch([[(left, -t / 2), (right, -t / 2), (right, t / 2), (left, t / 2)]], angle=angle, spacing=4.0)
    head, shank, tip = v["head"] / 2, v["diameter"] / 2, length - seat
    mouth = [min((beside * cos(slant) - t / 2) / sin(slant), -seat) for beside in (head, -head)]
    scene.polyline([at(mouth[0], head), at(-seat, head), at(-seat, -head), at(mouth[1], -head)])
    corners = [(-seat - shank, head), (-seat, head), (-seat, shank), (tip - 2 * shank, shank), (tip, 0.0)]
    mirrored = [(along, -beside) for along, beside in reversed(corners[:-1])]
    scene.polyline([at(*corner) for corner in (*corners, *mirrored)], closed=True, fill="strong")
    scene.line(at(-seat - 5 * head), at(tip + shank), Layer.CENTER)
    scene.arrow((v["main"], 0), 0.0, f"P = {show(v['pull'], 'N', d, resolution=1)}", length=14, grip="tail")
    scene.explain(Layer.FORCE, "pull that opens the joint")
    scene.dim((-v["shoulder"], -t / 2), (0, -t / 2), -8, length_words("s", v["shoulder"], d), along="horizontal")
    if v["deep"] > 0:
        scene.dim((0, t / 2), (v["deep"], t / 2), 8, length_words("x", v["deep"], d), along="horizontal")
    scene.dim((-wide, -t / 2), (-wide, t / 2), -8, length_words("t", t, d), along="vertical")
    return scene
