"""Outlines of arcs and lines, drawn with true arcs."""

from kit.drawing.layers import Layer
from kit.drawing.scene import View
from kit.shapes.outline import Arc, Outline


def draw_outline(view: View, outline: Outline, layer: Layer = Layer.OUTLINE) -> None:
    """Add every arc and line of `outline` to `view`."""
    for part in outline.parts:
        if isinstance(part, Arc):
            start, end = sorted((part.start, part.start + part.sweep))
            view.arc(part.center, part.radius, start, end, layer)
        else:
            view.line(part.p, part.q, layer)
