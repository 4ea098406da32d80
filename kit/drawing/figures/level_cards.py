"""A straightedge over a bed, the stack of cards under it, and the shares of the uncertainty."""

from collections.abc import Mapping
from math import pi

from kit.drawing.scene import Layer, Scene, View, ratio
from kit.quantity import Display, show

SHARES = (
    ("u_{c}", "u_card", "cards"),
    ("u_{d}", "u_calipers", "calipers"),
    ("u_{p}", "u_feel", "feel"),
    ("e_{0}/√3", "edge_error", "straightedge"),
    ("u_{A}", "u_type_a", "repeats"),
)


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.cards` at the values `v`: side view, the stack enlarged, shares of u²."""
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
    size = ell + 2 * c
    tall = max(v["depth"] + v["card"], v["stack_free"] + v["card"])
    _stack(scene.view("At the cards", magnify=ratio(0.22 * size / tall), below=True), v, d, tall)
    _shares(scene.view("Shares of u²"), v, d, size)
    return scene


def _stack(view: View, v: Mapping[str, float], d: Display, tall: float) -> None:
    """Draw the true line at height 0, the sagging edge below it, and the cards on the bed."""
    depth, stack, card, n = v["depth"], v["stack_free"], v["card"], round(v["cards"])
    sag = v["sag_weight"] + v["sag_hand"]
    w = 0.5 * tall
    view.line((-w, 0), (2.2 * w, 0), Layer.CENTER)
    view.line((-w, -sag), (2.2 * w, -sag))
    view.text((2.2 * w, 0), "true line", "above right")
    view.line((-w, -depth), (2.2 * w, -depth))
    view.hatch(
        [[(-w, -depth), (2.2 * w, -depth), (2.2 * w, -depth - 0.12 * tall), (-w, -depth - 0.12 * tall)]]
    )
    for i in range(n):
        view.rectangle(
            (0, -depth + i * card), (w, -depth + (i + 1) * card), Layer.CONSTRUCTION, fill="medium"
        )
    view.rectangle((0, -depth), (w, -depth + stack))
    view.rectangle((0, -depth + stack), (w, -depth + stack + card), Layer.PHANTOM)
    view.dim(
        (0, -depth), (0, -depth + stack), 8, f"H = {show(stack, 'mm', d, resolution=0.001)}", along="aligned"
    )
    view.dim(
        (w, -depth + stack),
        (w, -depth + stack + card),
        5,
        f"t = {show(card, 'mm', d, resolution=0.001)}",
        along="vertical",
    )
    view.dim(
        (2.2 * w, -depth),
        (2.2 * w, -sag),
        6,
        f"G = {show(v['gap'], 'mm', d, resolution=0.001)}",
        along="vertical",
    )
    view.dim(
        (2.2 * w, -depth), (2.2 * w, 0), 34, f"D = {show(depth, 'mm', d, resolution=0.001)}", along="vertical"
    )


def _shares(view: View, v: Mapping[str, float], d: Display, size: float) -> None:
    """Draw each part's share of the variance as a bar; the whole is 0.3 of the picture's width."""
    wide, row = 0.3 * size, 0.055 * size
    for i, (symbol, name, word) in enumerate(SHARES):
        part = v[name] / 3**0.5 if name == "edge_error" else v[name]
        low = -i * row
        view.rectangle((0, low), (wide, low + 0.6 * row), Layer.CONSTRUCTION)
        if part > 0:
            view.rectangle((0, low), (wide * part**2 / v["u"] ** 2, low + 0.6 * row), fill="strong")
        view.text(
            (wide, low + 0.3 * row),
            f"{symbol} = {show(part, 'mm', d, resolution=0.001)}, {word}",
            "right",
            gap=2,
        )
    words = f"u = {show(v['u'], 'mm', d, resolution=0.001)}, U = {show(v['expanded'], 'mm', d, resolution=0.001)} "
    "(95 %)"
    view.text((0, -len(SHARES) * row), words, "right", gap=0)
