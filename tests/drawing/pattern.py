"""A made-up flat pattern of about 900 × 700 mm for the tests of paper and files: every kind of outline and note."""

from math import pi

from kit.drawing.scene import Layer, Scene


def pattern(width: float = 900.0, height: float = 700.0) -> Scene:
    """A skin with round corners, folds, a seam, a hole, dimensions, words in Greek and primes, and a second piece."""
    r = 60.0
    scene = Scene("Chute front <skin>", "A skin 900 × 700 mm with round upper corners and a hole.", caption="Front")
    scene.line((0, 0), (width, 0))
    scene.line((width, 0), (width, height - r))
    scene.arc((width - r, height - r), r, 0, pi / 2)
    scene.line((width - r, height), (r, height))
    scene.arc((r, height - r), r, pi / 2, pi)
    scene.line((0, height - r), (0, 0))
    scene.line((0, 40), (width, 40), Layer.FOLD)
    scene.line((30, 0), (30, height - r), Layer.SEAM)
    scene.line((width / 2, -10), (width / 2, height + 10), Layer.CENTER)
    scene.polyline([(80, 80), (820, 90), (700, 640), (90, 600)], Layer.HIDDEN, closed=True, fill="light")
    scene.circle((300, 300), 150)
    scene.circle((620, 420), 16, Layer.CUT)
    scene.arrow((600, 200), pi / 2, "warp", length=60, both=True, layer=Layer.GRAIN, grip="middle")
    scene.dim((0, 0), (width, 0), -14, "900.0 mm ± 0.5 (35 7/16″)")
    scene.dim((width, 0), (width, height - r), 12, "640 mm", along="vertical")
    scene.angle((80, 80), (820, 90), (90, 600), 40, "α = 87.8°")
    scene.leader((620, 436), (20, 18), "4 × ⌀32, μ_{s} = 0.3, Δ ≤ 2′")
    scene.text((450, 520), "Right side up", height=8)
    scene.hatch([[(400, 120), (520, 120), (520, 180), (400, 180)]])
    return scene
