"""A board with its squaring cut, parts, kerfs and what is left."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio

MOST = 80
"""Parts drawn one by one; more become a tone."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `reading.cuts` at the values `v`: the board along x, its squared end at x = trim."""
    S, L, k, a = v["stock"], v["part"], v["kerf"], v["trim"]
    n, left = round(v["parts"]), v["offcut"]
    scene = Scene(
        "Repeated parts from a stock",
        f"A board {show(S, 'mm', d)} long gives {n} parts of {show(L, 'mm', d)} and leaves "
        f"{show(left, 'mm', d, resolution=0.1)}.",
        caption=f"One board of {round(v['boards'])}: {n} parts in {round(v['cuts'])} cuts",
    )
    high = 0.06 * S
    scene.rectangle((0.0, 0.0), (S, high))
    if a > 0:
        scene.rectangle((0.0, 0.0), (a, high), Layer.CONSTRUCTION, fill="strong")
        scene.dim((0.0, high), (a, high), 8, f"a = {show(a, 'mm', d)}", overflow="p")
    if 0 < n <= MOST:
        for number in range(n):
            start = a + number * (L + k)
            scene.rectangle((start, 0.0), (start + L, high), fill="light")
            if n <= 20:
                scene.text((start + L / 2, high / 2), f"{number + 1}", "center")
    elif n:
        scene.rectangle((a, 0.0), (a + n * (L + k), high), fill="light")
    if n:
        scene.dim((a, 0.0), (a + L, 0.0), -8, f"L = {show(L, 'mm', d)}")
    if left > 0:
        scene.text((S - left / 2, high / 2), "o", "center")
        scene.dim((S - left, 0.0), (S, 0.0), -8, f"o = {show(left, 'mm', d, resolution=0.1)}")
    scene.dim((0.0, 0.0), (S, 0.0), -16, f"S = {show(S, 'mm', d)}")
    if n and k > 0:
        size = ratio(0.12 * S / k)
        view = scene.view("A kerf", magnify=size, below=True)
        tall = 0.15 * S / size
        for side, x in ((-1, 0.0), (1, k)):
            view.polyline([(x + side * 1.5 * k, 0.0), (x, 0.0), (x, tall), (x + side * 1.5 * k, tall)], fill=None)
        view.text((-0.9 * k, tall / 2), "part", "center")
        view.dim((0.0, 0.0), (k, 0.0), -8, f"k = {show(k, 'mm', d, resolution=0.01)}")
    return scene
