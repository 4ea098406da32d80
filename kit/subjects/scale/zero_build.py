"""The scale strip that belongs to a zero: printed at true size, in mm or inch fractions, with a row over the block."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Literal

from kit.core.build import Build, BuildInput, Number, Output, Picture
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.verdict import Check, compare
from kit.drawing.export import save
from kit.drawing.paper import paper_plan
from kit.drawing.scene import Scene
from kit.subjects.reading.block_build import BlockScale
from kit.subjects.scale.scale_strip_drawing import Strip, strip_scene

TAKES = {"block": "block scale"}
USUAL = {"mm": (1000.0, 1), "in": (40 * 25.4, 16)}
"""Length of the strip, mm, and parts of a unit, where the job states none."""
NEAR = 0.05  # mm by which an end may miss
PIECE = 110.0  # mm of the strip shown in a picture


def build(inputs: BuildInput) -> Build:
    """Return the strip from the mark at which the tape would be cut to its last reading.

    Raises:
        KitError: the strip would begin below zero, or the block is taken from another model.
    """
    mark = inputs.base["cut_mark"]
    if mark < 0:
        raise KitError(
            f"the strip would begin at {show(mark, 'mm', inputs.display)}; it needs a mark at or above zero: begin the "
            "recess farther from the blade"
        )
    unit: Literal["mm", "in"] = "in" if inputs.display.system == "in" else "mm"
    usual, division = USUAL[unit]
    reads: Literal["left", "right"] = "right" if round(inputs.base["stop_side"]) else "left"
    block = inputs.takes["block"].data if "block" in inputs.takes else None
    if not (block is None or isinstance(block, BlockScale)):
        raise KitError("the strip takes a block and its scale; name a part with the model 'reading.block'")
    strip = Strip(
        length=(inputs.stated["to"].base if inputs.stated["to"] else mark + usual) - mark,
        first=mark,
        unit=unit,
        division=inputs.stated["division"] or division,
        reads=reads,
        shift=block.block if block else 0.0,
        width=inputs.stated["width"].base,
    )
    paper = paper_plan(inputs.stated, inputs.printer)
    across, along = paper.printer.factors  # a strip lies along the way the paper feeds

    def write(folder: Path, stem: str, display: Display) -> list[Path]:
        drawn = strip_scene(strip, display)
        stretched = strip_scene(replace(strip, stretch=(along, across)), display)
        return [
            *save(drawn, folder, f"{stem}_strip", ("pdf",), paper=paper),
            *save(stretched, folder, f"{stem}_strip", ("svg",)),
        ]

    def piece(display: Display) -> Scene:
        begin = max(strip.first, strip.shift - PIECE / 4) if strip.shift else strip.first
        end = min(begin + PIECE, strip.first + strip.length)
        return strip_scene(replace(strip, first=begin, length=end - begin), display)

    said = "the second row shows the target over the block" if block else "one row"
    return Build(
        numbers=(
            Number("first", "reading at the strip's beginning, which lies at the recess's end", mark, resolution=0.1),
            Number("last", "reading at the strip's end", strip.first + strip.length, resolution=0.1),
            Number("stretch", "drawn longer by, for this printer, on every meter", along - 1, "mm/m", resolution=1e-5),
        ),
        checks=_limits(strip, block, inputs.display) if block else (),
        cautions=(
            "Print at actual size, then lay a checked rule on the strip's 100 mm or 4 in bar before you glue it.",
            "Paper grows and shrinks with the weather: print on film, or check the strip against a rule each season.",
        ),
        pictures=(
            Picture("strip", "The strip, a piece of it", f"ticks and numbers read to the {reads}; {said}", piece),
        ),
        outputs=(Output("strip", "scale strip at full size, PDF in sheets and SVG in one piece", write),),
        data=strip,
    )


def _limits(strip: Strip, block: BlockScale, display: Display) -> tuple[Check, Check]:
    """Return whether the strip lies wherever the block's cursor is set."""
    end = strip.first + strip.length
    return (
        compare(
            "begins",
            "by the block's scale, the strip begins at reading",
            strip.first,
            block.first + NEAR,
            resolution=0.1,
            mend="begin the recess nearer to the blade",
        ),
        compare(
            "ends",
            "by the block's scale, the strip ends at reading",
            end,
            block.last - NEAR,
            sense=">=",
            resolution=0.1,
            mend="state a larger 'to' for the strip",
        ),
    )
