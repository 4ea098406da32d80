"""Two pads with lips from above, the machine in its worst place between them, and the shift at the blade."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Point, Scene, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.register` at the values `v` in plan, movements enlarged."""
    D, R, S, L = v["apart"], v["along"], v["beside"], v["cut"]
    shift = show(v["shift"], "mm", d, resolution=0.01)
    scene = Scene(
        "Coming back to its place",
        f"Two pads with lips {show(D, 'mm', d)} apart hold the machine with "
        f"{show(v['play'], 'mm', d, resolution=0.01)} of play; "
        f"the cut shifts by up to {shift} and turns by up to {show(v['twist'], 'deg', d, resolution=1e-5)}.",
        caption="From above",
    )
    foot = 0.1 * D
    larger = ratio(0.3 * foot / v["play"]) if v["play"] > 0 else 1.0
    gap = larger * v["play"] / 2
    rises = [gap * (1 if part >= 0 else -1) for part in (v["near"], v["far"])]

    def moved(x: float, y: float) -> Point:
        """Where the worst pair of movements takes a point of the machine."""
        part = x / D + 0.5
        turn = (rises[1] - rises[0]) / D
        return (x - turn * y, y + rises[0] * (1 - part) + rises[1] * part)

    for n, at in enumerate((-D / 2, D / 2)):
        out = 1 if n else -1
        scene.rectangle((at - foot / 2, -foot / 2), (at + foot / 2, foot / 2), fill="light")
        square = [
            (at - foot / 2, -foot / 2),
            (at + foot / 2, -foot / 2),
            (at + foot / 2, foot / 2),
            (at - foot / 2, foot / 2),
        ]
        scene.polyline([moved(x, y) for x, y in square], Layer.DEFLECTED, closed=True)
        side, lip, level = at + out * (foot / 2 + gap), 0.25 * foot, foot / 2 + gap
        inner = at - out * foot / 2
        for sign in (1, -1):
            ring = [
                (inner, sign * level),
                (side, sign * level),
                (side, 0),
                (side + out * lip, 0),
                (side + out * lip, sign * (level + lip)),
                (inner, sign * (level + lip)),
            ]
            scene.polyline(ring)
            scene.hatch([ring])
    scene.line((-0.7 * D, 0), (0.7 * D, 0), Layer.CENTER)
    scene.line((0, min(-foot, S)), (0, max(foot, S)), Layer.CENTER)
    cut = ((R, S - L / 2), (R, S + L / 2))
    scene.line(*cut, Layer.CUT)
    scene.line(moved(*cut[0]), moved(*cut[1]), Layer.DEFLECTED)
    scene.explain(Layer.CUT, "cut in its old place")
    scene.explain(Layer.DEFLECTED, f"feet and cut in their worst place, {larger:g} times")
    low = min(S - L / 2, -foot) - 0.05 * D
    scene.dim((-D / 2, low), (D / 2, low), -18, f"D = {show(D, 'mm', d)}", along="horizontal")
    scene.dim((0, low), (R, low), -8, f"R = {show(R, 'mm', d)}", along="horizontal")
    left = min(R, -0.7 * D)
    scene.dim((left, 0), (left, S), -8, f"S = {show(S, 'mm', d)}", along="vertical")
    turn, skew = (
        show(v["twist"], "deg", d, resolution=1e-5),
        show(v["out_of_square"], "mm", d, resolution=0.01),
    )
    scene.text((R, S + L / 2), f"θ = {turn}, q = {skew}", "above", gap=2)
    beside = show(v["shift_x"], "mm", d, resolution=0.01)
    scene.text((R, S + L / 2), f"s_{{y}} = {shift}, s_{{x}} = {beside}", "above", gap=7)
    return scene
