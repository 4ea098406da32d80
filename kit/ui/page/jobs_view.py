"""The jobs of a folder: begin a new one, open one, copy or rename it, or begin from a demo."""

from __future__ import annotations

from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.resources import data_dir
from kit.job import Job
from kit.job.folder import JobFile, copy_job, demos, job_files, new_job, rename_job
from kit.job.proposing import begin, goals
from kit.ui.idle import Action
from kit.ui.page.widgets import button, labeled, row

if TYPE_CHECKING:
    from kit.ui.page.state import PageState


class JobsView(w.VBox):
    """Your jobs, and a form for a new one."""

    def __init__(self, page: PageState) -> None:
        self.page = page
        self.name = w.Text(placeholder="miter saw in a garage", continuous_update=False)
        self.units = w.ToggleButtons(options=[("millimeters", "mm"), ("inches", "in")], value="mm")
        self.maker = w.Text(placeholder="who builds it; may stay empty", continuous_update=False)
        self.goals = {
            goal.name: w.Checkbox(description=goal.title, indent=False, tooltip=goal.words) for goal in goals()
        }
        self.make = button("Make this job", "write the job's file and show its parts", self.new, kind="fw-main")
        self.rows = [_JobRow(self, each) for each in job_files(page.folder)]
        yours = [w.HTML("<h2>Open a job</h2>"), *self.rows] if self.rows else []
        super().__init__([*yours, *self._form(), *self._demos()], _dom_classes=("fw-jobs",))

    def leave(self, _go: Action) -> bool:
        """Nothing goes on when the view is left, and nothing is lost."""
        return True

    def new(self) -> None:
        """Write the job that the form describes, and show it."""
        self.page.attempt(self._new)

    def open_demo(self, name: str) -> None:
        """Copy a demo job into the folder and show it; what is there keeps its name."""
        self.page.attempt(lambda: self._opened(copy_job(data_dir() / name, folder=self.page.folder)))

    # -- inside ---------------------------------------------------------------------------------------

    def _new(self) -> str:
        job = new_job(self.name.value, self.units.value, self.maker.value, folder=self.page.folder)
        begin(job, [name for name, box in self.goals.items() if box.value])
        return self._opened(job)

    def _opened(self, job: Job) -> str:
        self.page.open_job(job.path)
        return f"opened {job.path.name}"

    def _form(self) -> list[w.Widget]:
        return [
            w.HTML("<h2>Begin a new job</h2>"),
            row(
                labeled("The machine, and where it stands", self.name, "the machine's name"),
                labeled("Who builds it", self.maker),
                labeled("Lengths in", self.units),
            ),
            w.HTML(
                '<p class="fw-name">What are you building?</p><p class="fw-note">Choose what you like: its parts are '
                "laid out in building order, and linked. More can be added at any time.</p>"
            ),
            w.Box([*self.goals.values()], _dom_classes=("fw-goals",)),
            row(self.make),
        ]

    def _demos(self) -> list[w.Widget]:
        made = [
            button(name, f"copy {file} into this folder and open it", partial(self.open_demo, file))
            for file, name in demos().items()
        ]
        note = '<p class="fw-note">A demo is copied into this folder; every number in it is invented.</p>'
        return [w.HTML(f"<h2>Look at a demo</h2>{note}"), row(*made)]


class _JobRow(w.VBox):
    """A job file with what can be done to it."""

    def __init__(self, view: JobsView, file: JobFile) -> None:
        self.view, self.file = view, file
        parts = "1 part" if file.parts == 1 else f"{file.parts} parts"
        told = f"{file.path.name} · {parts}" if not file.fault else file.fault
        kind = "fw-fault" if file.fault else "fw-note"
        self.opening = button(file.name, f"open {file.path.name}", self._open, kind="fw-link")
        self.opening.disabled = bool(file.fault)
        self.more = w.ToggleButton(description="Change", tooltip=f"copy or rename {file.name}")
        self.more.observe(lambda _: self._write(), "value")
        self.name = w.Text(value=file.name, tooltip="the job's name", continuous_update=False)
        self.actions = row(
            self.name,
            button("Rename", "give the job this name", self._rename),
            button("Duplicate", "copy the job under this name", self._copy),
        )
        self._line = row(self.opening, w.HTML(f'<span class="{kind}">{escape(told)}</span>'), self.more)
        super().__init__([self._line], _dom_classes=("fw-item",))

    def _write(self) -> None:
        self.children = (self._line, self.actions) if self.more.value else (self._line,)

    def _open(self) -> None:
        self.view.page.attempt(lambda: self.view._opened(Job.open(self.file.path)))

    def _rename(self) -> None:
        def rename() -> str:
            rename_job(Job.open(self.file.path), self.name.value)
            return f"renamed to {self.name.value.strip()}"

        self._done(rename)

    def _copy(self) -> None:
        def copy() -> str:
            name = self.name.value
            name = f"{name.strip()} (copy)" if name.strip() == self.file.name else name
            return f"copied to {copy_job(self.file.path, name, folder=self.view.page.folder).path.name}"

        self._done(copy)

    def _done(self, action: object) -> None:
        page, said = self.view.page, []

        def do() -> str:
            assert callable(action)
            said.append(str(action()))
            return said[0]

        if page.attempt(do):
            page.show_jobs()
            page.say(said[0])
