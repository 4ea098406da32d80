"""A standalone file in true millimeters, measured by reading it back. Expected numbers are worked out by hand."""

from math import dist, pi

import pytest

from kit.core.errors import KitError
from kit.drawing.scene import Layer, Scene
from kit.drawing.svg import svg_file
from tests.drawing.reading import read


def test_a_check_square_of_100_mm_is_100_mm() -> None:
    scene = Scene("Square", "A square.")
    scene.rectangle((20, 30), (120, 130))
    text = svg_file(scene)
    drawn = read(text)
    (square,) = drawn.lines("outline")
    assert [dist(p, q) for p, q in zip(square, square[1:] + square[:1], strict=True)] == [100] * 4
    # 100 mm and a margin of 2.5 mm on each side, written in the file's own unit.
    assert drawn.root.attrib["width"] == "105mm"
    assert drawn.root.attrib["height"] == "105mm"
    assert drawn.box == [0, 0, 105, 105]
    assert text.startswith('<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg"')


def test_scale_and_magnified_view_multiply() -> None:
    scene = Scene("Two", "A plan at 1:2 and a detail five times as large.")
    scene.line((0, 0), (300, 400))
    detail = scene.view("Detail", magnify=5)
    detail.line((0, 0), (8, 6), Layer.HIDDEN)
    drawn = read(svg_file(scene, 0.5))
    assert [dist(*line) for line in drawn.lines("outline")] == [pytest.approx(250, abs=1e-4)]
    assert [dist(*line) for line in drawn.lines("hidden")] == [pytest.approx(25, abs=1e-4)]
    assert "Detail (enlarged 5×)" in drawn.words()


def test_y_points_up_and_angles_turn_counterclockwise() -> None:
    scene = Scene("Up", "A quarter arc.")
    scene.arc((0, 0), 10, 0, pi / 2)
    scene.line((0, 0), (10, 0), Layer.CENTER)
    drawn = read(svg_file(scene))
    (axis,) = drawn.lines("center")
    (arc,) = drawn.curves("outline")
    # M x y, A r r 0 0 0 x y, A r r 0 0 0 x y: from (10, 0) over 45° to (0, 10), both in the file's y down.
    origin = axis[0]
    assert arc[:2] == list(axis[1])
    assert arc[-2:] == [origin[0], pytest.approx(origin[1] - 10, abs=1e-4)]
    assert arc[7:9] == [
        pytest.approx(origin[0] + 7.0711, abs=1e-4),  # 10 / √2
        pytest.approx(origin[1] - 7.0711, abs=1e-4),
    ]
    assert arc[2:7] == [10, 10, 0, 0, 0]


def test_a_full_circle_closes() -> None:
    scene = Scene("Hole", "A hole.")
    scene.circle((5, 5), 4, fill="strong")
    drawn = read(svg_file(scene))
    (circle,) = drawn.curves("outline")
    assert circle[:2] == circle[-2:] == [10.5, 6.5]  # margin 2.5, center 4 further, radius 4 to the right
    assert circle[7:9] == [2.5, 6.5]
    assert drawn.box == [0, 0, 13, 13]
    assert len(drawn.curves("fill")) == 1


def test_the_file_needs_nothing_else_and_is_black() -> None:
    scene = Scene("Plain", "A line.")
    scene.line((0, 0), (10, 0), Layer.FOLD)
    text = svg_file(scene)
    assert "var(" not in text
    assert "currentColor" not in text
    assert "<style" not in text
    assert "href" not in text
    assert read(text).group("fold").attrib["stroke"] == "#000"


@pytest.mark.parametrize("scale", [0, -1, float("nan"), float("inf")])
def test_a_scale_that_is_none_is_refused(scale: float) -> None:
    with pytest.raises(KitError, match="scale must be a number above 0"):
        svg_file(Scene("", ""), scale)
