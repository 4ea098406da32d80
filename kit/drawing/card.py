"""A table as a drawing: ruled rows of words, to be printed at full size and hung up."""

from collections.abc import Sequence

from kit.core.errors import KitError
from kit.drawing.layers import Layer
from kit.drawing.scene import Scene

# All in mm.
HEIGHT = 3.0  # of capitals
ROW = 7.0
LETTER = 2.3  # taken for a letter of that height, on the wide side
EDGE = 3.0


def card_scene(title: str, heads: Sequence[str], rows: Sequence[Sequence[str]], notes: Sequence[str] = ()) -> Scene:
    """Return a table as a scene: the title above, heads, a ruled line below every row, and `notes` below all.

    Raises:
        KitError: no head, or a row with more or fewer cells than heads.
    """
    if not heads or any(len(row) != len(heads) for row in rows):
        raise KitError(f"the card {title!r} has {len(heads)} heads; every row needs as many cells, one at least")
    widths = [2 * EDGE + LETTER * max(len(row[column]) for row in (heads, *rows)) for column in range(len(heads))]
    lefts = [sum(widths[:column]) for column in range(len(heads) + 1)]
    scene = Scene(title, f"A table with {len(rows)} rows: {', '.join(heads)}.")
    scene.text((EDGE, 1.4 * ROW), title, "right", gap=0.0, height=1.3 * HEIGHT)
    for number, row in enumerate((heads, *rows)):
        middle = -(number - 0.5) * ROW
        for left, cell in zip(lefts, row, strict=False):
            scene.text((left + EDGE, middle), cell, "right", gap=0.0, height=HEIGHT)
        layer = Layer.CONSTRUCTION if number else Layer.OUTLINE
        scene.line((0.0, middle - ROW / 2), (lefts[-1], middle - ROW / 2), layer)
    low = -len(rows) * ROW
    for number, note in enumerate(notes):
        scene.text((EDGE, low - (number + 0.6) * ROW), note, "right", gap=0.0, height=HEIGHT)
    for left in lefts:
        scene.line((left, ROW), (left, low), Layer.CONSTRUCTION)
    scene.line((0.0, ROW), (lefts[-1], ROW), Layer.CONSTRUCTION)
    return scene
