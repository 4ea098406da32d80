"""A straightedge along a bowed fence, its three gaps, and a part against the fence."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio

STOPS = 48  # of the arc


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `alignment.bow` at the values `v`: the straightedge along y = 0, the fence above it."""
    L, h = v["length"], v["bow"]
    gaps = {-L / 4: v["gap_first"], 0.0: v["gap_middle"], L / 4: v["gap_last"]}
    deepest = max(abs(h), *(abs(gap) for gap in gaps.values()))
    larger = ratio(0.12 * L / deepest) if deepest else 1.0
    scene = Scene(
        "A straightedge along the fence",
        f"Three gaps under a straightedge {show(L, 'mm', d)} long fit an arc {show(h, 'mm', d, resolution=0.01)} deep; "
        f"a part is turned {show(v['turn'], 'deg', d, resolution=0.001)} by it.",
        caption="From above",
    )

    def fence(x: float) -> float:
        return larger * h * (1 - 4 * x * x / (L * L))

    scene.rectangle((-L / 2, -0.07 * L), (L / 2, 0.0), fill="light")
    scene.text((0.0, -0.035 * L), "straightedge")
    arc = [(L * (i / STOPS - 0.5), fence(L * (i / STOPS - 0.5))) for i in range(STOPS + 1)]
    scene.polyline(arc, Layer.DEFLECTED)
    scene.explain(Layer.DEFLECTED, f"the arc that fits the fence best; gaps are drawn {larger:g} times")
    for number, (x, gap) in enumerate(gaps.items(), 1):
        scene.line((x, 0.0), (x, larger * gap), Layer.CONSTRUCTION)
        scene.circle((x, larger * gap), 0.008 * L, fill="strong")
        words = f"g_{{{number}}} = {show(gap, 'mm', d, resolution=0.01)}"
        scene.text((x, larger * gap), words, "above", gap=3)
    scene.explain(Layer.CONSTRUCTION, "measured gaps")
    x, half = v["place"], v["part"] / 2
    ends = ((x - half, fence(x - half)), (x + half, fence(x + half)))
    scene.line(*ends)
    for end in ends:
        scene.circle(end, 0.005 * L, fill="light")
    scene.dim((x - half, -0.07 * L), (x + half, -0.07 * L), -9, f"p = {show(v['part'], 'mm', d)}", along="horizontal")
    scene.dim((0.0, -0.07 * L), (x, -0.07 * L), -17, f"x = {show(x, 'mm', d)}", along="horizontal")
    scene.explain(Layer.OUTLINE, "straightedge; between two rings, the edge of the part")
    return scene
