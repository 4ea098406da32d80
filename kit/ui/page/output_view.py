"""The whole station book from a button, with progress and a way to stop."""

from __future__ import annotations

from functools import partial
from threading import Event, Thread
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.job.overview import overview
from kit.sheet.book import write_book
from kit.ui.page.file_links import file_links
from kit.ui.page.widgets import Question, button, line, row

if TYPE_CHECKING:
    from pathlib import Path

    from kit.ui.page.state import PageState

BOOK = "book"


class OutputView(w.VBox):
    """What comes out of a whole job."""

    def __init__(self, page: PageState) -> None:
        self.page, self._stopping = page, Event()
        self.book = button("Write the station book", "every sheet, drawing and solid, and an index", self.ask)
        self.stop = button("Stop", "stop writing; what is written stays", self._stopping.set)
        self.stop.disabled = True
        self.bar = w.FloatProgress(min=0, max=1, value=0, tooltip="how much of the book is written")
        self.asked, self.said = w.VBox(), w.HTML()
        self._row = row(self.book, self.stop)
        children = [w.HTML("<h2>Take it to the machine</h2>"), self._row, self.asked, self.said]
        super().__init__(children if page.job.parts else [], _dom_classes=("fw-output",))

    def ask(self) -> None:
        """Write the book, after a question where a part fails or cannot be computed."""
        job = self.page.job
        found = {id: overview(job, id) for id in job.parts}
        faults = [f"{job.parts[id].title or id}: {each.fault}" for id, each in found.items() if each.fault]
        if faults:
            self.said.value = line(f"The book needs every part to be computed. {faults[0]}", fault=True)
            return
        failing = [job.parts[id].title or id for id, each in found.items() if each.verdict and each.verdict.failing]
        if not failing:
            self.write()
            return
        text = f"A limit fails in {', '.join(failing)}. Write the book all the same?"
        self.asked.children = (Question(text, "Write it", self.write),)

    def write(self) -> None:
        """Write the book beside the kernel's other work."""
        self._stopping.clear()
        self.book.disabled, self.stop.disabled, self.bar.value = True, False, 0
        self._row.children = (self.book, self.stop, self.bar)
        self.said.value = line("computing all parts")
        Thread(target=partial(self._write, self.page.folder / BOOK), daemon=True).start()

    # -- inside ---------------------------------------------------------------------------------------

    def _write(self, folder: Path) -> None:
        def progress(done: int, total: int, title: str) -> None:
            self.bar.value = done / total
            self.said.value = line(f"{done} of {total}: {title}")
            if self._stopping.is_set():
                raise KitError("stopped; what is written stays")

        try:
            write_book(self.page.job, folder, progress)
        except (KitError, OSError) as error:
            self.said.value = line(str(error), fault=not self._stopping.is_set())
        else:
            self.said.value = file_links([folder / "index.html"], self.page.folder)
        finally:
            self.book.disabled, self.stop.disabled = False, True
            self._row.children = (self.book, self.stop)
