"""A chain of folds: the folded profile seen on end, and the flat strip with its fold lines."""

from collections.abc import Mapping
from math import copysign, cos, degrees, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View
from kit.subjects.fold.folded_drawing import fold_up

FINE = 0.5  # mm; results show the rest


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `fold.chain` at the values `v`, mm and rad."""
    bends = [i for i in range(1, 5) if v[f"angle_{i}"]]
    scene = Scene(
        "A chain of folds",
        f"A profile folded from a flat strip {show(v['flat_length'], 'mm', d)} long, with {len(bends)} bends at "
        + ", ".join(show(v[f"fold_line_{i}"], "mm", d) for i in bends)
        + " from its left edge.",
        caption="Folded, seen on end",
    )
    _profile(scene, v, d)
    _strip(scene.view("Flat strip", below=True), v, d, bends)
    scene.explain(Layer.PHANTOM, "sheet at hand")
    return scene


def _profile(view: View, v: Mapping[str, float], d: Display) -> None:
    setbacks = [0.0, *(v[f"setback_{i}"] for i in range(1, 5)), 0.0]
    turns = [v[f"angle_{i}"] for i in range(1, 5)]
    legs = [v[f"leg_{i}"] for i in range(1, 6)]
    straights = [max(leg - setbacks[i] - setbacks[i + 1], 0.0) for i, leg in enumerate(legs)]
    radius, T = v["inside_radius"], v["thickness"]
    sheet = fold_up(straights, [(turn, radius) for turn in turns], T, v["neutral_factor"])
    view.polyline(sheet.outline, closed=True, fill="light")

    def beside(leg: int) -> set[float]:
        return {copysign(1.0, turn) for turn in turns[max(leg - 1, 0) : leg + 1] if turn}

    def spread(leg: int) -> bool:
        """Whether words that do not fit go to the leg's start: away from the middle of the profile."""
        turned_in = turns[0] * turns[1] > 0 if leg == 0 else turns[2] * turns[3] > 0
        return (leg == 0 and not turned_in) or (leg == 4 and turned_in)

    # legs are dimensioned on the outside of the longest one, where they have a bend that turns like its bends
    side = max(beside(legs.index(max(legs))), default=1.0)
    for i, leg in enumerate(legs):
        if not leg:
            continue
        (x, y), heading = sheet.ends[2 * i]
        along = (cos(heading), sin(heading))
        outside_left = -side in beside(i) and side not in beside(i)
        if outside_left:
            x, y = x - T * along[1], y + T * along[0]
        p = (x - setbacks[i] * along[0], y - setbacks[i] * along[1])
        q = (p[0] + leg * along[0], p[1] + leg * along[1])
        words = f"l_{{{i + 1}}} = {show(leg, 'mm', d, resolution=FINE)}"
        view.dim(p, q, 9 if outside_left else -9, words, overflow="p" if spread(i) else "q")


def _strip(view: View, v: Mapping[str, float], d: Display, bends: list[int]) -> None:
    L, blank = v["flat_length"], v["blank"]
    width = 0.12 * max(L, 1.0)
    view.rectangle((0, 0), (blank, width), Layer.PHANTOM)
    view.rectangle((0, 0), (L, width), fill="light")
    for i in bends:
        x, turn = v[f"fold_line_{i}"], degrees(v[f"angle_{i}"])
        view.line((x, 0), (x, width), Layer.FOLD)
        view.text((x, width), f"{abs(turn):.0f}° {'left' if turn > 0 else 'right'}", "right", angle=pi / 2)
        view.text((x, 0), f"x_{{{i}}} = {show(x, 'mm', d, resolution=FINE)}", "left", angle=pi / 2)
    view.dim((0, 0), (L, 0), -30, f"L = {show(L, 'mm', d, resolution=FINE)}")
