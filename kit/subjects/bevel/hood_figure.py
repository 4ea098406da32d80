"""Tapered hood: from above, from the front, and the true shape of each board."""

from collections.abc import Mapping

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, length_words
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Point, Scene, View

FACES = ("right", "back", "left", "front")  # counterclockwise from x, seen from above


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the hood at the values `v` (base units)."""
    scene = Scene(
        "Tapered hood of four boards",
        "From above the top rectangle stands inside the bottom rectangle, joined by four corner lines with their "
        "blade tilts. Beside it the view from the front, below the true shape of the four boards.",
        caption="From above",
    )
    _plan(scene, v, d)
    _front(scene.view("From the front"), v, d)
    for number, face in enumerate(FACES):
        board = scene.view(f"{face.capitalize()} board", below=number == 0)
        _board(board, v, face, FACES[number - 1], FACES[(number + 1) % 4], d)
    return scene


def _corners(v: Mapping[str, float]) -> tuple[list[Point], list[Point]]:
    """Return the corners of bottom and top rectangle from the right-back one on, counterclockwise."""
    signs = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    bottom = [(i * v["base_x"] / 2, j * v["base_y"] / 2) for i, j in signs]
    top = [(v["offset_x"] + i * v["top_x"] / 2, v["offset_y"] + j * v["top_y"] / 2) for i, j in signs]
    return bottom, top


def _narrow(v: Mapping[str, float]) -> bool:
    """Whether words at the two ends of the bottom would meet."""
    return v["base_x"] < 0.4 * max(v["height"], v["base_y"], v["top_y"], v["top_x"])


def _plan(view: Scene, v: Mapping[str, float], d: Display) -> None:
    bottom, top = _corners(v)
    view.polyline(bottom, closed=True, fill="light")
    view.polyline(top, closed=True)
    for p, q in zip(bottom, top, strict=True):
        view.line(p, q)
    places: tuple[Place, ...] = ("above", "above", "below", "below")
    if _narrow(v):
        places = ("above right", "above left", "below left", "below right")
    letters = ("RB", "BL", "LF", "FR")
    for i, place in enumerate(places):
        corner = f"{FACES[i]}_{FACES[(i + 1) % 4]}"
        view.text(bottom[i], angle_words(f"β_{{{letters[i]}}}", v[f"tilt_{corner}"], d), place, gap=1.5)
    view.dim(bottom[2], bottom[3], -16, length_words("a_{x}", v["base_x"], d))
    view.dim(bottom[1], bottom[2], -12, length_words("a_{y}", v["base_y"], d))
    view.line((0.0, -0.1 * v["base_y"]), (0.0, 0.1 * v["base_y"]), Layer.CENTER)
    view.line((-0.1 * v["base_x"], 0.0), (0.1 * v["base_x"], 0.0), Layer.CENTER)
    view.explain(Layer.CENTER, "middle of the bottom")


def _front(view: View, v: Mapping[str, float], d: Display) -> None:
    half, h = v["base_x"] / 2, v["height"]
    left, right = v["offset_x"] - v["top_x"] / 2, v["offset_x"] + v["top_x"] / 2
    view.polyline([(-half, 0.0), (half, 0.0), (right, h), (left, h)], closed=True, fill="light")
    view.line((0.0, 0.0), (0.0, 1.1 * h), Layer.CENTER)
    view.text(
        (-half, 0.0),
        angle_words("s_{L}", v["slope_left"], d),
        "below left" if _narrow(v) else "below",
        gap=1.5,
    )
    view.text(
        (half, 0.0),
        angle_words("s_{R}", v["slope_right"], d),
        "below right" if _narrow(v) else "below",
        gap=1.5,
    )
    view.dim((left, h), (right, h), 8, length_words("b_{x}", v["top_x"], d))
    view.dim((half, 0.0), (max(half, right), h), 12, length_words("h", h, d), along="vertical")
    view.dim((0.0, 0.0), (v["offset_x"], h), -14, length_words("o_{x}", v["offset_x"], d), along="horizontal")


def _board(view: View, v: Mapping[str, float], face: str, before: str, after: str, d: Display) -> None:
    """Draw a board seen from outside, its corner with the face `before` at the left."""
    across = v["base_y"] if face in ("right", "left") else v["base_x"]
    w = v[f"width_{face}"]
    outline = [(0.0, 0.0), (across, 0.0), (across - v[f"run_{after}"], w), (v[f"run_{before}"], w)]
    view.polyline(outline, closed=True, fill="light")
    letter = face[0].upper()
    for x in (0.0, across):
        view.line((x, 0.0), (x, 0.7 * w), Layer.CONSTRUCTION)
    # Words stand under the board, one line for each end, so that they never meet however narrow it is.
    words = [length_words(f"w_{{{letter}}}", w, d)]
    words += [
        angle_words(f"μ_{{{letter}{other[0].upper()}}}", v[f"miter_{face}_{other}"], d) + f", {side}"
        for other, side in ((before, "left"), (after, "right"))
    ]
    for number, text in enumerate(words):
        view.text((across / 2, 0.0), text, "below", gap=1.5 + 4.0 * number)
