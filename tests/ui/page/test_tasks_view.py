"""The table of tasks on the page: what is typed is saved and undone, what is wrong is told beside it."""

from pathlib import Path

import pytest

from kit.job import Job
from kit.job.arrange import remove_part, rename_part
from kit.job.folder import VARIABLE, remember
from kit.job.tasks import work_of
from kit.ui.page import job_page
from kit.ui.page.page import JobPage
from kit.ui.page.parts_view import PartsView
from kit.ui.page.tasks_view import TasksView
from kit.ui.panel.input_editors import RowsEditor

HEAD = '# mine\nformat = 2\n[parts.shelf]\nmodel = "support.shelf"\n[parts.wing]\nmodel = "support.wing"\n'
TASKS = """
[work]
day = "3 h" # an evening

[[work.tasks]] # first of all
name = "saw"
part = "shelf"
takes = "2 ± 1 h"

[[work.tasks]]
name = "glue"
after = ["saw"]
takes = "0.5 h" # and more
dry = "12 h"
"""


def opened(folder: Path, monkeypatch: pytest.MonkeyPatch, text: str) -> JobPage:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.chdir(folder)
    path = folder / "job.toml"
    path.write_text(text)
    remember(path)
    page = job_page()
    shown(page).opened.value = True
    return page


def shown(page: JobPage) -> TasksView:
    assert isinstance(page.view, PartsView)
    return page.view.tasks


def table(page: JobPage) -> RowsEditor:
    rows = shown(page).editors["tasks"]
    assert isinstance(rows, RowsEditor)
    return rows


def enter(page: JobPage, row: int, **cells: str) -> None:
    for name, value in cells.items():
        table(page).rows[row].cells[name].widget.value = value


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> JobPage:
    return opened(tmp_path, monkeypatch, HEAD + TASKS)


def test_what_is_changed_is_saved_and_nothing_else(page: JobPage) -> None:
    enter(page, 1, takes="1 ± 0.5 h")
    assert page.job.path.read_text() == HEAD + TASKS.replace('"0.5 h" # and', '"1 ± 0.5 h" # and')
    enter(page, 0, part="wing", check="it is square", helpers="2")
    first = work_of(page.job.path).tasks[0]
    assert (first.part, first.check, first.helpers) == ("wing", "it is square", 2)
    assert "# first of all" in page.job.path.read_text()
    shown(page).editors["day"].cell.widget.value = "4 h"  # type: ignore[union-attr]
    assert 'day = "4 h" # an evening' in page.job.path.read_text()


def test_tasks_are_added_moved_and_removed_with_undo(page: JobPage) -> None:
    table(page).add()
    assert len(work_of(page.job.path).tasks) == 2, "an empty row is no task yet"
    enter(page, 2, name="oil", takes="1 h")
    assert page.history is not None
    assert page.history.undoes == "added the task oil"
    enter(page, 2, after="glue; saw")
    assert work_of(page.job.path).tasks[2].after == ("glue", "saw")
    assert page.history.undoes == "changed the task oil"
    table(page).raise_(table(page).rows[2])
    assert [each.name for each in work_of(page.job.path).tasks] == ["saw", "oil", "glue"]
    assert page.history.undoes == "moved a task"
    table(page).remove(table(page).rows[1])
    assert [each.name for each in work_of(page.job.path).tasks] == ["saw", "glue"]
    assert page.history.undoes == "took out the task oil"
    for _ in range(4):
        page.undo.click()
    assert page.job.path.read_text() == HEAD + TASKS
    assert len(table(page).rows) == 2, "the table stays open and says what holds again"
    page.redo.click()
    assert len(work_of(page.job.path).tasks) == 3


def test_a_task_with_another_name_is_still_waited_for(page: JobPage) -> None:
    enter(page, 0, name="saw the <boards>")
    assert work_of(page.job.path).tasks[1].after == ("saw the <boards>",)
    assert table(page).rows[1].cells["after"].widget.value == "saw the <boards>"
    assert "saw the &lt;boards&gt;" in shown(page).told.value


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ({"after": "glue"}, "wait for each other in a circle"),
        ({"after": "sow"}, "did you mean &#x27;saw&#x27;"),
        ({"takes": ""}, "takes is not stated"),
        ({"takes": "2 kg"}, "takes"),
        ({"name": "glue"}, "two rows of tasks are called &#x27;glue&#x27;"),
    ],
)
def test_what_is_wrong_is_told_at_its_row_and_the_rest_still_drawn(
    page: JobPage, cells: dict[str, str], words: str
) -> None:
    before = page.job.path.read_text()
    enter(page, 0, **cells)
    assert words in "".join(row.told for row in table(page).rows)
    assert page.job.path.read_text() == before
    assert "<svg" in shown(page).told.value
    assert "glue" in shown(page).told.value


def test_the_first_task_of_a_job_and_the_last_one_taken_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(tmp_path, monkeypatch, HEAD)
    table(page).add()
    enter(page, 0, name="saw", takes="1 h", part="shelf")
    assert page.job.path.read_text().startswith(HEAD)
    assert "[[work.tasks]]\n" in page.job.path.read_text()
    shown(page).editors["day"].cell.widget.value = "2 h"  # type: ignore[union-attr]
    assert work_of(page.job.path).day == 7200.0
    table(page).remove(table(page).rows[0])
    assert work_of(page.job.path).tasks == ()
    assert Job.open(page.job.path).parts.keys() == {"shelf", "wing"}


def test_tasks_changed_by_hand_meanwhile_are_not_written_over(page: JobPage) -> None:
    path = page.job.path
    path.write_text(path.read_text().replace('"12 h"', '"20 h"'))
    enter(page, 0, takes="3 h")
    assert "were changed meanwhile" in page.message.value
    assert "3 h" not in path.read_text().partition("[[work.tasks]]")[2]
    assert '"20 h"' in path.read_text()


def test_a_part_that_is_renamed_or_taken_out_leaves_no_task_at_fault(page: JobPage) -> None:
    rename_part(page.job, "shelf", "Oar shelf")
    work = work_of(page.job.path)
    assert (work.tasks[0].part, work.faults) == ("oar_shelf", ())
    remove_part(page.job, "oar_shelf")
    work = work_of(page.job.path)
    assert (work.tasks[0].part, work.faults) == ("", ())
