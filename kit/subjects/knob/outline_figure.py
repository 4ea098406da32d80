"""A star knob's outline from arcs and flanks: how it is drawn, and the bare outline to cut by."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.errors import KitError
from kit.core.quantity import Display, show, unit
from kit.drawing.arc_outlines import draw_outline
from kit.drawing.scene import Layer, Point, Scene, View
from kit.geometry.outline.arc_outline import Outline, star

DECI = 0.1 * unit("deg").factor
"""A tenth of a degree, in the base unit."""


def outline(v: Mapping[str, float]) -> Outline:
    """Return the outline that the model `knob.outline` states, with a hollow on top.

    Raises:
        KitError: no such outline closes without crossing itself.
    """
    sizes = (v[name] for name in ("outer_radius", "lobe_radius", "waist", "hollow_radius"))
    return star(round(v["lobes"]), *sizes, first=pi / 2 - v["half_angle"])


def template(v: Mapping[str, float], d: Display) -> Scene:
    """Return the outline, the nut's hole and a cross at its middle, and nothing else: to print or cut full size.

    Raises:
        KitError: no such outline closes without crossing itself.
    """
    size = show(2 * v["outer_radius"], "mm", d)
    scene = Scene("Outline of the star knob", f"A star of {round(v['lobes'])} lobes, {size} round its lobes.")
    draw_outline(scene, outline(v))
    scene.circle((0, 0), v["well"] / 2, Layer.HIDDEN)
    scene.explain(Layer.HIDDEN, "hole for the nut, inside")
    _cross(scene, (0.0, 0.0), 0.7 * v["well"])
    return scene


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `knob.outline` at the values `v`: outline, and one hollow with its centers and radii."""
    R, r, w, a, q = (
        v[name] for name in ("outer_radius", "lobe_radius", "hollow_radius", "lobe_circle", "hollow_circle")
    )
    phi, theta, e = v["half_angle"], v["slope"], v["hollow_depth"]
    scene = Scene(
        "Star knob from arcs and tangents",
        f"{round(v['lobes'])} lobes of radius {show(r, 'mm', d)}, {show(R, 'mm', d)} from the middle to their tops; "
        f"hollows of radius {show(w, 'mm', d, resolution=0.01)} between, {show(e, 'mm', d)} deep; straight "
        f"flanks of {show(v['flank'], 'mm', d, resolution=0.01)}.",
    )
    try:
        draw_outline(scene, outline(v))
    except KitError:
        scene.text((0, -a), "no outline closes", "below")
        for i in range(round(v["lobes"])):
            angle = pi / 2 + (2 * i + 1) * phi
            scene.circle((a * cos(angle), a * sin(angle)), r, Layer.CONSTRUCTION)
    scene.circle((0, 0), v["well"] / 2, Layer.HIDDEN)
    scene.circle((0, 0), a, Layer.CENTER)
    left, right = (-a * sin(phi), a * cos(phi)), (a * sin(phi), a * cos(phi))
    edge = a * cos(phi) + r
    scene.line((left[0] - 0.4 * r, edge), (right[0] + 0.4 * r, edge), Layer.CONSTRUCTION)
    scene.line((0, 0), (0, q), Layer.CENTER)
    scene.line((0, 0), right, Layer.CENTER)
    scene.polyline((left, right, (0, q)), Layer.CONSTRUCTION, closed=True)
    for center in (left, right, (0.0, q), (0.0, 0.0)):
        _cross(scene, center, 0.07 * R)
    _sizes(scene, v, d, left, right)
    if w > 0:
        scene.circle((0, q), w, Layer.CONSTRUCTION)
        scene.leader((w * cos(0.6), q + w * sin(0.6)), (8, 4), f"w = {show(w, 'mm', d, resolution=0.01)}")
    if v["flank"] > 0:
        u = v["flank"] / 2
        middle = (w * sin(theta) + u * cos(theta), q - w * cos(theta) + u * sin(theta))
        words = f"s = {show(v['flank'], 'mm', d, resolution=0.01)}, θ = {show(theta, 'deg', d, resolution=DECI)}"
        scene.leader(middle, (22, 9), words)
    bit = v["bit"] / 2
    if bit <= w:
        scene.circle((0, v["waist"] + bit), bit, Layer.PHANTOM)
        scene.explain(Layer.PHANTOM, "router bit in a hollow")
    scene.explain(Layer.HIDDEN, "hole for the nut, inside")
    return scene


def _sizes(scene: Scene, v: Mapping[str, float], d: Display, left: Point, right: Point) -> None:
    R, r, phi = v["outer_radius"], v["lobe_radius"], v["half_angle"]
    edge = left[1] + r
    scene.dim(
        (left[0], v["waist"]),
        (left[0], edge),
        -16,
        f"e = {show(v['hollow_depth'], 'mm', d)}",
        along="vertical",
    )
    scene.line((left[0] - r, v["waist"]), (0, v["waist"]), Layer.CONSTRUCTION)
    out = pi / 2 - phi
    scene.leader((right[0] + r * cos(out), right[1] + r * sin(out)), (9, -2), f"r = {show(r, 'mm', d)}")
    scene.angle((0, 0), right, (0, 1), 13, f"φ = {show(phi, 'deg', d, resolution=DECI)}")
    far = pi / 2 - 3 * phi
    tip = (R * cos(far), R * sin(far))
    scene.line((0, 0), tip, Layer.CENTER)
    scene.leader(tip, (9, -7), f"R = {show(R, 'mm', d)}")


def _cross(view: View, at: Point, half: float) -> None:
    view.line((at[0] - half, at[1]), (at[0] + half, at[1]), Layer.CENTER)
    view.line((at[0], at[1] - half), (at[0], at[1] + half), Layer.CENTER)
