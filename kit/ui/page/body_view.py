"""What a part's page does not know of its body: mass, center and a table of boxes, saved as they are typed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.model.input_fields import Text
from kit.core.model.input_terms import rows, text
from kit.core.model.inputs import Fault
from kit.job.arrange import state_body
from kit.job.fits import fitting_masses
from kit.job.place import body_faults
from kit.job.toml_edit import same
from kit.ui.page.widgets import labeled, line, row
from kit.ui.panel.input_editors import RowsEditor

if TYPE_CHECKING:
    from kit.job.place import PlaceFault
    from kit.ui.page.state import PageState

BOXES = rows(
    "boxes",
    "what stands there, in the part's own axes; an empty field is 0",
    text("left", "x of the low corner"),
    text("front", "y of the low corner"),
    text("bottom", "z of the low corner"),
    text("right", "x of the high corner"),
    text("back", "y of the high corner"),
    text("top", "z of the high corner"),
)
SIDES = tuple(column.name for column in BOXES.columns)
WIDTHS = f"repeat({len(SIDES)}, minmax(6.5em, 1fr)) max-content"
CENTER = ("center: x", "center: y", "center: z")
_HEAD = '<p class="fw-note">Of its body, what its page does not know:</p>'


class BodyView(w.VBox):
    """The fields of the body of one part; `changed` is called when another one was saved."""

    def __init__(self, page: PageState, changed: Callable[[], None]) -> None:
        self.page, self._told, self._part, self._quiet = page, changed, "", False
        self.mass, self.source = w.Text(continuous_update=False, placeholder="kg"), w.Dropdown()
        self.center = tuple(w.Text(continuous_update=False) for _ in CENTER)
        self.note = w.HTML()
        self.boxes: RowsEditor | None = None
        for field in (self.mass, *self.center):
            field.observe(lambda _: self._changed(), "value")
        self.source.observe(lambda _: self._linked(), "value")
        center = [labeled(name, field) for name, field in zip(CENTER, self.center, strict=True)]
        linked = labeled("or taken from", self.source)
        linked.add_class("fw-wide")
        self._fields = (w.HTML(_HEAD), row(labeled("mass", self.mass), linked), row(*center), self.note)
        super().__init__(_dom_classes=("fw-body",))

    def show(self, part_id: str) -> None:
        """Show what the job states of the body of a part; nothing where none is chosen."""
        self._part = part_id
        if not part_id:
            self.children = []
            return
        self._quiet = True
        body, unit = self._stated(), self.page.job.display.system
        mass, center, boxes = body.get("mass", ""), body.get("center"), body.get("boxes")
        link = str(mass.get("from", "")) if isinstance(mass, Mapping) else ""
        fits = [(fit.words, fit.link) for fit in fitting_masses(self.page.job, part_id)]
        known = [] if link in ("", *(link for _, link in fits)) else [(link, link)]
        self.source.options, self.source.value = [("no other mass", ""), *known, *fits], link
        self.mass.value = "" if link else str(mass)
        for field, typed in zip(self.center, _three(center), strict=True):
            field.value, field.placeholder = typed, f"0 {unit}"
        raw = [_row(each) for each in boxes] if isinstance(boxes, list) else []
        columns = tuple(replace(each, default=f"0 {unit}") for each in BOXES.columns if isinstance(each, Text))
        self.boxes = RowsEditor(replace(BOXES, columns=columns), raw, self._changed, example=False)
        self.boxes.grid.layout.grid_template_columns = WIDTHS
        self._quiet = False
        self._tell(body_faults(part_id, body, self.page.job), range(len(raw)))
        self.children = [*self._fields, self.boxes]

    # -- inside ---------------------------------------------------------------------------------------

    def _stated(self) -> Mapping[str, Any]:
        body = self.page.job.parts[self._part].body
        return body if isinstance(body, Mapping) else {}

    def _linked(self) -> None:
        """Let a mass be taken from elsewhere in place of the typed one."""
        if not self._quiet:
            self._quiet, self.mass.value = True, "" if self.source.value else self.mass.value
            self._quiet = False
            self._changed()

    def _changed(self) -> None:
        """Save what is typed where nothing is wrong with it; else say what is, beside its field."""
        if self._quiet or self.boxes is None:
            return
        if self.mass.value.strip() and self.source.value:
            self._quiet, self.source.value = True, ""
            self._quiet = False
        body, numbers = self._typed()
        job, id = self.page.job, self._part
        faults = body_faults(id, body, job)
        self._tell(faults, numbers)
        if faults or same(body, self._stated()):
            return

        def do() -> str:
            state_body(job, id, body)
            return f"the body of {job.parts[id].title or id} is stated"

        if self.page.attempt(do):
            self._told()

    def _typed(self) -> tuple[dict[str, Any], list[int]]:
        """Return the body as it is typed, and of each of its boxes the number of its row."""
        assert self.boxes is not None
        empty = f"0 {self.page.job.display.system}"
        stated, _ = self.boxes.read()
        boxes = {number: [each.get(side, empty) for side in SIDES] for number, each in enumerate(stated) if each}
        body: dict[str, Any] = {"boxes": [[each[:3], each[3:]] for each in boxes.values()]} if boxes else {}
        if self.source.value:
            body["mass"] = {"from": self.source.value}
        elif self.mass.value.strip():
            body["mass"] = self.mass.value.strip()
        center = [field.value.strip() for field in self.center]
        if any(center):
            body["center"] = [typed or empty for typed in center]
        return body, list(boxes)

    def _tell(self, faults: Iterable[PlaceFault], numbers: Iterable[int]) -> None:
        """Show faults: those of boxes in the table, below the cell that they are of, all others below the fields."""
        assert self.boxes is not None
        row_of = list(numbers)
        others: list[PlaceFault] = []
        in_table: list[Fault] = []
        for fault in faults:
            match fault.at:
                case ("body", "boxes", int(number), int(corner), int(axis)):
                    at = ("boxes", row_of[number], SIDES[3 * corner + axis])
                    in_table.append(Fault(at, fault.message, fault.remedy))
                case ("body", "boxes", int(number), *_):
                    in_table.append(Fault(("boxes", row_of[number]), fault.message, fault.remedy))
                case _:
                    others.append(fault)
        self.boxes.tell(in_table)
        self.note.value = "".join(line(fault.words, fault=True) for fault in others)
        wrong = {fault.at[1:] for fault in others}
        places = (("mass",), *(("center", axis) for axis in range(len(self.center))))
        for place, field in zip(places, (self.mass, *self.center), strict=True):
            (field.add_class if place in wrong else field.remove_class)("fw-faulty")


def _three(raw: Any) -> list[str]:
    return [str(each) for each in raw] if isinstance(raw, list) and len(raw) == len(CENTER) else [""] * len(CENTER)


def _row(raw: Any) -> dict[str, str]:
    """Return a box as a row of the table; one that is not two corners is an empty row, which says so."""
    corners = raw if isinstance(raw, list) and len(raw) == 2 else [None, None]
    return dict(zip(SIDES, [*_three(corners[0]), *_three(corners[1])], strict=True))
