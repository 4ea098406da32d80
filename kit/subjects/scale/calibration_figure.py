"""Two test cuts: error over reading, the line through both, its band, and the readings that can be trusted."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from kit.core.model.store import stored
from kit.core.quantity import Display, show
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene, ratio

if TYPE_CHECKING:
    from kit.core.model import Calculation, Model

GIVENS = ("reading_1", "reading_2", "part_1", "part_2", "cut_u", "rule_error")
POINTS = 41
PLACES: tuple[tuple[Place, Place], ...] = (("above left", "below left"), ("above right", "below right"))


@cache
def _model() -> Calculation:
    """Return the page's own model from the store, so that a panel need not state it."""
    return stored("scale.calibration", Path(__file__).with_name("calibration.py"), _stated)


def _stated() -> Model:
    from kit.subjects.scale.calibration import MODEL

    return MODEL


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `scale.calibration` at the values `v`: readings to scale, errors magnified."""
    R_1, R_2, R, k = v["reading_1"], v["reading_2"], v["set_to"], v["coverage"]
    start, end = min(0.0, R), max(max(R_1, R_2) + 0.25 * abs(v["span"]), R)
    target = np.linspace(start, end, POINTS)
    # The model itself says what the line and its band are at each length.
    band = _model().compute({**{name: v[name] for name in GIVENS}, "target": target}, ("set_to", "reading_u"))
    x, off, half = band["set_to"], target - band["set_to"], k * band["reading_u"]
    e_1, e_2 = v["part_1"] - R_1, v["part_2"] - R_2
    most = max(float(np.max(np.abs(off) + half)), abs(e_1), abs(e_2), v["allowed"])
    larger = ratio(0.3 * (end - start) / most)
    scene = Scene(
        "Scale calibrated by two test cuts",
        f"Error over reading: {show(e_1, 'mm', d, resolution=0.01)} at {show(R_1, 'mm', d)} and "
        f"{show(e_2, 'mm', d, resolution=0.01)} at {show(R_2, 'mm', d)}; the line through both, narrow band between.",
    )
    upper, lower = np.column_stack([x, larger * (off + half)]), np.column_stack([x, larger * (off - half)])
    scene.polyline(np.vstack([upper, lower[::-1]]), Layer.CONSTRUCTION, closed=True, fill="light")
    scene.polyline(np.column_stack([x, larger * off]), Layer.DEFLECTED)
    scene.line((start, 0.0), (end, 0.0), Layer.CENTER)
    scene.line((0.0, 0.0), (0.0, larger * v["zero"]), Layer.CONSTRUCTION)
    bar, dot = larger * k * v["cut_u"], 0.008 * (end - start)
    for number, (at, error) in enumerate(((R_1, e_1), (R_2, e_2)), 1):
        scene.line((at, larger * error - bar), (at, larger * error + bar))
        scene.circle((at, larger * error), dot, fill="strong")
        above, below = PLACES[number - 1]
        scene.text((at, larger * error + bar), f"L_{{{number}}} − R_{{{number}}}", above)
        scene.text((at, 0.0), f"R_{{{number}}}", below)
    low = larger * min(0.0, float(np.min(off - half)), e_1, e_2) - 0.03 * (end - start)
    scene.leader((0.0, larger * v["zero"]), (-10, 10), f"z = {show(v['zero'], 'mm', d, resolution=0.01)}")
    scene.line((R, low), (R, larger * (v["target"] - R)), Layer.FORCE)
    scene.dim((min(0.0, start), low), (R, low), -16, f"R = {show(R, 'mm', d, resolution=0.01)}", along="horizontal")
    trust = [min(max(v[name], start), end) for name in ("trust_from", "trust_to")]
    if trust[1] > trust[0]:
        scene.dim((trust[0], low), (trust[1], low), -8, "trusted", along="horizontal")
    scene.explain(Layer.DEFLECTED, f"line through both cuts, errors drawn {larger:g} times")
    scene.explain(Layer.CONSTRUCTION, f"its band, {k:g} standard uncertainties")
    scene.explain(Layer.FORCE, "reading for the wanted part")
    scene.explain(Layer.CENTER, "true scale")
    return scene
