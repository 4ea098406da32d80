"""Made-up scenes for the drawing tests: every primitive and line kind, no topic."""

from math import cos, pi, radians, sin

from kit.drawing.scene import Layer, Scene, ratio


def beam(length: float = 1200.0, height: float = 60.0) -> Scene:
    """A held block with its deflected shape, dimensions, a force, a section and a detail at other scales."""
    scene = Scene(
        "Stop block & rib <demo>",
        "A block 1200 mm long, held at its left end, bends under a push of 60 N at its free end.",
        caption="Plan",
    )
    scene.rectangle((0, 0), (length, height), fill="light")
    scene.line((0, height / 3), (length, height / 3), Layer.HIDDEN)
    scene.line((-20, height / 2), (length + 20, height / 2), Layer.CENTER)
    curve = [(x * length / 40, height + 1.2 * height * (x / 40) ** 2 * (3 - x / 40) / 2) for x in range(41)]
    scene.polyline(curve, Layer.DEFLECTED)
    scene.explain(Layer.DEFLECTED, "deflected, drawn 50 times too large")
    scene.rectangle((150, -25), (250, 0), Layer.PHANTOM)
    scene.hatch([[(-60, -20), (0, -20), (0, height + 20), (-60, height + 20)]])
    scene.line((0, -20), (0, height + 20))
    scene.dim((0, 0), (length, 0), -30, "L = 1200 mm")
    scene.dim((0, 0), (150, 0), -12, "150 mm")
    scene.dim((250, -25), (270, -25), -12, "20 mm", along="horizontal")
    scene.dim((length, 0), (length, height), 10, "h = 60.0 mm", along="vertical")
    scene.arrow((length, 0), pi / 2, "F = 60 N")
    scene.text((length, height * 2.2), "δ_{tip} = 0.062 mm", "above left")
    scene.leader((180, -12), (6, -20), "clamp foot", end="dot")
    scene.moment((0, height / 2), "M_{0}", clockwise=True)
    section = scene.view("Section A–A", magnify=ratio(0.25 * length / height), below=True)
    section.rectangle((0, 0), (45, height), fill="light")
    section.hatch([[(0, 0), (45, 0), (45, height), (0, height)], [(15, 20), (30, 20), (30, 40), (15, 40)]])
    section.rectangle((15, 20), (30, 40))
    section.dim((0, 0), (45, 0), -10, "b = 45 mm")
    section.dim((0, height), (0, 0), -9, "60 mm")
    section.circle((22.5, height / 2), 4, fill="medium")
    section.line((22.5, -5), (22.5, height + 5), Layer.CENTER)
    key = scene.view("Key in track", magnify=ratio(0.25 * length / height))
    key.rectangle((0, 0), (40, 18), Layer.CUT)
    key.arrow((20, 30), 0, "grain", layer=Layer.GRAIN, grip="middle", both=True, length=16)
    key.polyline([(0, 0), (20, -12), (40, 0)], Layer.FOLD)
    key.polyline([(0, 18), (40, 18)], Layer.SEAM)
    key.line((0, 9), (40, 9), Layer.CONSTRUCTION)
    return scene


def corner() -> Scene:
    """Angle dimensions wide, narrow and reflex, dimensions in all directions, leaders to both sides."""
    scene = Scene("Corner", "A board cut at 38° with its angles and lengths.")
    top = (120 * cos(radians(38)), 120 * sin(radians(38)))
    scene.polyline([(0, 0), (160, 0), (160, 15), top], closed=True, fill="medium")
    scene.angle((0, 0), (160, 0), top, 30, "38°")
    scene.angle((160, 0), (160, 15), (0, 0), 18, "β = 90°")
    scene.angle(top, (0, 0), (160, 15), 8, "102°")
    scene.angle((0, 0), (160, 0), (160, 8), 75, "2.9°")
    scene.angle((0, 0), top, (160, 0), 12, "322°")
    scene.dim((0, 0), top, 8, "120 mm")
    scene.dim((160, 0), (0, 0), 12, "160 mm")
    scene.dim((160, 0), (160, 15), 12, "15 mm", along="vertical")
    scene.line((0, 0), (160, 8), Layer.HIDDEN)
    scene.dim((160, 15), top, -10, "88 mm")
    scene.dim((0, 0), (4, 0), -10, "4.0 mm", overflow="p")
    scene.dim((4, 0), (8, 0), -10, "4.0 mm")
    scene.leader((130, 40), (16, 10), "saw here")
    scene.leader((60, 46.9), (-20, 18), "face")
    scene.text((80, 30), "A_{1} = 7 560 mm²")
    return scene


def page(svgs: list[str], style: str = "", *, light: bool = True) -> str:
    """A bare HTML page around pictures, marked like a JupyterLab page of a light or dark theme."""
    body = "\n".join(f"<p>{text}</p>" for text in svgs)
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Demo</title>'
        f'<style>{style}</style></head><body data-jp-theme-light="{str(light).lower()}">{body}</body></html>'
    )


def typical(length: float = 600.0) -> Scene:
    """Sixty primitives, as many as a busy figure has: 24 lines, 10 outlines, 6 curves, 2 hatches, 18 notes."""
    scene = Scene("Sixty", "A made-up figure of sixty primitives.")
    for k in range(24):
        scene.line((k * length / 24, 0), (k * length / 24, 80), Layer.HIDDEN if k % 2 else Layer.OUTLINE)
    for k in range(10):
        x = k * length / 10
        scene.rectangle((x, 80), (x + 40, 120), fill="light")
    for k in range(6):
        scene.polyline([(x * length / 60, 130 + k * 5 + 10 * sin(x / 10 + k)) for x in range(61)], Layer.DEFLECTED)
    for x in (0.0, length):
        scene.hatch([[(x - 30, -10), (x, -10), (x, 90), (x - 30, 90)]])
    for k in range(8):
        scene.dim((k * length / 8, 0), ((k + 1) * length / 8, 0), -10, f"{length / 8:.1f} mm")
    for k in range(4):
        scene.text((k * length / 4, 60), f"P_{{{k}}}", "above right")
    scene.angle((0, 0), (length, 0), (length, 80), 40, "7.6°")
    scene.angle((length, 0), (length, 80), (0, 0), 16, "90°")
    scene.arrow((length, 120), -pi / 2, "F = 60 N")
    scene.moment((0, 40), "M")
    scene.leader((length / 2, 100), (10, 20), "block")
    scene.leader((length / 3, 100), (-10, 20), "rib")
    return scene
