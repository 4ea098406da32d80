"""The whole station book from a button, with progress and a way to stop."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.summary import some
from kit.job.overview import overview
from kit.job.tasks import work_of
from kit.sheet.book import in_the_way, write_book
from kit.ui.page.file_links import file_links
from kit.ui.page.widgets import Question, button, line
from kit.ui.page.working import Working

if TYPE_CHECKING:
    from kit.ui.page.state import PageState
    from kit.ui.page.working import Told

BOOK = "book"


class OutputView(w.VBox):
    """What comes out of a whole job."""

    def __init__(self, page: PageState) -> None:
        self.page, self.asked = page, w.VBox()
        self.book = button("Write the station book", "every sheet, drawing and solid, and an index", self.ask)
        self.full = w.Checkbox(
            description="with how each number comes about",
            tooltip="each sheet with derivations, uncertainty budgets and all pictures; else they are short",
            indent=False,
        )
        self.working = Working([self.book, self.full], "the book")
        children = [w.HTML("<h2>Take it to the machine</h2>"), self.working, self.asked]
        super().__init__(children if page.job.parts else [], _dom_classes=("fw-output",))

    def ask(self) -> None:
        """Write the book, after a question where a part fails or the folder holds what is no book."""
        job = self.page.job
        found = {id: overview(job, id) for id in job.parts}
        faults = [f"{job.parts[id].title or id}: {each.fault}" for id, each in found.items() if each.fault]
        if faults:
            words = f"The book needs every part to be computed. {faults[0]}"
            self.working.said.value = line(words, fault=True)
            return
        failing = [job.parts[id].title or id for id, each in found.items() if each.verdict and each.verdict.failing]
        names = in_the_way(job, self.page.folder / BOOK)
        said = [f"A limit fails in {', '.join(failing)}."] if failing else []
        said += [
            f"The folder {BOOK} holds {some(names)}, which no book has written and which this one replaces."
        ] * bool(names)
        if not said:
            self.write()
            return
        text = f"{' '.join(said)} Write the book all the same?"
        self.asked.children = (Question(text, "Write it", partial(self.write, failing=bool(failing))),)

    def write(self, *, failing: bool = False) -> None:
        """Write the book; `failing`: also the files of parts whose limits fail."""
        self.working.start(partial(self._write, failing))

    def _write(self, failing: bool, told: Told) -> str:
        def progress(done: int, total: int, title: str) -> None:
            told(done / total, f"{done} of {total}: {title}")

        told(0.0, "computing all parts")
        folder = self.page.folder / BOOK
        write_book(self.page.job, folder, progress, failing=failing, full=self.full.value)
        left_out = "".join(line(f"Not in the book: {each}", fault=True) for each in work_of(self.page.job.path).faults)
        return left_out + file_links([folder / "index.html"], self.page.folder)
