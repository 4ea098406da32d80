"""Stop block seen from above, its tip as it moves, the shares of the tip error, and the section."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.stop.section_figure import draw_sizes

KEY_WIDTH = 20.0
"""Of the drawn key, mm; the model asks only for its length and its play."""
SHARES = (
    ("δ_{p}", "play_tip", "play"),
    ("δ_{b}", "bending_tip", "bending"),
    ("δ_{s}", "shear_tip", "shear"),
    ("δ_{c}", "slip_tip", "clamp"),
)


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `stop.deflection` at the values `v`: plan with the movement enlarged, shares, section."""
    a, tip = v["reach"], v["tip_error"]
    other = v["short_reach"] if round(v["end"]) == 0 else v["long_reach"]
    scene = Scene(
        "Stop block from above",
        f"A block held by a clamp and a key is pushed at its tip, {show(a, 'mm', d)} from the clamp; the tip moves "
        f"{show(tip, 'mm', d, resolution=0.001)}.",
        caption="From above",
    )
    larger = ratio(0.2 * a / tip) if tip > 0 else 1.0
    track = max(0.62 * v["key_length"], 0.75 * (v["block_width"] + v["rib_depth"]))
    _plan(scene, v, d, other, track)
    _moved(scene, v, d, larger)
    top = max(track, larger * tip - v["block_width"] / 2)
    scene.dim((0, top), (a, top), 8, f"a = {show(a, 'mm', d)}", along="horizontal")
    size = max(a + other, 2 * track)
    if tip > 0:
        _shares(scene, v, d, size)
    wide = max(v["block_width"] + v["rib_depth"], v["block_height"] + v["rib_rise"])
    draw_sizes(scene.view("Section", magnify=ratio(0.4 * size / wide), below=tip <= 0), v, d)
    return scene


def _plan(scene: Scene, v: Mapping[str, float], d: Display, other: float, track: float) -> None:
    a, b, key = v["reach"], v["block_width"], v["key_length"]
    face = round(v["rib_face"])
    scene.rectangle((-other, -b / 2), (a, b / 2), fill="light")
    if v["rib_height"] > 0:
        near = v["rib_middle"] - v["rib_depth"] / 2 - b / 2
        layer = Layer.HIDDEN if face == 2 else Layer.OUTLINE
        scene.rectangle((-other, near), (a, near + v["rib_depth"]), layer, fill="medium" if face < 2 else None)
    side = KEY_WIDTH / 2
    for x in (-side - v["key_play"] / 2, side + v["key_play"] / 2):
        scene.line((x, -track), (x, track), Layer.PHANTOM)
    scene.rectangle((-side, -key / 2), (side, key / 2), Layer.HIDDEN)
    scene.circle((0, 0), 0.3 * min(b, KEY_WIDTH))
    scene.line((0, -track), (0, track), Layer.CENTER)
    for y in (-key / 2, key / 2):
        scene.line((-other, y), (-side, y), Layer.CONSTRUCTION)
    scene.dim((-other, -key / 2), (-other, key / 2), -8, f"ℓ_{{k}} = {show(key, 'mm', d)}", along="vertical")
    scene.arrow((a, -b / 2), pi / 2, f"F = {show(v['push'], 'N', d)}", length=10)
    scene.explain(Layer.PHANTOM, "track")
    scene.explain(Layer.HIDDEN, "key, below" if face < 2 else "key and rib, below")


def _moved(scene: Scene, v: Mapping[str, float], d: Display, larger: float) -> None:
    """Draw the front face from the clamp to the tip: each share of the tip error with its own shape."""
    a, b = v["reach"], v["block_width"]
    curve = []
    for i in range(25):
        t = i / 24
        rise = v["slip_tip"] + (v["play_tip"] + v["shear_tip"]) * t + v["bending_tip"] * t * t * (3 - t) / 2
        curve.append((a * t, larger * rise - b / 2))
    scene.polyline(curve, Layer.DEFLECTED)
    scene.text(curve[-1], f"δ = {show(v['tip_error'], 'mm', d, resolution=0.001)}", "right", gap=2)
    scene.explain(Layer.DEFLECTED, f"front face as it moves, {larger:g} times")


def _shares(scene: Scene, v: Mapping[str, float], d: Display, size: float) -> None:
    tip, allowed = v["tip_error"], v["allowed"]
    drawn = allowed <= 2 * tip
    wide = max(tip, allowed) if drawn else tip
    magnify = ratio(0.55 * size / wide)
    view = scene.view("Shares of the tip error", magnify=magnify, below=True)
    row = 0.06 * size / magnify  # in proportion to the plan
    start = 0.0
    for n, (symbol, name, word) in enumerate(SHARES):
        low = -n * row
        view.rectangle((start, low), (start + v[name], low + 0.7 * row), fill="strong")
        start += v[name]
        words = f"{symbol} = {show(v[name], 'mm', d, resolution=0.001)}, {word}"
        view.text((wide, low + 0.35 * row), words, "right", gap=2)
    _edge(view, 0.0, row, Layer.OUTLINE)
    view.dim((0, -3.4 * row), (tip, -3.4 * row), -7, f"δ = {show(tip, 'mm', d, resolution=0.001)}")
    if drawn:
        _edge(view, allowed, row, Layer.CUT)
        scene.explain(Layer.CUT, f"{show(allowed, 'mm', d, resolution=0.001)} allowed")


def _edge(view: View, x: float, row: float, layer: Layer) -> None:
    view.line((x, -3.4 * row), (x, 1.1 * row), layer)
