"""A board ripped into strips and cut to equal pieces, with trims and what is left."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene

MOST = 600
"""Pieces drawn one by one; more become a tone."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cutting.boards` at the values `v`: the board's length along x, trims at the left and below."""
    S, B, k = v["length"], v["width"], v["kerf"]
    a, b = v["end_trim"], v["edge_trim"]
    is_turned = round(v["grain"]) == 1 and v["turned"] > v["along"]
    l, w = (v["piece_width"], v["piece_length"]) if is_turned else (v["piece_length"], v["piece_width"])
    strips, rows = (
        (round(v["strips_turned"]), round(v["rows_turned"])) if is_turned else (round(v["strips"]), round(v["rows"]))
    )
    pieces = round(v["pieces"])
    size = f"{show(v['piece_length'], 'mm', d)} by {show(v['piece_width'], 'mm', d)}"
    words = f"{pieces} piece{'s' * (pieces != 1)} of {size}"
    scene = Scene(
        "Equal pieces from a board",
        f"A board of {show(S, 'mm', d)} by {show(B, 'mm', d)} gives {words}: {strips} strips of {rows}.",
        caption=f"{words} from one board",
    )
    scene.rectangle((0, 0), (S, B))
    if a > 0:
        scene.rectangle((0, 0), (a, B), Layer.CONSTRUCTION, fill="strong")
    if b > 0:
        scene.rectangle((0, 0), (S, b), Layer.CONSTRUCTION, fill="strong")
    if 0 < pieces <= MOST:
        for j in range(strips):
            for i in range(rows):
                x, y = a + i * (l + k), b + j * (w + k)
                scene.rectangle((x, y), (x + l, y + w), Layer.CONSTRUCTION, fill="light")
    elif pieces:
        scene.rectangle((a, b), (a + rows * (l + k) - k, b + strips * (w + k) - k), Layer.CONSTRUCTION, fill="light")
    far, top = a + rows * (l + k), b + strips * (w + k)
    if pieces and far < S:
        scene.hatch([[(far, b), (S, b), (S, B), (far, B)]])
    if pieces and top < B:
        scene.hatch([[(a, top), (min(far, S), top), (min(far, S), B), (a, B)]])
    if pieces:
        names = ("w", "l") if is_turned else ("l", "w")
        scene.dim((a, 0), (a + l, 0), -9, f"{names[0]} = {show(l, 'mm', d)}")
        scene.dim((0, b), (0, b + w), -9, f"{names[1]} = {show(w, 'mm', d)}", along="vertical")
        scene.arrow(
            (a + l / 2, b + w / 2),
            1.5707963 if is_turned else 0.0,
            length=10,
            grip="middle",
            both=True,
            layer=Layer.GRAIN,
        )
    scene.dim((0, 0), (S, 0), -18, f"S = {show(S, 'mm', d)}")
    scene.dim((S, 0), (S, B), 9, f"B = {show(B, 'mm', d)}", along="vertical")
    scene.explain(Layer.CONSTRUCTION, "pieces (light), trimmed off (dark)")
    scene.explain(Layer.HATCH, "left over")
    return scene
