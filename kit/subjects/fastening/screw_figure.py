"""A section along a screw: the board that is held, a pad, and the board that holds."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene, View


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fastening.screw` at the values `v`, along a screw; the held board lies on top."""
    top, gap, deep = v["side"], v["gap"], v["main"]
    wide = max(3 * v["edge"], 8 * v["diameter"])
    scene = Scene(
        "Section along a screw",
        f"A screw {show(v['length'], 'mm', d)} long goes through a board {show(top, 'mm', d)} thick "
        f"{show(v['penetration'], 'mm', d)} deep into the board that holds. "
        f"{show(v['pull'], 'N', d, resolution=1)} pull along all screws, {show(v['push'], 'N', d, resolution=1)} push "
        "across them.",
        caption="Section along the screw, across the grain",
    )
    x = v["edge"]
    _board(scene, (0, 0), (wide, top), pi / 4)
    _board(scene, (0, -gap - deep), (wide, -gap), -pi / 4)
    if gap > 0:
        scene.rectangle((0, -gap), (wide, 0), fill="medium")
    _screw(scene, v, x, top)
    scene.arrow(
        (x, top + 0.15 * deep), pi / 2, f"P_{{w}} = {show(v['pull'], 'N', d, resolution=1)}", length=14, grip="tail"
    )
    scene.arrow((0, top / 2), pi, f"P_{{l}} = {show(v['push'], 'N', d, resolution=1)}", length=14, grip="tail")
    scene.explain(Layer.FORCE, "loads on all screws together")
    scene.dim((wide, 0), (wide, top), 18, length_words("t_{s}", top, d), along="vertical")
    scene.dim((wide, -gap - deep), (wide, -gap), 18, length_words("t_{m}", deep, d), along="vertical")
    scene.dim((wide, top - v["length"]), (wide, top), 8, length_words("L", v["length"], d), along="vertical")
    scene.dim((0, -gap - deep), (x, -gap - deep), -10, length_words("e", x, d), along="horizontal")
    return scene


def _board(view: View, p: tuple[float, float], q: tuple[float, float], angle: float) -> None:
    view.rectangle(p, q)
    view.hatch([[p, (q[0], p[1]), q, (p[0], q[1])]], angle=angle, spacing=4.0)


def _screw(view: View, v: Mapping[str, float], x: float, top: float) -> None:
    head, shank, root = v["head"] / 2, v["diameter"] / 2, v["root"] / 2
    tip, thread = top - v["length"], top - v["length"] + min(v["thread"], v["length"])
    sunk = top - min(head - root, 0.4 * v["length"])
    point = tip + 2 * v["diameter"]
    outline = [(-head, top), (-root, sunk), (-root, thread), (-shank, thread), (-shank, point)]
    right = [(-px, py) for px, py in reversed(outline)]
    view.polyline([(x + px, py) for px, py in (*outline, (0.0, tip), *right)], closed=True, fill="strong")
    view.line((x, tip - shank), (x, top + shank), Layer.CENTER)
