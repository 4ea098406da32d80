"""A track in its groove in both climates, and along its length the slip at the ends."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio
from kit.subjects.stop.fit_drawing import HEIGHT, key_in_groove


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `groove.track` at the values `v`."""
    w, L = v["track"], v["length"]
    plays = (("Fitted", "made", "c_{1}"), ("In use", "used", "c_{2}"))
    most = max(abs(v["play_made"]), abs(v["play_used"]))
    larger = ratio(0.4 * w / most) if most > 0 else 1.0
    scene = Scene(
        "Track in its groove",
        f"A track {show(w, 'mm', d)} wide lies in its groove with {show(v['play_made'], 'mm', d, resolution=0.01)} of "
        f"play when fitted and {show(v['play_used'], 'mm', d, resolution=0.01)} in use; past its ends the wood slips "
        f"by {show(v['creep'], 'mm', d, resolution=0.01)}.",
        caption="Along the track",
    )
    _along(scene, v, d)
    for number, (words, when, sign) in enumerate(plays):
        air = f"{show(v[f'{when}_humidity'], '%', d)}, {show(v[f'{when}_temperature'], 'degC', d)}"
        view = scene.view(f"{words}: {air}", magnify=ratio(0.25 * L / w), below=number == 0)
        play = v[f"play_{when}"]
        key_in_groove(view, w, larger * play)
        if round(v["held"]) == 0:
            _screw(view, v, w)
        else:
            view.line((0, -0.08 * w), (w, -0.08 * w), Layer.SEAM)
        view.text((w / 2, HEIGHT * w), f"{sign} = {show(play, 'mm', d, resolution=0.01)}", "above", gap=4)
        view.dim((0, -0.4 * w), (w, -0.4 * w), -8, f"b = {show(w, 'mm', d)}")
    scene.explain(Layer.OUTLINE, f"visible outline; play drawn {larger:g} times, half on each side")
    scene.explain(Layer.SEAM, "adhesive")
    return scene


def _screw(view: View, v: Mapping[str, float], w: float) -> None:
    """Draw a screw in its hole at the track's middle."""
    for size, layer in ((v["hole"], Layer.OUTLINE), (v["screw"], Layer.HIDDEN)):
        half = min(size, 0.8 * w) / 2
        for x in (w / 2 - half, w / 2 + half):
            view.line((x, 0 if layer is Layer.OUTLINE else -0.35 * w), (x, HEIGHT * w), layer)
    view.line((w / 2, -0.38 * w), (w / 2, 1.1 * HEIGHT * w), Layer.CENTER)


def _along(scene: Scene, v: Mapping[str, float], d: Display) -> None:
    L = v["length"]
    high = 0.05 * L
    scene.rectangle((-0.58 * L, -1.6 * high), (0.58 * L, 0), fill="light")
    scene.rectangle((-L / 2, -0.7 * high), (L / 2, 0), fill="medium")
    scene.line((0, -2 * high), (0, 0.6 * high), Layer.CENTER)
    scene.text((0, 0.6 * high), "held here", "above")
    scene.arrow((-0.3 * L, -1.15 * high), 0.0, grip="middle", both=True, layer=Layer.GRAIN, length=12)
    creep = v["creep"]
    scene.text((0.3 * L, -1.15 * high), f"δ = {show(creep, 'mm', d, resolution=0.01)}")
    for side in (-1, 1):
        outward = (side > 0) == (creep >= 0)
        if creep:
            scene.arrow((side * L / 2, -1.15 * high), 0.0 if outward else pi, grip="tail", length=8)
    scene.dim((-L / 2, -1.6 * high), (L / 2, -1.6 * high), -10, f"L = {show(L, 'mm', d)}")
    scene.explain(Layer.GRAIN, "grain of the wood, along the groove")
    scene.explain(Layer.FORCE, "slip of the wood past the track's end")
