"""A lesson's part: the one of the reader's own job that answers its question, else an example with an offer."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.job.arrange import add_part
from kit.ui.panel import panel

if TYPE_CHECKING:
    from kit.job import Job
    from kit.ui.panel import Panel


@dataclass(frozen=True)
class OwnPart:
    """A part, in the reader's own job (`own`) or in the example's."""

    job: Job
    id: str
    own: bool


def own_part(job: Job | None, example: Job, like: str) -> OwnPart:
    """Return the part of `job` with the model of the example's part `like`: that of the same id, else the first.

    Where the job has none, or none that can be computed, it is the example's.

    Raises:
        JobError: the example has no part `like`.
    """
    wanted = example.model(like).name
    ids = [id for id, part in job.parts.items() if part.model == wanted] if job else []
    for id in sorted(ids, key=lambda id: id != like):
        assert job is not None
        try:
            job.case(id)
        except KitError:
            continue
        return OwnPart(job, id, True)
    return OwnPart(example, like, False)


class OwnPanel(w.VBox):
    """The panel of a lesson's part under a line that says whose it is; an example can be added to the reader's job."""

    def __init__(self, job: Job | None, example: Job, like: str) -> None:
        self.job, self.example, self.like = job, example, like
        self.said = w.HTML()
        self.add = w.Button(description="Add this to my job", tooltip="add a part that answers this to your job")
        self.add.on_click(lambda _: self._add())
        super().__init__()
        self._show()

    @property
    def shown(self) -> Panel:
        """The panel."""
        shown: Panel = self.children[-1]
        return shown

    def _show(self) -> None:
        found = own_part(self.job, self.example, self.like)
        title = escape(found.job.parts[found.id].title or found.id)
        if found.own:
            words = f"<b>{title}</b>, a part of your job <b>{escape(found.job.name)}</b>."
        elif self.job is None:
            words = f"<b>{title}</b>, an example. Open a job on the page 00_start to work on your own."
        else:
            words = f"<b>{title}</b>, an example: nothing in your job {escape(self.job.name)} answers this yet."
        self.said.value = f'<p role="status">{words}</p>'
        offer = [self.add] if self.job is not None and not found.own else []
        self.children = [self.said, *offer, panel(job=found.job, part=found.id)]

    def _add(self) -> None:
        assert self.job is not None
        try:
            add_part(self.job, self.example.model(self.like).name, self.example.parts[self.like].title)
        except (KitError, OSError) as error:
            self.said.value = f'<p class="fw-fault" role="alert">{escape(str(error))}</p>'
            return
        self._show()

    def _ipython_display_(self) -> None:
        self.shown.static_view.display(self)

    def __repr__(self) -> str:
        return repr(self.shown)
