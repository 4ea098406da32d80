"""A router's passes across a groove, one row a pass: guides, spacer, base and cut; and a template at full size."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

from kit.core.quantity import Display, show
from kit.drawing.scene import Layer, Scene


@dataclass(frozen=True)
class Pass:
    """One pass across the groove, whose near edge is 0; mm.

    `guide` is the face of the first guide, `base` the router's side toward it; a spacer lies between, or none.
    """

    guide: float
    base: float
    spacer: bool
    cut: tuple[float, float]
    along: str  # which guide the base runs on, and which way


def draw_passes(passes: Sequence[Pass], width: float, base: float, far: float | None, d: Display) -> Scene:
    """Return the passes in the order in which they are cut; `far`: face of a second guide, mm."""
    scene = Scene(
        "Passes across the groove",
        f"{len(passes)} passes of a groove {show(width, 'mm', d, resolution=0.05)} wide, from the first at the top: "
        "where guide, base and cut lie.",
        caption="Looking along the groove, first pass on top",
    )
    row, thick = 0.22 * base, 0.05 * base
    left = min(one.guide for one in passes)
    for number, one in enumerate(passes, start=1):
        y = -number * row
        scene.rectangle((one.guide - 2 * thick, y), (one.guide, y + 0.6 * row), fill="strong")
        if far is not None:
            scene.rectangle((far, y), (far + 2 * thick, y + 0.6 * row), fill="strong")
        start = one.base
        if one.spacer:
            spacer = ((one.guide, y), (start, y), (start, y + 0.3 * row), (one.guide, y + 0.3 * row))
            scene.polyline(spacer, closed=True)
            scene.hatch([spacer])
        scene.rectangle((start, y + 0.3 * row), (start + base, y + 0.6 * row), fill="light")
        scene.rectangle((one.cut[0], y - 0.2 * row), (one.cut[1], y + 0.3 * row), fill="medium")
        scene.text((left - 2 * thick, y + 0.3 * row), f"{number}: {one.along}", "left", gap=2)
    bottom = -(len(passes) + 0.3) * row
    for edge in (0.0, width):
        scene.line((edge, 0.2 * row), (edge, bottom), Layer.CUT)
    scene.explain(Layer.CUT, "edges of the groove")
    scene.dim((0, bottom), (width, bottom), -8, show(width, "mm", d, resolution=0.05))
    first = passes[0].guide
    scene.dim((first, 0), (0, 0), 10, show(-first, "mm", d, resolution=0.05), along="horizontal")
    if far is not None:
        scene.dim((width, 0), (far, 0), 10, show(far - width, "mm", d, resolution=0.05), along="horizontal")
    return scene


def draw_template(length: float, width: float, radius: float, inside: bool, d: Display) -> Scene:
    """Return a template's edge at full size: an opening or an outline, with its corners, mm."""
    sizes = [show(size, "mm", d, resolution=0.05) for size in (length, width, radius)]
    what = "opening" if inside else "outline"
    scene = Scene("Template", f"The template's {what}, {sizes[0]} by {sizes[1]}, corners of {sizes[2]}.")
    r = min(max(radius, 0.0), length / 2, width / 2)
    for p, q in (
        ((r, 0), (length - r, 0)),
        ((length, r), (length, width - r)),
        ((length - r, width), (r, width)),
        ((0, width - r), (0, r)),
    ):
        scene.line(p, q)
    if r > 0:
        for n, center in enumerate([(r, r), (length - r, r), (length - r, width - r), (r, width - r)]):
            scene.arc(center, r, (2 + n) * pi / 2, (3 + n) * pi / 2)
    scene.line((length / 2, -4), (length / 2, width + 4), Layer.CENTER)
    scene.line((-4, width / 2), (length + 4, width / 2), Layer.CENTER)
    scene.dim((0, 0), (length, 0), -12, sizes[0])
    scene.dim((length, 0), (length, width), 12, sizes[1], along="vertical")
    scene.leader((0.3 * r, width - 0.3 * r), (-10, 8), f"R {sizes[2]}")
    scene.explain(Layer.OUTLINE, f"edge of the template, an {what}")
    return scene
