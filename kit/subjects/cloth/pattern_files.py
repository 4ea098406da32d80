"""What every pattern of cloth is written as: sheets to tape, SVG and DXF, one page for a plotter, and a paper model."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from kit.core.build import BuildInput, Output, Picture
from kit.core.quantity import Display
from kit.drawing.export import save
from kit.drawing.paper import PaperPlan, paper_plan
from kit.drawing.scene import Scene
from kit.subjects.cloth.geometry.assembly import Assembly
from kit.subjects.cloth.geometry.sewing import Step
from kit.subjects.cloth.paper_model_drawing import ModelSheet, lay_out_model, model_scene
from kit.subjects.cloth.pattern_drawing import pattern_scene

SPARE = 6.0  # mm, what a drawing keeps free around it


def pattern_outputs(inputs: BuildInput, made: Assembly, steps: Sequence[Step]) -> tuple[Output, ...]:
    """Return the files of a pattern; `steps`: its sewing order."""
    name = made.pattern.name

    def full_size(folder: Path, stem: str, display: Display) -> list[Path]:
        scene = pattern_scene(made.pattern, display, order=steps)
        return save(scene, folder, f"{stem}_pattern", paper=paper_plan(inputs.stated, inputs.printer))

    def plotted(folder: Path, stem: str, display: Display) -> list[Path]:
        roll = PaperPlan(roll=inputs.stated["roll"].base)
        scene = pattern_scene(made.pattern, display, order=steps, wide=roll.sheets()[0].window[0] - SPARE)
        return save(scene, folder, f"{stem}_pattern", ("pdf",), paper=roll)

    def model(folder: Path, stem: str, _display: Display) -> list[Path]:
        sheet = _sheet(inputs, made)
        return save(model_scene(sheet, name), folder, f"{stem}_model", ("pdf",), paper=sheet.plan)

    return (
        Output("pattern", "pattern at full size: sheets to tape, SVG, and DXF for a cutter", full_size),
        Output("plot", "pattern at full size on one page, for a roll plotter", plotted),
        Output("model", "paper model to cut, fold and glue before cutting cloth", model),
    )


def model_picture(inputs: BuildInput, made: Assembly) -> Picture:
    """Return the picture of the paper model."""

    def draw(_display: Display) -> Scene:
        return model_scene(_sheet(inputs, made), made.pattern.name)

    return Picture("model", "Paper model", "nets with folds and numbered tabs, for one sheet of paper", draw)


def _sheet(inputs: BuildInput, made: Assembly) -> ModelSheet:
    scale = inputs.stated["model_scale"].base
    return lay_out_model(made, paper_plan(inputs.stated, inputs.printer), 1 / scale)
