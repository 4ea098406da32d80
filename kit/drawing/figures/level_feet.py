"""Four feet from above: what each carries, the line the machine rocks about, and their heights side by side."""

from collections.abc import Mapping

from kit.drawing.scene import Layer, Scene, View, ratio
from kit.quantity import Display, show

SIDES = ("below left", "below right", "above right", "above left")


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.feet` at the values `v`: plan and heights."""
    a, b, twist = v["length"], v["depth"], v["twist"]
    hanging = round(v["hanging"])
    told = f"on hard pads foot {hanging} hangs" if hanging else "none hangs"
    scene = Scene(
        "Four feet",
        f"Four feet at the corners of a rectangle; they are out of plane by "
        f"{show(abs(twist), 'mm', d, resolution=0.01)}, "
        f"{told}.",
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
        scene.text(at, words, SIDES[i])  # type: ignore[arg-type]
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
    heights = [v[f"height_{i}"] for i in (1, 2, 3, 4)]
    tall = max(*heights, 0.1)
    _heights(
        scene.view("Tops of the pads, and after the split", magnify=ratio(0.3 * size / tall), below=True),
        v,
        d,
        tall,
    )
    return scene


def _heights(view: View, v: Mapping[str, float], d: Display, tall: float) -> None:
    row = 0.55 * tall
    for i in range(4):
        h, sign = v[f"height_{i + 1}"], 1 if i % 2 == 0 else -1
        left = 2.2 * i * row
        view.rectangle((left, 0), (left + row, h), fill="medium")
        after = h - sign * v["split"]
        view.line((left - 0.15 * row, after), (left + 1.15 * row, after), Layer.CUT)
        view.text(
            (left + row / 2, max(h, after)),
            f"h_{{{i + 1}}} = {show(h, 'mm', d, resolution=0.01)}",
            "above",
            gap=2,
        )
        way = "−" if sign * v["split"] > 0 else "+"
        view.text(
            (left + row / 2, 0), f"{way}{show(abs(v['split']), 'mm', d, resolution=0.01)}", "below", gap=2
        )
    view.line((-0.4 * row, 0), (8 * row, 0))
