"""What comes out of a part: its sheet, and each kind of file of what is built, with a link to it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.build import Output
from kit.core.errors import KitError
from kit.core.files import announcing
from kit.sheet.book_parts import write_output
from kit.ui.page.file_links import file_links
from kit.ui.page.widgets import Question, button, line
from kit.ui.page.working import Working
from kit.ui.panel.saving import NOT_WRITTEN, SHEETS, held_words
from kit.ui.panel.settling import when_settled

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from kit.ui.page.state import PageState
    from kit.ui.page.working import Told
    from kit.ui.panel import Panel

_BUILT = 0.5  # of the way: making it and writing it take about as long


class PartOutput(w.VBox):
    """Buttons for the files of a part. Where a limit fails it asks first."""

    def __init__(self, page: PageState, part_id: str, panel: Panel) -> None:
        self.page, self.part, self.panel = page, part_id, panel
        self.asked = w.VBox()
        names = [(_label(each), each.what, [each.name]) for each in (panel.build.outputs if panel.build else ())]
        if len(names) > 1:
            names.append(("All files", "write all of these", [name for _, _, (name,) in names]))
        made = [button(label, what, partial(self._ask, partial(self._files, wanted))) for label, what, wanted in names]
        sheet = button("Worked sheet", "write the sheet as one HTML file, to print", partial(self._ask, self._sheet))
        self.working = Working([sheet, *made], "the files")
        super().__init__(
            [w.HTML("<h2>Take it to the machine</h2>"), self.working, self.asked], _dom_classes=("fw-output",)
        )

    # -- inside ---------------------------------------------------------------------------------------

    def _ask(self, write: Callable[[Told], list[Path]]) -> None:
        if self.panel.refused:
            self.working.said.value = line(held_words(self.panel.refused), fault=True)
            return
        self.asked.children = ()
        self.working.said.value = line("working out what the verdict rests on")
        when_settled(self.panel, partial(self._begin, write), partial(self._say, NOT_WRITTEN))

    def _begin(self, write: Callable[[Told], list[Path]]) -> None:
        """Begin to write, or ask whether to where a limit fails."""
        self._say("")
        failing = self.panel.judged.failing
        start = partial(self.working.start, partial(self._write, write))
        if not failing:
            start()
            return
        text = f"A limit fails: {failing[0].words(self.panel.display)}. Write the file all the same?"
        self.asked.children = (Question(text, "Write it", start),)

    def _say(self, text: str) -> None:
        self.working.said.value = line(text) if text else ""

    def _write(self, write: Callable[[Told], list[Path]], told: Told) -> str:
        told(0.0, "working it out")
        (self.page.folder / SHEETS).mkdir(exist_ok=True)
        return file_links(write(told), self.page.folder)

    def _sheet(self, told: Told) -> list[Path]:
        with announcing(partial(_writing, told, _BUILT)):
            return [self.panel.export(self.page.folder / SHEETS)]

    def _files(self, wanted: list[str], told: Told) -> list[Path]:
        """Write files of some kinds, and say of each its name; between two of them it can be stopped."""
        build = self.panel.final_build()
        if build is None:
            raise KitError("nothing can be built with these values; correct them first")
        folder, judged = self.page.folder / SHEETS / "files", self.panel.judged
        paths: list[Path] = []
        for number, each in enumerate(wanted):
            share = _BUILT + (1.0 - _BUILT) * number / len(wanted)
            told(share, f"drawing {_label(build.output(each)).lower()}")
            with announcing(partial(_writing, told, share)):
                paths += write_output(build.output(each), folder, self.part, self.panel.display, judged)
        return paths


def _writing(told: Told, share: float, name: str) -> None:
    told(share, f"writing {name}")


def _label(output: Output) -> str:
    words = output.name.replace("_", " ")
    return words[:1].upper() + words[1:]
