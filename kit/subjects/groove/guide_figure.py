"""The router from above at its straightedges, the passes in section, and the bit's center in the base."""

from collections.abc import Mapping
from math import cos, degrees, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw `groove.guide` at the values `v`: the groove's edge near the first guide is y = 0, it lies below."""
    two = round(v["guides"]) == 1
    passes = round(v["passes"])
    scene = Scene(
        "Router along its straightedges",
        f"From above: the router's base, {show(v['base'], 'mm', d)} wide, runs "
        + (
            f"between two straightedges {show(v['spacing'], 'mm', d, resolution=0.05)} apart"
            if two
            else "along one straightedge"
        )
        + f"; {passes} pass{'es' if passes > 1 else ''} of a {show(v['bit'], 'mm', d)} bit make the groove, "
        f"{show(v['width'], 'mm', d)} wide. Its edge is {show(v['offset'], 'mm', d, resolution=0.05)} from the guide.",
        caption="From above",
    )
    _plan(scene, v, d, two)
    long = 2 * v["base"]
    size = max(v["width"], v["bit"])
    _section(scene.view("Passes, guide at left", magnify=ratio(0.5 * long / size), below=True), v, d)
    if v["eccentricity"] > 0:
        _center(scene.view("Bit's center", magnify=ratio(0.15 * long / v["eccentricity"])), v, d)
    return scene


def _plan(scene: Scene, v: Mapping[str, float], d: Display, two: bool) -> None:
    B, w, b, a = v["base"], v["width"], v["bit"], v["offset"]
    half, bar = 1.1 * B, 0.12 * B
    more = max(w - b, 0.0)
    scene.polyline([(-half, 0), (half, 0), (half, -w), (-half, -w)], closed=True, fill="light")
    scene.line((-half, -w / 2), (half, -w / 2), Layer.CENTER)
    places = [(-0.45 * B, -b / 2), (0.55 * B, -b / 2 - more)]
    for x, y in places if more else places[:1]:
        scene.circle((x, y), B / 2, Layer.PHANTOM if x > 0 else Layer.OUTLINE)
        scene.circle((x, y), b / 2, Layer.PHANTOM if x > 0 else Layer.OUTLINE, fill=None if x > 0 else "medium")
    scene.rectangle((-half, a), (half, a + bar), fill="medium")
    if two:
        low = a - v["spacing"]
        scene.rectangle((-half, low - bar), (half, low), fill="medium")
        scene.dim(
            (-half, low),
            (-half, a),
            -10,
            f"S = {show(v['spacing'], 'mm', d, resolution=0.05)}",
            along="vertical",
        )
        _bow(scene, half, low, -v["bow_far"], B)
    elif more:
        scene.rectangle((-half, a - more), (half, a - more + bar), Layer.PHANTOM)
    _bow(scene, half, a, v["bow_near"], B)
    x, y = places[0]
    scene.arrow((x + B / 2, y), 0.0, "", grip="tail", length=9, layer=Layer.GRAIN)
    if two and more:
        x, y = places[1]
        scene.arrow((x - B / 2, y), pi, "", grip="tail", length=9, layer=Layer.GRAIN)
    scene.dim((half, 0), (half, a), 8, f"a = {show(a, 'mm', d, resolution=0.05)}", along="vertical")
    base = a + bar
    scene.dim((-0.45 * B - B / 2, base), (-0.45 * B + B / 2, base), 9, f"B = {show(B, 'mm', d)}", along="horizontal")
    scene.explain(Layer.GRAIN, "travel: the guide on the left hand")
    label = "last pass, along the far guide" if two else "first pass, guide before it is moved"
    scene.explain(Layer.PHANTOM, label)


def _bow(scene: Scene, half: float, at: float, bow: float, B: float) -> None:
    """Draw a guide's bowed edge, its bow made larger; above 0 it lies higher in its middle."""
    if not bow:
        return
    larger = ratio(0.09 * B / abs(bow))
    rise = max(larger, 1.0) * bow
    scene.polyline([(half * t / 12, at + rise * (1 - (t / 12) ** 2)) for t in range(-12, 13)], Layer.DEFLECTED)
    scene.explain(Layer.DEFLECTED, f"guide's bow, drawn up to {larger:g} times too large")


def _section(view: View, v: Mapping[str, float], d: Display) -> None:
    w, b, p = v["width"], v["bit"], v["step"]
    count = min(round(v["passes"]), 40)
    deep = 0.45 * max(w, b)
    steep = min(deep / 3 / b, 0.15) if v["tilt"] else 0.0
    out = 0.35 * max(w, b)
    floor = []
    for i in range(count):
        left = i * p
        right = left + (p if i < count - 1 else b)
        floor += [(left, -deep), (right, -deep - steep * (right - left))]
    edge = max(w, b)
    outline = [(-out, 0), (0, 0), *floor, (floor[-1][0], 0), (edge + out, 0)]
    view.polyline(outline)
    view.hatch([[*outline, (edge + out, -1.5 * deep), (-out, -1.5 * deep)]])
    view.dim((0, 0), (w, 0), 15 if count > 1 else 8, f"w = {show(w, 'mm', d)}")
    if count > 1:
        for x in (p, b):
            view.line((x, 0), (x, -deep), Layer.CONSTRUCTION)
        view.dim((0, 0), (b, 0), 8, f"d = {show(b, 'mm', d)}")
        low = -1.5 * deep
        view.dim((0, low), (p, low), -7, f"p = {show(p, 'mm', d, resolution=0.05)}", overflow="p")
        view.dim((p, low), (b, low), -7, f"o = {show(v['overlap'], 'mm', d, resolution=0.05)}")
    if steep:
        words = f"r = {show(v['ridge'], 'mm', d, resolution=0.01)}, τ = {degrees(v['tilt']):.2f}°, drawn steeper"
        view.text((edge / 2, -1.5 * deep), words, "below", gap=11 if count > 1 else 2)


def _center(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the small circle on which the bit's center lies; the guide is above, travel to the right."""
    e, phi, psi = v["eccentricity"], v["direction"], v["turned"]
    view.circle((0, 0), e, Layer.CONSTRUCTION)
    view.line((-1.4 * e, 0), (1.4 * e, 0), Layer.CENTER)
    view.line((0, -1.4 * e), (0, 1.4 * e), Layer.CENTER)
    view.arrow((1.5 * e, 0), 0.0, "travel", grip="tail", length=9, layer=Layer.GRAIN)
    at = (e * cos(phi), -e * sin(phi))
    view.line((0, 0), at)
    view.circle(at, 0.06 * e, fill="strong")
    view.text((0, -1.4 * e), f"e = {show(e, 'mm', d)}, φ = {degrees(phi):.0f}°", "below", gap=2)
    view.dim(
        (-1.4 * e, 0),
        (-1.4 * e, at[1]),
        -6,
        f"y = {show(v['shift'], 'mm', d, resolution=0.01)}",
        along="vertical",
    )
    if psi > 0:
        turned = (e * cos(phi + psi), -e * sin(phi + psi))
        view.line((0, 0), turned, Layer.PHANTOM)
        view.circle(turned, 0.06 * e, Layer.PHANTOM)
        view.text(
            (0, -1.4 * e),
            f"ψ = {degrees(psi):.0f}°: Δy = {show(v['jog'], 'mm', d, resolution=0.01)}",
            "below",
            gap=6.5,
        )
