"""An excerpt runs by itself: it holds what is operated and what that rests on, and nothing else."""

from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

from tests.notebooks.excerpt import excerpt

CELLS = (
    "from kit import Lesson, exercise\nlesson = Lesson.open()",
    "unused = 1",
    "first = 2\nunused += 1",
    "steep = first + 1",
    "lesson.figure(steep)",
    "lesson.ask('bin', f'how_{steep}')",
    "lesson.panel('bin')",
    "lesson.ask('bin', 'and_now')",
    "lesson.panel('another')",
    "exercise('bin')",
)


def test_it_holds_what_is_operated_and_what_that_rests_on(tmp_path: Path) -> None:
    path = tmp_path / "lesson.ipynb"
    cells = [new_markdown_cell("# A lesson"), *map(new_code_cell, CELLS)]
    nbformat.write(new_notebook(cells=cells), path)
    kept = [cell["source"] for cell in nbformat.read(excerpt(path), as_version=nbformat.NO_CONVERT)["cells"]]
    assert kept == [CELLS[at] for at in (0, 2, 3, 5, 6, 9)]
