"""Inline SVG: fits its box, escapes, repeats safely on a page, stays valid HTML."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.drawing.scene import Layer, Scene
from kit.drawing.svg import PIXELS_PER_MM, svg
from tests.drawing.demo import beam, corner, page, typical
from tests.drawing.reading import read
from tests.markup import errors

SCENES = [beam, corner, typical]


@pytest.mark.parametrize("draw", SCENES)
@pytest.mark.parametrize("width", [380, 640, 800])
def test_the_picture_fills_its_width_and_no_more(draw: Callable[[], Scene], width: int) -> None:
    drawn = read(svg(draw(), width))
    if width >= 640:  # in a narrow box the captions side by side ask for more and everything shrinks a little
        assert drawn.box[2] == pytest.approx(width / PIXELS_PER_MM, abs=0.25)
    assert float(drawn.root.attrib["width"]) == width
    xs = [x for kind in drawn.kinds() if kind != "words" for line in drawn.lines(kind) for x, _ in line]
    ys = [y for kind in drawn.kinds() if kind != "words" for line in drawn.lines(kind) for _, y in line]
    assert min(xs) >= 0
    assert max(xs) <= drawn.box[2]
    assert min(ys) >= 0
    assert max(ys) <= drawn.box[3]


@pytest.mark.parametrize("length", [100.0, 333.0, 600.0, 5000.0])
def test_a_box_of_given_height_stands_still(length: float) -> None:
    drawn = read(svg(typical(length), 640, 360))
    assert float(drawn.root.attrib["width"]) == 640
    assert float(drawn.root.attrib["height"]) == pytest.approx(360, abs=0.1)
    assert drawn.box[2] / drawn.box[3] == pytest.approx(640 / 360, rel=1e-3)


def test_a_slim_part_uses_the_width_it_has() -> None:
    scene = Scene("Bar", "A bar without notes.")
    scene.rectangle((0, 0), (1000, 10))
    (bar,) = read(svg(scene, 640, legend=False)).lines("outline")
    # 640 px are 169.33 mm, less 2.5 mm on each side; the scale may be 0.1 % off.
    assert bar[1][0] - bar[0][0] == pytest.approx(164.33, rel=2e-3)
    assert bar[1][0] - bar[0][0] == pytest.approx(100 * (bar[0][1] - bar[2][1]), rel=0.01)


def test_words_and_arrowheads_keep_their_size() -> None:
    small, large = (read(svg(corner(), width)) for width in (500, 1000))
    assert small.words()["120 mm"].attrib["font-size"] == large.words()["120 mm"].attrib["font-size"] == "3.49"
    sizes = [
        sorted(
            round(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5, 1)
            for a, b, _ in [head for head in drawn.heads("dimension") if len(head) == 3]
        )
        for drawn in (small, large)
    ]
    assert sizes[0] == sizes[1]


def test_user_words_are_escaped_everywhere() -> None:
    bad = """</title><script>alert("1")</script>'&"""
    scene = Scene(bad, bad, caption=bad)
    scene.line((0, 0), (1, 1))
    scene.text((0, 0), bad)
    scene.text((0, 0), f"F_{{{bad}}}")
    scene.dim((0, 0), (1, 1), 5, bad)
    scene.explain(Layer.OUTLINE, bad)
    text = svg(scene)
    assert "<script" not in text
    drawn = read(text)
    assert drawn.root.findtext("title") == bad
    assert drawn.root.findtext("desc") == bad
    assert bad in drawn.words()


def test_subscripts_are_lowered_and_what_follows_rises_again() -> None:
    scene = Scene("", "")
    scene.text((0, 0), "F_{1}_{2} = 3 N")
    (text,) = read(svg(scene)).root.iter("text")
    spans = [(span.text, span.attrib.get("dy"), span.attrib.get("font-size")) for span in text]
    assert text.text == "F"
    # A quarter and 70 % of the font size of 2.5 mm capitals (3.49 mm).
    assert spans == [("1", "0.87", "2.44"), ("2", None, "2.44"), (" = 3 N", "-0.87", None)]


def test_ids_come_from_the_caller_and_style_from_the_kit() -> None:
    texts = [svg(corner(), ids=name) for name in ("a", "b")]
    ids = [re.findall(r' id="([^"]*)"', text) for text in texts]
    assert ids == [["a-title", "a-desc"], ["b-title", "b-desc"]]
    assert 'aria-labelledby="a-title a-desc"' in texts[0]
    assert texts[0].replace("a-title", "b-title").replace("a-desc", "b-desc") == texts[1]
    selectors = re.findall(r"([^{}@]+)\{", re.search(r"<style>(.*)</style>", svg(beam()))[1])  # type: ignore[index]
    assert all(".fw-drawing" in selector for selector in selectors if not selector.startswith(("media", "screen")))


@pytest.mark.parametrize("ids", ["", "1a", "a b", 'a"', "a.b"])
def test_bad_ids_are_refused(ids: str) -> None:
    with pytest.raises(KitError, match="use a letter"):
        svg(Scene("", ""), ids=ids)


@pytest.mark.parametrize("box", [(0, None), (-1, None), (float("nan"), None), (640, 0), (640, float("inf"))])
def test_a_box_without_size_is_refused(box: tuple[float, float | None]) -> None:
    with pytest.raises(KitError, match="must be more than 0 px"):
        svg(Scene("", ""), *box)


def test_numbers_carry_at_most_two_decimals() -> None:
    body = svg(typical()).split("</style>")[1]
    assert re.search(r"\d\.\d{3}", body) is None
    assert "e-" not in " ".join(re.findall(r' d="([^"]*)"', body))
    assert "nan" not in body


def test_the_legend_names_the_kinds_in_use_and_no_others() -> None:
    scene = Scene("", "")
    scene.line((0, 0), (100, 0))
    scene.line((0, 5), (100, 5), Layer.HIDDEN)
    scene.explain(Layer.HIDDEN, "slot under the face")
    scene.text((0, 0), "words need no legend")
    assert set(read(svg(scene)).words()) == {"words need no legend", "visible outline", "slot under the face"}
    assert set(read(svg(scene, legend=False)).words()) == {"words need no legend"}
    scene.dim((0, 0), (100, 0), 8, "100")
    assert "dimension or note" in read(svg(scene)).words()


def _empty() -> Scene:
    return Scene("Nothing", "Nothing is drawn.")


def _point() -> Scene:
    scene = Scene("Point", "Everything has shrunk to a point.")
    scene.line((3, 3), (3, 3))
    scene.circle((3, 3), 0)
    scene.polyline([(3, 3), (3, 3)], closed=True)
    scene.dim((3, 3), (3, 3), 8, "0 mm")
    scene.dim((3, 3), (3, 3), 8, "0 mm", along="vertical")
    scene.angle((3, 3), (3, 3), (3, 3), 8, "0°")
    scene.hatch([[(3, 3), (3, 3), (3, 3)]])
    return scene


def _flat() -> Scene:
    scene = Scene("Flat", "A line without height, far from the origin.")
    scene.line((1e9, 1e9), (1e9 + 1, 1e9))
    return scene


@pytest.mark.parametrize("draw", [_empty, _point, _flat])
@pytest.mark.parametrize("box", [(640, None), (640, 300), (20, 10)])
def test_degenerate_scenes_still_render(draw: Callable[[], Scene], box: tuple[float, float | None]) -> None:
    text = svg(draw(), *box)
    drawn = read(text)
    assert drawn.box[2] > 0
    assert drawn.box[3] > 0
    assert "nan" not in text
    assert "inf" not in text.split("</desc>")[1]


def test_the_same_scene_gives_the_same_text() -> None:
    assert svg(beam()) == svg(beam())


def test_the_html_checker_finds_no_fault(checker: list[str], tmp_path: Path) -> None:
    pictures = [svg(draw(), ids=f"p{k}") for k, draw in enumerate([*SCENES, _empty, _point])]
    file = tmp_path / "page.html"
    file.write_text(page(pictures), encoding="utf-8")
    assert errors(checker, [file]) == []
