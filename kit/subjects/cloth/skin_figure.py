"""A skin over a frame: the rail on end with its cloth, a bent edge in facets, and a panel on a doubly bent shape."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.fold.wrap_figure import draw_rail

SHOWN = 0.06  # of its half width that the edge of a panel is drawn shorter, whatever the true amount


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cloth.skin` at the values `v`, mm and rad."""
    scene = Scene(
        "Cloth skin over a frame",
        f"Beyond the edge of the rail the cloth takes {show(v['staple_margin'], 'mm', d)}. A bend of radius "
        f"{show(v['bend_radius'], 'mm', d)} is followed by {round(v['facets'])} facets. The edges of a panel "
        f"{show(v['panel_width'], 'mm', d)} wide are {show(v['gore'], '%', d)} shorter than its middle.",
        caption="Rail on end",
    )
    draw_rail(scene, {**v, "plies": v["layer"] + 1}, d, "_{r}")
    size = max(v["rail_thickness"], v["rail_width"])
    _bend(scene.view("Bent edge in facets", magnify=ratio(0.8 * size / v["bend_radius"])), v, d)
    _panel(scene.view("Panel laid flat", magnify=ratio(0.8 * size / v["panel_width"]), below=True), v, d)
    scene.explain(Layer.SEAM, "staples")
    scene.explain(Layer.CONSTRUCTION, "faces of the cloth")
    scene.explain(Layer.CENTER, "bent edge, before it is parted into facets")
    scene.explain(Layer.DEFLECTED, "edges on the shape: drawn much shorter than they are")
    return scene


def _bend(view: View, v: Mapping[str, float], d: Display) -> None:
    radius, turn, count = v["bend_radius"], v["bend_turn"], round(v["facets"])
    begin = (pi - turn) / 2
    view.arc((0, 0), radius, begin, begin + turn, Layer.CENTER)
    angles = [begin + turn * k / count for k in range(count + 1)]
    view.polyline([(radius * cos(at), radius * sin(at)) for at in angles])
    view.line((0, 0), (radius * cos(begin), radius * sin(begin)), Layer.CONSTRUCTION)
    view.line((0, 0), (radius * cos(begin + turn), radius * sin(begin + turn)), Layer.CONSTRUCTION)
    view.text((0.5 * radius * cos(begin), 0.5 * radius * sin(begin)), f"R = {show(radius, 'mm', d)}", "below right")
    view.text((0, radius), f"N = {count}, f ≤ {show(v['facet'], 'mm', d)}", "above", gap=2.0)


def _panel(view: View, v: Mapping[str, float], d: Display) -> None:
    width = v["panel_width"]
    half = 0.8 * width
    view.rectangle((-half, -width / 2), (half, width / 2), fill="light")
    view.line((-half, 0), (half, 0), Layer.GRAIN)
    for side in (-1, 1):
        view.line((-half, 0), (-half * (1 - SHOWN), side * width / 2), Layer.DEFLECTED)
        view.line((half, 0), (half * (1 - SHOWN), side * width / 2), Layer.DEFLECTED)
    view.dim((half, -width / 2), (half, width / 2), 10, f"w = {show(width, 'mm', d)}", along="vertical")
    view.text((0, 0), "middle: a great circle", "above")
    view.text((0, -width / 2), f"edges shorter by δ = {show(v['gore'], '%', d)}", "below", gap=2.0)
