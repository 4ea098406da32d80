"""The edge of a cloth on its frame: a row of staples, and a section through one of them."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import length_words
from kit.drawing.scene import Layer, Scene, View, ratio

SHOWN = 5  # staples of the row that are drawn


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fastening.cloth` at the values `v`: part of the row from above, and a staple in section."""
    a, crown = v["spacing"], v["crown"]
    count, staple = round(v["count"]), show(v["staple"], "N", d, resolution=0.1)
    shown, across = min(SHOWN, count), v["way"] == 0
    high = 2.2 * crown
    scene = Scene(
        "Cloth on its frame",
        f"{count} staples stand {show(a, 'mm', d)} apart along an edge of {show(v['edge'], 'mm', d)}; each "
        f"takes {staple}.",
        caption="Part of the edge, from above",
    )
    wide = (shown - 1) * a + 1.6 * crown
    scene.rectangle((0, 0), (wide, high), fill="medium")
    scene.rectangle((0, -1.2 * high), (wide, 0.7 * high), fill="light")
    places = [0.8 * crown + number * a for number in range(shown)]
    for x in places:
        scene.line((x - crown / 2, 0.35 * high), (x + crown / 2, 0.35 * high))
        if across:
            scene.arrow((x, -1.2 * high), -pi / 2, length=8, grip="tail")
    if shown > 1:
        scene.dim((places[0], high), (places[1], high), 8, length_words("a", a, d), along="horizontal")
    scene.leader((wide, 0.85 * high), (8, 5), "frame", end="dot")
    scene.leader((wide, -0.6 * high), (8, 3), "cloth", end="dot")
    scene.explain(Layer.FORCE, "pull of the cloth")
    scene.explain(Layer.DEFLECTED, "cloth")
    scene.explain(Layer.CONSTRUCTION, "where a leg yields, pulled across")
    caption = f"A staple in section, pulled {'across' if across else 'along'} its legs"
    _section(scene.view(caption, magnify=ratio(0.4 * wide / v["depth"]), below=True), v, d)
    return scene


def _section(view: View, v: Mapping[str, float], d: Display) -> None:
    deep, wire, z = v["depth"], v["wire"], v["yield_depth"]
    wide = 3 * max(deep, 2 * z)
    corners = [(0.0, 0.0), (wide, 0.0), (wide, -1.4 * deep), (0.0, -1.4 * deep)]
    view.polyline(corners, closed=True)
    view.hatch([corners], spacing=4.0)
    x = wide / 2
    view.rectangle((x - wire / 2, -deep), (x + wire / 2, 0.08 * deep), fill="strong")
    view.line((0, 0.08 * deep), (x, 0.08 * deep), Layer.DEFLECTED)
    if v["way"] == 0:
        view.arrow((0, 0.08 * deep), pi, length=9, grip="tail")
    else:
        view.arrow((x, 0.08 * deep), pi / 2, length=9, grip="tail")
    if z < deep:
        view.line((x - 0.3 * wide, -z), (x + 0.3 * wide, -z), Layer.CONSTRUCTION)
    view.dim((wide, -deep), (wide, 0), 8, length_words("p", deep, d), along="vertical")
    view.dim((0, -min(z, 1.4 * deep)), (0, 0), -10, length_words("z", z, d), along="vertical")
