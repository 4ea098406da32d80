"""A key in its slot in both climates, the plays beside those of a standard fit, and the swing of the block's end."""

from collections.abc import Mapping
from math import cos, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio
from kit.subjects.stop.fit_drawing import HEIGHT, key_in_groove


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `groove.key` at the values `v`."""
    b = v["key"]
    most = max(abs(v["play_made"]), abs(v["play_used"]))
    larger = ratio(0.4 * b / most) if most > 0 else 1.0
    scene = Scene(
        "Key in its slot",
        f"A key {show(b, 'mm', d)} wide in a slot {show(v['slot'], 'mm', d)} wide: the play is "
        f"{show(v['play_made'], 'mm', d, resolution=0.01)} now and {show(v['play_used'], 'mm', d, resolution=0.01)} in "
        f"the other climate; the block's end swings {show(v['play_tip'], 'mm', d, resolution=0.01)}.",
        caption="Block from above",
    )
    long = v["reach"] + v["key_length"] / 2
    _turned(scene, v, d)
    for number, (words, when, sign) in enumerate((("Now", "made", "c_{1}"), ("In use", "used", "c_{2}"))):
        view = scene.view(words, magnify=ratio(0.2 * long / b), below=number == 0)
        play = v[f"play_{when}"]
        key_in_groove(view, b, larger * play)
        air = f"{show(v[f'{when}_humidity'], '%', d)}, {show(v[f'{when}_temperature'], 'degC', d)}"
        view.text((b / 2, HEIGHT * b), air, "above", gap=8)
        view.text((b / 2, HEIGHT * b), f"{sign} = {show(play, 'mm', d, resolution=0.01)}", "above", gap=3)
        if number == 0:
            view.dim((0, -0.4 * b), (b, -0.4 * b), -7, f"b = {show(b, 'mm', d)}")
    _plays(scene, v, d, long)
    scene.explain(Layer.OUTLINE, f"visible outline; in section play is drawn {larger:g} times, half on each side")
    return scene


def _turned(scene: Scene, v: Mapping[str, float], d: Display) -> None:
    """Draw the block square across its slot and, swung by its play, the same turned; the slot runs upward."""
    k, a, turn = v["key_length"], v["reach"], v["rotation"]
    B, long = v["slot"], max(v["reach"], v["key_length"] / 2)
    larger = max(ratio(0.1 / turn), 1.0) if turn > 0 else 1.0
    wide = max(0.1 * long, 1.2 * B)
    for x in (-B / 2, B / 2):
        scene.line((x, -0.65 * k - wide), (x, 0.65 * k + wide))
    scene.rectangle((-0.46 * B, -k / 2), (0.46 * B, k / 2), Layer.HIDDEN)
    block = [(-0.8 * wide, -wide / 2), (a, -wide / 2), (a, wide / 2), (-0.8 * wide, wide / 2)]
    scene.polyline(block, closed=True)
    if turn > 0:
        c, s = cos(larger * turn), sin(larger * turn)
        scene.polyline([(x * c - y * s, y * c + x * s) for x, y in block], Layer.DEFLECTED, closed=True)
        words = f"δ_{{p}} = {show(v['play_tip'], 'mm', d, resolution=0.001)}"
        scene.dim((a, wide / 2), (a, wide / 2 + a * s), 8, words, along="vertical")
        scene.explain(Layer.DEFLECTED, f"swung by its play, drawn {larger:g} times")
    scene.dim((0, -wide / 2), (a, -wide / 2), -9, f"a = {show(a, 'mm', d)}")
    scene.dim((-0.8 * wide, -k / 2), (-0.8 * wide, k / 2), -8, f"ℓ_{{k}} = {show(k, 'mm', d)}", along="vertical")


def _plays(scene: Scene, v: Mapping[str, float], d: Display, long: float) -> None:
    """Draw the plays of both climates on one line, above the bands that slide without rattle and that the fit gives."""
    values = [v[name] for name in ("play_made", "play_used", "play_least", "play_most", "fit_most")]
    low, high = min(0.0, *values), max(*values)
    reach = high - low
    view = scene.view("Plays", magnify=ratio(0.6 * long / reach))
    row = 0.22 * reach
    view.line((low, 0), (high, 0), Layer.CONSTRUCTION)
    view.line((0, -2.4 * row), (0, 0.3 * row), Layer.CENTER)
    for sign, name, gap in (("c_{3}", "play_tight", 2.5), ("c_{4}", "play_loose", 7.0)):
        view.circle((v[name], 0), 0.04 * reach, fill="strong")
        view.text((v[name], 0), f"{sign} = {show(v[name], 'mm', d, resolution=0.01)}", "above", gap=gap)
    letter, slot, key = (round(v[name]) for name in ("letter", "slot_grade", "key_grade"))
    bands = (
        ("slides, no rattle", v["play_least"], max(v["play_most"], v["play_least"])),
        (f"H{slot + 6}/{'hgfed'[letter]}{key + 6}", v["fit_least"], v["fit_most"]),
    )
    for number, (words, start, end) in enumerate(bands, 1):
        y = -number * row
        view.rectangle((start, y - 0.3 * row), (end, y), fill="medium")
        view.text(((start + end) / 2, y - 0.3 * row), words, "below", gap=1.2)
