"""Measured and predicted error with their bars, the two taken together, and the scatter with its ends."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `accuracy.batch` at the values `v`."""
    scene = Scene(
        "What test cuts say",
        f"{v['parts']:.0f} parts are off by {_mm(v['bias'], d)} ± {_mm(v['bias_expanded'], d)}; predicted was "
        f"{_mm(v['predicted'], d)} ± {_mm(2 * v['predicted_u'], d)}. Together: {_mm(v['estimate'], d)}.",
        caption="Error of the setting, each with its bar of two standard uncertainties",
    )
    bars = (
        ("predicted, δ_{p}", v["predicted"], 2 * v["predicted_u"]),
        ("measured, b", v["bias"], v["bias_expanded"]),
        ("together, δ", v["estimate"], 2 * v["estimate_u"]),
    )
    low = min(0.0, *(at - half for _, at, half in bars))
    high = max(0.0, *(at + half for _, at, half in bars))
    row = 0.12 * (high - low)
    for k, (words, at, half) in enumerate(bars):
        y = -k * row
        _bar(scene, at - half, at, at + half, y, row)
        scene.text((low, y), words, "left", gap=3)
        scene.text((high, y), f"{_mm(at, d)} ± {_mm(half, d)}".replace("-", "−"), "right", gap=3)
    scene.text(
        (high, -3 * row),
        f"E_{{n}} = {show(v['normalized'], '', d, resolution=0.01)}".replace("-", "−"),
        "right",
        gap=3,
    )
    scene.line((0, 0.7 * row), (0, -2.6 * row), Layer.CENTER)
    scene.explain(Layer.CENTER, "the length that was set")
    ends = (v["scatter_from"], v["deviation"], v["scatter_to"])
    far = max(ends[2], v["predicted_deviation"])
    view = scene.view("Deviation of the parts", magnify=ratio((high - low) / far), below=True)
    line = 0.12 * far
    _bar(view, *ends, 0.0, line)
    view.line((v["predicted_deviation"], 0.7 * line), (v["predicted_deviation"], -1.6 * line), Layer.CUT)
    view.line((0, 0.7 * line), (0, -1.6 * line))
    view.text((0, 0), "measured, s", "left", gap=3)
    view.text((far, 0), f"{_fine(ends[1], d)}, from {_fine(ends[0], d)} to {_fine(ends[2], d)}", "right", gap=3)
    view.text((far, -line), f"predicted, σ_{{p}} = {_fine(v['predicted_deviation'], d)}", "right", gap=3)
    scene.explain(Layer.CUT, "predicted deviation of the parts")
    return scene


def _bar(view: View, low: float, at: float, high: float, y: float, row: float) -> None:
    view.rectangle((low, y - 0.2 * row), (high, y + 0.2 * row), fill="light")
    view.line((at, y - 0.35 * row), (at, y + 0.35 * row))


def _mm(base: float, d: Display) -> str:
    return show(base, "mm", d, resolution=0.01)


def _fine(base: float, d: Display) -> str:
    return show(base, "mm", d, resolution=0.001)
