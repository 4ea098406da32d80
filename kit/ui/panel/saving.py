"""Saving what was settled: save to the job, export a worked sheet, go back to the start."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Stated
from kit.job.demo import is_example
from kit.job.written import keys_of, written
from kit.ui.panel.settling import when_settled

if TYPE_CHECKING:
    from kit.job import Job
    from kit.sheet.write import Origin
    from kit.ui.panel.state import PanelState

SHEETS = Path("sheets")
NOT_WRITTEN = "nothing is written: the values changed meanwhile, or it was stopped"


class Saving(w.VBox):
    """The buttons below the controls and what they have to say."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel
        self.save = w.Button(description="Save to job", tooltip="write what changed into the job file")
        self.save.disabled = panel.job is None or is_example(panel.job)
        self.export = w.Button(description="Export sheet", tooltip="write the worked sheet as one HTML file")
        self.reset = w.Button(description="Reset", tooltip="go back to what the job file says, or to the start")
        self.mine = w.Button(description="Overwrite file", tooltip="write these values over the ones in the file")
        self.theirs = w.Button(description="Reload file", tooltip="read the job file again and drop these")
        self.message, self.held = w.HTML(), w.HTML()
        self._told: Callable[[list[str]], None] = lambda _names: None
        self.save.on_click(lambda _: self.store())
        self.export.on_click(lambda _: self._export())
        self.reset.on_click(lambda _: self._reset())
        self.mine.on_click(lambda _: self.store(force=True))
        self.theirs.on_click(lambda _: self.reread())
        self.buttons = w.HBox([self.save, self.export, self.reset], _dom_classes=("fw-row",))
        super().__init__([self.buttons, self.held, self.message])
        self.add_class("fw-saving")

    @property
    def unsaved(self) -> set[str]:
        """The givens and picks that differ from what the job says."""
        now, before = self.panel.case.typed, self.panel.start.typed
        return {name for name in now.keys() | before.keys() if now.get(name) != before.get(name)}

    @property
    def pending(self) -> tuple[str, ...]:
        """All that differs from what the job says, in words: givens, picks, inputs and links."""
        panel = self.panel
        left_open = panel.case.beyond ^ panel.start.beyond
        names = [*sorted(self.unsaved | left_open), *panel.inputs.unsaved, *panel.inputs.unsaved_links]
        return tuple(map(panel.model.called, names))

    def hold(self) -> None:
        """Hold saving and exporting off while something that stands in the panel cannot be taken, and say so."""
        words = held_words(self.panel.refused)
        self.save.disabled = bool(words) or self.panel.job is None or is_example(self.panel.job)
        self.export.disabled = bool(words)
        self.held.value = f'<span class="fw-fault" role="status">{escape(words)}</span>' if words else ""

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

    def store(self, *, force: bool = False, but_refused: bool = False) -> None:
        """Write what changed into the job's file; where it was changed by hand there, ask.

        Nothing is written while an entry is refused, unless all `but_refused` ones are to be.
        """
        from kit.job import JobChanged, JobGone

        panel, job = self.panel, self.panel.job
        assert job is not None
        if panel.refused and not but_refused:
            self.hold()
            return
        try:
            with job.trial():
                names = self._stated(job)
                job.save(force=force)
        except JobChanged as error:
            self._say(f"{error.words}: “Overwrite file” writes yours, “Reload file” takes the file’s", fault=True)
            self.buttons.children = (self.save, self.export, self.reset, self.mine, self.theirs)
            return
        except JobGone as error:
            self._say(f"{error.words}: “Overwrite file” writes it anew", fault=True)
            self.buttons.children = (self.save, self.export, self.reset, self.mine)
            return
        except (KitError, OSError) as error:
            self._say(str(error), fault=True)
            return
        self._settled(names)

    def _stated(self, job: Job) -> list[str]:
        """State in the job what differs from it; return the names."""
        panel, part = self.panel, self.panel.part
        assert part is not None
        if panel.case.beyond != panel.start.beyond:
            job.set_beyond(part, sorted(panel.case.beyond))
        # a new row takes out what was stated for the givens that it fills, so picks go first
        names = sorted(self.unsaved, key=lambda name: (name not in panel.case.picks, name))
        for name in names:
            typed = panel.case.typed.get(name)
            if typed is None:
                job.unset(part, name)
            elif isinstance(typed, Stated):
                spread = {} if name in panel.case.picks else {"spread": typed.spread, "k": typed.k, "dof": typed.dof}
                job.set(part, name, written(panel.case, name), **spread, **keys_of(typed.origin))
            else:
                job.set(part, name, written(panel.case, name))
        for name, raw in panel.inputs.unsaved.items():
            job.set_input(part, name, raw)
        for name, other in panel.inputs.unsaved_links.items():
            job.set_link(part, name, other)
        return [*names, *panel.inputs.unsaved, *panel.inputs.unsaved_links]

    def _settled(self, names: list[str]) -> None:
        self.panel.start = self.panel.case
        self.panel.inputs.settled()
        self.buttons.children = (self.save, self.export, self.reset)
        path = self.panel.job.path.name if self.panel.job else ""
        listed = ", ".join(map(self.panel.model.called, names))
        self._say(f"saved {listed} to {path}" if names else f"no changes; {path} is unchanged")
        self._told(names)

    def reread(self) -> None:
        """Show what the job's file says now; changes to the job that are not saved are dropped."""
        panel, job, part = self.panel, self.panel.job, self.panel.part
        assert job is not None
        assert part is not None
        try:
            job.reload()
            panel.start = panel.first = job.case(part)
        except KitError as error:
            self._say(str(error), fault=True)
            return
        panel.inputs.restart(job.raw_inputs(part), job.links(part))
        panel.reset()
        self.buttons.children = (self.save, self.export, self.reset)
        self._say(f"read {job.path.name} again")

    def _export(self) -> None:
        if self.panel.refused:
            self.hold()
            return
        when_settled(self.panel, self._exported, lambda: self._say(NOT_WRITTEN))

    def _exported(self) -> None:
        try:
            SHEETS.mkdir(exist_ok=True)
            path = self.panel.export(SHEETS)
        except (KitError, OSError) as error:
            self._say(str(error), fault=True)
            return
        self._say(f"wrote {path}; open it in any browser, no network needed")

    def _reset(self) -> None:
        """Go back to what the job's file says, or to the start where there is none."""
        if self.panel.job is not None and not self.panel.job.changed:
            self.reread()
            return
        self.panel.reset()
        self._say("back to the values at the start")


def held_words(refused: Sequence[str]) -> str:
    """Return why nothing is written, empty where something may be."""
    return f"not while {', '.join(refused)} cannot be read; correct it, or Reset" if refused else ""
