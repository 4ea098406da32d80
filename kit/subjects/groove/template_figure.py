"""A template from above with the follower at edge and corner; router, template and work in section."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Point, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `groove.template` at the values `v`; the cut's lower left corner is the origin."""
    inside = round(v["work"]) == 0
    bush = round(v["follower"]) == 0
    c, w, length = v["offset"], v["width"], v["length"]
    scene = Scene(
        "Template and what runs on it",
        f"From above: a template {show(v['template_length'], 'mm', d, resolution=0.05)} by "
        f"{show(v['template_width'], 'mm', d, resolution=0.05)} guides a {'bush' if bush else 'bearing'} of "
        f"{show(v['running'], 'mm', d)}; the bit of {show(v['bit'], 'mm', d)} cuts {show(c, 'mm', d, resolution=0.01)} "
        f"{'inside' if inside else 'outside'} its edge.",
        caption="From above: " + ("an opening" if inside else "an outline"),
    )
    side = v["side"]
    rings = _rounded(0, 0, length, w, v["corner"])
    edge = _rounded(-side * c, -side * c, length + side * c, w + side * c, v["template_corner"])
    scene.polyline(edge, closed=True, fill=None if inside else "light")
    scene.polyline(rings, Layer.CUT, closed=True)
    lies = v["bit"] / 2 if inside else -v["bit"] / 2
    at = (0.42 * length, lies)
    scene.circle(at, v["running"] / 2, fill="medium")
    scene.circle(at, v["bit"] / 2)
    top = max(w, w + side * c)
    scene.dim((0, top), (length, top), 8, f"ℓ = {show(length, 'mm', d)}", along="horizontal")
    scene.dim(
        (-side * c, top),
        (length + side * c, top),
        15,
        f"ℓ_{{t}} = {show(v['template_length'], 'mm', d, resolution=0.05)}",
        along="horizontal",
    )
    right = max(length, length + side * c)
    left = min(0.0, -side * c)
    scene.dim((left, 0), (left, w), -8, f"w = {show(w, 'mm', d)}", along="vertical")
    scene.dim(
        (right, -side * c),
        (right, w + side * c),
        8,
        f"w_{{t}} = {show(v['template_width'], 'mm', d, resolution=0.05)}",
        along="vertical",
    )
    corner = _mark(v["template_corner"], -side * c, -side * c)
    scene.leader(
        corner,
        (-6, -7),
        f"R = {show(v['corner'], 'mm', d)}, R_{{t}} = {show(v['template_corner'], 'mm', d, resolution=0.05)}",
    )
    scene.explain(Layer.CUT, "edge of the cut in the work")
    scene.explain(Layer.OUTLINE, "template's edge; bush or bearing with its bit")
    _section(
        scene.view(
            "Section at the template's edge",
            magnify=max(ratio(0.8 * max(length, w, v["plunge"]) / (2 * v["running"] + v["plunge"])), 0.5),
            below=True,
        ),
        v,
        d,
        bush,
    )
    return scene


def _mark(radius: float, x: float, y: float) -> Point:
    """Return the middle of the rounded lower left corner at (x, y)."""
    inset = max(radius, 0.0) * (1 - 0.5**0.5)
    return (x + inset, y + inset)


def _rounded(x0: float, y0: float, x1: float, y1: float, radius: float) -> list[Point]:
    """Return the rectangle with rounded corners, or a sharp one where the radius is not above 0 or does not fit."""
    low_x, high_x, low_y, high_y = min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1)
    r = min(max(radius, 0.0), (high_x - low_x) / 2, (high_y - low_y) / 2)
    centers = (
        (high_x - r, high_y - r),
        (low_x + r, high_y - r),
        (low_x + r, low_y + r),
        (high_x - r, low_y + r),
    )
    return [
        (x + r * cos(quarter * pi / 2 + step * pi / 16), y + r * sin(quarter * pi / 2 + step * pi / 16))
        for quarter, (x, y) in enumerate(centers)
        for step in range(9 if r else 1)
    ]


def _section(view: View, v: Mapping[str, float], d: Display, bush: bool) -> None:
    """Draw the follower against the template's edge at x = 0; the template lies left, y = 0 is the work's face."""
    D, b, t, z = v["running"], v["bit"], v["template"], v["depth"]
    away, base = 1.3 * D, 0.5 * t
    view.rectangle((-away, 0), (0, t), fill="light")
    view.hatch([[(-away, 0), (0, 0), (0, t), (-away, t)]], angle=3 * pi / 4)
    center = D / 2
    cut = (center - b / 2, center + b / 2)
    deep = z + 0.4 * t
    work = [
        (-away, 0),
        (cut[0], 0),
        (cut[0], -z),
        (cut[1], -z),
        (cut[1], 0),
        (center + away, 0),
        (center + away, -deep),
        (-away, -deep),
    ]
    view.polyline(work, closed=True)
    view.hatch([work])
    view.rectangle((-away, t), (center + away, t + base), fill="medium")
    if bush:
        wall = max(min((D - v["bore"]) / 2, D / 2), 0.0)
        for x in (0.0, D - wall):
            view.rectangle((x, t - v["collar"]), (x + wall, t), fill="strong")
    else:
        view.rectangle((0, 0.15 * t), (D, 0.85 * t), fill="strong")
    view.rectangle((cut[0], -z), (cut[1], t + base), Layer.HIDDEN)
    view.line((center, -z - 0.2 * t), (center, t + 1.6 * base), Layer.CENTER)
    view.dim((0, t + base), (D, t + base), 8, f"D = {show(D, 'mm', d)}")
    view.dim((cut[0], -deep), (cut[1], -deep), -7, f"d = {show(b, 'mm', d)}")
    words = f"c = {show(v['offset'], 'mm', d, resolution=0.01)}"
    view.dim((0, -deep), (cut[0], -deep), -7, words, along="horizontal", overflow="p")
    view.dim((-away, 0), (-away, t), -8, f"t = {show(t, 'mm', d)}", along="vertical")
    view.dim((center + away, -z), (center + away, 0), 8, f"z = {show(z, 'mm', d)}", along="vertical")
    if bush:
        view.dim(
            (center + away, t - v["collar"]),
            (center + away, t),
            8,
            f"h = {show(v['collar'], 'mm', d)}",
            along="vertical",
        )
