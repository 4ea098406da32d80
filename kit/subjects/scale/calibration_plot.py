"""Test cuts against a scale: errors over readings, the best line through them, and its band."""

import numpy as np
from numpy.typing import NDArray

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio
from kit.subjects.scale.line_fit import Calibration

POINTS = 41


def calibration_scene(
    line: Calibration,
    readings: NDArray[np.float64],
    parts: NDArray[np.float64],
    u: NDArray[np.float64],
    k: float,
    allowed: float,
    d: Display,
) -> Scene:
    """Return cuts with their bars (`readings`, `parts`, `u`: (n,), mm), the line, and its band of `k` times its u.

    Readings are drawn to scale, errors magnified; two lines stand `allowed` mm either side of the line.
    """
    start, end = 0.0, 1.15 * float(readings.max())
    x = np.linspace(start, end, POINTS)
    off, half, error = line.part(x) - x, k * line.u(x), parts - readings
    most = float(max((np.abs(off) + half).max(), (np.abs(error) + k * u).max(), allowed))
    larger = ratio(0.3 * (end - start) / most)
    scene = Scene(
        f"{readings.size} test cuts and the line through them",
        f"Error over reading: a part at reading zero would be off by {show(line.zero, 'mm', d, resolution=0.01)}, and "
        f"each meter adds {show(line.scale - 1, 'mm/m', d, resolution=1e-5)}; the band is narrow among the cuts.",
    )
    upper, lower = (np.column_stack([x, larger * (off + sign * half)]) for sign in (1, -1))
    scene.polyline(np.vstack([upper, lower[::-1]]), Layer.CONSTRUCTION, closed=True, fill="light")
    scene.polyline(np.column_stack([x, larger * off]), Layer.DEFLECTED)
    for sign in (1, -1):
        scene.polyline(np.column_stack([x, larger * (off + sign * allowed)]), Layer.HIDDEN)
    scene.line((start, 0.0), (end, 0.0), Layer.CENTER)
    dot = 0.007 * (end - start)
    for number, (at, e, own) in enumerate(zip(readings, error, u, strict=True), 1):
        bar = larger * k * float(own)
        place = (float(at), larger * float(e))
        scene.line((place[0], place[1] - bar), (place[0], place[1] + bar))
        scene.circle(place, dot, fill="strong")
        scene.text((place[0], place[1] + bar), str(number), "above")
    low = larger * float((off - np.maximum(half, allowed)).min())
    for at in (start, float(readings.min()), float(readings.max())):
        scene.line((at, low), (at, larger * float(line.part(at) - at)), Layer.CONSTRUCTION)
    scene.dim(
        (start, low),
        (float(readings.min()), low),
        -8,
        show(float(readings.min()), "mm", d),
        along="horizontal",
    )
    scene.dim(
        (start, low),
        (float(readings.max()), low),
        -16,
        show(float(readings.max()), "mm", d),
        along="horizontal",
    )
    scene.explain(Layer.DEFLECTED, f"best line, errors drawn {larger:g} times")
    scene.explain(Layer.CONSTRUCTION, f"its band, {k:.3g} standard uncertainties")
    scene.explain(Layer.HIDDEN, f"required uncertainty, {show(allowed, 'mm', d)} either way")
    scene.explain(Layer.CENTER, "true scale")
    return scene
