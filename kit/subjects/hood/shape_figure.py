"""Hood over a machine: from above, from the left, and the front board on its face."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.core.quantity import Display, show
from kit.drawing.dimension_text import angle_words, length_words
from kit.drawing.scene import Layer, Point, Scene, View

WHOLE = 1.0  # mm, rounding of lengths in the picture
TOWARD = (-pi / 2, 0.0, pi / 2, pi)  # front, right, back, left


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the hood at the values `v` (base units)."""
    scene = Scene(
        "Hood of leaning boards over a machine",
        "From above the base with its two cut-off rear corners, and the smaller top inside it; a cross marks the "
        "turning axis, a dot the measured point. Beside it the hood from the right, with the slopes of front and back. "
        "Below the front board on its face with the opening.",
        caption="From above",
    )
    scene.explain(Layer.CENTER, "turning axis")
    scene.explain(Layer.HIDDEN, "brow's ends; notch for fence and work")
    _plan(scene, v, d)
    _side(scene.view("From the right"), v, d)
    _front(scene.view("Front board, outside", below=True), v, d)
    return scene


def _ring(*measures: float) -> list[Point]:
    """Return an outline from the left front corner on, counterclockwise.

    measures: axis to left, right, front, back, and what the right and the left rear corner take off.
    """
    left, right, front, back, cut_right, cut_left = measures
    return [
        (-left, -front),
        (right, -front),
        (right, back - cut_right),
        (right - cut_right, back),
        (-left + cut_left, back),
        (-left, back - cut_left),
    ]


def _plan(view: Scene, v: Mapping[str, float], d: Display) -> None:
    left, right, front, back = (v[name] for name in ("left", "right", "front", "back"))
    base = _ring(left, right, front, back, v["chamfer"], v["chamfer"])
    at_top = (v[name] - v[f"run_{name}"] for name in ("left", "right", "front", "back"))
    upper = _ring(*at_top, v["cut_right"], v["cut_left"])
    view.polyline(base, closed=True, fill="light")
    view.polyline(upper, closed=True)
    for p, q in zip(base, upper, strict=True):
        view.line(p, q)
    cross = 0.06 * (left + right)
    view.line((-cross, 0.0), (cross, 0.0), Layer.CENTER)
    view.line((0.0, -cross), (0.0, cross), Layer.CENTER)
    angle = TOWARD[round(v["toward"])]
    point = (v["reach"] * cos(angle), v["reach"] * sin(angle))
    view.circle(point, 0.008 * (left + right), fill="strong")
    view.leader(point, (6.0, 5.0), length_words("g", v["clear"], d, 0.1), end="dot")
    view.dim((-left, -front), (0.0, -front), -9, length_words("a_{L}", left, d, WHOLE), along="horizontal")
    view.dim((0.0, -front), (right, -front), -17, length_words("a_{R}", right, d, WHOLE), along="horizontal")
    view.dim(
        (right - v["chamfer"], back),
        (right, back),
        8,
        length_words("c", v["chamfer"], d, WHOLE),
        along="horizontal",
        overflow="p",
    )


def _side(view: View, v: Mapping[str, float], d: Display) -> None:
    front, back, h = v["front"], v["back"], v["height"]
    outline = [(-front, 0.0), (back, 0.0), (back - v["run_back"], h), (-front + v["run_front"], h)]
    view.polyline(outline, closed=True, fill="light")
    view.line((0.0, -0.03 * h), (0.0, 1.05 * h), Layer.CENTER)
    up = v["brow_height"]
    at = -front + up * cos(v["slope_front"]) / sin(v["slope_front"])
    view.line((at, up), (at + 0.25 * (front + back), up), Layer.HIDDEN)
    if v["fence_height"] > 0.0 and v["fence_front"] + v["fence_back"] > 0.0:
        g = v["fence_height"]
        view.polyline(
            [(-v["fence_front"], 0.0), (-v["fence_front"], g), (v["fence_back"], g), (v["fence_back"], 0.0)],
            Layer.HIDDEN,
        )
    view.text((-front, 0.0), angle_words("s_{F}", v["slope_front"], d), "below", gap=1.5)
    view.text((back, 0.0), angle_words("s_{B}", v["slope_back"], d), "below", gap=1.5)
    view.dim((-front, 0.0), (0.0, 0.0), -14, length_words("a_{F}", front, d, WHOLE), along="horizontal")
    view.dim((0.0, 0.0), (back, 0.0), -22, length_words("a_{B}", back, d, WHOLE), along="horizontal")
    view.dim((back, 0.0), (back - v["run_back"], h), 9, length_words("h", h, d, WHOLE), along="vertical")
    view.dim((-front, 0.0), (at, up), -9, length_words("h_{b}", up, d, WHOLE), along="vertical")


def _front(view: View, v: Mapping[str, float], d: Display) -> None:
    w, u, half = v["width_front"], v["brow_up"], v["brow_width"] / 2
    left, right = v["left"], v["right"]
    upper = (-left + v["run_left"], right - v["run_right"])
    edge = [(half, 0.0), (half, u), (-half, u), (-half, 0.0)]
    if v["brow"] > 0.5:
        radius, angle, crown = v["brow_radius"], v["brow_angle"], u + v["brow_rise"]
        turns = [angle * (1.0 - k / 12) for k in range(25)]
        edge[1:3] = [(radius * sin(turn), crown - radius * (1.0 - cos(turn))) for turn in turns]
        view.line((-half, u), (half, u), Layer.CONSTRUCTION)
        view.dim((0.0, u), (0.0, crown), 6, length_words("f", v["brow_rise"], d, WHOLE), along="vertical")
    outline = [(-left, 0.0), (upper[0], w), (upper[1], w), (right, 0.0)]
    view.polyline([*outline, *edge], closed=True, fill="light")
    view.dim((-half, 0.0), (half, 0.0), -9, length_words("W", v["brow_width"], d, WHOLE))
    view.text((0.0, 0.5 * u), f"A = {show(v['opening'], 'cm^2', d, resolution=10.0)}")
    # Words stand under the board, one line for each side, so that they never meet however narrow it is.
    for number, (side, miter, tilt, letters) in enumerate(
        (
            ("left", "front_left", "left_front", ("FL", "LF")),
            ("right", "front_right", "front_right", ("FR", "FR")),
        )
    ):
        words = [
            angle_words(f"μ_{{{letters[0]}}}", v[f"miter_{miter}"], d),
            angle_words(f"β_{{{letters[1]}}}", v[f"tilt_{tilt}"], d),
        ]
        view.text(((right - left) / 2, 0.0), f"{', '.join(words)}, {side}", "below", gap=16.0 + 4.0 * number)
