"""Five cuts from above: the board with its strip, and the fence turned about its pivot."""

from collections.abc import Mapping
from math import cos, sin, tan

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio

LARGEST = 0.06  # radians: the most that a cut is drawn out of square
TURNED = 0.15  # radians: the most that the fence is drawn turned


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `alignment.square` at the values `v`: the fence along y = 0, the fifth cut from the origin up."""
    eps, L, a = v["out_of_square"], v["length"], v["fence_end"]
    larger = ratio(min(LARGEST, 0.18 * a / L) / abs(eps)) if eps else 1.0
    scene = Scene(
        "Five cuts from above",
        f"A strip cut last is {show(v['taper'], 'mm', d, resolution=0.01)} wider at the fence than at its other end; "
        f"each cut is {show(eps, 'deg', d, resolution=0.001)} more than square.",
        caption="From above: the fence behind the board, the strip falls at the right",
    )
    _board(scene, L, a, larger * eps)
    scene.dim((0.0, 0.0), (a, 0.0), -14, f"a = {show(a, 'mm', d, resolution=0.01)}", along="horizontal")
    b = f"b = {show(v['free_end'], 'mm', d, resolution=0.01)}"
    cut, first = _edges(L, a, larger * eps)
    scene.dim((cut, L), (first, L), 9, b, along="horizontal")
    scene.dim((max(a, first), 0.0), (max(a, first), L), 14, f"L = {show(L, 'mm', d)}", along="vertical")
    scene.explain(Layer.DEFLECTED, "the fence once it cuts square")
    scene.explain(Layer.CONSTRUCTION, f"square to the fence; cuts lean {larger:g} times as much as they do")
    _fence(scene, v, d)
    return scene


def _edges(L: float, a: float, lean: float) -> tuple[float, float]:
    """Return where the fifth cut and the side that was cut first end, away from the fence."""
    return L * tan(lean), a - L * tan(3 * lean)


def _board(scene: Scene, L: float, a: float, lean: float) -> None:
    """Draw the board at its fifth cut, its sides numbered as they were cut: the fourth lies at the fence."""
    left, (cut, first) = -0.7 * L, _edges(L, a, lean)
    scene.rectangle((1.2 * left, -0.1 * L), (0.25 * L, 0.0), fill="medium")
    scene.text((0.6 * left, -0.05 * L), "fence")
    scene.polyline([(left, 0.0), (0.0, 0.0), (cut, L), (left, L)], closed=True, fill="light")
    scene.polyline([(0.0, 0.0), (a, 0.0), (first, L), (cut, L)], closed=True)
    scene.hatch([[(0.0, 0.0), (a, 0.0), (first, L), (cut, L)]])
    scene.line((0.0, 0.0), (0.0, L), Layer.CONSTRUCTION)
    for text, at, place in (
        ("cut 1", ((a + first) / 2, 0.45 * L), "right"),
        ("cut 2", (0.5 * left, L), "below"),
        ("cut 3", (left, L / 2), "right"),
        ("cut 4", (0.5 * left, 0.0), "above"),
        ("cut 5", (min(0.0, cut), 0.7 * L), "left"),
    ):
        scene.text(at, text, place, gap=2)  # type: ignore[arg-type]


def _fence(scene: Scene, v: Mapping[str, float], d: Display) -> None:
    D, eps = v["arm"], v["out_of_square"]
    larger = ratio(TURNED / abs(eps)) if eps else 1.0
    caption = f"The fence turned about its pivot, {larger:g} times as far; the kept board lies above it"
    view = scene.view(caption, magnify=ratio(1.6 * v["length"] / D), below=True)
    x, y = -D * cos(larger * eps), D * sin(larger * eps)
    view.line((0.0, 0.0), (-D, 0.0))
    view.line((0.0, 0.0), (x, y), Layer.DEFLECTED)
    view.circle((0.0, 0.0), 0.015 * D, fill="strong")
    view.dim((-D, 0.0), (0.0, 0.0), -9 if y > 0 else 9, f"D = {show(D, 'mm', d)}", along="horizontal")
    view.text((-D, y / 2), f"m = {show(v['move'], 'mm', d, resolution=0.01)}", "left", gap=3)
