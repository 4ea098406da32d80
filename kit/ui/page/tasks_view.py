"""The tasks by which the job is built, in a table to change; what they come to is drawn below."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from html import escape
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model.input_lists import Rows
from kit.core.model.input_terms import choice
from kit.core.model.inputs import Fault, Input
from kit.job.tasks import WORK, follow_names, read_work, set_work, stated_work, work_faults
from kit.job.toml_edit import ABSENT, same
from kit.sheet.order_page import finish, network_html
from kit.station.order import work_order
from kit.ui.page.widgets import line
from kit.ui.panel.input_editors import CellEditor, RowsEditor, editor

if TYPE_CHECKING:
    from kit.ui.page.state import PageState

WIDTHS = "minmax(16em, 3fr) 9em minmax(14em, 3fr) 8em 6em 5em minmax(11em, 2fr) minmax(11em, 2fr) max-content"
"""Of the columns: of long texts more is seen than of times."""


class TasksView(w.VBox):
    """A button that opens the table; what is right is saved at once, and what is wrong stands below its cell."""

    def __init__(self, page: PageState) -> None:
        self.page = page
        self.editors: dict[str, RowsEditor | CellEditor] = {}
        self.told, self._box, self._before = w.HTML(), w.VBox(), dict[str, Any]()
        self.opened = w.ToggleButton(description="Change the tasks", tooltip="what is done, in what order, how long")
        self.opened.observe(lambda _: self._open(), "value")
        super().__init__([self.opened], _dom_classes=("fw-tasks",))

    def _open(self) -> None:
        if not self.opened.value:
            self.children = [self.opened]
            return
        try:
            self._before = dict(stated_work(self.page.job.path))
        except (KitError, OSError) as error:
            self._box.children = [w.HTML(line(str(error), fault=True))]
        else:
            self._build()
        self.children = [self.opened, self._box]

    def _build(self) -> None:
        asked = _asked(list(self.page.job.parts))
        self.editors = {
            name: editor(each, self._before.get(name, ABSENT), self._changed, example=self.page.job.example)
            for name, each in asked.items()
        }
        rows = self.editors["tasks"]
        if isinstance(rows, RowsEditor):
            rows.grid.layout.grid_template_columns = WIDTHS
        self._tell(self._before)
        self._box.children = (*self.editors.values(), self.told)

    def _changed(self) -> None:
        """Save the tasks where nothing is wrong with them, and show what they come to."""
        read = {name: each.read() for name, each in self.editors.items()}
        raw = {name: stated for name, (stated, _) in read.items() if stated is not ABSENT}
        typed = [fault for _, faults in read.values() for fault in faults]
        tasks = follow_names(self._before.get("tasks", []), raw.get("tasks", []))
        followed, raw = tasks != raw.get("tasks", []), raw | ({"tasks": tasks} if tasks else {})
        self._tell(raw, typed)
        raw = {name: each for name, each in raw.items() if each}
        if typed or same(raw, self._before) or work_faults(raw, self.page.job.parts):
            return

        def do() -> str:
            set_work(self.page.job, raw, self._before)
            return _said(self._before, raw)

        if self.page.attempt(do):
            self._before = raw
            if followed:
                self._build()

    def _tell(self, raw: Mapping[str, Any], typed: list[Fault] | None = None) -> None:
        """Show what is wrong with what is typed, each beside its field, and the order of what can be followed."""
        work, faults = read_work(raw, self.page.job.parts)
        faults = [*(typed or []), *(each for each in faults if each.at not in [one.at for one in typed or []])]
        for name, each in self.editors.items():
            each.tell([fault for fault in faults if fault.at[:1] in ((name,), ())])
        order = work_order(work)
        shown = f"<p>{escape(finish(order))}</p>{network_html(order)}" if order.steps else ""
        self.told.value = shown


def _asked(parts: list[str]) -> dict[str, Input]:
    """Return what is asked of the work, its parts to be chosen among those of the job."""
    tasks = WORK["tasks"]
    assert isinstance(tasks, Rows)
    columns = [choice("part", each.meaning, *parts) if each.name == "part" else each for each in tasks.columns]
    return {**WORK, "tasks": replace(tasks, columns=tuple(columns))}


def _said(before: Mapping[str, Any], now: Mapping[str, Any]) -> str:
    """Return in words what was changed."""
    old, new = ([each.get("name") for each in work.get("tasks", [])] for work in (before, now))
    for names, others, words in ((new, old, "added the task"), (old, new, "took out the task")):
        only = [name for name in names if name not in others]
        if len(names) > len(others) and only:
            return f"{words} {', '.join(map(str, only))}"
    if old != new and sorted(map(str, old)) == sorted(map(str, new)):
        return "moved a task"
    pairs = zip(before.get("tasks", []), now.get("tasks", []), strict=False)
    changed = [str(other.get("name")) for one, other in pairs if one != other]
    return f"changed the task {changed[0]}" if changed else "changed the hours of a day"
