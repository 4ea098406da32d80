"""The legend of a drawing: one sample and its words for each line kind in use."""

from collections.abc import Mapping
from math import ceil, pi

from kit.drawing.annotate import notes
from kit.drawing.hatching import hatch_lines
from kit.drawing.layers import Layer
from kit.drawing.marks import Label, Mark, Stroke, shifted, text_width
from kit.drawing.primitives import TEXT, Arrow, Point, Text
from kit.drawing.scene import Scene

# All in paper mm.
SWATCH = 18.0  # longer than one period of every line type
ENTRY = 4.8  # height of a row
APART = 6.0  # columns
ABOVE = 4.0  # room between picture and legend


def used_layers(scene: Scene) -> list[Layer]:
    """Return the line kinds that a scene uses, visible outline first."""
    used = {
        getattr(item, "layer", Layer.DIMENSION)
        for view in scene.views
        for item in view.items
        if not isinstance(item, Text)
    }
    outline_first = sorted(Layer, key=lambda layer: layer is not Layer.OUTLINE)
    return [layer for layer in outline_first if layer in used]


def legend_marks(
    layers: list[Layer], words: Mapping[Layer, str], width: float
) -> tuple[list[Mark], tuple[float, float]]:
    """Return the marks of a legend, its lower left corner at the origin, and the size it takes (paper mm)."""
    if not layers:
        return [], (0.0, 0.0)
    labels = [words.get(layer, layer.value.label) for layer in layers]
    wide = [SWATCH + 2.0 + text_width(label, TEXT) + APART for label in labels]
    # as many columns as there is room for, each as wide as its own widest entry
    steps = next(
        steps
        for columns in range(len(layers), 0, -1)
        if sum(steps := [max(wide[column::columns]) for column in range(columns)]) - APART <= width or columns == 1
    )
    columns = len(steps)
    rows = ceil(len(layers) / columns)
    marks: list[Mark] = []
    for index, (layer, label) in enumerate(zip(layers, labels, strict=True)):
        row, column = divmod(index, columns)
        x, y = sum(steps[:column]), (rows - row - 0.5) * ENTRY
        marks += [shifted(mark, x, y) for mark in _swatch(layer)]
        marks.append(Label((x + SWATCH + 2.0, y - TEXT / 2), label))
    return marks, (sum(steps) - APART, rows * ENTRY + ABOVE)


def _swatch(layer: Layer) -> list[Mark]:
    kind = layer.value.swatch
    line = ((0.0, 0.0), (SWATCH, 0.0))
    if kind == "hatch":
        box: tuple[Point, ...] = ((0.0, -1.7), (SWATCH, -1.7), (SWATCH, 1.7), (0.0, 1.7))
        return [Stroke(layer, piece) for piece in hatch_lines([box], pi / 4, 1.8)]
    if kind in ("arrow", "both"):
        return notes(Arrow((0.0, 0.0), 0.0, "", SWATCH, "tail", kind == "both", layer), 1.0)
    if kind == "tick":
        return [Stroke(layer, ((x, -1.5), (x, 1.5))) for x in (0.25 * SWATCH, 0.5 * SWATCH, 0.75 * SWATCH)]
    if kind == "dimension":
        return notes(Arrow(line[0], 0.0, "", SWATCH, "tail", True, layer), 1.0)
    return [Stroke(layer, line)]
