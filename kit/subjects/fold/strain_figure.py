"""Strain in a bend: the bend enlarged and the strain through its thickness."""

from collections.abc import Mapping
from math import cos, degrees, sin

from kit.core.quantity import Display, show
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene, View
from kit.subjects.fold.folded_drawing import fold_up

FINE = 0.001  # of a strain


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fold.strain` at the values `v`, mm and rad."""
    R, T, least = (v[name] for name in ("inside_radius", "thickness", "least_radius"))
    outer, allowed = (show(v[name], "%", d, resolution=FINE) for name in ("outer_strain", "allowed_strain"))
    scene = Scene(
        "Strain in a bend",
        f"A bend of inside radius {show(R, 'mm', d)} in sheet {show(T, 'mm', d)} thick: the outside face is drawn "
        f"by {outer}, {allowed} are allowed; the smallest radius is {show(least, 'mm', d)}.",
        caption="Bend",
    )
    _bend(scene, v, d)
    _strains(scene.view("Strain through the thickness", below=True), v, d)
    scene.explain(Layer.CENTER, "neutral fiber: keeps its length")
    scene.explain(Layer.PHANTOM, "allowed strain")
    return scene


def _bend(view: View, v: Mapping[str, float], d: Display) -> None:
    R, T, turn = v["inside_radius"], v["thickness"], v["bend_angle"]
    leg = 0.5 * (R + T)
    sheet = fold_up((leg, leg), [(turn, R)], T, v["neutral_factor"])
    view.polyline(sheet.outline, closed=True, fill="light")
    view.polyline(sheet.neutral, Layer.CENTER)
    x, y = sheet.centers[0]
    steps = max(2, round(degrees(turn) / 15))
    for step in range(steps + 1):
        at = turn * step / steps
        across = (sin(at), -cos(at))
        view.line(
            (x + R * across[0], y + R * across[1]),
            (x + (R + T) * across[0], y + (R + T) * across[1]),
            Layer.CONSTRUCTION,
        )
    out = (sin(turn / 2), -cos(turn / 2))
    inside = (x + R * out[0], y + R * out[1])
    outside = (x + (R + T) * out[0], y + (R + T) * out[1])
    words = f"R = {show(R, 'mm', d)}, least {show(v['least_radius'], 'mm', d, resolution=0.1)}"
    view.leader(inside, (-18 * out[0] - 1, -18 * out[1]), words)
    view.leader(outside, (8, -4), f"turned by α = {degrees(turn):.1f}°")
    view.dim((0, 0), (0, T), -6, f"T = {show(T, 'mm', d)}", along="vertical")


def _strains(view: View, v: Mapping[str, float], d: Display) -> None:
    high = 1.4 * (v["inside_radius"] + v["thickness"])
    outer, inner, allowed = v["outer_strain"], v["inner_strain"], v["allowed_strain"]
    unit = 1.4 * high / max(outer - inner, allowed - inner)
    middle = (1 - v["neutral_factor"]) * high
    view.polyline([(0, high), (0, 0), (unit * outer, 0), (unit * inner, high)], closed=True, fill="medium")
    view.line((1.1 * unit * inner, middle), (1.1 * unit * max(outer, allowed), middle), Layer.CENTER)
    view.line((unit * allowed, -0.15 * high), (unit * allowed, high), Layer.PHANTOM)
    view.text((0, 0), "outside face", "left")
    view.text((0, high), "inside face", "right")
    notes: tuple[tuple[str, float, float, Place], ...] = (
        ("o", outer, 0.0, "right"),
        ("i", inner, 1.0, "left"),
        ("a", allowed, -0.15, "below"),
    )
    for name, strain, level, place in notes:
        words = f"ε_{{{name}}} = {show(strain, '%', d, resolution=FINE)}"
        view.text((unit * strain, level * high), words, place)
