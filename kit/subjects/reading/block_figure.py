"""The stop block on its scale, the way that is used, and below it what each way reaches."""

from collections.abc import Mapping

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `reading.block` at the values `v`: x from the kerf's face on the stop's side."""
    T, B, R, f = v["target"], v["block"], v["reading"], v["fence_gap"]
    s_0, s_1 = v["scale_from"], v["scale_to"]
    direct = round(v["way"]) == 0
    label = "knob's end" if direct else "free end"
    scene = Scene(
        "Reading of a reversible stop block",
        f"From above: the part, {show(T, 'mm', d)} long, meets the block's {label}; the cursor stands at "
        f"{show(R, 'mm', d, resolution=0.1)}, the hand {show(v['hand'], 'mm', d, resolution=1)} from the blade.",
        caption="From above" + (", direct" if direct else ", over the block"),
    )
    end = max(s_1, T + B)
    u = 0.03 * end  # a unit of drawn widths that the model does not ask for
    scene.line((0.0, -2.6 * u), (0.0, 6 * u), Layer.CUT)
    scene.rectangle((f, 0.0), (max(end, 1.02 * s_1), 1.2 * u), fill="light")
    for n in range(21):
        x = s_0 + (s_1 - s_0) * n / 20
        scene.line((x, 1.2 * u), (x, (0.5 if n % 5 else 0.1) * u), Layer.CONSTRUCTION)
    scene.rectangle((0.0, 0.0), (T, -2.2 * u))
    if 2 * u < T:
        scene.text((T / 2, -1.1 * u), "part", "center")
    scene.rectangle((T, 0.0), (T + B, -1.6 * u), fill="medium")
    knob = T + v["knob"] if direct else T + B - v["knob"]
    scene.circle((knob, -0.8 * u), 0.6 * u, fill="strong")
    scene.line((R, -1.6 * u), (R, 2.2 * u), Layer.FORCE)
    scene.dim((0.0, -2.2 * u), (T, -2.2 * u), -16, f"T = {show(T, 'mm', d)}", along="horizontal", overflow="p")
    scene.dim((T, -2.2 * u), (T + B, -2.2 * u), -16, f"B = {show(B, 'mm', d)}", along="horizontal")
    scene.dim(
        (0.0, -2.2 * u),
        (knob, -2.2 * u),
        -8,
        f"a = {show(v['hand'], 'mm', d, resolution=1)}",
        along="horizontal",
    )
    scene.dim((0.0, 2.2 * u), (R, 2.2 * u), 8, f"R = {show(R, 'mm', d, resolution=0.1)}", along="horizontal")
    _ranges(scene, v, d, u)
    scene.explain(Layer.CUT, "kerf's face at the blade")
    scene.explain(Layer.CONSTRUCTION, "scale")
    scene.explain(Layer.FORCE, "cursor line; target")
    return scene


def _ranges(scene: Scene, v: Mapping[str, float], d: Display, u: float) -> None:
    """Draw a bar of targets for each way below the bench, where the dimensions leave room."""
    rows = (("direct", v["direct_from"], v["direct_to"]), ("over the block", v["over_from"], v["over_to"]))
    for y, (label, first, last) in zip((-9.0 * u, -11.0 * u), rows, strict=True):
        if last > first:
            scene.rectangle((first, y), (last, y + 1.2 * u), fill="light")
            words = f"{label}: {show(first, 'mm', d, resolution=1)} to {show(last, 'mm', d, resolution=1)}"
            scene.text(((first + last) / 2, y + 0.6 * u), words, "center")
        else:
            scene.text((0.0, y + 0.6 * u), f"{label}: none", "right")
    scene.line((0.0, -11.4 * u), (0.0, -7.4 * u), Layer.CUT)
    scene.line((v["target"], -11.4 * u), (v["target"], -7.4 * u), Layer.FORCE)
    scene.text((v["target"], -11.4 * u), "T", "below")
