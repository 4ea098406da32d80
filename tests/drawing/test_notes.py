"""Dimensions and arrows as they are written, against positions worked out by hand at full size.

The manner (words above the line and read from below or from the right, arrowheads outside where there is no room) is
that of ISO 129-1, from memory.
"""

from math import atan2, degrees, dist, pi

import pytest

from kit.drawing.marks import text_width
from kit.drawing.scene import Layer, Scene
from kit.drawing.svg import svg_file
from tests.drawing.reading import Drawn, Point, read


def drawn(scene: Scene) -> tuple[Drawn, Point]:
    """The scene at full size, and where its origin (marked by a dot-like center line) has landed."""
    scene.line((0, 0), (0, 0), Layer.CENTER)
    result = read(svg_file(scene))
    return result, result.lines("center")[0][0]


def at(origin: Point, x: float, y: float) -> Point:
    """Model coordinates to the file's, whose y points down."""
    return (pytest.approx(origin[0] + x, abs=1e-3), pytest.approx(origin[1] - y, abs=1e-3))


def has_line(lines: list[list[Point]], p: Point, q: Point) -> bool:
    return any(line in ([p, q], [q, p]) for line in lines)


def test_a_horizontal_dimension_below_a_bar() -> None:
    scene = Scene("", "")
    scene.dim((0, 0), (60, 5), -10, "60 mm", along="horizontal")
    result, o = drawn(scene)
    lines = result.lines("dimension")
    # 10 mm below the lower point; extension lines begin 0.8 mm off the points and run 2 mm past the line.
    assert has_line(lines, at(o, 0, -10), at(o, 60, -10))
    assert has_line(lines, at(o, 0, -0.8), at(o, 0, -12))
    assert has_line(lines, at(o, 60, 4.2), at(o, 60, -12))
    assert sorted(head[0] for head in result.heads("dimension")) == [at(o, 0, -10), at(o, 60, -10)]
    words = result.words()["60 mm"].attrib
    assert (float(words["x"]), float(words["y"])) == at(o, 30, -10 + 0.9)
    assert words["text-anchor"] == "middle"
    assert "transform" not in words


@pytest.mark.parametrize("flip", [False, True])
def test_an_aligned_dimension_is_read_from_below_or_the_right(flip: bool) -> None:
    scene = Scene("", "")
    ends = ((0.0, 0.0), (40.0, 30.0))
    p, q = ends[::-1] if flip else ends
    scene.dim(p, q, 10, "50 mm")
    result, o = drawn(scene)
    # The unit vector is (0.8, 0.6); 10 mm to the left of p → q is (−6, 8), of the reverse (6, −8).
    side = -1 if flip else 1
    dx, dy = -6 * side, 8 * side
    assert has_line(result.lines("dimension"), at(o, dx, dy), at(o, 40 + dx, 30 + dy))
    words = result.words()["50 mm"].attrib
    turn = float(words["transform"].removeprefix("rotate(").split()[0])
    assert turn == pytest.approx(-36.87, abs=0.01)  # atan(3/4), counterclockwise, in both directions
    # 0.9 mm above the middle of the line, square to it: 0.9 · (−0.6, 0.8).
    assert (float(words["x"]), float(words["y"])) == at(o, 20 + dx - 0.54, 15 + dy + 0.72)


def test_an_upright_dimension_is_read_from_the_right() -> None:
    scene = Scene("", "")
    scene.dim((0, 50), (0, 0), 10, "50 mm", along="vertical")
    result, o = drawn(scene)
    assert has_line(result.lines("dimension"), at(o, 10, 0), at(o, 10, 50))
    words = result.words()["50 mm"].attrib
    assert words["transform"].startswith("rotate(-90 ")
    assert (float(words["x"]), float(words["y"])) == at(o, 10 - 0.9, 25)


@pytest.mark.parametrize(("overflow", "side"), [("q", 1), ("p", -1)])
def test_a_short_dimension_turns_its_arrows_and_puts_its_words_outside(overflow: str, side: int) -> None:
    scene = Scene("", "")
    scene.dim((0, 0), (4, 0), 10, "4 mm", overflow=overflow)  # type: ignore[arg-type]
    result, o = drawn(scene)
    for head in result.heads("dimension"):
        tip, *back = head
        into = 1 if tip[0] < o[0] + 2 else -1
        assert all((tip[0] - x) * into == pytest.approx(2.5, abs=1e-3) for x, _ in back)
    words = result.words()["4 mm"].attrib
    middle = float(words["x"]) - o[0]
    half = text_width("4 mm", 2.5) / 2
    assert middle - half > 4 + 2.5 if side > 0 else middle + half < -2.5
    start, end = max(result.lines("dimension"), key=lambda line: dist(*line))
    assert min(start[0], end[0]) <= o[0] + middle - half + 1e-3  # as many digits as are written
    assert max(start[0], end[0]) >= o[0] + middle + half


def test_a_short_upright_dimension_has_level_words_beside_it() -> None:
    scene = Scene("", "")
    scene.dim((0, 0), (0, 3), 10, "thickness", along="vertical")
    scene.dim((0, 0), (0, 3), -10, "on the left", along="vertical")
    result, o = drawn(scene)
    right, left = result.words()["thickness"].attrib, result.words()["on the left"].attrib
    assert "transform" not in right
    # Beside the extension line's end (2 mm) with 0.8 mm to spare, middle of 2.5 mm capitals level with the middle.
    assert (float(right["x"]), float(right["y"])) == at(o, 12.8, 1.5 - 1.25)
    assert "text-anchor" not in right
    assert (float(left["x"]), float(left["y"])) == at(o, -12.8, 1.5 - 1.25)
    assert left["text-anchor"] == "end"


def test_an_angle_runs_counterclockwise_from_p_to_q() -> None:
    scene = Scene("", "")
    scene.angle((0, 0), (100, 0), (0, 100), 20, "90°")
    result, o = drawn(scene)
    (arc,) = result.curves("dimension")
    assert (arc[0], arc[1]) == at(o, 20, 0)
    assert (arc[-2], arc[-1]) == at(o, 0, 20)
    assert arc[2:4] == [20, 20]
    tips = sorted((head[0] for head in result.heads("dimension")), key=lambda tip: tip[0])
    assert tips == [at(o, 0, 20), at(o, 20, 0)]
    # The head at the end points left along the arc, leaning by half the angle it covers: 2.5/20/2 rad = 3.6°.
    tip, a, b = min(result.heads("dimension"), key=lambda head: head[0][0])
    lean = degrees(atan2(tip[1] - (a[1] + b[1]) / 2, tip[0] - (a[0] + b[0]) / 2))
    assert abs(lean) == pytest.approx(180 - 3.58, abs=0.02)


def test_the_complement_of_an_angle_is_the_rest_of_the_turn() -> None:
    scene = Scene("", "")
    scene.angle((0, 0), (0, 100), (100, 0), 20, "270°")
    result, o = drawn(scene)
    (arc,) = result.curves("dimension")
    # Half way round from 90° by 135° is 225°: (−20, −20)/√2.
    assert (arc[7], arc[8]) == at(o, -14.1421, -14.1421)


def test_a_force_points_where_it_is_told_and_stands_at_its_point() -> None:
    scene = Scene("", "")
    scene.arrow((30, 0), pi / 2, "F", length=15)
    scene.arrow((0, 0), 0, "g", grip="middle", both=True, layer=Layer.GRAIN, length=20)
    result, o = drawn(scene)
    (head,) = result.heads("force")
    assert head[0] == at(o, 30, 0)
    assert all(y > head[0][1] for _, y in head[1:])
    (shaft,) = result.lines("force")
    assert at(o, 30, -15) in shaft
    assert float(result.words()["F"].attrib["y"]) > o[1] + 15  # below the tail
    assert sorted(head[0] for head in result.heads("grain")) == [at(o, -10, 0), at(o, 10, 0)]


@pytest.mark.parametrize("clockwise", [False, True])
def test_a_moment_turns_as_told(clockwise: bool) -> None:
    scene = Scene("", "")
    scene.moment((0, 0), "M", radius=6, clockwise=clockwise)
    result, o = drawn(scene)
    (head,) = result.heads("force")
    # Counterclockwise from −60° to 180°; clockwise is its mirror image, from 240° to 0°.
    side = 1 if clockwise else -1
    (head,) = result.heads("force")
    assert head[0] == at(o, 6 * side, 0)
    assert head[0][1] > (head[1][1] + head[2][1]) / 2  # it arrives downward on either side
    (arc,) = result.curves("force")
    assert (arc[0], arc[1]) == at(o, -3 * side, -5.19615)  # 6·cos 60°, 6·sin 60°


def test_a_leader_ends_at_its_tip() -> None:
    scene = Scene("", "")
    scene.leader((10, 0), (8, 6), "note")
    scene.leader((10, 0), (-8, 6), "dot", end="dot")
    result, o = drawn(scene)
    assert [at(o, 10, 0), at(o, 18, 6), at(o, 21, 6)] in result.lines("dimension")
    arrow, dot = sorted(result.heads("dimension"), key=len)
    assert arrow[0] == at(o, 10, 0)
    assert len(dot) == 12
    assert (float(result.words()["note"].attrib["x"]), result.words()["dot"].attrib["text-anchor"]) == (
        pytest.approx(o[0] + 22, abs=1e-3),
        "end",
    )
