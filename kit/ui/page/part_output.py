"""What comes out of a part: its sheet, and each kind of file of what is built, with a link to it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.build import Output
from kit.core.errors import KitError
from kit.ui.page.file_links import file_links
from kit.ui.page.widgets import Question, button, line, row
from kit.ui.panel.saving import SHEETS

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from kit.ui.page.state import PageState
    from kit.ui.panel import Panel


class PartOutput(w.VBox):
    """Buttons for the files of a part. Where a limit fails it asks first."""

    def __init__(self, page: PageState, part_id: str, panel: Panel) -> None:
        self.page, self.part, self.panel = page, part_id, panel
        self.asked, self.said = w.VBox(), w.HTML()
        build = panel.build
        made = [
            button(_label(each), each.what, partial(self._ask, partial(self._files, each.name)))
            for each in (build.outputs if build else ())
        ]
        sheet = button("Worked sheet", "write the sheet as one HTML file, to print", partial(self._ask, self._sheet))
        super().__init__(
            [w.HTML("<h2>Take it to the machine</h2>"), row(sheet, *made), self.asked, self.said],
            _dom_classes=("fw-output",),
        )

    # -- inside ---------------------------------------------------------------------------------------

    def _ask(self, write: Callable[[], list[Path]]) -> None:
        failing = self.panel.judged.failing
        if not failing:
            self._write(write)
            return
        text = f"A limit fails: {failing[0].words(self.panel.display)}. Write the file all the same?"
        self.asked.children = (Question(text, "Write it", partial(self._write, write)),)

    def _write(self, write: Callable[[], list[Path]]) -> None:
        try:
            (self.page.folder / SHEETS).mkdir(exist_ok=True)
            paths = write()
        except (KitError, OSError) as error:
            self.said.value = line(str(error), fault=True)
            return
        self.said.value = file_links(paths, self.page.folder)

    def _sheet(self) -> list[Path]:
        return [self.panel.export(self.page.folder / SHEETS)]

    def _files(self, name: str) -> list[Path]:
        build = self.panel.final_build()
        if build is None:
            raise KitError("nothing can be built with these values; correct them first")
        folder = self.page.folder / SHEETS / "files"
        return build.output(name).write(folder, self.part, self.panel.display)


def _label(output: Output) -> str:
    words = output.name.replace("_", " ")
    return words[:1].upper() + words[1:]
