"""The template at full size, to glue on a board and saw out, or for a machine that reads DXF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.build import Build, BuildInput, Output, Picture
from kit.core.quantity import Display
from kit.drawing.paper import paper_plan
from kit.subjects.groove.passes_drawing import draw_template

if TYPE_CHECKING:
    from kit.drawing.scene import Scene

OPENING = 0  # the choice of an opening, cut inside the template


def build(inputs: BuildInput) -> Build:
    """Return the template's drawing and its files."""
    v, plan = inputs.base, paper_plan(inputs.stated, inputs.printer)

    def draw(d: Display) -> Scene:
        inside = v["work"] == OPENING
        return draw_template(v["template_length"], v["template_width"], v["template_corner"], inside, d)

    def write(folder: Path, stem: str, d: Display) -> list[Path]:
        from kit.drawing.export import save

        return save(draw(d), folder, stem, paper=plan)

    return Build(
        pictures=(Picture("template", "The template, full size", "its edge, corners and center lines", draw),),
        outputs=(Output("template", "the template at full size, PDF, SVG and DXF", write),),
    )
