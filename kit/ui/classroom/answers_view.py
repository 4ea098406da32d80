"""What a class answered: a table of the pupils, the common mistakes, and all of it as a file for a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from pathlib import Path

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.teach.answers import FOLDER, Answer, as_csv, common_mistakes, read_class, standings
from kit.ui.page.file_links import file_links
from kit.ui.page.widgets import button, labeled, line, page_style, row

_FILE = "class_answers.csv"


class ClassAnswers(w.VBox):
    """A field for the folder, a button that reads it, tables, and a button that exports them."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.found = folder, list[Answer]()
        self.where = w.Text(value=FOLDER, continuous_update=False)
        self.read = button("Read the answers", "read all pupils' files in the folder", self._read, kind="fw-main")
        self.export = button("Export CSV", "write all answers into a file for a spreadsheet", self._export)
        self.export.disabled = True
        self.said, self.tables, self.links = w.HTML(), w.HTML(), w.HTML()
        super().__init__(
            [
                w.HTML(page_style()),
                labeled("Folder of the pupils' files", self.where, "folder in which the pupils' files were collected"),
                row(self.read, self.export),
                self.said,
                self.tables,
                self.links,
            ],
            _dom_classes=("fw-panel", "fw-page", "fw-classroom"),
        )

    def _read(self) -> None:
        self.found, self.tables.value, self.links.value = [], "", ""
        self.export.disabled = True
        try:
            self.found, faults = read_class((self.folder / self.where.value.strip()).expanduser())
        except (KitError, OSError) as error:
            self.said.value = line(str(error), fault=True)
            return
        pupils = {each.pupil for each in self.found}
        self.said.value = line(f"answers read: {len(self.found)}, pupils: {len(pupils)}")
        left_out = "".join(f"<li>{escape(fault)}</li>" for fault in faults)
        self.tables.value = (
            _pupils(self.found) + _mistakes(self.found) + (f"<ul class='fw-fault'>{left_out}</ul>" if faults else "")
        )
        self.export.disabled = not self.found

    def _export(self) -> None:
        path = self.folder / _FILE
        try:
            write_atomic(path, as_csv(self.found))
        except OSError as error:
            self.said.value = line(f"{_FILE} cannot be written: {error.strerror or error}", fault=True)
            return
        self.links.value = file_links([path], self.folder)


def _pupils(answers: list[Answer]) -> str:
    rows = [(each.pupil, str(each.asked), str(each.at_once), str(each.in_the_end)) for each in standings(answers)]
    return _table("The pupils", ("Pupil", "Questions answered", "Right at once", "Right in the end"), rows)


def _mistakes(answers: list[Answer]) -> str:
    rows = [
        (str(count), each.mistake if each.mistake and each.kind != "predict" else each.said, each.asked, each.model)
        for count, each in common_mistakes(answers)
    ]
    return _table("Common mistakes", ("Pupils", "What they answered or did", "Question", "Page"), rows)


def _table(title: str, heads: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    head = "".join(f'<th scope="col">{each}</th>' for each in heads)
    body = "".join(
        f'<tr><th scope="row">{escape(row[0])}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in row[1:])}</tr>'
        for row in rows
    )
    return (
        f'<div class="fw-scroll"><table class="fw-table"><caption>{title}</caption><thead><tr>{head}</tr></thead>'
        f"<tbody>{body or f'<tr><td colspan={len(heads)}>none</td></tr>'}</tbody></table></div>"
    )
