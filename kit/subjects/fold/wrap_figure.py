"""Cloth wrapped round a rail: the rail on end, one edge enlarged, and the plies laid flat."""

from collections.abc import Mapping
from math import cos, pi, sin, sqrt

from kit.core.quantity import Display, show
from kit.drawing.primitives import Point
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.fold.folded_drawing import Folded, fold_up


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fold.wrap` at the values `v`, mm and rad."""
    h, w, c, plies = v["rail_thickness"], v["rail_width"], v["cloth_thickness"], round(v["plies"])
    scene = Scene(
        "Cloth wrapped round a rail",
        f"{plies} plies of cloth {show(c, 'mm', d)} thick come down the front of a rail {show(h, 'mm', d)} by "
        f"{show(w, 'mm', d)}, turn round {round(v['edges'])} of its edges and end in a tail; the outer ply takes "
        f"{show(v['outer_cloth'], 'mm', d)} from the first corner, the inner {show(v['inner_cloth'], 'mm', d)}.",
        caption="Rail on end",
    )
    draw_rail(scene, v, d)
    reach = v["edge_radius"] + plies * c
    _edge(scene.view("First edge", magnify=ratio(max(0.35 * max(h, w) / reach, 1.0))), v, d)
    _flat(scene.view("Plies laid flat", below=True), v, d)
    scene.explain(Layer.SEAM, "staples")
    scene.explain(Layer.FOLD, "first corner of the rail")
    scene.explain(Layer.CONSTRUCTION, "faces of the cloth")
    scene.explain(Layer.CENTER, "middle of a ply: keeps its length")
    return scene


def _plies(v: Mapping[str, float], front: float, straights: list[float]) -> list[Folded]:
    """Return the plies from the inside out; the front face is x = 0, the first corner the origin."""
    c, r = v["cloth_thickness"], v["edge_radius"]
    return [
        fold_up(
            [front, *straights],
            [(pi / 2, r + ply * c)] * len(straights),
            c,
            0.5,
            (-(ply + 1) * c, r + front),
            -pi / 2,
        )
        for ply in range(round(v["plies"]))
    ]


def draw_rail(view: View, v: Mapping[str, float], d: Display, sub: str = "") -> None:
    """Draw a rail on end with the cloth round it, from the values of `fold.wrap`; `sub` ends its letters."""
    h, w, r, edges, tail = (v[name] for name in ("rail_thickness", "rail_width", "edge_radius", "edges", "tail"))
    r = min(r, h / 2, w / 2)
    body = fold_up([w - 2 * r, h - 2 * r, w - 2 * r, h - 2 * r], [(pi / 2, r)] * 4, 0.0, 0.5, (0, w - r), -pi / 2)
    view.polyline(body.right, closed=True, fill="light")
    faces = [h, w, h][: round(edges) - 1]
    straights = [*(face - 2 * r for face in faces), max(tail - r, 0.0)]
    front = (0.6 if edges < 4 else max(0.1, min(0.6, 0.9 - tail / w))) * w
    for ply in _plies({**v, "edge_radius": r}, front, straights):
        view.polyline(ply.outline, Layer.CONSTRUCTION, closed=True, fill="medium")
        heading = ply.ends[-1][1]
    corner = [(0.0, 0.0), (h, 0.0), (h, w), (0.0, w)][round(edges) - 1]
    along = (cos(heading), sin(heading))
    end = (corner[0] + tail * along[0], corner[1] + tail * along[1])
    middle = (r + tail) / 2
    staple = (corner[0] + middle * along[0], corner[1] + middle * along[1])
    depth = min(0.35 * min(h, w), 8.0)
    outward = v["plies"] * v["cloth_thickness"]
    view.line(
        (staple[0] + outward * along[1], staple[1] - outward * along[0]),
        (staple[0] - depth * along[1], staple[1] + depth * along[0]),
        Layer.SEAM,
    )
    _measures(view, v, d, corner, end, sub)


def _measures(view: View, v: Mapping[str, float], d: Display, corner: Point, end: Point, sub: str) -> None:
    h, w, edges = v["rail_thickness"], v["rail_width"], round(v["edges"])
    view.dim(corner, end, -10, f"t{sub} = {show(v['tail'], 'mm', d)}")
    view.dim((0, w), (h, w), 18 if edges == 3 else 10, f"h{sub} = {show(h, 'mm', d)}")
    view.dim((h, w), (h, 0), 18 if edges == 2 else 10, f"w{sub} = {show(w, 'mm', d)}")


def _edge(view: View, v: Mapping[str, float], d: Display) -> None:
    r, c, plies = v["edge_radius"], v["cloth_thickness"], round(v["plies"])
    reach = r + plies * c
    view.polyline([(0, r + reach), *_arc((r, r), r), (r + reach, 0), (r + reach, r + reach)], closed=True, fill="light")
    for ply in _plies(v, reach, [reach]):
        view.polyline(ply.outline, closed=True, fill="medium")
        view.polyline(ply.neutral, Layer.CENTER)
    view.leader((r - r / sqrt(2), r - r / sqrt(2)), (9, 9), f"r = {show(r, 'mm', d)}")
    view.dim((-c, r + reach), (0, r + reach), 6, f"c = {show(c, 'mm', d)}")


def _arc(center: Point, radius: float) -> list[Point]:
    turns = [pi + step * pi / 24 for step in range(13)]
    return [(center[0] + radius * cos(at), center[1] + radius * sin(at)) for at in turns]


def _flat(view: View, v: Mapping[str, float], d: Display) -> None:
    inner, outer = v["inner_cloth"], v["outer_cloth"]
    width = 0.1 * outer
    low = -1.6 * width
    view.rectangle((0, 0), (outer, width), fill="medium")
    view.rectangle((0, low), (inner, low + width), fill="medium")
    view.line((0, low - 0.4 * width), (0, 1.4 * width), Layer.FOLD)
    view.dim((0, width), (outer, width), 7, f"C_{{out}} = {show(outer, 'mm', d)}")
    view.dim((0, low), (inner, low), -7, f"C_{{in}} = {show(inner, 'mm', d)}")
    view.text((0, width / 2), "outer ply", "left")
    view.text((0, low + width / 2), "inner ply", "left")
