"""What hides between positions: the swing in positions, one step with chord and sagitta, the bound as a bar."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import angle_words, length_words
from kit.drawing.primitives import Tone
from kit.drawing.scene import Layer, Scene, View, ratio

MOST_DRAWN = 60  # positions
DRAWN_HALF = pi / 6  # half a step, drawn so large to be seen


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `sweep.step` at the values `v`, mm and rad."""
    scene = Scene(
        "What hides between the positions",
        f"The swing is cut into {round(v['poses_swing'])} parts with a position in the middle of each. Between two "
        f"positions a point is at most {show(v['chord_swing'], 'mm', d)} from the nearer one and stands proud of both "
        f"by {show(v['sagitta'], 'mm', d)}. With tilt, slide, thinning and scan the bound is "
        f"{show(v['bound'], 'mm', d)}, the required bound {show(v['wish'], 'mm', d)}.",
        caption="Positions of the swing, from above",
    )
    _positions(scene, v, d)
    _step(scene.view("One step, its angle drawn larger"), v, d)
    longest = max(v["bound"], v["wish"])
    _bar(scene.view("The bound", magnify=ratio(1.6 * v["arm_swing"] / longest), below=True), v, d)
    scene.explain(Layer.PHANTOM, "positions; the way between them")
    scene.explain(Layer.CUT, "required bound")
    return scene


def _positions(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw the arm pointing down the page at no swing, its way, and the positions as rays."""
    arm, left, right = v["arm_swing"], v["swing_left"], v["swing_right"]
    count = round(v["poses_swing"])
    begin, span = -pi / 2 - left, left + right
    drawn = min(count, MOST_DRAWN)
    for number in range(drawn):
        angle = begin + span * (number + 0.5) / drawn
        view.line(
            (0.75 * arm * cos(angle), 0.75 * arm * sin(angle)), (arm * cos(angle), arm * sin(angle)), Layer.PHANTOM
        )
    if span > 0:
        view.arc((0.0, 0.0), arm, begin, begin + span)
    view.line((0.0, 0.0), (0.0, -arm), Layer.CENTER)
    view.circle((0.0, 0.0), 0.03 * arm, fill="medium")
    ends = [(arm * cos(angle), arm * sin(angle)) for angle in (begin, begin + span)]
    for end in ends:
        view.line((0.0, 0.0), end, Layer.CONSTRUCTION)
    if span > 0.01:
        view.angle((0.0, 0.0), ends[0], (0.0, -1.0), 16.0, angle_words("Q_{l}", left, d))
        view.angle((0.0, 0.0), (0.0, -1.0), ends[1], 16.0, angle_words("Q_{r}", right, d))
    words = f"N_{{s}} = {count}" + (f", {drawn} drawn" if drawn < count else "")
    view.text((0.0, -arm), words, "below", gap=2.5)


def _step(view: View, v: Mapping[str, float], d: Display) -> None:
    """Draw two neighboring positions and the point half-way between them, up the page."""
    arm, half = v["arm_swing"], DRAWN_HALF

    def at(angle: float) -> tuple[float, float]:
        return (arm * sin(angle), arm * cos(angle))

    middle, aside = at(0.0), (at(-half), at(half))
    foot = (0.0, arm * cos(half))
    view.arc((0.0, 0.0), arm, pi / 2 - half, pi / 2 + half, Layer.PHANTOM)
    for place in aside:
        view.line((0.0, 0.0), place, Layer.PHANTOM)
        view.circle(place, 0.02 * arm, fill="strong")
    view.line((0.0, 0.0), middle, Layer.CENTER)
    view.line(aside[0], aside[1], Layer.CONSTRUCTION)
    view.line(middle, aside[1])
    view.circle(middle, 0.02 * arm)
    view.circle((0.0, 0.0), 0.03 * arm, fill="medium")
    view.angle((0.0, 0.0), aside[1], middle, 22.0, angle_words("θ_{s}", v["half_swing"], d))
    view.text((aside[0][0] / 2, aside[0][1] / 2), length_words("R_{s}", arm, d), "left")
    view.leader(
        ((middle[0] + aside[1][0]) / 2, (middle[1] + aside[1][1]) / 2),
        (7, 8),
        length_words("d_{s}", v["chord_swing"], d, 0.01),
    )
    view.dim(foot, middle, 14, length_words("s", v["sagitta"], d, 0.001), along="vertical", overflow="p")


def _bar(view: View, v: Mapping[str, float], d: Display) -> None:
    high = 0.07 * max(v["bound"], v["wish"])
    parts: tuple[tuple[str, str, Tone], ...] = (
        ("d_{s}", "chord_swing", "strong"),
        ("d_{t}", "chord_tilt", "medium"),
        ("d_{e}", "way_slide", "light"),
        ("τ", "thinning", "medium"),
        ("σ", "scan_error", "light"),
    )
    at = 0.0
    shown = 0
    for letter, name, tone in parts:
        length = v[name]
        if length > 0:
            view.rectangle((at, 0.0), (at + length, high), fill=tone)
            words = f"{letter} = {show(length, 'mm', d, resolution=0.01)}"
            view.leader((at + length / 2, high), (3.0, 3.0 + 5.0 * (6 - shown)), words)
            shown += 1
        at += length
    view.line((v["wish"], 0.0), (v["wish"], 1.6 * high), Layer.CUT)
    sizes = [(v["bound"], length_words("Δ", v["bound"], d, 0.01)), (v["wish"], length_words("B", v["wish"], d))]
    for offset, (size, words) in zip((-8, -17), sorted(sizes), strict=True):  # no line of one crosses the other's words
        view.dim((0.0, 0.0), (size, 0.0), offset, words)
