"""A block of two layers, warped by a moisture difference, from the side and from its end."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.stop.bow_drawing import bar


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Return the side view and the end view, bow and cup drawn larger by one factor each."""
    L, w, bow, cup = v["length"], v["width"], v["bow"], v["cup"]
    bulging = "front" if bow > 0 else "back"
    scene = Scene(
        "A block warped by moisture",
        f"The {bulging} bulges: over {show(L, 'mm', d)} the block bows by {show(abs(bow), 'mm', d, resolution=0.01)}.",
        caption="From the side",
    )
    larger = _layers(scene, v, d, L, bow, "s")
    high = v["thickness"]
    low = min(0.0, larger * bow)
    scene.dim((-L / 2, low), (L / 2, low), -16, f"L = {show(L, 'mm', d)}", along="horizontal")
    for layer, level, above in (("front", high, True), ("back", 0.0, False)):
        words = f"{layer} {show(v[f'{layer}_thickness'], 'mm', d)}, {show(v[f'{layer}_moisture'], '%', d)} moisture"
        scene.leader((-0.25 * L, level + 0.75 * larger * bow), (8, 12 if above else -8), words)
    end = scene.view("From the end", magnify=ratio(0.45 * L / max(w, high)), below=True)
    wider = _layers(end, v, d, w, cup, "s_{w}")
    low = min(0.0, wider * cup)
    end.dim((-w / 2, low), (w / 2, low), -12, f"w = {show(w, 'mm', d)}", along="horizontal")
    scene.explain(Layer.CONSTRUCTION, f"straight; bow drawn {larger:g} times, cup {wider:g} times")
    return scene


def _layers(view: View, v: Mapping[str, float], d: Display, length: float, rise: float, symbol: str) -> float:
    """Draw both layers over `length`, their rise enlarged and dimensioned; return the factor."""
    back, high = v["back_thickness"], v["thickness"]
    larger = ratio(0.08 * length / abs(rise)) if rise else 1.0
    drawn = larger * rise
    view.polyline(bar(length, 0, back, drawn), closed=True, fill="light")
    view.polyline(bar(length, back, high, drawn), closed=True, fill="medium")
    base = 0.0 if rise >= 0 else high
    view.line((-0.54 * length, base), (0.54 * length, base), Layer.CONSTRUCTION)
    if rise:
        words = f"{symbol} = {show(abs(rise), 'mm', d, resolution=0.01)}"
        end = 0.56 * length
        view.line((0, base + drawn), (end, base + drawn), Layer.CONSTRUCTION)
        view.dim((end, base), (end, base + drawn), 3, words, along="vertical")
    return larger
