"""A bar for each contributor's half-width, and the bell of the parts between the lines of the tolerance."""

from collections.abc import Mapping
from math import exp

from kit.core.quantity import Display, show
from kit.drawing.primitives import Tone
from kit.drawing.scene import Layer, Scene, View, ratio

SHARED = (
    ("h_{t}", "tape", "scale"),
    ("h_{0}", "zero", "zero"),
    ("h_{r}", "reading", "reading"),
    ("h_{B}", "block", "block"),
    ("h_{p}", "play", "key's play"),
    ("h_{f}", "fence", "fence"),
    ("h_{θ}", "heat", "warmth"),
    ("h_{u}", "swelling", "moisture"),
)
ANEW = (
    ("h_{F}", "give", "push"),
    ("h_{w}", "blade", "blade"),
    ("h_{γ}", "end_square", "squareness"),
    ("h_{d}", "seating", "seat"),
)
TALL = 0.35
"""Of the bell over the half of its width."""


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `accuracy.chain` at the values `v`."""
    scene = Scene(
        "Accuracy from scale to cut part",
        f"Parts of {show(v['target'], 'mm', d)} are off by ± {_mm(v['expanded'], d)} (95 %), at worst "
        f"{_mm(v['worst'], d)}; ± {_mm(v['tolerance'], d)} is allowed.",
        caption="Half-widths; dark: shared by the batch, light: anew with each part",
    )
    wide = max(v[name] for _, name, _ in (*SHARED, *ANEW))
    row = 0.1 * wide
    for k, (symbol, name, word) in enumerate((*SHARED, *ANEW)):
        middle = -k * row
        tone: Tone = "strong" if k < len(SHARED) else "light"
        scene.rectangle((-v[name], middle - 0.35 * row), (v[name], middle + 0.35 * row), fill=tone)
        scene.text((-wide, middle), word, "left", gap=3)
        scene.text((wide, middle), f"{symbol} = {show(v[name], 'mm', d, resolution=0.001)}", "right", gap=3)
    bottom = -(len(SHARED) + len(ANEW) - 0.4) * row
    scene.line((0, 0.8 * row), (0, bottom), Layer.CENTER)
    _bell(scene, v, d, wide)
    return scene


def _bell(scene: Scene, v: Mapping[str, float], d: Display, wide: float) -> None:
    t, u, b = v["tolerance"], v["u"], v["bias"]
    reach = max(t, v["worst"], abs(b) + 3.5 * u)
    view = scene.view("The parts between the lines of the tolerance", magnify=ratio(wide / reach), below=True)
    top = 2 * TALL * reach
    points = [(x, top * exp(-(((x - b) / u) ** 2) / 2)) for x in (b + 0.07 * k * u for k in range(-50, 51))]
    view.polyline(points, fill="light")
    view.line((-reach, 0), (reach, 0), Layer.CONSTRUCTION)
    view.line((0, 0), (0, 1.05 * top), Layer.CENTER)
    for x in (-t, t):
        view.line((x, -0.04 * top), (x, 0.9 * top), Layer.CUT)
    away = -t if b > 0 else t
    view.text((away, 0.9 * top), f"t = ±{_mm(t, d)}", "left" if b > 0 else "right", gap=2)
    _span(view, b, v["expanded"], -10, f"±U = ±{_mm(v['expanded'], d)}")
    _span(view, b, v["root_sum"], -18, f"±δ_{{r}} = ±{_mm(v['root_sum'], d)}")
    _span(view, 0, v["worst"], -26, f"±δ_{{w}} = ±{_mm(v['worst'], d)}")
    scene.explain(
        Layer.CUT,
        f"tolerance; one part within it: {show(v['one_within'], '%', d, resolution=0.001)}, "
        f"all {v['parts']:.0f}: {show(v['batch_within'], '%', d, resolution=0.001)}",
    )


def _span(view: View, middle: float, half: float, offset: float, text: str) -> None:
    view.dim((middle - half, 0), (middle + half, 0), offset, text)


def _mm(base: float, d: Display) -> str:
    return show(base, "mm", d, resolution=0.01)
