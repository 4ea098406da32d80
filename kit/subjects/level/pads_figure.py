"""A foot on its pad below the line of the supports, and the bell curve of the bed's height."""

from collections.abc import Mapping
from math import exp

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `level.pads` at the values `v`: the bed before and after, and how it may come out."""
    h, depth, proud = v["height"], v["depth"], v["proud"]
    scene = Scene(
        "Height of a pad",
        f"The bed lies {show(depth, 'mm', d, resolution=0.01)} low; a pad of {show(h, 'mm', d, resolution=0.01)} "
        f"brings it "
        f"{show(proud, 'mm', d, resolution=0.01)} above the line, within the band with "
        f"{100 * v['chance']:.1f} %.",
        caption="At the foot, shortened",
    )
    tall = max(h, depth, 1.0)
    leg, wide = 2.0 * tall, 1.2 * tall
    for left, pad in ((0.0, 0.0), (3.6 * wide, max(h - v["sink"], 0.0))):
        scene.rectangle((left, pad), (left + wide, pad + leg), fill="light")
        if pad > 0:
            scene.rectangle((left - 0.15 * wide, 0), (left + 1.15 * wide, pad), fill="strong")
        bench = ((left - 0.6 * wide, 0.0), (left + 1.6 * wide, 0.0))
        scene.line(*bench)
        scene.hatch([[*bench, (bench[1][0], -0.2 * tall), (bench[0][0], -0.2 * tall)]])
    line = leg + depth
    scene.line((-0.8 * wide, line), (5.6 * wide, line), Layer.CENTER)
    scene.text((-0.8 * wide, line), "line of the supports", "above right")
    scene.dim((wide, leg), (wide, line), 8, f"D = {show(depth, 'mm', d, resolution=0.01)}", along="vertical")
    right = 3.6 * wide
    if h > 0:
        scene.dim(
            (right + 1.15 * wide, 0),
            (right + 1.15 * wide, h),
            9,
            f"h = {show(h, 'mm', d, resolution=0.01)}",
            along="vertical",
        )
    scene.leader(
        (right + 0.5 * wide, leg + max(h - v["sink"], 0.0)),
        (6, 9),
        f"μ = {show(proud, 'mm', d, resolution=0.01)}",
    )
    reach = max(v["band"], abs(proud), abs(v["band"] - proud)) + 3.5 * v["u"]
    _bell(scene.view("How the bed comes out", magnify=ratio(1.2 * (leg + depth) / reach), below=True), v, d)
    scene.explain(Layer.CUT, "line of the supports and upper end of the band")
    return scene


def _bell(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the density of the bed's height over how proud it stands; the tails outside the band are filled."""
    mu, u, band = v["proud"], v["u"], v["band"]
    low, high = min(mu - 3.5 * u, -0.3 * band), max(mu + 3.5 * u, 1.3 * band)
    top = 0.45 * (high - low)

    def curve(start: float, end: float) -> list[tuple[float, float]]:
        points = (start + (end - start) * i / 60 for i in range(61))
        return [(x, top * exp(-(((x - mu) / u) ** 2) / 2)) for x in points]

    for start, end in ((low, 0.0), (band, high)):
        if end > start:
            view.polyline([(start, 0), *curve(start, end), (end, 0)], Layer.CONSTRUCTION, closed=True, fill="strong")
    view.polyline(curve(max(low, mu - 3.5 * u), min(high, mu + 3.5 * u)))
    view.line((low, 0), (high, 0), Layer.CONSTRUCTION)
    for at in (0.0, band):
        view.line((at, 0), (at, 1.1 * top), Layer.CUT)
    view.line((mu, 0), (mu, top), Layer.CENTER)
    view.text((0, 1.1 * top), f"low: {100 * v['chance_low']:.1f} %", "above left")
    view.text((band, 1.1 * top), f"too proud: {100 * v['chance_high']:.1f} %", "above right")
    view.dim((0, 0), (band, 0), -8, f"b = {show(band, 'mm', d, resolution=0.01)}")
    view.dim((0, 0), (mu, 0), -17, f"μ = {show(mu, 'mm', d, resolution=0.01)}", along="horizontal")
