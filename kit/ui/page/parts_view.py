"""The parts of a job in building order: picture, verdict, what each takes; open, add, copy, rename, move, take out."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.job.arrange import copy_part, links_to, move_part, remove_part, rename_part
from kit.job.overview import Overview, overview, taken
from kit.sheet.tables import verdict_sign
from kit.sheet.words import sentence
from kit.subjects import heading, subject
from kit.ui.idle import Action, Idle, aside
from kit.ui.page.adding import AddView
from kit.ui.page.compare_view import CompareView
from kit.ui.page.lists_view import ListsView
from kit.ui.page.output_view import OutputView
from kit.ui.page.station_view import StationView
from kit.ui.page.tasks_view import TasksView
from kit.ui.page.thumbnail import thumbnail
from kit.ui.page.widgets import Question, button, row

if TYPE_CHECKING:
    from kit.core.build import Progress
    from kit.job import Job
    from kit.ui.page.state import PageState

WAITS = "Open it to drop in a scan of your machine, or to state the machine as measured boxes and cylinders."


class PartsView(w.VBox):
    """The parts, each with its verdict as soon as it is computed, and what comes out of the whole job."""

    def __init__(self, page: PageState) -> None:
        self.page = page
        job = page.job
        self.rows = {id: PartRow(self, id) for id in job.parts}
        self.adding = AddView(page, self.added)
        self.output, self.lists, self.comparing = OutputView(page), ListsView(page), CompareView(page)
        self.tasks, self.station = TasksView(page), StationView(page)
        lead = f"{escape(job.about)} " if job.about else ""
        none = "This job has no parts yet: add the first one by its question." if not self.rows else ""
        super().__init__(
            [
                w.HTML(f"<p>{lead}{none}</p>"),
                w.VBox([*self.rows.values()], _dom_classes=("fw-parts",)),
                self.adding,
                self.output,
                self.lists,
                self.tasks,
                self.station,
                self.comparing,
            ]
        )
        self._left = False
        self._unjudged = iter([*self.rows.values()])
        self._filling = Idle([*(each.draw for each in self.rows.values()), self._judge])

    def _judge(self) -> None:
        """Judge the parts one by one beside the kernel's other work: a hood's proof may take minutes."""
        part = None if self._left else next(self._unjudged, None)
        if part is not None:
            aside(lambda: part.judged(self._goes_on), lambda found: self._tell(part, found))

    def _tell(self, part: PartRow, found: Overview | None) -> None:
        if not self._left:
            part.tell(found)
            self._judge()

    def _goes_on(self, _share: float, _words: str) -> bool:
        return not self._left

    def leave(self, _go: Action) -> bool:
        """Compute nothing more; all that was done here is saved."""
        self._left = True
        self._filling.stop()
        self.adding.leave()
        return True

    def added(self, part_id: str) -> None:
        """Show the part that was just added."""
        self.page.show_part(part_id)

    def again(self, said: str) -> None:
        """Show the parts as they are now, and what was done."""
        self.page.show_parts()
        self.page.say(said)


class PartRow(w.VBox):
    """A part in a line or two."""

    def __init__(self, view: PartsView, part_id: str) -> None:
        self.view, self.id = view, part_id
        part = view.page.job.parts[part_id]
        self.title = part.title or part_id
        self.picture, self.told, self.asked = w.HTML(), w.HTML(), w.VBox()
        self.picture.add_class("fw-thumb")
        self.opening = button(self.title, f"open {self.title}", partial(view.page.show_part, part_id), kind="fw-link")
        self.more = w.ToggleButton(description="Change", tooltip=f"rename, copy, move or take out {self.title}")
        self.more.observe(lambda _: self._write(), "value")
        self.name = w.Text(value=self.title, tooltip="the part's name", continuous_update=False)
        self.actions = row(
            self.name,
            button("Rename", "give the part this name; links to it follow", self._rename),
            button("Duplicate", "add a copy below, with the same links", self._copy),
            button("Move up", f"move {self.title} one place up", partial(self._move, -1)),
            button("Move down", f"move {self.title} one place down", partial(self._move, 1)),
            button("Remove", f"take {self.title} out of the job", self._remove),
        )
        words = w.VBox([row(self.opening, self.more), self.told], _dom_classes=("fw-words",))
        self._line = w.HBox([self.picture, words], _dom_classes=("fw-part",))
        super().__init__([self._line], _dom_classes=("fw-item",))
        self.told.value = self._words(None)

    def draw(self) -> None:
        """Show the part's picture."""
        job = self.view.page.job
        if self.id not in job.parts:
            return
        try:
            self.picture.value = thumbnail(job.case(self.id), job.display)
        except KitError:
            self.picture.value = ""

    def judged(self, progress: Progress) -> Overview | None:
        """Return what is to be said of the part; None where the job was changed meanwhile."""
        job = self.view.page.job
        try:
            return overview(job, self.id, progress) if self.id in job.parts else None
        except RuntimeError:  # what was looked through has been changed: the list is shown anew
            return None

    def tell(self, found: Overview | None) -> None:
        """Show the part's verdict."""
        self.told.value = self._words(found)

    def _words(self, found: Overview | None) -> str:
        job = self.view.page.job
        question = f'<p class="fw-question">{escape(heading(job.parts[self.id].model)[1])}</p>'
        if self._waits_for_a_scan():
            question += f'<p class="fw-note">{WAITS}</p>'
        if found is None:
            return question + '<p class="fw-note">not computed yet</p>'
        if found.verdict is None:
            return f'{question}<p class="fw-fault">{escape(sentence(found.fault))}</p>'
        kind, mark = verdict_sign(found.verdict)
        more = [f"takes {each}" for each in taken(job, self.id)]
        changed = self.view.page.changed_at.get(self.id)
        more += [f"changed at {changed}"] if changed else [f"measured {found.measured}"] if found.measured else []
        return (
            f'{question}<p class="{kind}"><span class="fw-mark" aria-hidden="true">{mark}</span> '
            f'{escape(sentence(found.verdict.words))}</p><p class="fw-note">{escape("; ".join(more))}</p>'
        )

    def _waits_for_a_scan(self) -> bool:
        """Return whether the part takes in a file by hand, and has none yet."""
        part = self.view.page.job.parts[self.id]
        intake = subject(part.model).intake
        return intake is not None and not self.view.page.job.raw_inputs(self.id).keys() & {intake.asks, "blocks"}

    def _write(self) -> None:
        self.children = (self._line, self.actions, self.asked) if self.more.value else (self._line,)

    # -- what buttons call ----------------------------------------------------------------------------

    def _rename(self) -> None:
        self._done(
            lambda: f"renamed to {self.name.value.strip()}", lambda: rename_part(self._job, self.id, self.name.value)
        )

    def _copy(self) -> None:
        self._done(lambda: f"copied {self.title}", lambda: copy_part(self._job, self.id))

    def _move(self, by: int) -> None:
        self._done(
            lambda: f"moved {self.title} {'up' if by < 0 else 'down'}", lambda: move_part(self._job, self.id, by)
        )

    def _remove(self) -> None:
        links = links_to(self._job, self.id)
        taking = f" {len(links)} link{'s' if len(links) > 1 else ''} to it go with it: " if links else ""
        listed = "; ".join(link.words for link in links)
        text = f"Take {self.title} out of the job?{taking}{listed}. Undo brings it back."
        self.asked.children = (Question(text, "Remove it", self._removed),)

    def _removed(self) -> None:
        self._done(lambda: f"removed {self.title}", lambda: remove_part(self._job, self.id))

    @property
    def _job(self) -> Job:
        return self.view.page.job

    def _done(self, said: Callable[[], str], change: Callable[[], object]) -> None:
        def do() -> str:
            change()
            return said()

        if self.view.page.attempt(do):
            self.view.again(said())
