"""The frame that the reader turns: what is in it comes back out, nothing escapes from it, nothing is fetched."""

import base64
import json
import re
from html.parser import HTMLParser

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.drawing.space import STANDARD, Line, Mark, Solid, View, view_frame
from tests.drawing.space_demo import BOX_FACES, box

HOSTILE = "</script></title><!--<script>alert(1)</script>&\"'"


class Reader(HTMLParser):
    """Tags with their attributes, and the text in each kind of tag."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: dict[str, str] = {}
        self._open = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._open = tag if tag != "script" else f"script {dict(attrs).get('type', '')}".strip()

    def handle_data(self, data: str) -> None:
        self.text[self._open] = self.text.get(self._open, "") + data


def inside(frame: str) -> str:
    [(tag, attributes)] = Reader(frame).tags
    assert tag == "iframe"
    assert attributes["srcdoc"] is not None
    return attributes["srcdoc"]


def data_of(frame: str) -> dict[str, object]:
    found: dict[str, object] = json.loads(Reader(inside(frame)).text["script application/json"])
    return found


def numbers(text: object, kind: str) -> np.ndarray:
    return np.frombuffer(base64.b64decode(str(text)), dtype=kind)


VIEW = View(
    [box("board", (-500, 0, 0), (500, 18, 300)), box("saw", (-100, -200, 0), (100, -20, 250), "ghost", 0.35)],
    [Line("axis", [(0, -110, 0), (0, -110, 400)], "red", dashed=True)],
    [Mark("turning axis", (0, -110, 400))],
    "A board behind a saw",
)


def test_corners_come_back_to_a_thirtieth_of_a_millimeter() -> None:
    low, high = VIEW.box
    reach = np.linalg.norm(high - low) / 2
    data = data_of(view_frame(VIEW, title="t"))
    for solid, given in zip(data["solids"], VIEW.solids, strict=True):  # type: ignore[arg-type, call-overload]
        corners = numbers(solid["corners"], "<i2").reshape(-1, 3) / 32_000 * reach + (low + high) / 2
        faces = numbers(solid["faces"], "<u2").reshape(-1, 3)
        expected = np.asarray(given.vertices)[BOX_FACES]
        assert np.sort(corners[faces].reshape(-1, 3), axis=0) == pytest.approx(
            np.sort(expected.reshape(-1, 3), axis=0), abs=reach / 64_000 + 1e-9
        )
        assert len(numbers(solid["edges"], "<i2")) == 12 * 2 * 3
    [line] = data["lines"]  # type: ignore[misc]
    assert numbers(line["segments"], "<i2").shape == (6,)
    [mark] = data["marks"]  # type: ignore[misc]
    assert np.array(mark["at"]) * reach + (low + high) / 2 == pytest.approx([0, -110, 400], abs=0.01)


def test_there_is_a_button_with_a_name_for_each_standard_view_and_a_still_as_fallback() -> None:
    page = Reader(inside(view_frame(VIEW, title="Saw")))
    views = [a["data-view"] for tag, a in page.tags if tag == "button" and "data-view" in a]
    assert views == list(STANDARD)
    assert [a["aria-label"] for tag, a in page.tags if "data-zoom" in a] == ["Enlarge", "Reduce"]
    tags = [tag for tag, _ in page.tags]
    assert tags.index("svg") < tags.index("canvas")
    live = next(a for tag, a in page.tags if a.get("id") == "live")
    assert "hidden" in live, "the still is what is seen until the script has begun"
    assert page.text["title"].startswith("Saw")


def test_nothing_is_fetched_and_scripts_of_others_do_not_run() -> None:
    [(_, attributes)] = Reader(view_frame(VIEW, title="t")).tags
    assert attributes["sandbox"] == "allow-scripts"
    page = inside(view_frame(VIEW, title="t"))
    assert "default-src 'none'" in page
    assert not re.search(r"https?:|//[a-z]|url\(|import |@import|fetch|XMLHttp|src=", page)


def test_text_is_escaped_twice() -> None:
    view = View([box(HOSTILE, (0, 0, 0), (1, 1, 1))], [], [Mark(HOSTILE, (0, 0, 0))], HOSTILE)
    frame = view_frame(view, title=HOSTILE)
    assert frame.count("<") == 2, "one tag, opened and closed"
    page = Reader(inside(frame))
    assert [tag for tag, _ in page.tags].count("script") == 2
    assert page.text["title"].startswith(HOSTILE)
    [mark] = data_of(frame)["marks"]  # type: ignore[misc]
    assert mark["text"] == HOSTILE
    assert not [name for _, attributes in page.tags for name in attributes if name.startswith("on")]


def test_the_same_view_gives_the_same_text() -> None:
    assert view_frame(VIEW, title="t") == view_frame(View(VIEW.solids, VIEW.lines, VIEW.marks, VIEW.title), title="t")


def test_sizes_stay_those_of_a_picture() -> None:
    """A hood of boards weighs 30 kB, an envelope of 16,000 faces a third of a megabyte."""
    assert len(view_frame(VIEW, title="t")) < 30_000
    ball = trimesh.creation.uv_sphere(radius=300, count=[90, 90])
    view = View([Solid("envelope", ball.vertices, np.asarray(ball.faces), "ghost", 0.3, crease=180)])
    assert 15_000 < view.face_count < 34_000
    assert len(view_frame(view, title="t")) < 24 * view.face_count


def test_more_than_65_535_corners_are_numbered_in_four_bytes() -> None:
    ball = trimesh.creation.uv_sphere(radius=300, count=[190, 190])
    [solid] = data_of(view_frame(View([Solid("b", ball.vertices, np.asarray(ball.faces), crease=180)]), title="t"))[
        "solids"
    ]  # type: ignore[misc]
    faces = numbers(solid["faces"], "<u4")
    assert solid["wide"] is True
    assert faces.max() == len(numbers(solid["corners"], "<i2")) // 3 - 1 > 65_535


def test_an_impossible_height_is_refused() -> None:
    with pytest.raises(KitError, match="between 120 and 4000 px"):
        view_frame(VIEW, height_px=0, title="t")
