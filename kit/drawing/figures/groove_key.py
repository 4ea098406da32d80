"""A key in its slot in both climates, the plays beside those of a standard fit, and the swing of the block's end."""

from collections.abc import Mapping
from math import cos, sin

from kit.drawing.fits import HEIGHT, key_in_groove
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene, ratio
from kit.quantity import Display, show


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
    for number, (told, when, sign) in enumerate((("Now", "made", "c_{1}"), ("In use", "used", "c_{2}"))):
        air = f"{show(v[f'{when}_humidity'], '%', d)}, {show(v[f'{when}_temperature'], 'degC', d)}"
        view = scene.view(f"{told}: {air}", magnify=ratio(0.25 * long / b), below=number == 0)
        play = v[f"play_{when}"]
        key_in_groove(view, b, larger * play)
        view.text((b / 2, HEIGHT * b), f"{sign} = {show(play, 'mm', d, resolution=0.01)}", "above", gap=4)
        if number == 0:
            view.dim((0, -0.4 * b), (b, -0.4 * b), -8, f"b = {show(b, 'mm', d)}")
    _plays(scene, v, d, long)
    scene.explain(
        Layer.OUTLINE, f"visible outline; in section play is drawn {larger:g} times, half on each side"
    )
    return scene


def _turned(scene: Scene, v: Mapping[str, float], d: Display) -> None:
    """Draw the block square across its slot and, swung by its play, the same turned; the slot runs to the right."""
    k, a, turn = v["key_length"], v["reach"], v["rotation"]
    B, long = v["slot"], max(v["reach"], v["key_length"] / 2)
    larger = max(ratio(0.14 / turn), 1.0) if turn > 0 else 1.0
    wide = max(0.1 * long, 1.2 * B)
    for y in (-B / 2, B / 2):
        scene.line((-1.3 * k / 2 - wide, y), (1.3 * k / 2 + wide, y))
    scene.rectangle((-k / 2, -0.46 * B), (k / 2, 0.46 * B), Layer.HIDDEN)
    block = [(-wide / 2, -0.8 * wide), (wide / 2, -0.8 * wide), (wide / 2, a), (-wide / 2, a)]
    scene.polyline(block, closed=True)
    if turn > 0:
        c, s = cos(larger * turn), sin(larger * turn)
        scene.polyline([(x * c + y * s, y * c - x * s) for x, y in block], Layer.DEFLECTED, closed=True)
        scene.dim(
            (0, a),
            (a * s, a),
            8,
            f"δ_{{p}} = {show(v['play_tip'], 'mm', d, resolution=0.001)}",
            along="horizontal",
        )
        scene.explain(Layer.DEFLECTED, f"swung by its play, drawn {larger:g} times")
    scene.dim((-wide / 2, 0), (-wide / 2, a), 9, f"a = {show(a, 'mm', d)}", along="aligned")
    scene.dim((-k / 2, -0.8 * wide), (k / 2, -0.8 * wide), -9, f"ℓ_{{k}} = {show(k, 'mm', d)}")


def _plays(scene: Scene, v: Mapping[str, float], d: Display, long: float) -> None:
    """Draw the plays of both climates on one line, above the bands that slide without rattle and that the fit gives."""
    values = [v[name] for name in ("play_made", "play_used", "play_least", "play_most", "fit_most")]
    low, high = min(0.0, *values), max(*values)
    reach = high - low
    view = scene.view("Plays on one line", magnify=ratio(0.9 * long / reach), below=True)
    row = 0.06 * reach
    view.line((low, 0), (high, 0), Layer.CONSTRUCTION)
    view.line((0, -3.4 * row), (0, 1.5 * row), Layer.CENTER)
    labels: tuple[tuple[str, str, Place], ...] = (
        ("c_{3}", "play_tight", "above left"),
        ("c_{4}", "play_loose", "above right"),
    )
    for sign, name, place in labels:
        view.circle((v[name], 0), 0.25 * row, fill="strong")
        view.text((v[name], 0), f"{sign} = {show(v[name], 'mm', d, resolution=0.01)}", place, gap=2)
    view.rectangle(
        (v["play_least"], -1.6 * row), (max(v["play_most"], v["play_least"]), -0.8 * row), fill="medium"
    )
    view.text((high, -1.2 * row), "slides without rattle", "right", gap=3)
    view.rectangle((v["fit_least"], -3.0 * row), (v["fit_most"], -2.2 * row), fill="light")
    letter, slot, key = (round(v[name]) for name in ("letter", "slot_grade", "key_grade"))
    view.text((high, -2.6 * row), f"fit H{slot + 6}/{'hgfed'[letter]}{key + 6}", "right", gap=3)
