"""What a notebook shows of a model, read as a reader reads it: the text between the tags."""

import re
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.job import open_job
from kit.job.build import standalone
from kit.subjects import model, subject
from kit.ui.lesson import Lesson, Shown, against
from tests.core.model.small import blank


def text(shown: Shown) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", shown._repr_html_()).split())


@pytest.fixture
def lesson() -> Lesson:
    return Lesson()


def test_the_lesson_itself_brings_the_style(lesson: Lesson) -> None:
    assert ".fw-ask" in lesson._repr_html_()
    assert "millimeters" in lesson._repr_html_()
    assert "inches" in Lesson(Display(system="in"))._repr_html_()


def test_nothing_shown_carries_a_test_id_which_belong_to_the_live_panel(lesson: Lesson) -> None:
    case = model("stop.deflection").at()
    pieces = [
        lesson.figure(case),
        lesson.givens(case),
        lesson.step(case, "tip_error"),
        lesson.results(case),
        lesson.budget(case, "tip_error"),
    ]
    for piece in pieces:
        assert "data-testid" not in piece.html
        assert "data-testid" not in repr(piece)
        assert len(repr(piece)) < 80


def test_two_figures_on_one_page_have_ids_of_their_own(lesson: Lesson) -> None:
    case = model("bevel.frame").at()
    first, second = (set(re.findall(r' id="([^"]+)"', lesson.figure(case).html)) for _ in range(2))
    assert first
    assert not first & second


def test_numbers_come_in_the_units_of_the_reader() -> None:
    case = model("stop.deflection").at(long_reach="2 ft")
    assert "609.6 ± 1 mm" in text(Lesson().givens(case))  # 2 ft by definition
    assert "24 ±" in text(Lesson(Display(system="in")).givens(case))


def test_the_dimension_check_names_each_part_and_both_sides(lesson: Lesson) -> None:
    shown = lesson.dimensions(model("stop.deflection").at(), "bending_tip")
    assert "length·mass/time<sup>2</sup>" in shown.html  # a force
    assert "length<sup>3</sup>·mass/time<sup>2</sup>" in shown.html  # E I: force times area
    assert "is stated in mm: length too" in text(shown)


def test_terms_of_a_sum_are_checked_one_by_one_and_no_symbol_twice(lesson: Lesson) -> None:
    html = lesson.dimensions(model("bevel.frame").at(), "short_edge").html
    assert html.count("<tr>") - 1 == 4  # the top edge rests on width, miter and bottom edge, and one term is no symbol


def test_the_budget_is_read_in_words(lesson: Lesson) -> None:
    # two unit sensitivities: 3 and 4 make 5; the larger one brings 16/25 of the variance
    m = blank("sum")
    a = m.given("a", "a", "10 ± 3 mm", (0, 100), "first rod")
    m.measured(spread="normal", k=1)
    b = m.given("b", "b", "10 ± 4 mm", (0, 100), "second rod")
    m.measured(spread="normal", k=1)
    m.result("c", "c", "mm", "both")
    m.equals(a + b, "rods lie end to end")
    m.result("d", "d", "mm", "one twice")
    m.equals(2 * b, "twice")
    case = m.done().at()
    read = text(lesson.budget(case, "c"))
    assert "Second rod brings 64 % of the variance. Known exactly, it would leave ± 6 mm of the ± 10 mm" in read
    assert "Nothing else matters beside it" in text(lesson.budget(case, "d"))
    exact = case.with_(a="10 ± 0 mm", b="10 ± 0 mm")
    assert "No uncertainty is stated" in text(lesson.budget(exact, "c"))


def test_ours_and_published_side_by_side(lesson: Lesson) -> None:
    # the hypotenuse of 3, 4, 5 as the slant height of a pyramid
    case = model("bevel.hood").at(
        base_x="1000 mm", base_y="1000 mm", top_x="400 mm", top_y="400 mm", height="400 mm",
        offset_x="0 mm", offset_y="0 mm",
    )  # fmt: skip
    right = against(case, "width_front", "500 mm", within="0.5 mm", source="triangle 3, 4, 5 <by hand>")
    wrong = against(case, "width_front", "501.2 mm", within="0.5 mm", source="wrong on purpose")
    assert right.agrees
    assert not wrong.agrees
    assert wrong.difference == pytest.approx(-1.2, rel=1e-9)
    read = text(lesson.comparison([right, wrong]))
    assert "500.0 mm 500 mm +0.00 mm ± 0.5 mm ✓ yes" in read
    assert "500.00 mm 501.2 mm −1.200 mm ± 0.5 mm ✗ no" in read
    assert "&lt;by hand&gt;" in lesson.comparison([right]).html


def test_a_published_value_of_another_kind_is_refused() -> None:
    case = model("bevel.frame").at()
    with pytest.raises(KitError, match="angle"):
        against(case, "miter", "31.6 mm", within="0.05 deg", source="nowhere")
    with pytest.raises(KitError, match="did you mean 'miter'"):
        against(case, "mitre", "31.6 deg", within="0.05 deg", source="nowhere")


def test_parts_of_a_job_with_their_verdicts(lesson: Lesson, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    job = open_job("boatshed.toml")
    job.set("long_stop", "allowed", "0.02 mm")
    shown = lesson.parts(job)
    for part in job.parts.values():
        assert part.title in shown.html.replace("&#x27;", "'")
    assert "✗ 1 of 3 limits fails; 16 of 22 values are examples, not yet yours." in text(shown)


def test_what_a_task_has_made_is_shown_by_its_pictures(lesson: Lesson) -> None:

    work = subject("cutting.stock")
    assert work is not None
    packed = work.build(standalone(model("cutting.stock").at(), Display()))
    assert "20 parts" in text(lesson.shape(packed, "layout"))
    with pytest.raises(KitError, match="no picture 'lay'"):
        lesson.shape(packed, "lay")
