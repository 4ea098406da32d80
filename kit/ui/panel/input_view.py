"""Lists and options of a page, and the parts that it takes: what is stated beside the givens, to be edited.

All is derived from the page's statement. What is typed is read as the job's file is; a fault stands beside its
field, and what was stated before holds until it is mended.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from functools import partial
from html import escape
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import in_words
from kit.core.model.inputs import Fault, Input, read_inputs
from kit.job.toml_edit import ABSENT, same
from kit.ui.panel.input_editors import CellEditor, RowsEditor, editor

Links = Mapping[str, Any]
TITLE = "Lists and options"


class InputView(w.VBox):
    """A button that opens the editors, which are made when they are first looked at.

    `raw` and `links` are what holds, as in a job's file; `changed` is called after either has changed. `attempt` is
    passed links before they hold and raises KitError where they cannot be taken. `takes` are the things to be taken,
    each with the parts that make it, by their ids with their titles. `on_faults` is called when what is `refused`
    changes. `example`: what states no origin is an example.
    """

    def __init__(
        self,
        asked: Mapping[str, Input],
        givens: Collection[str],
        raw: Mapping[str, Any],
        changed: Callable[[], None],
        *,
        takes: Mapping[str, Mapping[str, str]] | None = None,
        links: Links | None = None,
        attempt: Callable[[Links], None] = lambda _links: None,
        on_faults: Callable[[], None] = lambda: None,
        example: bool = False,
    ) -> None:
        self._asked, self._givens, self._on_change, self._attempt = asked, givens, changed, attempt
        self._takes, self._on_faults, self._example = takes or {}, on_faults, example
        self._refused: set[str] = set()  # the inputs and links of which what stands there cannot be taken
        self.raw: Mapping[str, Any] = dict(raw)
        self.links: Links = dict(links or {})
        self.start: tuple[Mapping[str, Any], Links] = (self.raw, self.links)
        self._saved: tuple[Mapping[str, Any], Links] = self.start
        self.editors: dict[str, RowsEditor | CellEditor] = {}
        self.menus: dict[str, LinkMenu] = {}
        self._box = w.VBox()
        self.opened = w.ToggleButton(description=TITLE, tooltip="show or hide what is stated beside the givens")
        self.opened.observe(lambda _: self._open(), "value")
        super().__init__([self.opened], _dom_classes=("fw-inputs",))

    # -- what the panel calls -------------------------------------------------------------------------

    def reset(self) -> None:
        """Show what was stated at the start."""
        self.show(*self.start)

    def restart(self, raw: Mapping[str, Any], links: Links) -> None:
        """Take what a job's file states now for the start; `reset` shows it."""
        self.start = self._saved = (dict(raw), dict(links))

    def take(self, raw: Mapping[str, Any]) -> None:
        """State these inputs, as if they had been typed."""
        self.raw = {**self.raw, **raw}
        if raw and (self.editors or self.menus):
            self._build()

    def show(self, raw: Mapping[str, Any], links: Links) -> None:
        """Show other inputs and links in the place of all that is stated."""
        self.raw, self.links = raw, links
        self._refused.clear()
        if self.editors or self.menus:
            self._build()

    @property
    def refused(self) -> tuple[str, ...]:
        """The inputs and links of which what stands there cannot be taken."""
        return tuple(name for name in (*self.menus, *self.editors) if name in self._refused)

    @property
    def any(self) -> bool:
        """Whether there is anything to be stated here."""
        return bool(self._asked or self._takes)

    @property
    def unsaved(self) -> dict[str, Any]:
        """The inputs that differ from what the job states, with what they are to state; None takes one out."""
        return _differing(self._saved[0], self.raw)

    @property
    def unsaved_links(self) -> dict[str, Any]:
        """The links that differ from the job's, each with its part; None takes one out."""
        return _differing(self._saved[1], self.links)

    def settled(self) -> None:
        """Take note that the job states now what holds here."""
        self._saved = (self.raw, self.links)

    # -- inside ---------------------------------------------------------------------------------------

    def _open(self) -> None:
        if self.opened.value and not (self.editors or self.menus):
            self._build()
        self.children = (self.opened, self._box) if self.opened.value else (self.opened,)

    def _build(self) -> None:
        """Make the editors of what holds."""
        self.editors = {
            name: editor(asked, self.raw.get(name, ABSENT), self._read, example=self._example)
            for name, asked in self._asked.items()
        }
        self.menus = {
            name: LinkMenu(name, parts, self.links.get(name), partial(self._link, name))
            for name, parts in self._takes.items()
        }
        self._read()
        self._box.children = (*self.menus.values(), *self.editors.values())

    def _read(self) -> None:
        """Read all that is typed; what nothing is wrong with holds."""
        faults, tried, absent = {}, self.raw, set()
        for name, field in self.editors.items():
            raw, faults[name] = field.read()
            absent |= {name} if raw is ABSENT and name not in self.raw else set()
            faults[name] = faults[name] or self._faults(name, raw)
            if not faults[name] and not same(raw, self.raw.get(name, ABSENT)):
                tried = _with(tried, name, raw)
        for name, asked in self._asked.items():
            if name not in tried and any(other in tried for other in asked.together) and not faults[name]:
                group = {each: self._asked[each] for each in (name, *asked.together)}
                given = {each: tried[each] for each in group if each in tried}
                lacking = [fault for fault in read_inputs(group, given, self._givens)[1] if not fault.at]
                faults[name] = lacking[:1]
                for each in group:  # none of those that belong together holds without the others
                    tried = _with(tried, each, self.raw.get(each, ABSENT))
        for name, field in self.editors.items():
            field.tell(faults[name])
        self._refuse(
            {name: (bool(faults[name]) and name not in absent) or self.editors[name].refused for name in faults}
        )
        if not same(tried, self.raw):
            self.raw = tried
            self._on_change()

    def _refuse(self, faulty: Mapping[str, bool]) -> None:
        before = set(self._refused)
        for name, fault in faulty.items():
            (self._refused.add if fault else self._refused.discard)(name)
        if before != self._refused:
            self._on_faults()

    def _faults(self, name: str, raw: Any) -> list[Fault]:
        stated = {} if raw is ABSENT else {name: raw}
        return read_inputs({name: self._asked[name]}, stated, self._givens)[1]

    def _link(self, name: str) -> None:
        """Take another part, if it can be taken."""
        menu = self.menus[name]
        links = _with(self.links, name, menu.chosen)
        try:
            self._attempt(links)
        except KitError as error:
            menu.tell(str(error))
            self._refuse({name: True})
            return
        menu.tell("")
        self._refuse({name: False})
        self.links = links
        self._on_change()


class LinkMenu(w.VBox):
    """The menu of the parts from which something can be taken."""

    def __init__(self, name: str, parts: Mapping[str, str], linked: Any, on_change: Callable[[], None]) -> None:
        self.note = w.HTML()
        options = [("none", ""), *((f"{id}: {title}" if title else id, id) for id, title in parts.items())]
        if linked is not None and linked not in parts:
            options.append((str(linked), linked))  # what the file says, though it is no part
        self.menu = w.Dropdown(
            options=options,
            value="" if linked is None else linked,
            tooltip=f"{in_words(name)}: the part of the job from which it is taken",
        )
        self.menu.observe(lambda _: on_change(), "value")
        label = (
            f'<span class="fw-name">{escape(in_words(name))}</span> <span class="fw-note">taken from the part</span>'
        )
        super().__init__([w.HTML(label), self.menu, self.note], _dom_classes=("fw-input",))
        self.tell("")

    @property
    def chosen(self) -> Any:
        """The part that is chosen, ABSENT for none."""
        return self.menu.value if self.menu.value != "" else ABSENT

    def tell(self, fault: str) -> None:
        """Show why a part cannot be taken, nothing where it can."""
        self.note.value = f'<div class="fw-fault" role="alert">{escape(fault)}</div>' if fault else ""
        self.note.layout.display = "" if fault else "none"


def _with(stated: Mapping[str, Any], name: str, raw: Any) -> dict[str, Any]:
    changed = {key: value for key, value in stated.items() if key != name or raw is not ABSENT}
    return changed if raw is ABSENT else changed | {name: raw}


def _differing(before: Mapping[str, Any], now: Mapping[str, Any]) -> dict[str, Any]:
    names = dict.fromkeys([*now, *before])
    return {name: now.get(name) for name in names if not same(before.get(name), now.get(name))}
