"""Where the tape is cut: the bench from above with the cursor over the recess's end, and the blade's teeth enlarged."""

from collections.abc import Mapping
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene, View, ratio


def draw(v: Mapping[str, float], d: Display) -> Scene:
    """Draw the model `scale.zero` at the values `v` (base units); x runs from the flange's face, plus right."""
    D, m = v["datum"], v["cut_mark"]
    sense = -1.0 if round(v["stop_side"]) == 0 else 1.0
    side = "left" if sense < 0 else "right"
    scene = Scene(
        "Zero of a scale beside the blade",
        f"From above: blade with the stop on its {side}; the recess for the tape begins {show(D, 'mm', d)} from the "
        f"plate, and the tape is cut at its mark {show(m, 'mm', d, resolution=0.1)}.",
        caption="From above, cursor line over the recess's end",
    )
    _bench(scene, v, d, sense)
    view = scene.view("At a tooth", magnify=ratio(0.5 * (1.3 * D + v["cursor"]) / (4 * v["kerf_cut"])), below=True)
    _teeth(view, v, d, sense)
    scene.explain(Layer.PHANTOM, "kerf's face with the other blade")
    scene.explain(Layer.FORCE, "how far that face moves")
    scene.explain(Layer.HIDDEN, "kerf with its run-out")
    scene.explain(Layer.CUT, "where the scale reads from")
    return scene


def _bench(scene: Scene, v: Mapping[str, float], d: Display, sense: float) -> None:
    D, c, z = v["datum"], v["cursor"], v["reference_out"]
    plate = v["plate_out"]  # of the face on the stop's side
    high = 0.16 * D + 0.2 * c

    def at(out: float, y: float) -> tuple[float, float]:
        return (sense * (plate + out), y * high)

    scene.rectangle(at(-v["plate"], -1.1), at(0, 2.0), fill="strong")
    scene.line(at(z, -1.5), at(z, 2.3), Layer.CUT)
    far = D + 0.3 * D + c
    scene.rectangle(at(0.05 * D, 0), at(far, 1), fill="light")  # fence
    scene.rectangle(at(D, 0.35), at(far, 0.65))  # recess with the tape
    scene.text(at(D + 0.65 * (far - D), 0.5), "tape", "center")
    face = D - c
    scene.rectangle(at(face, -0.9), at(face + max(0.2 * D, 1.3 * c), 0), fill="medium")
    scene.line(at(D, -0.2), at(D, 1.15))
    if v["cut_mark"] > 0.05 * D:
        scene.rectangle(at(z, -0.9), at(face, 0))
        scene.text(at((z + face) / 2, -0.45), "part", "center")
    m = f"m = {show(v['cut_mark'], 'mm', d, resolution=0.1)}"
    scene.dim(at(z, -0.9), at(face, -0.9), -8, m, along="horizontal")
    scene.dim(at(face, -0.9), at(D, -0.9), -16, f"c = {show(c, 'mm', d)}", along="horizontal")
    scene.dim(at(0, 2.0), at(D, 1.15), 8, f"D = {show(D, 'mm', d)}", along="horizontal")


def _teeth(view: View, v: Mapping[str, float], d: Display, sense: float) -> None:
    """Draw the rim from above: flange, plate and teeth with the flange's face at x = 0, and the kerf."""
    k, t, K = v["kerf"], v["plate"], v["kerf_cut"]
    lean = -1.0 if round(v["flange_side"]) == 0 else 1.0  # the flange lies on this side of its face
    left, right = sorted((0.0, -lean * t))
    middle = (left + right) / 2
    tall = 2.2 * k
    view.rectangle((0.0, -tall), (lean * 0.9 * k, -0.55 * tall), fill="medium")
    view.text((lean * 0.9 * k, -0.78 * tall), "flange", "left" if lean < 0 else "right")
    view.rectangle((left, -tall), (right, 0.0), fill="light")
    view.rectangle((middle - k / 2, 0.0), (middle + k / 2, 0.55 * k), fill="strong")
    for edge in (middle - K / 2, middle + K / 2):
        view.line((edge, -0.5 * tall), (edge, 1.6 * k), Layer.HIDDEN)
    out = sense * (v["plate_out"] + v["reference_out"])
    view.line((out, -0.7 * tall), (out, 2.0 * k), Layer.CUT)
    view.dim((left, -tall), (right, -tall), -8, f"t = {show(t, 'mm', d, resolution=0.01)}", along="horizontal")
    view.dim(
        (middle - k / 2, 0.55 * k),
        (middle + k / 2, 0.55 * k),
        10,
        f"k = {show(k, 'mm', d, resolution=0.01)}",
        along="horizontal",
    )
    view.dim(
        (middle - K / 2, 1.6 * k),
        (middle + K / 2, 1.6 * k),
        12,
        f"K = {show(K, 'mm', d, resolution=0.01)}",
        along="horizontal",
    )
    drift = v["drift"]
    new = sense * (v["plate_out"] + v["kerf_face"] + drift)
    view.line((new, -0.5 * tall), (new, 1.3 * k), Layer.PHANTOM)
    view.arrow(
        (sense * (v["plate_out"] + v["kerf_face"]), 0.9 * k),
        0.0 if sense * drift > 0 else pi,
        f"d = {show(drift, 'mm', d, resolution=0.01)}",
        grip="tail",
        length=6,
    )
