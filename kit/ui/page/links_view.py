"""What a part takes from others: each link with its value, links to make from a list that shows only what fits."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.job.arrange import Link, links_of
from kit.job.fits import fitting, fitting_parts
from kit.ui.page.widgets import button, labeled, row

if TYPE_CHECKING:
    from kit.ui.page.state import PageState


class LinksView(w.VBox):
    """A button that opens the links of a part; `changed` is called after one was made or taken out."""

    def __init__(self, page: PageState, part_id: str, changed: Callable[[], None]) -> None:
        self.page, self.part, self._changed = page, part_id, changed
        self.opened = w.ToggleButton(description=self._head(), tooltip="what comes from other parts and the machine")
        self.opened.observe(lambda _: self._write(), "value")
        self.given, self.source = w.Dropdown(), w.Dropdown(layout={"width": "100%"})
        self.given.observe(lambda _: self._offer(), "value")
        self.source.observe(lambda _: self._settle(), "value")
        self.make = button("Take it from there", "link the value to the other part", self.link)
        self.box = w.VBox()
        super().__init__([self.opened], _dom_classes=("fw-links",))

    def link(self) -> None:
        """Link the chosen given, or what is built, to what was chosen for it."""
        name, other = self.given.value, self.source.value
        if not name or not other:
            return
        job, (kind, _, wanted) = self.page.job, str(name).partition(":")

        def do() -> str:
            if kind == "build":
                job.set_link(self.part, wanted, other)
            else:
                job.set_from(self.part, wanted, other)
            job.save()
            return f"{job.model(self.part).called(wanted)} is taken from {other}"

        if self.page.attempt(do):
            self._changed()

    def unlink(self, link: Link) -> None:
        """Take a link out; the value stays as it came over the link, where it is one."""
        job = self.page.job

        def do() -> str:
            if link.name in job.model(self.part).free:
                entry = job.case(self.part).entries[link.name]
                job.set(self.part, link.name, entry.show(job.display), how=f"was {link.takes}")
            else:
                job.set_link(self.part, link.name, None)
            job.save()
            return f"{job.model(self.part).called(link.name)} is no longer taken from {link.takes}"

        if self.page.attempt(do):
            self._changed()

    # -- inside ---------------------------------------------------------------------------------------

    def _head(self) -> str:
        count = len(links_of(self.page.job, self.part))
        return f"Taken from other parts ({count})"

    def _write(self) -> None:
        if not self.opened.value:
            self.children = [self.opened]
            return
        job, links = self.page.job, links_of(self.page.job, self.part)
        model = job.model(self.part)
        made = [
            row(
                w.HTML(self._told(link)),
                button("Unlink", f"unlink {model.called(link.name)}", partial(self.unlink, link)),
            )
            for link in links
        ]
        builds = [(f"{model.called(name)}: what is built", f"build:{name}") for name in job.takes(self.part)]
        givens = [(given.meaning, f"given:{name}") for name, given in model.free.items() if given.kind == "real"]
        self.given.options, self.given.value = [("choose a value", ""), *builds, *givens], ""
        form = [labeled("A value of this part", self.given), labeled("comes from", self.source), row(self.make)]
        form[1].add_class("fw-wide")
        self.box.children = (*made, *form)
        self._offer()
        self.children = [self.opened, self.box]

    def _told(self, link: Link) -> str:
        job = self.page.job
        value = ""
        if link.name in job.model(self.part).free:
            value = f", now {job.case(self.part).entries[link.name].show(job.display)}"
        name = job.model(self.part).called(link.name)
        return f"<span>{escape(name)} from <b>{escape(link.takes)}</b>{escape(value)}</span>"

    def _offer(self) -> None:
        kind, _, name = str(self.given.value or "").partition(":")
        options: list[tuple[str, str]] = []
        if kind == "build":
            options = [(f"{title or id}", id) for id, title in fitting_parts(self.page.job, self.part, name).items()]
        elif name:
            options = [(fit.words, fit.link) for fit in fitting(self.page.job, self.part, name)]
        first = "choose what it is taken from" if options else "nothing in this job fits" if name else ""
        self.source.options, self.source.value = [(first, ""), *options], ""
        self._settle()

    def _settle(self) -> None:
        """Let the link be made once both of its ends are chosen."""
        self.make.disabled = not (self.given.value and self.source.value)
