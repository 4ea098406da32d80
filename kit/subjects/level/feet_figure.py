"""Four feet from above: what each carries, the line the machine rocks about, and their heights side by side."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene, View, ratio

SIDES: tuple[Place, ...] = ("below left", "below right", "above right", "above left")


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.feet` at the values `v`: plan and heights."""
    a, b, twist = v["length"], v["depth"], v["twist"]
    hanging = round(v["hanging"])
    label = f"on hard pads foot {hanging} hangs" if hanging else "none hangs"
    scene = Scene(
        "Four feet",
        f"Four feet at the corners of a rectangle; they are out of plane by "
        f"{show(abs(twist), 'mm', d, resolution=0.01)}, "
        f"{label}.",
        caption="From above",
    )
    corners = [(0.0, 0.0), (a, 0.0), (a, b), (0.0, b)]
    scene.polyline(corners, Layer.PHANTOM, closed=True, fill="light")
    size = max(a, b)
    for i, (x, y) in enumerate(corners):
        scene.circle((x, y), 0.05 * size, fill=None if hanging == i + 1 else "medium")
        scene.text((x, y), f"{i + 1}")
        words = f"F_{{{i + 1}}} = {show(v[f'force_{i + 1}'], 'N', d, resolution=0.1)}"
        outward = 0.07 * size
        at = (x + (outward if x > 0 else -outward), y + (outward if y > 0 else -outward))
        scene.text(at, words, SIDES[i])
    if twist:
        start, end = (corners[0], corners[2]) if twist > 0 else (corners[1], corners[3])
        scene.line(start, end, Layer.CENTER)
        scene.explain(Layer.CENTER, "line the machine rocks about on hard pads")
    center = (a / 2 + v["center_x"], b / 2 + v["center_y"])
    scene.circle(center, 0.015 * size, fill="strong")
    scene.leader(center, (10, 8), f"center of mass, W = {show(v['weight'], 'N', d, resolution=1)}")
    scene.dim((0, -0.08 * size), (a, -0.08 * size), -14, f"a = {show(a, 'mm', d)}", along="horizontal")
    scene.dim((-0.08 * size, 0), (-0.08 * size, b), -14, f"b = {show(b, 'mm', d)}", along="vertical")
    scene.explain(Layer.PHANTOM, "base of the machine")
    tall = max(0.1, *(v[f"height_{i}"] for i in (1, 2, 3, 4)))
    magnify = ratio(0.5 * size / tall)
    _heights(scene.view("Heights of the pads", magnify=magnify, below=True), v, d, 0.13 * size / magnify)
    scene.explain(Layer.CUT, "height after the split")
    return scene


def _heights(view: View, v: Mapping[str, float], d: Display, row: float) -> None:
    """Draw the four heights as bars lying one below the other, `row` apart."""
    right = max(max(v[f"height_{i}"], v[f"height_{i}"] + abs(v["split"])) for i in (1, 2, 3, 4))
    for i in (1, 2, 3, 4):
        h, low = v[f"height_{i}"], -i * row
        change = v["split"] if i % 2 == 0 else -v["split"]
        view.rectangle((0, low), (h, low + 0.7 * row), fill="medium")
        view.line((h + change, low - 0.1 * row), (h + change, low + 0.8 * row), Layer.CUT)
        label = f"{'+' if change >= 0 else '−'} {show(abs(change), 'mm', d, resolution=0.01)}"
        words = f"h_{{{i}}} = {show(h, 'mm', d, resolution=0.01)}, split {label}"
        view.text((right, low + 0.35 * row), words, "right", gap=2)
