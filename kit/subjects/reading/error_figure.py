"""The corner of fence and block from above: face leaning (drawn larger), chamfer, dust, and the part's end."""

from collections.abc import Mapping
from math import radians, tan

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `reading.error` at the values `v`: fence along y = 0, the blade far to the left."""
    D, W, c, toe = v["face_depth"], v["part_width"], v["chamfer"], v["toe"]
    lean, foot = tan(v["lean"]), v["foot"]
    larger = ratio(0.12 / abs(lean)) if lean else 1.0
    scene = Scene(
        "Errors of the stop block's end",
        "From above: the part against fence and block; the face leans "
        f"{show(v['lean'], 'deg', d, resolution=radians(0.01))}, the "
        f"dust holds the part off {show(toe, 'mm', d, resolution=0.01)}; the part is off by "
        f"{show(v['part_error'], 'mm', d, resolution=0.01)}.",
    )

    def face(y: float) -> float:
        """Return where the leaning face stands, from where it stands at the fence."""
        return -larger * lean * y

    deep = max(D, W)
    back = 1.1 * D
    outline = [(face(c), c), (face(D), D), (back, D), (back, 0.0), (face(c) + c, 0.0)]
    scene.polyline(outline, closed=True, fill="medium")
    scene.rectangle((-1.6 * deep, 0.0), (back + 0.2 * D, -0.12 * deep), fill="light")
    scene.text((-1.2 * deep, -0.06 * deep), "fence", "center")
    stop = min(face(v["touch"]), face(foot) - toe)
    scene.rectangle((-1.6 * deep, 0.0), (stop, W))
    if toe > 0:
        scene.polyline(
            [(face(foot) - toe, 0.0), (face(foot) + c, 0.0), (face(foot), min(c + toe, D))],
            Layer.SEAM,
            closed=True,
            fill="strong",
        )
        scene.dim(
            (face(foot) - toe, 0.0), (face(foot), 0.0), -12, f"p = {show(toe, 'mm', d, resolution=0.01)}", overflow="p"
        )
    scene.line((face(v["touch"]), v["touch"]), (back + 0.2 * D, v["touch"]), Layer.CONSTRUCTION)
    scene.dim(
        (back, 0.0),
        (back, v["touch"]),
        10,
        f"y = {show(v['touch'], 'mm', d, resolution=1)}",
        along="vertical",
    )
    scene.dim((back, 0.0), (back, D), 32, f"D = {show(D, 'mm', d)}", along="vertical")
    scene.dim((-1.6 * deep, 0.0), (-1.6 * deep, W), -8, f"W = {show(W, 'mm', d)}", along="vertical")
    scene.line((0.0, 0.0), (0.0, 1.05 * deep), Layer.CENTER)
    scene.text((0.0, 1.05 * deep), f"γ = {show(v['lean'], 'deg', d, resolution=radians(0.01))}", "above right")
    if c > 0:
        scene.leader((face(c) + c / 2, c / 2), (14, 10), f"c = {show(c, 'mm', d)}")
    words = f"part, δ = {show(v['part_error'], 'mm', d, resolution=0.01)}"
    scene.text((stop - 0.7 * deep, W / 2), words, "center")
    leaning = f"; the face's lean is drawn {larger:g} times" if larger > 1 else ""
    scene.explain(Layer.CENTER, f"square to the fence{leaning}")
    scene.explain(Layer.SEAM, "dust")
    return scene
