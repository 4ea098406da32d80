"""The job page: the folder's jobs, a job's parts, a part's panel; one of them at a time, under one head."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from html import escape
from pathlib import Path

import ipywidgets as w

from kit.core.errors import KitError
from kit.job import Job
from kit.job.folder import current_job, remember
from kit.job.history import History
from kit.ui.page.jobs_view import JobsView
from kit.ui.page.part_view import PartView
from kit.ui.page.parts_view import PartsView
from kit.ui.page.widgets import button, line, page_style, row
from kit.ui.panel.steps import name_button


class JobPage(w.VBox):
    """The page; it opens on the job that was open last, or on the jobs where there is none."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder or Path.cwd()
        self.history: History | None = None
        self.changed_at: dict[str, str] = {}
        self.open_views: set[str] = set()  # by name, what stays open when the parts are shown again
        self._job: Job | None = None
        self.view: JobsView | PartsView | PartView | None = None
        self.title, self.message = w.HTML(), w.HTML()
        self.to_jobs = button("Your jobs", "all jobs of this folder", self.show_jobs)
        self.to_parts = button("Parts", "the parts of this job", self.show_parts)
        self.undo = button("Undo", "take back the last change", lambda: self._step(-1))
        self.redo = button("Redo", "do again what was taken back", lambda: self._step(1))
        self._head = row(self.to_jobs, self.to_parts, self.undo, self.redo)
        super().__init__(_dom_classes=("fw-panel", "fw-page"))
        self._begin()

    @property
    def job(self) -> Job:
        """The open job. Raises KitError where none is open."""
        if self._job is None:
            raise KitError("no job is open; open one under Your jobs")
        return self._job

    # -- where to -------------------------------------------------------------------------------------

    def open_job(self, path: Path) -> None:
        """Open a job and show its parts. Raises KitError where it cannot be read."""
        job = Job.open(path)
        self._job, self.history, self.changed_at, self.open_views = job, History(job), {}, set()
        remember(path, self.folder)
        self.show_parts()

    def show_jobs(self) -> None:
        """Show the jobs of the folder."""
        self._show(lambda: JobsView(self), "Your jobs")

    def show_parts(self) -> None:
        """Show the parts of the open job."""
        self._show(lambda: PartsView(self), self.job.name)

    def show_part(self, part_id: str) -> None:
        """Show a part of the open job."""
        self._show(lambda: PartView(self, part_id), self.job.parts[part_id].title or part_id)

    # -- what is done ---------------------------------------------------------------------------------

    def attempt(self, action: Callable[[], str]) -> bool:
        """Do something that changes the job and say what it returns, or why it failed; return whether it was done."""
        try:
            if self.history:
                self.history.meet()
            said = action()
        except (KitError, OSError) as error:
            self.say(str(error), fault=True)
            return False
        self.stored(said)
        self.say(said)
        return True

    def stored(self, what: str, part_id: str = "") -> None:
        """Take note that a change was saved."""
        if self.history:
            self.history.note(what)
        if part_id:
            self.changed_at[part_id] = f"{datetime.now():%H:%M}"
        self._write_head()

    def say(self, text: str, *, fault: bool = False) -> None:
        """Show a line below the head of the page."""
        self.message.value = line(text, fault=fault)

    # -- inside ---------------------------------------------------------------------------------------

    def _begin(self) -> None:
        try:
            last = current_job(self.folder)
            if last is not None:
                self.open_job(last)
                return
            self.show_jobs()
        except (KitError, OSError) as error:
            self.show_jobs()
            self.say(str(error), fault=True)

    def _show(self, made: Callable[[], JobsView | PartsView | PartView], title: str, *, left: bool = False) -> None:
        """Show a view in place of another, which may ask before it is `left`."""
        self.say("")
        go = partial(self._show, made, title, left=True)
        if self.view is not None and not left and not self.view.leave(go):
            return
        try:
            view = made()
        except (KitError, OSError) as error:
            self.say(str(error), fault=True)
            if self.view is not None:
                return
            view, title = JobsView(self), "Your jobs"
        self.view = view
        self.title.value = f'{page_style()}<h1 class="fw-page-title">{escape(title)}</h1>'
        self._write_head()
        self.children = (self._head, self.title, self.message, view)

    def _write_head(self) -> None:
        history = self.history
        self.to_parts.description = f"Parts of {self._job.name}" if self._job else "Parts"
        self.to_parts.layout.display = "" if self._job and not isinstance(self.view, PartsView) else "none"
        name_button(self.undo, "Undo", history.undoes if history else "")
        name_button(self.redo, "Redo", history.redoes if history else "")

    def _step(self, by: int) -> None:
        """Undo or redo; what is not saved yet is saved first, so that undo takes that back."""
        go = partial(self._stepped, by)
        if self.view is None or self.view.leave(go):
            go()

    def _stepped(self, by: int) -> None:
        assert self.history is not None
        try:
            what = self.history.undo() if by < 0 else self.history.redo()
        except (KitError, OSError) as error:
            self._again()
            self.say(str(error), fault=True)
            return
        self._again()
        self.say(f"taken back: {what}" if by < 0 else f"done again: {what}")

    def _again(self) -> None:
        """Show the same view of what the job says now; it was left before."""
        view, self.view = self.view, None
        if isinstance(view, PartView) and view.part in self.job.parts:
            self.show_part(view.part)
        elif isinstance(view, JobsView):
            self.show_jobs()
        else:
            self.show_parts()
            again: object = self.view
            if isinstance(view, PartsView) and isinstance(again, PartsView):
                again.tasks.opened.value = view.tasks.opened.value
                again.station.choose(str(view.station.part.value))

    def __repr__(self) -> str:
        return f"<job page on {self._job.path.name if self._job else 'the jobs of this folder'}>"
