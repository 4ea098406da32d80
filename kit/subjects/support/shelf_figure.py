"""A loaded shelf from the front, as it sags after years, and its section."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio

ARROWS = 6  # of the spread load; an even number keeps the middle free


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `support.shelf` at the values `v`: front with the sag enlarged, and section."""
    L, t, sag = v["span"], v["thickness"], v["sag"]
    low = -t - v["lip_height"]
    larger = ratio(0.1 * L / sag) if sag > 0 else 1.0
    scene = Scene(
        "A loaded shelf from the front",
        f"A shelf {show(L, 'mm', d)} long between its {'ends, held fast' if _fast(v) else 'supports'} sags "
        f"{show(sag, 'mm', d, resolution=0.01)} in the middle after years.",
        caption="From the front",
    )
    scene.rectangle((0, -t), (L, 0), fill="light")
    if v["lip_height"] > 0:
        scene.rectangle((0, low), (L, -t), fill="medium")
    _ends(scene, v, low)
    _loads(scene, v, d)
    curve = [(L * i / 48, -larger * _sag(v, i / 48)) for i in range(49)]
    scene.polyline(curve, Layer.DEFLECTED)
    scene.explain(Layer.DEFLECTED, f"the shelf's face after years, sag drawn {larger:g} times")
    bottom = min(low, -larger * sag)
    scene.dim((0, bottom), (L, bottom), -16, f"L = {show(L, 'mm', d)}", along="horizontal")
    if sag > 0:
        scene.text((L / 2, -larger * sag), f"δ = {show(sag, 'mm', d, resolution=0.01)}", "below", gap=2)
    _section(scene.view("Section, front at the left", magnify=ratio(0.5 * L / v["depth"]), below=True), v, d)
    return scene


def _fast(v: Mapping[str, float]) -> bool:
    return round(v["ends"]) == 1


def _ends(scene: Scene, v: Mapping[str, float], low: float) -> None:
    L, size = v["span"], 0.04 * v["span"]
    for x, way in ((0.0, -1), (L, 1)):
        if _fast(v):
            scene.line((x, low - size), (x, size))
            scene.hatch([[(x, low - size), (x + way * size, low - size), (x + way * size, size), (x, size)]])
        else:
            scene.polyline([(x, low), (x - size / 2, low - size), (x + size / 2, low - size)], closed=True)


def _loads(scene: Scene, v: Mapping[str, float], d: Display) -> None:
    L = v["span"]
    for i in range(ARROWS):
        scene.arrow((L * (i + 0.5) / ARROWS, 0), -pi / 2, length=8)
    scene.text((0, 0), f"W = {show(v['even_load'], 'N', d, resolution=1)}", "above right", gap=11)
    scene.explain(Layer.FORCE, "load; what is spread includes the shelf's own weight")
    if v["middle_load"] > 0:
        scene.arrow((L / 2, 0), -pi / 2, f"P = {show(v['middle_load'], 'N', d, resolution=1)}", length=20)


def _sag(v: Mapping[str, float], place: float) -> float:
    """Return the sag after years at a place from 0 to 1: each load's own shape, as high as the model says."""
    near = min(place, 1 - place)
    if _fast(v):
        even, middle = 16 * near**2 * (1 - near) ** 2, 4 * near**2 * (3 - 4 * near)
    else:
        even, middle = 3.2 * (near - 2 * near**3 + near**4), near * (3 - 4 * near**2)
    first = v["first_sag"]
    return v["sag"] / first * (v["even_sag"] * even + v["middle_sag"] * middle) if first > 0 else 0.0


def _section(view: View, v: Mapping[str, float], d: Display) -> None:
    b, t, h, w = (v[name] for name in ("depth", "thickness", "lip_height", "lip_thickness"))
    _part(view, (0, -t), (b, 0), pi / 4)
    view.dim((0, 0), (b, 0), 8, f"b = {show(b, 'mm', d)}", along="horizontal")
    view.dim((b, -t), (b, 0), 9, f"t = {show(t, 'mm', d)}", along="vertical")
    if h > 0:
        _part(view, (0, -t - h), (w, -t), -pi / 4)
        view.dim((0, -t - h), (0, -t), -9, f"h = {show(h, 'mm', d)}", along="vertical")
        view.dim((0, -t - h), (w, -t - h), -8, f"w = {show(w, 'mm', d)}", along="horizontal")
    view.line((-0.05 * b, -v["centroid"]), (1.05 * b, -v["centroid"]), Layer.CENTER)


def _part(view: View, p: tuple[float, float], q: tuple[float, float], angle: float) -> None:
    view.rectangle(p, q, fill="light")
    view.hatch([[p, (q[0], p[1]), q, (p[0], q[1])]], angle=angle, spacing=3.5)
