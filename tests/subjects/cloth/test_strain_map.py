"""Strain maps: the numbers told are those of the pieces, the worst place is marked where it is, excess is hatched."""

import numpy as np
import pytest
from matplotlib.axes import Axes

from kit.geometry.development.mesh import grid_triangles
from kit.subjects.cloth.geometry.covering import FlatPiece
from kit.subjects.cloth.geometry.pattern import SewEdge
from kit.subjects.cloth.strain_map import strain_map

CELLS = 6


def sheet(strain: float) -> FlatPiece:
    """A square of 60 mm: its warp is strained from zero at the left to `strain` at the right, its weft half as much."""
    steps = np.linspace(0, 60, CELLS + 1)
    flat = np.stack(np.meshgrid(steps, steps), axis=-1).reshape(-1, 2)
    triangles = grid_triangles(CELLS, CELLS)
    middle = flat[triangles].mean(axis=1)
    warp = strain * middle[:, 0] / middle[:, 0].max()
    outline = np.array([[0, 0], [60, 0], [60, 60], [0, 60], [0, 0.0]])
    return FlatPiece("sheet", flat, triangles, warp, -warp / 2, 0.0, (SewEdge("rim", outline),))


def maps(piece: FlatPiece, limit: tuple[float, float]) -> list[Axes]:
    figure = strain_map([piece], limit)
    return [axes for axes in figure.axes if axes.get_title()]


def test_titles_tell_the_largest_strain_and_what_is_allowed() -> None:
    warp, weft = maps(sheet(0.008), (0.01, 0.005))
    assert warp.get_title() == "warp: +0.80 % at the cross, of 1.00 % allowed"
    assert weft.get_title() == "weft: -0.40 % at the cross, of 0.50 % allowed"


def test_the_worst_place_is_marked_in_its_triangle() -> None:
    piece = sheet(0.008)
    warp, _ = maps(piece, (0.01, 0.01))
    (marker,) = (line for line in warp.lines if line.get_marker() == "X")
    x, y = float(marker.get_xdata()[0]), float(marker.get_ydata()[0])
    worst = piece.flat[piece.triangles[int(piece.warp.argmax())]].mean(axis=0)
    low = piece.flat.min(axis=0)
    drawn = np.array(next(line.get_xydata() for line in warp.lines if line.get_marker() != "X"))
    assert np.array([x, y]) - drawn.min(axis=0) == pytest.approx(worst - low)


@pytest.mark.parametrize(("limit", "hatched"), [(0.01, False), (0.004, True)])
def test_only_what_is_beyond_the_limit_is_hatched(limit: float, hatched: bool) -> None:
    warp, _ = maps(sheet(0.008), (limit, 1.0))
    assert any(getattr(each, "hatches", [None])[0] == "///" for each in warp.collections) == hatched


def test_numbers_stand_on_the_lines_of_equal_strain() -> None:
    warp, _ = maps(sheet(0.008), (0.01, 0.01))
    numbers = [float(text.get_text().replace("−", "-")) for text in warp.texts if text.get_text()[-1:].isdigit()]
    assert numbers
    assert all(0 <= number <= 0.8 for number in numbers)


def test_a_piece_without_strain_says_so() -> None:
    warp, weft = maps(sheet(0.0), (0.01, 0.01))
    assert warp.get_title() == "warp: below 0.01 %, of 1.00 % allowed"
    assert weft.get_title() == "weft: below 0.01 %, of 1.00 % allowed"
