"""Error of a tape over its length: the steps of its class, and the line of pull and warmth, drawn larger."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio

METER = 1000.0


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `scale.tape` at the values `v`: length to scale, errors magnified."""
    R, L, mpe, known = v["reading"], v["whole_meters"], v["class_error"], v["known_error"]
    worst = v["worst"]
    larger = ratio(0.2 * L / max(worst, v["allowed"]))
    scene = Scene(
        "Error of an adhesive tape",
        f"At {show(R, 'mm', d)} the class allows ± {show(mpe, 'mm', d, resolution=0.01)}; pull and warmth make "
        f"{show(known, 'mm', d, resolution=0.001)}, together up to {show(worst, 'mm', d, resolution=0.01)}.",
    )
    steps = range(1, round(L / METER) + 1)
    upper = [(x, larger * (mpe + v["growth"] * (n * METER - L))) for n in steps for x in ((n - 1) * METER, n * METER)]
    scene.polyline(upper)
    scene.polyline([(x, -y) for x, y in upper])
    scene.polyline([(0.0, 0.0), (R, larger * known)], Layer.DEFLECTED)
    scene.line((R, larger * (known - mpe)), (R, larger * (known + mpe)), Layer.FORCE)
    for sign in (-1, 1):
        scene.line((0.0, sign * larger * v["allowed"]), (L, sign * larger * v["allowed"]), Layer.CUT)
    high = 0.02 * L  # of the drawn tape
    low = -larger * max(worst, v["allowed"]) - 3 * high
    scene.line((0.0, 0.0), (L, 0.0), Layer.CENTER)
    scene.rectangle((0.0, low), (L, low - high), fill="light")
    for n in range(round(L / 100) + 1):
        scene.line((100 * n, low), (100 * n, low - high * (1 if n % 10 == 0 else 0.5)), Layer.CONSTRUCTION)
    scene.line((R, low - high), (R, larger * (known - mpe)), Layer.CONSTRUCTION)
    scene.dim((0.0, low - high), (R, low - high), -9, f"R = {show(R, 'mm', d)}")
    words = f"δ_{{c}} = ± {show(mpe, 'mm', d, resolution=0.01)}"
    scene.leader((R, larger * (known + mpe)), (8, 8), words)
    label = f"δ_{{k}} = {show(known, 'mm', d, resolution=0.001)}"
    scene.leader((0.6 * R, 0.6 * larger * known), (-8, -18 if known >= 0 else 18), label)
    scene.explain(Layer.CENTER, "no error")
    scene.explain(Layer.CONSTRUCTION, "the reading on the tape")
    scene.explain(Layer.OUTLINE, f"permissible error of the class, drawn {larger:g} times")
    scene.explain(Layer.DEFLECTED, "error by pull and warmth")
    scene.explain(Layer.FORCE, "where the error can lie at the reading")
    scene.explain(Layer.CUT, f"{show(v['allowed'], 'mm', d)} allowed")
    return scene
