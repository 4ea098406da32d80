"""Where the parts of a job stand and what they are there, and below the station, which can be turned, and its mass."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.job.arrange import place_part
from kit.job.place import standing
from kit.sheet.cover import cover
from kit.sheet.station_pages import whole_html
from kit.station.lists import station_lists
from kit.ui.page.body_view import BodyView
from kit.ui.page.widgets import button, labeled, row
from kit.ui.page.working import Working

if TYPE_CHECKING:
    from kit.ui.page.state import PageState
    from kit.ui.page.working import Told

NAME = "station"
AXES = ("x, to the right", "y, to the back", "z, up")


class StationView(w.VBox):
    """A button that opens the form and the picture; they stay open as long as the job does."""

    def __init__(self, page: PageState) -> None:
        self.page = page
        is_open, tooltip = NAME in page.open_views, "where its parts stand, and a picture"
        self.opened = w.ToggleButton(value=is_open, description="Show the station", tooltip=tooltip)
        parts = [(part.title or id, id) for id, part in page.job.parts.items()]
        self.part = w.Dropdown(options=[("choose a part", ""), *parts], value="")
        self.at = tuple(w.Text(continuous_update=False) for _ in AXES)
        self.turn, self.on = w.Text(continuous_update=False), w.Dropdown()
        self.stands = w.HTML()
        self.put = button("Place it here", "save where the part stands", self.place, kind="fw-main")
        self.away = button("It does not stand here", "leave it out of the station", self.leave_out)
        self.free = button("Say nothing of it", "take its place out of the job", self.forget)
        self.working = Working([self.put, self.away, self.free], "the station")
        self.body = BodyView(page, self._show)
        self.part.observe(lambda _: self._choose(), "value")
        self.opened.observe(lambda _: self._open(), "value")
        super().__init__(_dom_classes=("fw-station",))
        self._fill()
        self._open()

    def choose(self, part_id: str) -> None:
        """Show the boxes of a part, if the job has it."""
        self.part.value = part_id if part_id in self.page.job.parts else ""

    def place(self) -> None:
        """Save what the boxes say as the place of the chosen part."""
        unit = self.page.job.display.system
        place: dict[str, Any] = {"at": [box.value.strip() or f"0 {unit}" for box in self.at]}
        if self.turn.value.strip():
            place["turn"] = self.turn.value.strip()
        if self.on.value:
            place["on"] = self.on.value
        self._say(place, "is placed")

    def leave_out(self) -> None:
        """Say that the chosen part does not stand in the station."""
        self._say(False, "does not stand in the station")

    def forget(self) -> None:
        """Take the place of the chosen part out of the job."""
        self._say(None, "has no place of its own any more")

    # -- inside ---------------------------------------------------------------------------------------

    def _say(self, place: Mapping[str, Any] | bool | None, words: str) -> None:
        job, id = self.page.job, str(self.part.value)

        def do() -> str:
            place_part(job, id, place)
            return f"{job.parts[id].title or id} {words}"

        if id and self.page.attempt(do):
            self._fill()
            self._show()

    def _open(self) -> None:
        if not self.opened.value:
            self.page.open_views.discard(NAME)
            self.children = [self.opened]
            return
        self.page.open_views.add(NAME)
        boxes = [labeled(name, box) for name, box in zip(AXES, self.at, strict=True)]
        turn = labeled("turn, to the left", self.turn, "turned from above, counterclockwise")
        part, on = labeled("Part", self.part), labeled("in the axes of", self.on)
        for menu in (part, on):
            menu.add_class("fw-wide")
        form = [part, row(*boxes, turn), on, self.stands]
        self.children = [self.opened, *form, self.working.head, self.body, self.working.said]
        self._show()

    def _choose(self) -> None:
        self._fill()
        self.body.show(str(self.part.value))

    def _fill(self) -> None:
        """Show in the boxes what the job says of the chosen part."""
        job, id = self.page.job, str(self.part.value)
        raw = job.parts[id].place if id else None
        told = raw if isinstance(raw, Mapping) else {}
        at = told.get("at", [])
        texts = [str(each) for each in at] if isinstance(at, list) and len(at) == len(AXES) else [""] * len(AXES)
        for box, text in zip(self.at, texts, strict=True):
            box.value, box.placeholder = text, f"0 {job.display.system}"
        self.turn.value, self.turn.placeholder = str(told.get("turn", "")), "0 deg"
        others = [(part.title or other, other) for other, part in job.parts.items() if other != id]
        self.on.options = [("the station: the machine's axes", ""), *others]
        on = told.get("on", "")
        self.on.value = on if on in job.parts and on != id else ""
        self.stands.value = f"<p>{escape(self._words(id, raw))}</p>" if id else ""
        for each in (self.put, self.away, self.free):
            each.disabled = not id

    def _words(self, id: str, raw: Any) -> str:
        if raw is False:
            return "It is said not to stand in the station."
        if isinstance(raw, Mapping):
            return "It stands where the fields above say."
        if id in standing(self.page.job).frames:
            return "It stands with what has the same axes; a place of its own would move it."
        return "Nothing says yet where it stands."

    def _show(self) -> None:
        self.working.start(self._shown)

    def _shown(self, told: Told) -> str:
        told(0.0, "building what stands there")
        found = station_lists(self.page.job)
        picture = cover(found, still=False)
        return (picture or "<p>No part with a shape has a place yet.</p>") + whole_html(found)
