"""A roll or boards with margins: the parts as one block, the kerf behind it, then the gaps, hatched."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene

MOST = 24
"""Boards drawn one by one; more become a number."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `cutting.stock` at the values `v`: the length of roll or board along x."""
    if round(v["stock"]) == 0:
        return _roll(v, d)
    return _boards(v, d)


def _roll(v: Mapping[str, float], d: Display) -> Scene:
    W, L, m = v["width"], v["roll_length"], v["margin"]
    length, width = show(L, "m", d, resolution=10), show(W, "mm", d)
    scene = Scene(
        "Stock for an order, from a roll",
        f"A roll {width} wide: the parts take {show(v['parts_area'], 'm^2', d)} of {length}; "
        f"{show(v['yield'], '%', d)} becomes parts.",
        caption=f"{show(v['yield'], '%', d)} becomes parts",
    )
    scene.rectangle((0, 0), (L, W))
    parts = m + v["parts_area"] / v["usable_width"]
    kerf = v["bound"] - m
    low, high = m, W - m
    scene.rectangle((m, low), (parts, high), Layer.CONSTRUCTION, fill="medium")
    if kerf > parts:
        scene.rectangle((parts, low), (kerf, high), Layer.CONSTRUCTION, fill="strong")
    scene.hatch([[(kerf, low), (L - m, low), (L - m, high), (kerf, high)]])
    scene.text(((m + parts) / 2, W / 2), "parts A", "center")
    _gaps_named(scene, kerf, L, W)
    if kerf > parts:
        scene.leader(((parts + kerf) / 2, 0.92 * W), (6, 14), "kerf", end="dot")
    scene.dim((0, 0), (v["bound"], 0), -9, f"L_{{0}} = {show(v['bound'], 'm', d, resolution=1)}")
    scene.dim((0, 0), (L, 0), -18, f"L = {length}")
    scene.dim((0, 0), (0, W), -9, f"W = {width}", along="vertical")
    return _explained(scene)


def _gaps_named(scene: Scene, begin: float, end: float, width: float) -> None:
    scene.leader(((begin + end) / 2, 0.85 * width), (10, 20), "gaps", end="dot")


def _boards(v: Mapping[str, float], d: Display) -> Scene:
    W, S, m, n = v["width"], v["length"], v["margin"], round(v["boards"])
    scene = Scene(
        "Stock for an order, from boards",
        f"{n} boards of {show(S, 'mm', d)} by {show(W, 'mm', d)}; {show(v['yield'], '%', d)} becomes parts.",
        caption=f"{n} boards; {show(v['yield'], '%', d)} becomes parts",
    )
    shown = min(n, MOST)
    pitch = 1.12 * W
    left = [v["parts_area"], v["kerf_loss"]]
    for number in range(shown):
        foot = -number * pitch
        low, high = foot + m, foot + W - m
        scene.rectangle((0, foot), (S, foot + W))
        at, room = m, v["usable_board"] * v["density"]
        for k, tone in ((0, "medium"), (1, "strong")):
            area = min(left[k], room)
            if area > 0:
                end = at + area / v["usable_width"]
                scene.rectangle(
                    (at, low),
                    (end, high),
                    Layer.CONSTRUCTION,
                    fill="medium" if tone == "medium" else "strong",
                )
                at, room, left[k] = end, room - area, left[k] - area
        scene.hatch([[(at, low), (S - m, low), (S - m, high), (at, high)]])
        scene.text((0, foot + W / 2), str(number + 1), "left", gap=2)
    if n > shown:
        scene.text((S / 2, -shown * pitch + W), f"and {n - shown} more", "below", gap=3)
    foot = -(shown - 1) * pitch
    scene.dim((0, foot), (S, foot), -12, f"S = {show(S, 'mm', d)}")
    scene.dim((S, 0), (S, W), 9, f"W = {show(W, 'mm', d)}", along="vertical")
    return _explained(scene)


def _explained(scene: Scene) -> Scene:
    scene.explain(Layer.CONSTRUCTION, "parts as one block (light), kerf as another (dark)")
    scene.explain(Layer.HATCH, "gaps between parts, as one block")
    return scene
