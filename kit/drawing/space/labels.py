"""Words at points of a picture in space: a dot, a thin leader, and words that do not lie on one another."""

from collections.abc import Sequence
from html import escape

import numpy as np
from numpy.typing import NDArray

from kit.drawing.svg import FONT

INK, PAPER = "var(--fw-ink,#111)", "var(--fw-paper,#fff)"
"""Colors that a page may give by a variable of its style sheet: a dark page has others."""
SIZE = 12
"""Height of the font, px."""
_FINE = 10
_WIDE = 0.58  # of the font's height: a letter, taken generously
_WAYS = [(1, -1), (-1, -1), (1, 1), (-1, 1), (0, -1), (1, 0), (-1, 0), (0, 1)]
_REACHES = (16, 30, 48, 70)  # px


def labels(marks: Sequence[tuple[str, NDArray[np.float64]]], width: float, height: float) -> str:
    """Return words at points (2,) in pixels as SVG in tenths of pixels; each at the nearest free place."""
    taken: list[tuple[float, float, float, float]] = [
        (float(x) - 3, float(y) - 3, float(x) + 3, float(y) + 3) for _, (x, y) in marks
    ]
    written, leaders = [], []
    for text, (x, y) in marks:
        box, way = _place(text, float(x), float(y), taken, width, height)
        taken.append(box)
        left, top, right, bottom = box
        to = (right if way[0] < 0 else left if way[0] > 0 else (left + right) / 2, (top + bottom) / 2)
        leaders.append(f"M{x * _FINE:.0f} {y * _FINE:.0f}L{to[0] * _FINE:.0f} {to[1] * _FINE:.0f}")
        written.append(f'<text x="{left * _FINE + 20:.0f}" y="{(bottom - 4) * _FINE:.0f}">{escape(text)}</text>')
    if not written:
        return ""
    dots = "".join(f'<circle cx="{x * _FINE:.0f}" cy="{y * _FINE:.0f}" r="25"/>' for _, (x, y) in marks)
    return (
        f'<path fill="none" style="stroke:{INK}" stroke-width="7" d="{"".join(leaders)}"/>'
        f'<g style="fill:{INK};stroke:{PAPER}" stroke-width="8">{dots}</g>'
        f'<g font-family="{FONT}" font-size="{SIZE * _FINE}" stroke-width="35" stroke-linejoin="round" '
        f'style="fill:{INK};stroke:{PAPER};paint-order:stroke">{"".join(written)}</g>'
    )


def _place(
    text: str, x: float, y: float, taken: list[tuple[float, float, float, float]], width: float, height: float
) -> tuple[tuple[float, float, float, float], tuple[int, int]]:
    wide, tall = len(text) * _WIDE * SIZE + 4, SIZE + 4.0
    best: tuple[float, tuple[float, float, float, float], tuple[int, int]] | None = None
    for reach in _REACHES:
        for way in _WAYS:
            middle = y + way[1] * reach
            near = x + way[0] * reach
            left = near if way[0] > 0 else near - wide if way[0] < 0 else x - wide / 2
            box = (left, middle - tall / 2, left + wide, middle + tall / 2)
            over = sum(
                max(0.0, min(box[2], t[2]) - max(box[0], t[0])) * max(0.0, min(box[3], t[3]) - max(box[1], t[1]))
                for t in taken
            )
            out = max(0, -box[0]) + max(0, box[2] - width) + max(0, -box[1]) + max(0, box[3] - height)
            if over + out == 0:
                return box, way
            if best is None or over + 20 * out < best[0]:
                best = (over + 20 * out, box, way)
    assert best is not None  # there are always places to compare
    shift = min(0.0, width - best[1][2]) + max(0.0, -best[1][0])
    left, top, right, bottom = best[1]
    return (left + shift, top, right + shift, bottom), best[2]
