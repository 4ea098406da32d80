"""The job page without a browser: its widgets are pressed and filled as a person does."""

import asyncio
from collections.abc import Iterator
from pathlib import Path
from threading import Event, Thread, current_thread

import ipywidgets as w
import pytest

from kit.job import Job
from kit.job.arrange import add_part
from kit.job.folder import VARIABLE, copy_job, new_job, remember
from kit.ui.page import job_page
from kit.ui.page.file_links import file_links
from kit.ui.page.jobs_view import JobsView
from kit.ui.page.page import JobPage
from kit.ui.page.part_view import PartView
from kit.ui.page.parts_view import PartsView
from kit.ui.page.working import Told, Working
from kit.ui.panel.input_editors import RowsEditor
from tests import DATA


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def inside(widget: w.Widget) -> Iterator[w.Widget]:
    """Every widget that is shown below one, and itself."""
    yield widget
    for child in getattr(widget, "children", ()):
        yield from inside(child)


def press(page: w.Widget, label: str) -> None:
    """Press the one button that says so."""
    (found,) = [each for each in inside(page) if isinstance(each, w.Button) and each.description == label]
    assert not found.disabled
    found.click()


def words(page: w.Widget) -> str:
    return " ".join(each.value for each in inside(page) if isinstance(each, w.HTML))


def parts(page: JobPage) -> PartsView:
    assert isinstance(page.view, PartsView)
    return page.view


def part(page: JobPage) -> PartView:
    assert isinstance(page.view, PartView)
    return page.view


@pytest.fixture
def station(folder: Path) -> JobPage:
    """A job of three parts that take each other, on the page."""
    job = new_job("Saw", folder=folder)
    remember(job.path)
    page = job_page()
    for name in ("level.plane", "level.pads", "scale.cursor"):
        adding = parts(page).adding
        adding.add(name)
        page.show_parts()
    return page


def test_an_empty_folder_shows_the_jobs_and_offers_demos(folder: Path) -> None:
    page = job_page()
    assert isinstance(page.view, JobsView)
    assert list(folder.iterdir()) == [], "no demo is put there unasked"
    page.view.open_demo("schoolshop.toml")
    assert page.job.name == "School-shop drill bench"
    assert (folder / "schoolshop.toml").read_bytes() == (DATA / "schoolshop.toml").read_bytes()


def test_from_nothing_to_the_first_own_number(folder: Path) -> None:
    page = job_page()
    view = page.view
    assert isinstance(view, JobsView)
    view.name.value, view.units.value, view.goals["stop"].value = "Saw in a garage", "in", True
    press(page, "Make this job")
    press(page, "Tip error of a long stop block")
    field = part(page).panel.fields["push"]
    field.box.value = "75 N"
    assert 'push = "75 N"' in (folder / "saw_in_a_garage.toml").read_text()
    assert page.history is not None
    assert page.history.undoes == "sideways push of the work at the tip in Tip error of a long stop block"
    again = job_page()
    assert again.job.name == "Saw in a garage", "what was open last opens again"


def test_a_step_of_the_intake_is_undone_by_its_name(folder: Path) -> None:
    page = job_page()
    view = page.view
    assert isinstance(view, JobsView)
    view.name.value, view.goals["sweep"].value = "Saw in a garage", True
    press(page, "Make this job")
    press(page, "What hides between the positions")
    intake = part(page).intake
    assert intake is not None
    intake.forms["block"].button.click()
    assert page.history is not None
    assert page.history.undoes == "measured box in What hides between the positions"
    intake.undo.click()
    assert page.history.undoes == "undo measured box in What hides between the positions"


def test_a_job_without_a_name_is_asked_for_one(folder: Path) -> None:
    page = job_page()
    press(page, "Make this job")
    assert "needs a name" in page.message.value
    assert list(folder.iterdir()) == []


def test_jobs_are_renamed_and_copied(station: JobPage, folder: Path) -> None:
    station.show_jobs()
    assert isinstance(station.view, JobsView)
    (row,) = station.view.rows
    row.more.value, row.name.value = True, "Other saw"
    press(row, "Duplicate")
    assert Job.open(folder / "other_saw.toml").parts.keys() == station.job.parts.keys()
    (first, _) = station.view.rows
    first.more.value, first.name.value = True, "<b>Saw</b>"
    press(first, "Rename")
    assert "<b>Saw" not in words(station)
    press(station, "<b>Saw</b>")
    assert station.job.name == "<b>Saw</b>"


def test_a_job_that_cannot_be_read_is_shown_with_its_fault(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "mine.toml").write_text("format = 2\n[parts\n")
    monkeypatch.setenv(VARIABLE, "mine.toml")
    page = job_page()
    assert isinstance(page.view, JobsView)
    assert "mine.toml, line 2" in page.message.value


def test_the_job_that_was_named_is_opened_and_no_other(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    remember(new_job("one", folder=folder).path)
    other = new_job("two", folder=folder)
    monkeypatch.setenv(VARIABLE, str(other.path))
    assert job_page().job.name == "two"
    monkeypatch.setenv(VARIABLE, "gone.toml")
    page = job_page()
    assert isinstance(page.view, JobsView)
    assert "gone.toml" in page.message.value


def test_parts_say_their_verdict_what_they_take_and_what_is_an_example(station: JobPage) -> None:
    told = parts(station).rows["level_pads"].told.value
    assert station.job.verdict("level_pads").words in told.lower()
    assert "takes plane from Plane of the bed from three gaps" in told
    assert "values are examples" in told, "nobody has stated them yet"
    assert "<svg" in parts(station).rows["level_pads"].picture.value


def test_a_part_that_cannot_be_computed_does_not_hide_the_others(station: JobPage) -> None:
    path = station.job.path
    path.write_text(path.read_text().replace('plane = "level_plane"', 'plane = "gone"'))
    page = job_page()
    rows = parts(page).rows
    assert "gone" in rows["level_pads"].told.value
    assert "limit" in rows["scale_cursor"].told.value


def test_parts_are_changed_from_the_list_and_undone(station: JobPage) -> None:
    row = parts(station).rows["level_plane"]
    row.more.value, row.name.value = True, "Bed"
    press(row, "Rename")
    assert station.job.links("level_pads") == {"plane": "bed"}
    row = parts(station).rows["scale_cursor"]
    row.more.value = True
    press(row, "Move up")
    assert list(station.job.parts) == ["bed", "scale_cursor", "level_pads"]
    row = parts(station).rows["bed"]
    row.more.value = True
    press(row, "Remove")
    assert "plane of level_pads" in words(row)
    press(row, "Leave it")
    assert "bed" in station.job.parts
    press(row, "Remove")
    press(row, "Remove it")
    assert list(station.job.parts) == ["scale_cursor", "level_pads"]
    for what in ("removed", "moved", "renamed"):
        assert station.undo.description.startswith(f"Undo: {what}")
        station.undo.click()
    assert list(station.job.parts) == ["level_plane", "level_pads", "scale_cursor"]
    station.redo.click()
    assert list(station.job.parts) == ["bed", "level_pads", "scale_cursor"]


TILES = """\
format = 2
[parts.tiles]
model = "cutting.stock"
parts = [{ name = "tile", length = "200 mm", width = "100 mm", count = 2 }]
"""


def test_a_change_in_a_table_of_cells_is_undone_and_done_again_by_name(folder: Path) -> None:
    file = folder / "tiles.toml"
    file.write_text(TILES, encoding="utf-8")
    page = job_page()
    page.open_job(file)
    page.show_part("tiles")

    def count() -> w.Text:
        inputs = part(page).panel.inputs
        inputs.opened.value = True
        table = inputs.editors["parts"]
        assert isinstance(table, RowsEditor)
        return table.rows[0].cells["count"].widget

    before, old = file.read_text(), count().value
    count().value = str(int(old) + 1)
    changed = file.read_text()
    assert changed != before
    press(page, "Undo: parts to be cut in tiles")
    assert (file.read_text(), count().value) == (before, old)
    press(page, "Redo: parts to be cut in tiles")
    assert (file.read_text(), count().value) == (changed, str(int(old) + 1))


def test_a_question_finds_its_part(station: JobPage) -> None:
    adding = parts(station).adding
    adding.opened.value, adding.sought.value = True, "How high must pads be?"
    assert "How high must a pad be" in words(adding.found.children[0])
    press(adding.found.children[0], "Add")
    assert part(station).part == "level_pads_2"


def test_a_value_is_linked_from_a_list_of_what_fits_and_unlinked(station: JobPage) -> None:
    station.show_part("level_pads")
    links = part(station).links
    links.opened.value = True
    assert "plane from <b>level_plane</b>" in words(links)
    links.given.value = "given:depth"
    offered = [value for _, value in links.source.options]
    assert "level_plane.depth" in offered
    assert not any(value.startswith("level_pads.") for value in offered)
    links.source.value = "level_plane.depth"
    links.link()
    assert station.job.parts["level_pads"].givens["depth"].link == ("level_plane", "depth")
    before = station.job.case("level_pads").base["depth"]
    links = part(station).links
    links.opened.value = True
    (link,) = [
        each
        for each in inside(links)
        if isinstance(each, w.Button) and each.tooltip == f"unlink {station.job.model('level_pads').called('depth')}"
    ]
    link.click()
    assert station.job.parts["level_pads"].givens["depth"].link is None
    assert station.job.case("level_pads").base["depth"] == pytest.approx(before, abs=0.005)  # as it is shown


def test_hand_edits_are_met_by_a_question(station: JobPage) -> None:
    station.show_part("scale_cursor")
    panel = part(station).panel
    panel.fields["gap"].box.value = "2 mm"
    path = station.job.path
    path.write_text(path.read_text().replace('gap = "2 mm"', 'gap = "3 mm"'))
    panel.fields["gap"].box.value = "1.5 mm"
    assert 'gap = "3 mm"' in path.read_text(), "nothing is lost before the person has answered"
    press(panel, "Reload file")
    assert panel.fields["gap"].box.value == "3.0 mm"


def test_nothing_is_lost_unasked_while_an_entry_is_refused(station: JobPage) -> None:
    station.show_part("scale_cursor")
    view, path = part(station), station.job.path
    before = path.read_text()
    view.panel.fields["gap"].box.value = "wide"
    view.panel.fields["eye_offset"].box.value = "7 mm"
    assert path.read_text() == before
    station.to_parts.click()
    assert station.view is view
    assert "underside cannot be read" in words(view.asked), "called as beside its field"
    press(view.asked, "Stay here")
    station.to_parts.click()
    press(view.asked, "Save the rest and leave")
    parts(station)
    assert 'eye_offset = "7 mm"' in path.read_text()
    assert "wide" not in path.read_text()
    station.show_part("scale_cursor")
    part(station).panel.fields["gap"].box.value = "wide"
    station.undo.click()
    press(station, "Leave without it")
    assert "eye_offset" not in path.read_text(), "undo waits for the answer, and then is done"
    assert part(station).panel.fields["gap"].box.value != "wide"


def test_what_could_not_be_saved_is_asked_about_too(station: JobPage) -> None:
    station.show_part("scale_cursor")
    view, path = part(station), station.job.path
    view.panel.fields["gap"].box.value = "2 mm"
    path.write_text(path.read_text().replace('gap = "2 mm"', 'gap = "3 mm"'))
    view.panel.fields["gap"].box.value = "1.5 mm"
    station.to_jobs.click()
    assert station.view is view
    assert "underside could not be saved" in words(view.asked)
    press(view.asked, "Leave without it")
    assert isinstance(station.view, JobsView)
    assert 'gap = "3 mm"' in path.read_text()


def test_a_sheet_is_written_and_a_failing_limit_asks_first(station: JobPage, folder: Path) -> None:
    station.show_part("scale_cursor")
    view = part(station)
    view.panel.fields["eye_offset"].box.value = "1 mm"
    assert view.panel.judged.ok
    press(view.output, "Worked sheet")
    assert (folder / "sheets" / "scale_cursor.html").is_file()
    assert 'href="../../files/sheets/scale_cursor.html"' in view.output.working.said.value
    view.panel.fields["eye_offset"].box.value = "150 mm"
    assert not view.panel.judged.ok
    (folder / "sheets" / "scale_cursor.html").unlink()
    press(view.output, "Worked sheet")
    assert not (folder / "sheets" / "scale_cursor.html").exists()
    press(view.output, "Write it")
    assert (folder / "sheets" / "scale_cursor.html").is_file()


def test_the_files_of_a_part_come_with_their_names_and_can_be_stopped_between_two(
    station: JobPage, folder: Path
) -> None:
    """A stop is heard before the next file is written; what is written stays."""
    station.show_part(add_part(station.job, "hood.shape"))
    view = part(station)
    working = view.output.working
    told: list[str] = []
    at: list[float] = []

    def watch(change: dict[str, str]) -> None:
        if "writing" in change["new"]:
            told.append(change["new"])
        if len(told) == 3 and working.stop in working.head.children:
            working.stop.click()

    working.said.observe(watch, "value")
    working.bar.observe(lambda change: at.append(change["new"]), "value")
    press(view.output, "All files")
    if view.output.asked.children:
        press(view.output, "Write it")
    files = sorted(path.name for path in (folder / "sheets" / "files").iterdir())
    assert len(files) == 2, files
    assert all(any(name in words for words in told) for name in files)
    assert "stopped; what is written stays" in working.said.value
    assert at == sorted(at)
    assert working.stop not in working.head.children
    assert not any(each.disabled for each in working._buttons)


def test_what_begins_while_something_is_worked_takes_its_place() -> None:
    """Typed in a hurry, the last change is what is shown at the end."""
    shown: list[str] = []

    async def hurry() -> None:
        begun, may_end = Event(), Event()
        workers: list[Thread] = []
        working = Working([], "the station")
        working.said.observe(lambda change: shown.append(change["new"]), "value")

        def first(_told: Told) -> str:
            workers.append(current_thread())
            begun.set()
            may_end.wait()
            return "first"

        working.start(first)
        await asyncio.to_thread(begun.wait)
        working.start(lambda _told: "between")
        working.start(lambda _told: "last")
        may_end.set()
        await asyncio.to_thread(workers[0].join)

    asyncio.run(hurry())
    assert shown == ["last"]


def test_the_book_is_short_unless_the_page_asks_for_more(station: JobPage, folder: Path) -> None:
    station.show_parts()
    output = parts(station).output
    for full in (False, True):
        output.full.value = full
        output.write(failing=True)
        sheet = (folder / "book" / "scale_cursor.html").read_text(encoding="utf-8")
        assert ("<h2>Derivation</h2>" in sheet) is full


def test_a_link_to_a_file_is_escaped(tmp_path: Path) -> None:
    told = file_links([tmp_path / 'a "b" & <c>.html'], tmp_path)
    assert 'href="../../files/a%20%22b%22%20%26%20%3Cc%3E.html"' in told
    assert "<c>" not in told


def test_a_copied_demo_finds_the_files_it_names(folder: Path) -> None:
    job = copy_job(DATA / "boatshed.toml", folder=folder)
    assert not (folder / "scan").exists()
    assert job.build("saw_sweep") is not None


def test_a_job_is_set_beside_another_of_the_folder(station: JobPage) -> None:
    assert parts(station).comparing.children == (), "there is no other job"
    other = copy_job(station.job.path, "Saw, higher eye")
    other.set("scale_cursor", "eye_height", "600 mm")
    other.save()
    station.show_parts()
    press(station, "Compare")
    assert station.job.model("scale_cursor").called("eye_height") in words(parts(station).comparing)
    assert "600" in words(parts(station).comparing)


def test_the_lists_of_a_job_are_shown(station: JobPage) -> None:
    add_part(station.job, "support.shelf")
    station.show_parts()
    press(station, "Show the lists")
    told = words(parts(station).lists)
    assert "Weight" in told
    assert "one person" in told
