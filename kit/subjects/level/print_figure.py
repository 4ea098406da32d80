"""A pad with a lip on two sides: from above and cut through, with the sizes for a print or for wood."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Point, Scene, View


def rounded(p: Point, q: Point, radius: float) -> list[Point]:
    """Return the outline of the rectangle from `p` to `q` with rounded corners, 8 points a corner."""
    r = min(radius, (q[0] - p[0]) / 2, (q[1] - p[1]) / 2)
    if r <= 0:
        return [p, (q[0], p[1]), q, (p[0], q[1])]
    centers = (
        (q[0] - r, p[1] + r, 3),
        (q[0] - r, q[1] - r, 0),
        (p[0] + r, q[1] - r, 1),
        (p[0] + r, p[1] + r, 2),
    )
    return [
        (x + r * cos((quarter + i / 8) * pi / 2), y + r * sin((quarter + i / 8) * pi / 2))
        for x, y, quarter in centers
        for i in range(9)
    ]


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.print` at the values `v`: plan and section."""
    P, Q, R, c, w = (v[name] for name in ("length", "width", "radius", "clearance", "lip_width"))
    X, Y = v["size_x"], v["size_y"]
    scene = Scene(
        "Pad with a lip",
        f"A pad {show(X, 'mm', d, resolution=0.05)} by {show(Y, 'mm', d, resolution=0.05)} and "
        f"{show(v['height'], 'mm', d, resolution=0.01)} high with a lip on two sides for a foot of "
        f"{show(P, 'mm', d)} by "
        f"{show(Q, 'mm', d)}; it weighs {show(v['mass'], 'g', d, resolution=0.1)}.",
        caption="From above",
    )
    free = rounded((0, 0), (P + 2 * c, Q + 2 * c), R + c)
    whole = _swept(P, Q, R, c, w)
    scene.polyline(whole, closed=True)
    scene.hatch([whole, free])
    scene.polyline(free, closed=True, fill="light")
    scene.polyline(rounded((c, c), (c + P, c + Q), R), Layer.PHANTOM, closed=True)
    scene.dim((c, 0), (c + P, 0), -9, f"P = {show(P, 'mm', d)}", along="horizontal")
    scene.dim(
        (0, 0),
        (X, 0),
        -18,
        f"{show(X, 'mm', d, resolution=0.05)}; model X = {show(v['model_x'], 'mm', d, resolution=0.01)}",
        along="horizontal",
    )
    scene.dim((0, c), (0, c + Q), -9, f"Q = {show(Q, 'mm', d)}", along="vertical")
    scene.dim(
        (X, 0),
        (X, Y),
        9,
        f"{show(Y, 'mm', d, resolution=0.05)}; model Y = {show(v['model_y'], 'mm', d, resolution=0.01)}",
        along="vertical",
    )
    scene.line((-0.1 * P, c + Q / 2), (X + 0.06 * P, c + Q / 2), Layer.CUT)
    scene.text((-0.1 * P, c + Q / 2), "A", "above", gap=1.5)
    scene.explain(Layer.PHANTOM, "foot")
    scene.explain(Layer.CUT, "cutting plane A–A")
    _section(scene.view("Section A–A", below=True), v, d)
    return scene


def _swept(P: float, Q: float, R: float, c: float, w: float) -> list[Point]:
    """Return the free outline swept by the lip's thickness to the right and to the far side."""
    r, X, Y = R + c, P + 2 * c, Q + 2 * c
    free = rounded((0, 0), (X, Y), r)
    if len(free) == 4:
        return [(0, 0), (X + w, 0), (X + w, Y + w), (0, Y + w)]
    near_right, far_right, far_left, near_left = (free[i : i + 9] for i in (0, 9, 18, 27))
    return [
        *near_left,
        near_right[0],
        *((x + w, y) for x, y in near_right),
        *((x + w, y + w) for x, y in far_right),
        *((x, y + w) for x, y in far_left),
    ]


def _section(view: View, v: Mapping[str, float], d: Display) -> None:
    X, w, h, lip = v["size_x"], v["lip_width"], v["height"], v["lip_height"]
    cut = [(0, 0), (X, 0), (X, h + lip), (X - w, h + lip), (X - w, h), (0, h)]
    view.hatch([cut])
    view.polyline(cut, closed=True)
    foot = v["clearance"]
    view.polyline(
        [(foot, h + 1.6 * lip), (foot, h), (foot + v["length"], h), (foot + v["length"], h + 1.6 * lip)],
        Layer.PHANTOM,
    )
    view.dim((0, 0), (0, h), -9, f"h = {show(h, 'mm', d, resolution=0.01)}", along="vertical")
    view.dim((X, h), (X, h + lip), 9, f"ℓ = {show(lip, 'mm', d)}", along="vertical")
    view.dim((X - w, h + lip), (X, h + lip), 8, f"w = {show(w, 'mm', d)}", along="horizontal")
    view.leader((X - w, h + 0.5 * lip), (-8, 12), f"clearance c = {show(v['clearance'], 'mm', d, resolution=0.05)}")
    view.leader((0.3 * X, 0), (6, -9), f"first layer of the model {show(v['first_x'], 'mm', d, resolution=0.01)} long")
