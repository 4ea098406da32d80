"""Hems: a section through the hem, the corner where hems cross, and a staple through the corner."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.fold.folded_drawing import fold_up


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fold.hem` at the values `v`, mm and rad."""
    plies, corner = round(v["plies"]), round(v["corner_plies"])
    scene = Scene(
        "Hems and their bulk",
        f"A {'double' if v['kind'] else 'single'} hem {show(v['hem_width'], 'mm', d)} wide, {plies} plies thick; where "
        f"hems cross there are {corner} plies, {show(v['bulk'], 'mm', d)} in all, and a staple needs legs of "
        f"{show(v['corner_leg'], 'mm', d)}. The finished length is {show(v['finished_length'], 'mm', d)}.",
        caption="Section through the hem",
    )
    _section(scene, v, d)
    _plan(scene.view("Plies at the corner (panel shortened)"), v, d)
    magnify = ratio(1.6 * v["hem_width"] / _tall(v))
    _staple(scene.view("Staple at the corner", magnify=magnify, below=True), v, d)
    scene.explain(Layer.SEAM, "staple")
    return scene


def _section(view: View, v: Mapping[str, float], d: Display) -> None:
    b, u, c, crease = v["hem_width"], v["turn_in"], v["cloth_thickness"], v["crease_radius"]
    panel = 0.7 * b
    if v["kind"]:
        outer = v["fold_radius"]
        straights = [panel + b - outer - c, max(b - outer - crease - 2 * c, 0.0), max(u - crease - c, 0.0)]
        bends = [(pi, outer), (pi, crease)]
    else:
        outer = crease
        straights, bends = [panel + b - crease - c, max(b - crease - c, 0.0)], [(pi, crease)]
    cloth = fold_up(straights, bends, c, 0.5)
    view.polyline(cloth.outline, closed=True, fill="medium")
    top = 2 * (outer + c)
    view.dim((panel, top), (panel + b, top), 8, f"b = {show(b, 'mm', d)}")
    if v["kind"]:
        view.dim((panel, 0), (panel + u, 0), -11, f"u = {show(u, 'mm', d)}")
    view.text((0, 0), "panel", "below right")
    view.leader((panel + b, top / 2), (8, -3), f"c = {show(c, 'mm', d)}")


def _tall(v: Mapping[str, float]) -> float:
    return max(v["bulk"] + 1.3 * v["grip"], v["staple_leg"], v["corner_leg"])


def _staple(view: View, v: Mapping[str, float], d: Display) -> None:
    bulk, leg, grip, c = v["bulk"], v["staple_leg"], v["grip"], v["cloth_thickness"]
    deep = 1.2 * max(grip, leg - bulk)
    half = 0.5 * _tall(v)
    wood = ((-half, -deep), (half, -deep), (half, 0.0), (-half, 0.0))
    view.hatch([wood])
    view.polyline(wood, closed=True)
    view.rectangle((-half, 0), (half, bulk), fill="medium")
    drawn = range(1, round(v["corner_plies"])) if c > 0.01 * _tall(v) else ()  # thinner plies run together
    for ply in drawn:
        view.line((-half, ply * c), (half, ply * c), Layer.CONSTRUCTION)
    view.polyline([(-half / 2, bulk - leg), (-half / 2, bulk), (half / 2, bulk), (half / 2, bulk - leg)], Layer.SEAM)
    view.dim((half, 0), (half, bulk), 8, f"B = {show(bulk, 'mm', d)}", along="vertical")
    view.dim((-half, -grip), (-half, 0), -8, f"g = {show(grip, 'mm', d)}", along="vertical")
    view.dim((-half, bulk - leg), (-half, bulk), -32, f"s = {show(leg, 'mm', d)}", along="vertical")


def _plan(view: View, v: Mapping[str, float], d: Display) -> None:
    b, plies, corner = v["hem_width"], round(v["plies"]), round(v["corner_plies"])
    side = 2.2 * b
    view.rectangle((0, 0), (side, side), fill="light")
    view.rectangle((side - b, 0), (side, side), fill="medium")
    view.text((side - b / 2, side / 2 - b / 2), f"{plies}")
    if v["across"]:
        view.rectangle((0, side - b), (side, side), fill="medium")
        view.rectangle((side - b, side - b), (side, side), fill="strong")
        view.text((side - b / 2, side - b / 2), f"{corner}")
        view.text((side / 2 - b / 2, side - b / 2), f"{round(v['across']) + 1}")
    view.dim((0, 0), (side, 0), -8, f"L = {show(v['finished_length'], 'mm', d)}", overflow="p")
