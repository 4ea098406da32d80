"""Splayed frame: plan, one board's face, the leaning section and the cut on the saw table."""

from collections.abc import Mapping
from math import cos, pi, sin, tan

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, length_words, wedge
from kit.drawing.scene import Layer, Scene, ratio
from kit.subjects.bevel.board_drawing import board_end, trapezoid


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the frame at the values `v` (base units)."""
    sides, psi, s, w, t = round(v["sides"]), v["half_turn"], v["slope"], v["width"], v["thickness"]
    side, tilt, mu = v["side"], v["tilt"], v["miter"]
    scene = Scene(
        f"Frame of {sides} boards",
        f"From above a regular polygon of {sides} boards that lean in. Beside it one board's outside face with its "
        "miter, a section with the slope, and a board's end on the saw table with the blade tilt.",
        caption="From above",
    )
    apothem = side / (2 * tan(psi))
    inner = max(0.0, apothem - w * cos(s))

    def corner(distance: float, number: int) -> tuple[float, float]:
        angle = -pi / 2 + psi * (2 * number + 1)
        return distance / cos(psi) * cos(angle), distance / cos(psi) * sin(angle)

    for i in range(sides):
        board = [corner(apothem, i - 1), corner(apothem, i), corner(inner, i), corner(inner, i - 1)]
        scene.polyline(board, closed=True, fill="light")
    scene.dim(corner(apothem, -1), corner(apothem, 0), -10, length_words("L", side, d))

    long, short = v["long_edge"], v["short_edge"]
    face = scene.view("Outside face of a board", magnify=ratio(1.2 * apothem / max(long, w)))
    outline = trapezoid(long, short, w)
    face.polyline(outline, closed=True, fill="light")
    face.dim(outline[0], outline[1], -10, length_words("ℓ_{1}", long, d))
    if short > 0:
        face.dim(outline[3], outline[2], 20, length_words("ℓ_{2}", short, d))
    face.dim(outline[1], (outline[1][0], w), -14, length_words("w", w, d))
    face.line(outline[0], (outline[0][0], 1.2 * w), Layer.CONSTRUCTION)
    wedge(face, outline[0], pi / 2, -mu, 14, angle_words("μ", mu, d))

    section = scene.view("Section of a board", magnify=ratio(1.2 * apothem / w), below=True)
    foot, lean = t / sin(s), w * cos(s)
    slab = [(-foot, 0.0), (0.0, 0.0), (-lean, v["height"]), (-foot - lean, v["height"])]
    section.polyline(slab, closed=True)
    section.hatch([slab])
    section.line((-1.3 * (foot + lean) - 0.3 * w, 0.0), (0.35 * w, 0.0), Layer.CONSTRUCTION)
    wedge(section, (-foot, 0.0), pi, -s, 12, angle_words("s", s, d))
    section.dim((0.0, 0.0), (0.0, v["height"]), 14, length_words("h", v["height"], d), along="vertical")

    end = scene.view("End, outside face on the saw table", magnify=ratio(0.3 * apothem / t))
    board_end(end, t, tilt, "β", d)
    return scene
