"""A straightedge over a bed, and the stack of cards under it enlarged."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.cards` at the values `v`: side view and the stack enlarged."""
    ell, c, h, x = v["supports"], v["overhang"], v["edge_height"], v["place"]
    depth = show(v["depth"], "mm", d, resolution=0.001)
    scene = Scene(
        "Gap under a straightedge",
        f"A straightedge on two supports {show(ell, 'mm', d)} apart; {round(v['cards'])} cards fill the gap under "
        f"it. The "
        f"bed lies {depth} below the true line, known to {show(v['expanded'], 'mm', d, resolution=0.001)}.",
        caption="From the side",
    )
    foot, low = 0.05 * ell, -max(v["depth"], 0.06 * ell)
    scene.rectangle((-c, 0), (ell + c, h), fill="light")
    for at in (0.0, ell):
        scene.rectangle((at - foot / 2, 1.6 * low), (at + foot / 2, 0), fill="medium")
    bed = ((foot, -v["depth"]), (ell - foot, -v["depth"]), (ell - foot, 1.6 * low), (foot, 1.6 * low))
    scene.hatch([bed])
    scene.polyline(bed, closed=True)
    scene.arrow((x, h), -pi / 2, f"F = {show(v['hand'], 'N', d)}", length=9)
    scene.dim((0, 1.6 * low), (x, 1.6 * low), -8, f"x = {show(x, 'mm', d)}", along="horizontal", overflow="p")
    scene.dim((0, 1.6 * low), (ell, 1.6 * low), -17, f"ℓ = {show(ell, 'mm', d)}")
    if c > 0:
        scene.dim((ell, h), (ell + c, h), 8, f"c = {show(c, 'mm', d)}", along="horizontal")
    scene.dim((-c, 0), (-c, h), -8, f"h = {show(h, 'mm', d)}", along="vertical")
    tall = max(v["depth"] + v["card"], v["stack_free"] + v["card"])
    tall = max(v["depth"], v["stack_free"] + v["card"])
    _stack(scene.view("At the cards", magnify=ratio(0.35 * (ell + 2 * c) / tall), below=True), v, d, tall)
    scene.explain(Layer.PHANTOM, "the card that does not go in")
    scene.explain(Layer.CENTER, "true line from support to support")
    return scene


def _stack(view: View, v: Mapping[str, float], d: Display, tall: float) -> None:
    """Draw the true line at height 0, the sagging edge below it, and the cards on the bed."""
    depth, stack, card, n = v["depth"], v["stack_free"], v["card"], round(v["cards"])
    sag = v["sag_weight"] + v["sag_hand"]
    w = 0.7 * tall
    view.line((-w, 0), (2.2 * w, 0), Layer.CENTER)
    view.line((-w, -sag), (2.2 * w, -sag))
    bed = ((-w, -depth), (2.2 * w, -depth))
    view.line(*bed)
    view.hatch([[*bed, (2.2 * w, -depth - 0.12 * tall), (-w, -depth - 0.12 * tall)]])
    for i in range(n):
        low = -depth + i * card
        view.rectangle((0, low), (w, low + card), Layer.CONSTRUCTION, fill="medium")
    top = -depth + stack
    view.rectangle((0, -depth), (w, top))
    view.rectangle((0, top), (w, top + card), Layer.PHANTOM)
    view.dim((0, -depth), (0, top), -8, f"H = {show(stack, 'mm', d, resolution=0.001)}", along="vertical")
    view.leader((0.8 * w, top + card / 2), (8, 9), f"t = {show(card, 'mm', d, resolution=0.001)}", end="dot")
    right = 2.2 * w
    view.dim(
        (right, -depth),
        (right, -sag),
        6,
        f"G = {show(v['gap'], 'mm', d, resolution=0.001)}",
        along="vertical",
    )
    words = f"D = {show(depth, 'mm', d, resolution=0.001)}, U = {show(v['expanded'], 'mm', d, resolution=0.001)}"
    view.dim((right, -depth), (right, 0), 36, words, along="vertical")
