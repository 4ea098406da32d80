"""Saving what was settled: save to the job, export a worked sheet, go back to the start."""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Stated, in_words

if TYPE_CHECKING:
    from kit.sheet.write import Origin
    from kit.ui.panel.state import PanelState

SHEETS = Path("sheets")


class Saving(w.VBox):
    """The buttons below the controls and what they have to say."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel
        self.unsaved: set[str] = set()
        self.save = w.Button(description="Save to job", tooltip="write what changed into the job file")
        self.save.disabled = panel.job is None
        self.export = w.Button(description="Export sheet", tooltip="write the worked sheet as one HTML file")
        self.reset = w.Button(description="Reset", tooltip="go back to the values at the start")
        self.mine = w.Button(description="Overwrite file", tooltip="write these values over the ones in the file")
        self.theirs = w.Button(description="Reload file", tooltip="read the job file again and drop these")
        self.message = w.HTML()
        self._told: Callable[[list[str]], None] = lambda _names: None
        self.save.on_click(lambda _: self.store())
        self.export.on_click(lambda _: self._export())
        self.reset.on_click(lambda _: self._reset())
        self.mine.on_click(lambda _: self.store(force=True))
        self.theirs.on_click(lambda _: self._take_theirs())
        self.buttons = w.HBox([self.save, self.export, self.reset], _dom_classes=("fw-row",))
        super().__init__([self.buttons, self.message])
        self.add_class("fw-saving")

    def note(self, name: str) -> None:
        """Remember that a given or pick differs from what the job says."""
        self.unsaved.add(name)

    def origin(self) -> Origin | None:
        """Where the numbers come from, for the head of a sheet."""
        from kit.sheet.write import part_origin

        job, part = self.panel.job, self.panel.part
        return None if job is None or part is None else part_origin(job, part)

    def _say(self, text: str, *, fault: bool = False) -> None:
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        self.message.value = f"<p {kind}>{escape(text)}</p>"

    def by_itself(self, told: Callable[[list[str]], None]) -> None:
        """Leave saving to who calls `store`; `told` is called with what was saved."""
        self._told = told
        for each in (self.save, self.reset, self.export):
            each.layout.display = "none"

    def store(self, *, force: bool = False) -> None:
        """Write what changed into the job's file; where it was changed by hand there, ask."""
        from kit.job import JobChanged

        panel, job, part = self.panel, self.panel.job, self.panel.part
        assert job is not None
        assert part is not None
        # a new row takes out what was stated for the givens that it fills, so picks go first
        names = sorted(self.unsaved & panel.case.typed.keys(), key=lambda name: (name not in panel.case.picks, name))
        try:
            if panel.case.beyond != panel.start.beyond:
                job.set_beyond(part, sorted(panel.case.beyond))
            for name in names:
                typed = panel.case.typed[name]
                if isinstance(typed, Stated):
                    job.set(part, name, typed.text, spread=typed.spread, k=typed.k, dof=typed.dof)
                else:
                    job.set(part, name, self._text(name))
            for name, raw in panel.inputs.unsaved.items():
                job.set_input(part, name, raw)
            for name, other in panel.inputs.unsaved_links.items():
                job.set_link(part, name, other)
            names += [*panel.inputs.unsaved, *panel.inputs.unsaved_links]
            job.save(force=force)
        except JobChanged as error:
            self._say(str(error), fault=True)
            self.buttons.children = (self.save, self.export, self.reset, self.mine, self.theirs)
            return
        except (KitError, OSError) as error:
            self._say(str(error), fault=True)
            return
        self._settled(names)

    def _text(self, name: str) -> str:
        panel = self.panel
        if name in panel.case.picks:
            return panel.case.picks[name]
        typed = panel.case.typed[name]
        return typed if isinstance(typed, str) else panel.case.entries[name].show(panel.display)

    def _settled(self, names: list[str]) -> None:
        self.unsaved.clear()
        self.panel.inputs.settled()
        self.buttons.children = (self.save, self.export, self.reset)
        path = self.panel.job.path if self.panel.job else ""
        listed = ", ".join(in_words(name) for name in names)
        self._say(f"saved {listed} to {path}" if names else f"no changes; {path} is unchanged")
        self._told(names)

    def _take_theirs(self) -> None:
        panel, job, part = self.panel, self.panel.job, self.panel.part
        assert job is not None
        assert part is not None
        job.reload()
        panel.start = job.case(part)
        panel.inputs.restart(job.raw_inputs(part), job.links(part))
        self._reset()
        self.buttons.children = (self.save, self.export, self.reset)
        self._say(f"read {job.path} again")

    def _export(self) -> None:
        try:
            SHEETS.mkdir(exist_ok=True)
            path = self.panel.export(SHEETS)
        except (KitError, OSError) as error:
            self._say(str(error), fault=True)
            return
        self._say(f"wrote {path}; open it in any browser, no network needed")

    def _reset(self) -> None:
        self.panel.reset()
        self.unsaved.clear()
        self._say("back to the values at the start")
