"""Hood over a machine: from above, from the left, and the front board on its face."""

from collections.abc import Mapping
from math import cos, pi, sin

from kit.drawing.bevels import angle_words, length_words
from kit.drawing.scene import Layer, Point, Scene, View
from kit.quantity import Display

TOWARD = (-pi / 2, 0.0, pi / 2, pi)  # front, right, back, left


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the hood at the values `v` (base units)."""
    scene = Scene(
        "Hood of leaning boards over a machine",
        "From above the base with its two cut-off rear corners, and the smaller top inside it; a cross marks the "
        "turning axis, a dot the measured point. Beside it the hood from the left, with the slopes of front and back. "
        "Below the front board on its face with the opening.",
        caption="From above",
    )
    _plan(scene, v, d)
    _side(scene.view("From the left"), v, d)
    _front(scene.view("Front board, outside", below=True), v, d)
    return scene


def _ring(left: float, right: float, front: float, back: float, cut: tuple[float, float]) -> list[Point]:
    """Return an outline from the left front corner on, counterclockwise; `cut` off the right and left rear corner."""
    return [
        (-left, -front), (right, -front), (right, back - cut[0]),
        (right - cut[0], back), (-left + cut[1], back), (-left, back - cut[1]),
    ]  # fmt: skip


def _plan(view: Scene, v: Mapping[str, float], d: Display) -> None:
    left, right, front, back = (v[name] for name in ("left", "right", "front", "back"))
    base = _ring(left, right, front, back, (v["chamfer"], v["chamfer"]))
    upper = _ring(
        *(v[name] - v[f"run_{name}"] for name in ("left", "right", "front", "back")),
        (v["cut_right"], v["cut_left"]),
    )
    view.polyline(base, closed=True, fill="light")
    view.polyline(upper, closed=True)
    for p, q in zip(base, upper, strict=True):
        view.line(p, q)
    cross = 0.06 * (left + right)
    view.line((-cross, 0.0), (cross, 0.0), Layer.CENTER)
    view.line((0.0, -cross), (0.0, cross), Layer.CENTER)
    view.explain(Layer.CENTER, "turning axis")
    angle = TOWARD[round(v["toward"])]
    point = (v["reach"] * cos(angle), v["reach"] * sin(angle))
    view.circle(point, 0.008 * (left + right), fill="strong")
    view.leader(point, (6.0, 5.0), length_words("g", v["clear"], d, 0.1), end="dot")
    view.dim((-left, -front), (0.0, -front), -9, length_words("a_{L}", left, d), along="horizontal")
    view.dim((0.0, -front), (right, -front), -9, length_words("a_{R}", right, d), along="horizontal")
    view.dim((-left, -front), (-left, 0.0), 10, length_words("a_{F}", front, d), along="vertical")
    view.dim((-left, 0.0), (-left + v["chamfer"], back), 10, length_words("a_{B}", back, d), along="vertical")
    view.dim(
        (right - v["chamfer"], back), (right, back), 8, length_words("c", v["chamfer"], d), along="horizontal"
    )


def _side(view: View, v: Mapping[str, float], d: Display) -> None:
    """Front to the left, as one standing left of the hood and turned to it would see it mirrored: y to the right."""
    front, back, h = v["front"], v["back"], v["height"]
    outline = [(-front, 0.0), (back, 0.0), (back - v["run_back"], h), (-front + v["run_front"], h)]
    view.polyline(outline, closed=True, fill="light")
    view.line((0.0, -0.03 * h), (0.0, 1.05 * h), Layer.CENTER)
    up = v["brow_height"]
    at = -front + up * cos(v["slope_front"]) / sin(v["slope_front"])
    view.line((at, up), (at + 0.25 * (front + back), up), Layer.HIDDEN)
    view.explain(Layer.HIDDEN, "brow's ends; notch for fence and work")
    if v["fence_height"] > 0.0 and v["fence_front"] + v["fence_back"] > 0.0:
        g = v["fence_height"]
        view.polyline(
            [(-v["fence_front"], 0.0), (-v["fence_front"], g), (v["fence_back"], g), (v["fence_back"], 0.0)],
            Layer.HIDDEN,
        )
    view.text((-front, 0.0), angle_words("s_{F}", v["slope_front"], d), "below", gap=1.5)
    view.text((back, 0.0), angle_words("s_{B}", v["slope_back"], d), "below", gap=1.5)
    view.dim((back, 0.0), (back - v["run_back"], h), -11, length_words("h", h, d), along="vertical")
    view.dim((-front, 0.0), (at, up), 9, length_words("h_{b}", up, d), along="vertical")


def _front(view: View, v: Mapping[str, float], d: Display) -> None:
    w, u, half = v["width_front"], v["brow_up"], v["brow_width"] / 2
    left, right = v["left"], v["right"]
    upper = (-left + v["run_left"], right - v["run_right"])
    view.polyline(
        [(-half, 0.0), (-left, 0.0), (upper[0], w), (upper[1], w), (right, 0.0), (half, 0.0)], fill="light"
    )
    view.line((-half, 0.0), (-half, u))
    view.line((half, 0.0), (half, u))
    if v["brow"] > 0.5:
        radius, angle = v["brow_radius"], v["brow_angle"]
        view.arc((0.0, u + v["brow_rise"] - radius), radius, pi / 2 - angle, pi / 2 + angle)
        view.dim(
            (0.0, u), (0.0, u + v["brow_rise"]), 7, length_words("f", v["brow_rise"], d), along="vertical"
        )
        view.line((-half, u), (half, u), Layer.CONSTRUCTION)
    else:
        view.line((-half, u), (half, u))
    view.dim((-half, 0.0), (half, 0.0), -9, length_words("W", v["brow_width"], d))
    view.dim((right, 0.0), (upper[1], w), -11, length_words("w_{F}", w, d), along="vertical")
    view.text((0.0, 0.5 * u), f"A = {_area(v['opening'], d)}")
    words = [
        angle_words("μ_{FR}", v["miter_front_right"], d), angle_words("μ_{FL}", v["miter_front_left"], d),
        angle_words("β_{FR}", v["tilt_front_right"], d), angle_words("β_{LF}", v["tilt_left_front"], d),
    ]  # fmt: skip
    for number, (right_text, left_text) in enumerate(((words[0], words[1]), (words[2], words[3]))):
        view.text((right, 0.35 * w), right_text, "right", gap=14.0 + 0.0 * number, height=2.5)
        view.text((-left, 0.35 * w), left_text, "left", gap=2.0, height=2.5)


def _area(value: float, d: Display) -> str:
    from kit.quantity import show

    return show(value, "cm^2", d, resolution=10.0)
