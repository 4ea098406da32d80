"""Words stand where they were asked for while they are free, and never on one another."""

from math import pi

import pytest

from kit.drawing.annotate import notes
from kit.drawing.marks import Label
from kit.drawing.page import Page, lay_out
from kit.drawing.placing import overlaps, placed
from kit.drawing.primitives import AngleDimension, Arrow, Dimension, Leader, Moment, Note, Text
from kit.drawing.scene import Scene

KINDS: dict[str, Note] = {
    "dimension": Dimension((0, 0), (40, 0), 8, "ℓ = 40.0 mm"),
    "short dimension": Dimension((0, 0), (1, 0), 8, "ℓ = 1.0 mm"),
    "upright": Dimension((0, 0), (0, 40), 8, "h = 40.0 mm", "vertical"),
    "angle": AngleDimension((0, 0), (1, 0), (0, 1), 10, "α = 90.0°"),
    "leader": Leader((0, 0), (8, 8), "clamp"),
    "arrow": Arrow((0, 0), 0.0, "F = 60 N"),
    "double arrow": Arrow((0, 0), pi / 2, "travel", 12.0, "middle", True),
    "moment": Moment((0, 0), "T = 5 N·m"),
    "words": Text((0, 0), "a word", "right"),
    "words in the middle": Text((0, 0), "a word"),
    "turned words": Text((0, 0), "a word", angle=0.7),
}


def words(marks: object) -> list[Label]:
    return [mark for mark in marks if isinstance(mark, Label)]  # type: ignore[attr-defined]


@pytest.mark.parametrize("kind", KINDS)
def test_words_that_are_free_stay_where_they_were_asked_for(kind: str) -> None:
    far = Text((500, 500), "elsewhere")
    assert placed([KINDS[kind], far], 1.0, list) == [*notes(KINDS[kind], 1.0), *notes(far, 1.0)]


@pytest.mark.parametrize("kind", KINDS)
def test_twelve_times_the_same_are_twelve_words_apart(kind: str) -> None:
    twelve = [KINDS[kind]] * 12
    assert overlaps([mark for note in twelve for mark in notes(note, 1.0)])
    marks = placed(twelve, 1.0, list)
    assert len(words(marks)) == 12
    assert overlaps(marks) == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_dimension_keeps_its_place_and_the_others_give_way(kind: str) -> None:
    turned = notes(KINDS["dimension"], 1.0)
    (label,) = words(turned)
    in_the_way = Text(label.at, "something long in the way", "center")
    marks = placed([in_the_way, KINDS["dimension"]], 1.0, list)
    assert label in marks
    assert overlaps(marks) == []


def test_words_beside_rows_are_spread_in_their_order() -> None:
    rows: list[Note] = [Text((0, -2.0 * n), f"row {n}", "right") for n in range(5)]
    found = sorted(words(placed(rows, 1.0, list)), key=lambda label: -label.at[1])
    assert [label.text for label in found] == [f"row {n}" for n in range(5)]
    assert len({label.at[0] for label in found}) == 1, "all begin at one edge"


def test_of_two_free_places_the_one_without_a_line_is_taken() -> None:
    from kit.drawing.layers import Layer
    from kit.drawing.marks import Stroke

    one, other = Text((0, 0), "first", "right"), Text((0, 0), "second", "right")
    free = words(placed([one, other], 1.0, list))[1]
    y = free.at[1] + 1.0
    line = Stroke(Layer.OUTLINE, ((-100.0, y), (100.0, y)))
    moved = words(placed([one, other], 1.0, lambda: [line]))[1]
    assert moved.at != free.at


def test_what_gives_way_is_still_on_the_page() -> None:
    scene = Scene("", "")
    scene.rectangle((0, 0), (10, 10))
    for n in range(20):
        scene.text((5, 5), f"word {n}", "right")
    page: Page = lay_out(scene, 100.0, 60.0, legend=True)
    assert overlaps(page.marks) == []
    for label in words(page.marks):
        assert 0 <= label.at[0] <= page.width
        assert 0 <= label.at[1] <= page.height
