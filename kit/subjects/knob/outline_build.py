"""The knob's template: its outline with true arcs at full size, to print, to cut by and to rout round."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from kit.core.build import Build, BuildInput, Number, Output, Picture
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.verdict import fact
from kit.drawing.arc_outlines import draw_outline
from kit.drawing.export import save
from kit.drawing.paper import paper_plan
from kit.drawing.scene import Layer, Scene
from kit.subjects.knob.outline_figure import outline, template
from kit.subjects.knob.plies_build import Ply, schedule_table

TAKES = {"plies": "knob plies"}
CLOSED = 1e-6  # mm and rad: parts that meet within this have neither gap nor corner


def build(inputs: BuildInput) -> Build:
    """Return the template, its measures, and the drilling schedule of the plies that it is laid on.

    Raises:
        KitError: no outline closes with these sizes, or the plies are taken from another model.
    """
    for state in inputs.case.checks:
        if state.name == "lobes_apart" and not state.ok:
            raise KitError(f"no outline closes: {state.words(inputs.display)}")
    found = outline(inputs.base)
    gap, corner = found.joints()
    beside = inputs.stated["beside"].base if inputs.stated["beside"] else 0.0
    draw = partial(_template, inputs, beside)
    plies = inputs.takes["plies"].data if "plies" in inputs.takes else ()
    if not isinstance(plies, tuple) or not all(isinstance(ply, Ply) for ply in plies):
        raise KitError("the outline takes a drilling schedule; name a part with the model 'knob.plies'")
    paper = paper_plan(inputs.stated, inputs.printer)

    def write(folder: Path, stem: str, display: Display) -> list[Path]:
        return save(draw(display), folder, f"{stem}_template", paper=paper)

    label = f"; beside it the template {_bush(beside, inputs.display)}" if beside else ""
    return Build(
        numbers=(
            Number("length", "length of the outline, arc by arc", found.length, resolution=0.1),
            Number("area", "area inside, by going round it", found.area, "mm^2", resolution=1),
            Number("parts", "arcs and straight lines", len(found.parts), "", resolution=1),
        ),
        checks=(
            fact(
                "closed",
                gap <= CLOSED and corner <= CLOSED,
                f"{len(found.parts)} arcs and lines meet without a gap or corner",
                "give the arcs other radii",
            ),
        ),
        pictures=(
            Picture("template", "Template at full size", f"the outline, the nut's hole and its middle{label}", draw),
        ),
        tables=(schedule_table(plies, inputs.display),) if plies else (),
        outputs=(Output("template", "template at full size: PDF to print, SVG and DXF with true arcs", write),),
        data=found,
    )


def _template(inputs: BuildInput, beside: float, display: Display) -> Scene:
    """Return the template, and the line at `beside` mm outside it if that is not 0."""
    scene = template(inputs.base, display)
    if beside:
        draw_outline(scene, outline(inputs.base).offset(beside), Layer.PHANTOM)
        scene.explain(Layer.PHANTOM, _bush(beside, display))
    return scene


def _bush(beside: float, display: Display) -> str:
    side = "outside" if beside > 0 else "inside"
    return f"for a guide bush, {show(abs(beside), 'mm', display, resolution=0.01)} {side}"
