"""Corner of two boards: from above, along the corner line, and each board's face and end."""

from collections.abc import Mapping
from math import cos, pi, sin, tan

from kit.core.quantity import Display
from kit.drawing.dimension_text import angle_words, length_words, wedge
from kit.drawing.scene import Layer, Scene, View
from kit.subjects.bevel.board_drawing import board_end, board_face


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the corner at the values `v` (base units)."""
    thick = max(v["thickness_1"], v["thickness_2"])
    scene = Scene(
        "Corner of two leaning boards",
        "From above two boards meet at the plan angle. Beside it the section square to the corner line with the "
        "dihedral and the miter, below each board's outside face and its end on the saw table.",
        caption="From above",
    )
    _plan(scene, v, 4 * thick, d)
    _along(scene.view("Along the corner line"), v, 2.5 * thick, d)
    steep = max(abs(tan(v["miter_1"])), abs(tan(v["miter_2"])), 1.0)
    for number, left in ((1, False), (2, True)):
        face = scene.view(f"Outside face {number}", below=not left)
        board_face(face, 1.3 * thick / steep, v[f"miter_{number}"], f"μ_{{{number}}}", d, left=left)
    for number in (1, 2):
        end = scene.view(f"Board {number} on the saw table")
        board_end(end, v[f"thickness_{number}"], v[f"tilt_{number}"], f"β_{{{number}}}", d)
    return scene


def _plan(view: Scene, v: Mapping[str, float], reach: float, d: Display) -> None:
    """Draw the level bottom edges about the outer corner at the origin, board 1 to the left along x."""
    theta = v["plan"]
    foot = [v[f"thickness_{i}"] / sin(v[f"slope_{i}"]) for i in (1, 2)]
    # The inner lines lie one level thickness inside; they meet `back` along board 1.
    back = (foot[1] + foot[0] * cos(theta)) / sin(theta)
    inner = (-back, -foot[0])
    arms = [(-1.0, 0.0), (-cos(theta), -sin(theta))]  # board 2 leaves the corner turned by theta from board 1
    insides = [(0.0, -1.0), (-sin(theta), cos(theta))]
    for i in (0, 1):
        end = (reach * arms[i][0], reach * arms[i][1])
        far = (end[0] + foot[i] * insides[i][0], end[1] + foot[i] * insides[i][1])
        view.polyline([end, (0.0, 0.0), inner, far], closed=True, fill="light")
        view.text(end, f"board {i + 1}", "above" if i == 0 else "below", gap=2.0)
    wedge(view, (0.0, 0.0), pi, theta, 18.0, angle_words("θ", theta, d))
    run, along = cos(v["slope_1"]), -tan(v["miter_1"])
    size = 0.8 * reach / max(0.3, (run**2 + along**2) ** 0.5)
    view.line((0.0, 0.0), (along * size, -run * size), Layer.CENTER)
    view.explain(Layer.CENTER, "corner line")


def _along(view: View, v: Mapping[str, float], reach: float, d: Display) -> None:
    """Draw the section square to the corner line, outer corner at the origin, board 1 to the left along x."""
    delta, t1, t2 = v["dihedral"], v["thickness_1"], v["thickness_2"]
    inner = (-t1 * tan(v["tilt_1"]), -t1)
    far = max(reach, 1.5 * abs(inner[0]) + t1)
    arm = (-far * cos(delta), -far * sin(delta))
    step = (-t2 * sin(delta), t2 * cos(delta))
    one = [(-far, 0.0), (0.0, 0.0), inner, (-far, -t1)]
    two = [arm, (0.0, 0.0), inner, (arm[0] + step[0], arm[1] + step[1])]
    for angle, outline in ((pi / 4, one), (-pi / 4, two)):
        view.polyline(outline, closed=True)
        view.hatch([outline], angle=angle)
    view.dim((-far, -t1), (-far, 0.0), -9, length_words("t_{1}", t1, d), along="vertical")
    view.dim(two[3], two[0], -9, length_words("t_{2}", t2, d))
    tip = (inner[0] / 2, inner[1] / 2)
    view.leader(tip, (12, 16), length_words("f", v["seam_width"], d), end="dot")
    wedge(view, (0.0, 0.0), pi, delta, 22.0, angle_words("δ", delta, d))
