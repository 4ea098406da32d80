"""Gap of a joint: the ring with its last joint open, and the wedges across the thickness and along the corner line."""

from collections.abc import Mapping
from math import cos, pi, radians, sin

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, length_words
from kit.drawing.scene import Layer, Scene, View, ratio

SHOWN = radians(25)  # the drawn closing error is brought near this
SHOWN_WEDGE = radians(5)  # the drawn error of one end is brought near this


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the ring and the wedges at the values `v` (base units)."""
    scene = Scene(
        "Gap of a joint and of a closed ring",
        "A ring of boards cut with a small error: all joints are tight but the last, which gapes. Beside it the wedge "
        "of one joint across the thickness and along the corner line. Errors are drawn many times too large.",
    )
    larger = ratio(SHOWN / abs(v["closing_error"])) if v["closing_error"] else 1.0
    scene.caption = f"Ring, error drawn {larger:g}× too large" if larger > 1 else "Ring"
    _ring(scene, v, max(larger, 1.0), d)
    wedges = (
        ("Across the thickness", "d", "across", "ε_{β}", "tilt_error", "g_{1}", "gap_tilt"),
        ("Along the corner line", "f′", "seam_reach", "ε_{μ}", "miter_error", "g_{2}", "gap_miter"),
    )
    for number, (name, letter, long, sign, error, opening, gap) in enumerate(wedges):
        view = scene.view(name, magnify=ratio(0.7 * v["side"] / v[long]), below=number == 0)
        words = (
            length_words(letter, v[long], d),
            angle_words(sign, v[error], d),
            length_words(opening, v[gap], d, 0.01),
        )
        _wedge(view, v[long], v[error], words)
    return scene


def _ring(view: View, v: Mapping[str, float], larger: float, d: Display) -> None:
    """Draw the bottom edges as cut: a chain of chords of the turn as cut, its error made larger."""
    sides, side = round(v["sides"]), v["side"]
    half = v["half_turn"] + larger * v["closing_error"] / (2 * sides)
    outer = side / (2 * sin(half))
    band = min(v["thickness"], 0.3 * outer) / cos(half)
    start = -pi / 2 + larger * v["closing_error"] / 2
    angles = [start + 2 * half * i for i in range(sides + 1)]
    ring = [[(r * cos(a), r * sin(a)) for a in angles] for r in (outer, outer - band)]
    for i in range(sides):
        board = [ring[0][i], ring[0][i + 1], ring[1][i + 1], ring[1][i]]
        view.polyline(board, closed=True, fill="light")
    view.leader(ring[0][0], (10, -8), length_words("g_{5}", v["gap_last"], d, 0.01))
    view.text((0.0, 0.0), angle_words("Ω", v["closing_error"], d), "below")
    view.text((0.0, 0.0), f"N = {sides}", "above")
    middle = sides // 3
    view.dim(ring[0][middle], ring[0][middle + 1], -10, length_words("L", side, d))


def _wedge(view: View, long: float, error: float, words: tuple[str, str, str]) -> None:
    """Draw two ends that touch at one edge, at the top for an error below 0, and open by twice the error.

    `words` are the words for the length, the error and the gap.
    """
    larger = max(ratio(SHOWN_WEDGE / abs(error)), 1.0) if error else 1.0
    turn = larger * abs(error)
    tip, far = (0.0, 1.0) if error >= 0 else (long, -1.0)
    wide = 1.2 * long
    mouth = (long * sin(turn), tip + far * long * cos(turn))
    for side in (-1.0, 1.0):
        outline = [
            (0.0, tip),
            (side * mouth[0], mouth[1]),
            (side * wide, tip + far * long),
            (side * wide, tip),
        ]
        view.polyline(outline, closed=True, fill="light")
    view.line((0.0, 0.0), (0.0, long), Layer.CENTER)
    view.dim((-mouth[0], mouth[1]), mouth, 9.0 * far, words[2])
    view.dim((wide, 0.0), (wide, long), -10, words[0])
    times = f", drawn {larger:g}× too large" if larger > 1 else ""
    view.text((0.0, tip), words[1] + times, "below" if far > 0 else "above", gap=2.0)
