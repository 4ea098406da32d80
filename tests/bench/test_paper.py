"""How fast full-size paper is written: a ratio against matplotlib's PdfPages putting the same lines on as many pages.

Run with ``python -m pytest -m bench -s tests/bench/test_paper.py``.
"""

import time
from io import BytesIO
from math import pi, sin

import pytest
from pypdf import PdfReader

from kit.drawing.ink import POINTS
from kit.drawing.marks import Mark, Stroke
from kit.drawing.page import lay_out
from kit.drawing.paper import FOOT, PaperPlan
from kit.drawing.pdf import pdf
from kit.drawing.scene import Layer, Scene
from kit.drawing.tiles import Cell, Grid, plan_tiles

pytestmark = pytest.mark.bench

RUNS = 3


def large_pattern() -> Scene:
    """A pattern with lines on 70 to 80 sheets of A4: outline, seams, waves of many corners, some words."""
    scene = Scene("Large", "A pattern of about 1.7 × 2.0 m.")
    width, height = 1700.0, 1950.0
    scene.rectangle((0, 0), (width, height))
    for k in range(1, 18):
        scene.line((0, k * height / 18), (width, k * height / 18), Layer.FOLD)
        wave = [(x * width / 200, k * height / 18 + 30 * sin(x * pi / 25)) for x in range(201)]
        scene.polyline(wave, Layer.SEAM)
    for k in range(12):
        scene.circle((k * 140 + 80, 900), 40, Layer.CUT)
        scene.text((k * 140 + 80, 960), f"hole {k}, ⌀80 mm")
    return scene


def by_matplotlib(marks: list[Mark], grid: Grid, cells: list[Cell]) -> bytes:
    """The same straight lines through the same windows, without words, crosses, bars and map."""
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.collections import LineCollection
    from matplotlib.figure import Figure

    sheet = grid.sheet
    lines = [mark.points for mark in marks if isinstance(mark, Stroke)]
    stream = BytesIO()
    with PdfPages(stream) as book:
        for cell in cells:
            figure = Figure(figsize=(sheet.width / 25.4, sheet.height / 25.4))
            across, up = sheet.window
            axes = figure.add_axes(
                (
                    sheet.margin / sheet.width,
                    (sheet.margin + FOOT) / sheet.height,
                    across / sheet.width,
                    up / sheet.height,
                )
            )
            axes.set_axis_off()
            window = grid.window(cell)
            axes.set_xlim(window.left, window.right)
            axes.set_ylim(window.bottom, window.top)
            axes.add_collection(LineCollection(lines, linewidths=0.5 * POINTS, colors="k"), autolim=False)
            book.savefig(figure)
    return stream.getvalue()


def best(run: object) -> tuple[float, bytes]:
    found = b""
    seconds = float("inf")
    for _ in range(RUNS):
        start = time.perf_counter()
        found = run()  # type: ignore[operator]
        seconds = min(seconds, time.perf_counter() - start)
    return seconds, found


def test_tiles_against_matplotlib() -> None:
    scene, plan = large_pattern(), PaperPlan()
    marks = lay_out(scene, 0.0, 0.0, legend=False, scale=1.0).marks
    grid, cells = plan_tiles(marks, plan)
    pdf(scene, plan)  # loads fonts and libraries
    ours, written = best(lambda: pdf(scene, plan))
    theirs, compared = best(lambda: by_matplotlib(marks, grid, cells))
    assert len(PdfReader(BytesIO(written)).pages) == len(cells) + 1
    assert len(PdfReader(BytesIO(compared)).pages) == len(cells)
    print(
        f"\n{len(cells)} sheets of A4: {ours:.3f} s, {len(written) / 1000:.0f} kB; matplotlib {theirs:.3f} s, "
        f"{len(compared) / 1000:.0f} kB: {theirs / ours:.1f} times as fast, {len(compared) / len(written):.1f} times "
        "as small"
    )
