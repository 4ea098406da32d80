"""The ± that a shop's record is worth, offered beside a given's own: by name, with its history; never by itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Entry, Given, Stated
from kit.core.quantity import Display, ValueOrigin, show
from kit.job.written import plain
from kit.sheet.station_pages import spread_html
from kit.station.shop import Spread, read_shop, shop_file
from kit.ui.panel.origin_editor import NOT_YOURS

if TYPE_CHECKING:
    from kit.ui.panel.state import PanelState

_FROM = "± from the shop record: "
_NONE = "none taken"
_K = 2.0  # standard uncertainties, as an expanded uncertainty is usually stated


class ShopOffer(w.VBox):
    """A menu of what in the record fits a given's unit, the history of the chosen one, and a button that takes it.

    `on_take` is called with the chosen spread; it raises KitError where its ± cannot be taken.
    """

    def __init__(self, about: str, spreads: Sequence[Spread], on_take: Callable[[Spread], None]) -> None:
        self._spreads, self._on_take, self._display = {each.name: each for each in spreads}, on_take, Display()
        options = [(_NONE, ""), *((f"{each.name} ({len(each.entries)} entries)", each.name) for each in spreads)]
        self.which = w.Dropdown(
            description="shop record", options=options, value="", tooltip=f"{about}: what the shop's record knows"
        )
        self.take = w.Button(tooltip=f"{about}: state this ± with its spread and where it comes from")
        self.history, self.said = w.HTML(), w.HTML()
        self.which.observe(lambda _: self._write(), "value")
        self.take.on_click(lambda _: self._take())
        super().__init__([self.which], _dom_classes=("fw-origin-of",))

    def show(self, display: Display, *, linked: bool) -> None:
        """Show the numbers in a reader's units; a value that a link brings takes no ± here."""
        self._display = display
        self.which.disabled = self.take.disabled = linked
        self._write()

    def _write(self) -> None:
        spread, self.said.value = self._spreads.get(self.which.value), ""
        if spread is None:
            self.children = [self.which]
            return
        half = show(_half(spread), spread.unit, self._display, resolution=spread.half / 100)
        self.take.description = f"Take ± {half}"
        self.history.value = spread_html(spread, self._display)
        self.children = [self.which, self.history, self.take, self.said]

    def _take(self) -> None:
        try:
            self._on_take(self._spreads[self.which.value])
        except KitError as error:
            self.said.value = f'<span class="fw-fault" role="alert">{escape(str(error))}</span>'
        else:
            self.said.value = '<span class="fw-note" role="status">taken; Undo brings the one before back</span>'


class Shopping:
    """What a panel's givens take of the shop's record beside its job."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel

    def offer(self, given: Given) -> ShopOffer | None:
        """Return what fits a given; nothing where there is no job, or no record that can be read."""
        job = self.panel.job
        try:
            known = [*read_shop(shop_file(job.path.parent)).spreads.values()] if job else []
        except (KitError, OSError):
            return None
        found = fitting(known, given)
        return ShopOffer(given.meaning, found, partial(self._take, given.name)) if found else None

    def _take(self, name: str, spread: Spread) -> None:
        case = self.panel.case
        changed = case.changed({name: stated_with(case.entries[name], spread)})
        self.panel.show_case(changed, what=f"± of {spread.name}")


def fitting(spreads: Sequence[Spread], given: Given) -> list[Spread]:
    """Return what of a record can be the ± of a given: of its kind of unit, and from entries that differ."""
    of = given.unit
    return [
        each
        for each in spreads
        if (each.unit.dim, each.unit.angle) == (of.dim, of.angle) and each.dof >= 1 and each.u > 0
    ]


def stated_with(entry: Entry, spread: Spread) -> Stated:
    """Return a given's value with the ± of the record, as a job states it; its origin says which entries those were."""
    origin = entry.origin
    dates = sorted({each.date for each in spread.entries if each.date})
    jobs = list(dict.fromkeys(each.job for each in spread.entries if each.job))
    told = [f"{spread.name}, {len(spread.entries)} entries", " to ".join(dict.fromkeys((*dates[:1], *dates[-1:])))]
    told.append(f"of {', '.join(jobs)}" if jobs else "")
    note = "; ".join(filter(None, (_own(origin.note), _FROM + ", ".join(filter(None, told)))))
    kept = ValueOrigin("chosen", note=note) if origin.kind in NOT_YOURS else replace(origin, note=note)
    return Stated(plain(entry, _half(spread)), "normal", _K, float(spread.dof), kept)


def stated_anew(before: Stated, text: str, origin: ValueOrigin) -> Stated:
    """Return a value with another text or origin; one with another ± is no longer the record's."""
    if text != before.text and _FROM in before.origin.note:
        return Stated(text, origin=replace(origin, note=_own(origin.note)))
    return replace(before, text=text, origin=origin)


def _own(note: str) -> str:
    """Return a note without what it says of a ± from the record."""
    return note.partition(_FROM)[0].removesuffix("; ")


def _half(spread: Spread) -> float:
    """Return the ± to be stated, to two digits of the record's unit, in base units."""
    return float(f"{_K * spread.u / spread.unit.factor:.2g}") * spread.unit.factor
