"""A network on paper: what follows stands below, lines pass beside boxes, nothing leaves the sheet."""

import random
import re

import networkx as nx
import pytest
from shapely import LineString
from shapely.geometry import box as rectangle

from kit.drawing.layered import layered
from kit.drawing.network_svg import GAP, TALL, WIDE, Box, network_svg

WORDS = ("glue", "the", "hood", "boards", "with", "tape", "and", "clamps,", "saw", "the", "long", "stop,", "sew", "it")


def drawn_at_random(seed: int, count: int) -> list[Box]:
    draw = random.Random(seed)
    names = [f"{k} {' '.join(draw.sample(WORDS, draw.randint(2, 7)))}" for k in range(count)]
    return [
        Box(name, name, "2 ± 0.5 h, dries 12 h", tuple(draw.sample(names[:k], min(k, draw.randint(0, 3)))))
        for k, name in enumerate(names)
    ]


@pytest.mark.parametrize("seed", range(20))
def test_rows_go_down_along_every_line_and_hold_no_more_than_wanted(seed: int) -> None:
    boxes = drawn_at_random(seed, 25)
    found = layered({box.name: box.after for box in boxes}, most=4)
    row_of = {node: k for k, row in enumerate(found.rows) for node in row}
    assert all(row_of[other] < row_of[box.name] for box in boxes for other in box.after)
    assert max(sum(isinstance(node, str) for node in row) for row in found.rows) <= 4
    for way in found.ways.values():
        assert [row_of[node] for node in way] == list(range(row_of[way[0]], row_of[way[-1]] + 1))
    # networkx.dag_longest_path: no row less than the longest chain has boxes
    graph = nx.DiGraph([(other, box.name) for box in boxes for other in box.after])
    assert len(found.rows) >= len(nx.dag_longest_path(graph))


def _numbers(text: str) -> list[float]:
    return [float(each) for each in re.findall(r"-?\d+\.?\d*", text)]


@pytest.mark.parametrize("seed", range(20))
def test_lines_pass_beside_boxes_and_words_stay_in_them(seed: int) -> None:
    boxes = drawn_at_random(seed, 25)
    svg = network_svg(boxes, [], title="t", words="w", ids="n")
    found = [_numbers(each)[:4] for each in re.findall(r"<rect [^>]*>", svg)]
    assert len(found) == 25
    rects = [rectangle(x, y, x + wide, y + tall) for x, y, wide, tall in found]
    assert all(rect.bounds[0] >= 0 and rect.bounds[2] <= WIDE for rect in rects)
    for one, rect in enumerate(rects):
        assert all(rect.distance(other) >= GAP - 0.05 for other in rects[one + 1 :])
    lines = re.findall(r'<polyline points="([^"]*)"', svg)
    assert len(lines) >= sum(len(box.after) for box in boxes)
    for points in lines:
        numbers = _numbers(points)
        line = LineString(zip(numbers[::2], numbers[1::2], strict=True))
        assert all(line.intersection(rect).length < 0.05 for rect in rects)


def test_a_long_chain_goes_on_over_sheets_and_no_box_is_cut() -> None:
    names = [f"task {k}" for k in range(40)]
    boxes = [Box(name, name, "1 h", (names[k - 1],) if k else ()) for k, name in enumerate(names)]
    sheets = network_svg(boxes, names, title="Network", words="w", ids="n").split("<svg")[1:]
    assert len(sheets) > 1
    seen = 0
    for number, sheet in enumerate(sheets, 1):
        _, top, wide, tall = _numbers(re.findall(r'viewBox="([^"]*)"', sheet)[0])
        assert (wide, tall <= TALL) == (WIDE, True)
        for rect in re.findall(r"<rect [^>]*>", sheet):
            _, y, _, high = _numbers(rect)[:4]
            assert top < y
            assert y + high < top + tall
            seen += 1
        assert f"Network, {number} of {len(sheets)}" in sheet
    assert seen == 40


def test_what_is_heavy_is_so_without_color_and_words_are_escaped() -> None:
    boxes = [Box("a", "a <b>", "1 h", ()), Box("c", "c", "1 h", ("a",)), Box("d", "d", "1 h", ("a",))]
    svg = network_svg(boxes, ["a", "c"], title="t", words="w & w", ids="n")
    assert "<b>" not in svg
    assert "w &amp; w" in svg
    widths = re.findall(r'stroke-width="([^"]*)"', svg)
    assert sorted(widths) == ["0.3", "0.3", "0.9", "0.9", "0.9"]
    assert set(re.findall(r'(?:stroke|fill)="([^"]*)"', svg)) == {"currentColor", "none"}
    assert network_svg([], [], title="t", words="w", ids="n") == ""
