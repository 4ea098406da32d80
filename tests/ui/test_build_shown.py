"""What a work made, in a panel, a sheet and a book."""

import asyncio
import time
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.job import Job
from kit.job.build import build
from kit.sheet.book import write_book
from kit.sheet.book_parts import write_part
from kit.sheet.book_record import NAME, file_digest
from kit.ui.lesson import Lesson
from kit.ui.panel import Panel, panel, settling
from tests.job.test_build import write


@pytest.fixture
def gauge(works: Path, monkeypatch: pytest.MonkeyPatch) -> Panel:
    monkeypatch.chdir(works)
    return panel(job=write(works), part="gauge")


def sound(works: Path) -> Job:
    """The same job with a gauge that meets its limits: 108 over 200 is the tangent of 28.37 degrees."""
    job = write(works)
    job.set("gauge", "wanted", "28.4 deg")
    job.set("gauge", "allowed", "0.5 deg")
    return job


def words(html: str) -> str:
    """The text of a piece of HTML; anything that was not escaped is missing from it."""
    found: list[str] = []

    class Reader(HTMLParser):
        def handle_data(self, data: str) -> None:
            found.append(data)

    Reader().feed(html)
    return " ".join(" ".join(found).split())


def test_the_shape_follows_the_givens(gauge: Panel) -> None:
    assert gauge.build_view is not None
    assert "108.0 mm" in words(gauge.build_view.numbers.value)
    assert "<svg" in gauge.build_view.slots[0].html.value
    gauge.change("rise", "120 mm")
    assert "120.0 mm" in words(gauge.build_view.numbers.value)


def test_the_verdict_counts_the_limits_of_the_shape(gauge: Panel) -> None:
    met = words(gauge.verdict.value)
    gauge.change("rise", "160 mm")
    assert "to mend it, make it smaller" not in met
    assert "The disk is 1 mm of 2 mm & less; to mend it, make it smaller." in words(gauge.verdict.value)


def test_what_is_proposed_goes_into_the_fields(gauge: Panel) -> None:
    assert gauge.build_view is not None
    gauge.build_view.propose()
    assert gauge.case["rise"].value == 50
    assert "Proposed: rise, square to the line 50 mm" in words(gauge.build_view.message.value)
    assert "rise" in gauge.saving.unsaved


def test_what_was_proposed_stands_until_a_control_moves(gauge: Panel) -> None:
    assert gauge.build_view is not None
    gauge.build_view.propose()
    gauge.build_view.settling.now()  # as once the controls rest
    assert "Proposed: rise" in words(gauge.build_view.message.value)
    gauge.change("rise", "120 mm")
    assert "Proposed" not in gauge.build_view.message.value


def test_a_task_runs_beside_and_its_answer_is_shown(gauge: Panel) -> None:
    assert gauge.build_view is not None
    gauge.build_view.start("Work it exactly")
    for _ in range(200):
        if "done." in gauge.build_view.message.value:
            break
        time.sleep(0.02)
    assert "109.0 mm" in words(gauge.build_view.numbers.value)
    assert gauge.build_view.stop.disabled


def test_files_are_written_beside_the_sheets(works: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(works)
    gauge = panel(job=sound(works), part="gauge")
    assert gauge.build_view is not None
    gauge.build_view.write()
    assert Path("sheets/files/gauge.txt").read_text() == "108.000"
    assert "Wrote sheets/files/gauge.txt" in words(gauge.build_view.message.value)


def test_a_fault_is_told_in_place_of_the_shape_and_the_numbers_stay(works: Path) -> None:
    job = write(works)
    job.path.write_text(job.path.read_text().replace('paper = "paper.txt"', "broken = true"))
    shown = panel(job=Job.open(job.path), part="gauge")
    assert shown.build_view is not None
    assert words(shown.build_view.message.value) == "The disk <is> broken; mend it."
    assert shown.build is None
    assert "fw-verdict" in shown.verdict.value


def test_the_sheet_shows_all_of_it(gauge: Panel) -> None:
    html = gauge.export(Path()).read_text(encoding="utf-8")
    text = words(html)
    for told in (
        "Width <across>",
        "mind the <edge>",
        "<one>",
        "The disk. A round one.",
        "1 mm of 2 mm & less",
    ):
        assert told in text


def test_a_panel_and_the_job_sign_the_same_inputs_alike(gauge: Panel) -> None:
    assert gauge.job is not None
    same = build(gauge.job, "gauge")
    assert same is not None
    assert same.inputs in words(gauge.export(Path()).read_text(encoding="utf-8"))


def test_the_book_writes_the_files_and_links_them(works: Path) -> None:
    write_book(sound(works), works / "book", date="2026-05-02")
    assert (works / "book" / "files" / "gauge.txt").read_text() == "108.000"
    sheet = (works / "book" / "gauge.html").read_text(encoding="utf-8")
    assert 'href="files/gauge.txt"' in sheet
    assert "Exactly 109.0 mm" in words(sheet)  # the book takes the task's answer


def test_a_lesson_shows_pieces_of_it(works: Path) -> None:
    job, lesson = write(works), Lesson()
    assert "108.0 mm" in words(lesson.build(job, "gauge").html)
    assert "<svg" in lesson.picture(job, "gauge", "disk").html
    assert lesson.picture(job, "gauge", "disk", "disk").html.count("<svg") == 2
    assert "<one>" in words(lesson.rows(job, "gauge", "Disks").html)
    with pytest.raises(KitError, match="bend has no geometry"):
        lesson.picture(job, "bend", "disk")


def test_a_moving_control_gets_a_coarse_shape_and_a_resting_one_the_fine(
    gauge: Panel, monkeypatch: pytest.MonkeyPatch
) -> None:
    view = gauge.build_view
    assert view is not None
    made = view.builder
    monkeypatch.setattr(view, "builder", lambda inputs: replace(made(inputs), coarse=inputs.quick))
    monkeypatch.setattr(settling, "REST", 0.01)
    gauge.change("rise", "110 mm")
    assert view.build is not None
    assert not view.build.coarse, "nobody moves anything where no loop runs"

    async def moved_and_rested() -> list[bool]:
        gauge.change("rise", "120 mm")
        first = view.build is not None and view.build.coarse
        for _ in range(200):
            if view.build is not None and not view.build.coarse:
                break
            await asyncio.sleep(0.01)
        gauge.change("rise", "130 mm")
        signed = view.signed()
        return [first, view.build is not None and view.build.coarse, signed is not None and signed.coarse]

    assert asyncio.run(moved_and_rested()) == [True, False, False]
    assert "130.0 mm" in words(view.numbers.value)


def test_tables_are_written_when_they_are_opened(gauge: Panel) -> None:
    assert gauge.build_view is not None
    assert gauge.build_view.build is not None
    assert gauge.build_view.build.tables
    assert gauge.build_view.tables.value == ""
    gauge.build_view.more.selected_index = 0
    assert "<table" in gauge.build_view.tables.value
    gauge.build_view.tables.value = ""
    gauge.change("rise", "120 mm")
    assert "<table" in gauge.build_view.tables.value


def test_the_files_of_a_part_that_fails_are_written_only_when_told_so(works: Path) -> None:
    job = sound(works)
    job.set("gauge", "rise", "160 mm")
    write_book(job, works / "book", date="2026-05-02")
    assert not (works / "book" / "files").exists()
    sheet = (works / "book" / "gauge.html").read_text(encoding="utf-8")
    assert "Not written, as a limit of this part fails" in words(sheet)
    assert 'content: "LIMIT FAILS' in sheet, "in the foot of each printed page"
    write_book(job, works / "book", date="2026-05-02", failing=True)
    assert (works / "book" / "files" / "gauge.txt").exists()


def test_files_of_an_earlier_book_do_not_outlive_a_limit_that_fails(works: Path) -> None:
    """What the book wrote goes; what a person changed since, or put there, stays."""
    job, files = sound(works), works / "book" / "files"
    write_book(job, works / "book", date="2026-05-02")
    (files / "gauge.mine.txt").write_text("mine", encoding="utf-8")
    job.set("gauge", "rise", "160 mm")
    write_book(job, works / "book", date="2026-05-03")
    assert [path.name for path in files.iterdir()] == ["gauge.mine.txt"]
    write_book(job, works / "book", date="2026-05-04", failing=True)
    (files / "gauge.txt").write_text("changed by hand", encoding="utf-8")
    write_part(job, "gauge", works / "book")
    assert {path.name for path in files.iterdir()} == {"gauge.mine.txt", "gauge.earlier.txt"}
    assert (files / "gauge.earlier.txt").read_text(encoding="utf-8") == "changed by hand"
    job.set("gauge", "rise", "108 mm")
    write_part(job, "gauge", works / "book")
    job.set("gauge", "rise", "160 mm")
    write_part(job, "gauge", works / "book")
    assert not (files / "gauge.txt").exists()


def test_a_record_takes_nothing_away_outside_its_folder(works: Path) -> None:
    write_book(sound(works), works / "book", date="2026-05-02")
    outside, record = works / "mine.txt", works / "book" / NAME
    outside.write_text("mine", encoding="utf-8")
    told = record.read_text(encoding="utf-8")
    told = told.replace('"files": {', f'"files": {{"../mine.txt": "{file_digest(outside)}", ', 1)
    record.write_text(told, encoding="utf-8")
    job = sound(works)
    job.set("gauge", "rise", "107 mm")
    write_book(job, works / "book", date="2026-05-03")
    assert "mine.txt" not in record.read_text(encoding="utf-8")
    assert outside.exists()


def test_a_panel_asks_before_it_writes_the_files_of_a_part_that_fails(
    works: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(works)
    gauge = panel(job=sound(works), part="gauge")
    view = gauge.build_view
    assert view is not None
    gauge.change("rise", "160 mm")
    view.files.click()
    assert "write its files all the same" in view.message.value
    yes, no = view.asking.children
    assert not (works / "sheets").exists()
    no.click()
    assert view.asking.children == ()
    assert not (works / "sheets").exists()
    view.files.click()
    yes.click()
    assert (works / "sheets" / "files" / "gauge.txt").exists()
    assert "each says which limit fails" in view.message.value
    gauge.change("rise", "108 mm")
    view.files.click()
    assert view.asking.children == ()
    assert "Wrote" in view.message.value
