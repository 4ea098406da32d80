"""Editors of inputs: a table of fields for rows, one field for all else, each with its faults beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from html import escape
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import in_words
from kit.core.model.input_fields import Flag
from kit.core.model.input_lists import Rows
from kit.core.model.input_origins import item_of, restated
from kit.core.model.inputs import Fault, Input
from kit.job.pasted import read_block
from kit.job.toml_edit import ABSENT
from kit.ui.panel.cell_origin import CellOrigin
from kit.ui.panel.input_cell import Cell, plain, unit_of

Changed = Callable[[], None]


def editor(asked: Input, raw: Any, on_change: Changed, *, example: bool = False) -> RowsEditor | CellEditor:
    """Return the editor of an input that states `raw`, or ABSENT; `on_change` is called when it was changed.

    `example`: what states no origin is an example.
    """
    as_rows = raw is ABSENT or (isinstance(raw, list) and all(isinstance(row, Mapping) for row in raw))
    if isinstance(asked, Rows) and as_rows:
        return RowsEditor(asked, raw, on_change, example=example)
    return CellEditor(asked, raw, on_change, example=example)


class CellEditor(w.VBox):
    """What an input means, one field, and what is wrong with it."""

    def __init__(self, asked: Input, raw: Any, on_change: Changed, *, example: bool) -> None:
        self.asked, self.cell, self.note = asked, Cell(asked, raw, on_change, alone=True), w.HTML()
        self._before, self._on_change, self._example = None if raw is ABSENT else raw, on_change, example
        self.origin = CellOrigin(asked, lambda: self.read()[0], self._write, on_change, example=example)
        self.cell.name("")
        line = w.HBox([self.cell.widget, self.origin.opened], _dom_classes=("fw-about",))
        super().__init__([_label(asked), line, self.note, self.origin.box], _dom_classes=("fw-input",))

    def read(self) -> tuple[Any, list[Fault]]:
        """Return what is stated with its origin, ABSENT where nothing is, and what cannot be read at all."""
        found: list[Fault] = []
        raw = _read(self.cell, (self.asked.name,), found)
        return raw if raw is ABSENT else restated(self.asked, self._before, raw, example=self._example), found

    def tell(self, faults: Iterable[Fault]) -> None:
        """Show what is wrong, nothing where nothing is, and where what is stated comes from."""
        shown = list(faults)
        self.cell.mark(bool(shown))
        _tell(self.note, shown, 1)
        self.origin.refresh()

    @property
    def refused(self) -> bool:
        """Whether an origin is entered here that cannot be taken."""
        return self.origin.refused

    def _write(self, raw: Any) -> None:
        self._before = raw
        self.cell.show(raw)
        self._on_change()


class RowsEditor(w.VBox):
    """A table of fields with a column for each entry of a row; what is wrong with a cell stands below that cell."""

    def __init__(self, asked: Rows, raw: Any, on_change: Changed, *, example: bool) -> None:
        self._example = example
        self.asked, self._on_change, self._was_stated, self._quiet = asked, on_change, raw is not ABSENT, False
        self.rows = [self._row(row) for row in ([] if raw is ABSENT else raw)]
        self.note, self.grid = w.HTML(), w.GridBox(_dom_classes=("fw-input-grid",))
        self.grid.layout.grid_template_columns = " ".join([*map(_width, asked.columns), "max-content"])
        self.adding = w.Button(description="Add row", tooltip=f"add a row to {in_words(asked.name)}")
        self.adding.on_click(lambda _: self.add())
        self.pasting = w.ToggleButton(description="Paste rows", tooltip="take rows from a spreadsheet or a CSV file")
        self.pasting.observe(lambda _: self._lay_out(), "value")
        self.pasted = w.Textarea(rows=4, tooltip=f"rows of {in_words(asked.name)}, as copied from a spreadsheet")
        self.pasted.placeholder = "\t".join(in_words(each.name) for each in asked.columns)
        self.taking = w.Button(description="Add these rows", tooltip="add the rows that were pasted")
        self.taking.on_click(lambda _: self.paste(self.pasted.value))
        self._heads = [*map(_heading, asked.columns), w.HTML()]
        self._label = _label(asked)
        self._table = w.Box([self.grid], _dom_classes=("fw-input-scroll",))
        super().__init__(_dom_classes=("fw-input",))
        self._lay_out()

    def add(self) -> None:
        """Add an empty row at the end; it is read once something is typed there."""
        self.rows.append(self._row({}))
        self._lay_out()

    def paste(self, text: str) -> None:
        """Add the rows of a block that was copied from a spreadsheet, or say why they cannot be read."""
        try:
            block = read_block(text, [each.name for each in self.asked.columns])
        except KitError as error:
            _tell(self.note, [Fault((self.asked.name,), str(error), "")], 1)
            return
        self._quiet = True
        try:
            for texts in block:
                self.rows.append(self._row({}))
                for name, said in texts.items():
                    self.rows[-1].cells[name].paste(said)
        finally:
            self._quiet = False
        self.pasting.value, self.pasted.value = False, ""
        self._lay_out()
        self._changed()

    def raise_(self, row: _Row) -> None:
        """Move a row one place up; the first one stays."""
        at = self.rows.index(row)
        if at:
            self.rows[at - 1 : at + 1] = self.rows[at], self.rows[at - 1]
            self._lay_out()
            self._changed()

    def remove(self, row: _Row) -> None:
        """Take a row out."""
        self.rows.remove(row)
        self._lay_out()
        self._changed()

    def read(self) -> tuple[Any, list[Fault]]:
        """Return the rows, ABSENT where none is stated, and what cannot be read at all."""
        found: list[Fault] = []
        rows = [row.read((self.asked.name, number), found) for number, row in enumerate(self.rows)]
        return (rows if rows or self._was_stated else ABSENT), found

    def tell(self, faults: Iterable[Fault]) -> None:
        """Show what is wrong with each row, and with the whole."""
        shown = list(faults)
        for number, row in enumerate(self.rows):
            row.origin.refresh()
            row.tell([fault for fault in shown if fault.at[1:2] == (number,)])
        self._fill()
        _tell(self.note, [fault for fault in shown if len(fault.at) < 2], 1)

    @property
    def refused(self) -> bool:
        """Whether an origin is entered here that cannot be taken."""
        return any(row.origin.refused for row in self.rows)

    def _lay_out(self) -> None:
        for number, row in enumerate(self.rows, start=1):
            row.place(number)
        self._fill()
        self.grid.layout.display = "" if self.rows else "none"
        buttons = w.HBox([self.adding, self.pasting], _dom_classes=("fw-row",))
        block = [self.pasted, self.taking] if self.pasting.value else []
        self.children = (self._label, self._table, buttons, *block, self.note)

    def _fill(self) -> None:
        children = (*self._heads, *(widget for row in self.rows for widget in row.widgets))
        if self.grid.children != children:
            self.grid.children = children

    def _row(self, raw: Mapping[str, Any]) -> _Row:
        return _Row(self.asked, raw, self._changed, self.raise_, self.remove, example=self._example)

    def _changed(self) -> None:
        if not self._quiet:
            self._on_change()


class _Row:
    """The fields of one row; entries that the page does not know are kept as they are, and the row's own origin."""

    def __init__(
        self,
        asked: Rows,
        raw: Mapping[str, Any],
        on_change: Changed,
        raise_: Callable[[_Row], None],
        remove: Callable[[_Row], None],
        *,
        example: bool,
    ) -> None:
        self.asked, self._row, self._on_change, self._example = asked, item_of(asked, raw), on_change, example
        self._before: Mapping[str, Any] | None = raw or None
        self.cells = {each.name: Cell(each, raw.get(each.name, ABSENT), on_change) for each in asked.columns}
        self.origin = CellOrigin(self._row, lambda: self.read((), []), self._write, on_change, example=example)
        self.removing, self.note = w.Button(description="Remove"), w.HTML(_dom_classes=("fw-input-note",))
        self.notes: dict[str, w.HTML] = {}  # below a cell, what is wrong with it
        self.removing.on_click(lambda _: remove(self))
        self.raising = w.Button(description="↑")
        self.raising.on_click(lambda _: raise_(self))
        self._acting = w.HBox([self.origin.opened, self.raising, self.removing])

    @property
    def widgets(self) -> tuple[w.Widget, ...]:
        """The fields, the buttons, what is wrong with the cells and with the row, and where its values come from."""
        wrong = (*self.notes.values(), self.note)
        return (*(cell.widget for cell in self.cells.values()), self._acting, *wrong, self.origin.box)

    @property
    def told(self) -> str:
        """What is wrong with the row and its cells, as HTML; empty if nothing is."""
        return "".join(note.value for note in (*self.notes.values(), self.note))

    def place(self, number: int) -> None:
        """Name the fields after the row's number, from 1."""
        for cell in self.cells.values():
            cell.name(f", row {number}")
        self.origin.name(f", row {number}")
        self.removing.tooltip = f"remove row {number} of {in_words(self.asked.name)}"
        self.raising.tooltip = f"move row {number} of {in_words(self.asked.name)} up"
        self.raising.disabled = number == 1

    def read(self, at: tuple[str | int, ...], faults: list[Fault]) -> dict[str, Any]:
        """Return what the row states; what cannot be read at all goes to `faults`."""
        found = {name: _read(cell, (*at, name), faults) for name, cell in self.cells.items()}
        unknown = {key: value for key, value in (self._before or {}).items() if key not in self.cells}
        stated = {name: raw for name, raw in found.items() if raw is not ABSENT} | unknown
        return dict(restated(self._row, self._before, stated, example=self._example))

    def _write(self, raw: Any) -> None:
        self._before = raw
        for name, cell in self.cells.items():
            cell.show(raw.get(name, ABSENT))
        self._on_change()

    def tell(self, faults: list[Fault]) -> None:
        """Show what is wrong with the row."""
        before, self.notes = self.notes, {}
        for column, (name, cell) in enumerate(self.cells.items(), start=1):
            wrong = [fault for fault in faults if fault.at[2:3] == (name,)]
            cell.mark(bool(wrong))
            if wrong:
                self.notes[name] = before.get(name) or w.HTML(layout={"grid_area": f"auto / {column}"})
                _tell(self.notes[name], wrong, 2)
        _tell(self.note, [fault for fault in faults if fault.at[2:3] not in {(name,) for name in self.cells}], 2)
        self.note.layout.display = ""  # without words, too, it ends the row


def _read(cell: Cell, at: tuple[str | int, ...], faults: list[Fault]) -> Any:
    try:
        return cell.read()
    except KitError as error:
        message, _, remedy = str(error).partition("; ")
        faults.append(Fault(at, message, remedy))
        return ABSENT


def _tell(note: w.HTML, faults: list[Fault], depth: int) -> None:
    """Show faults where the first `depth` steps of their places are plain to see."""
    words = (replace(fault, at=fault.at[depth:]).words for fault in faults)
    note.value = "".join(f'<div class="fw-fault" role="alert">{escape(each)}</div>' for each in words)
    note.layout.display = "" if faults else "none"


def _label(asked: Input) -> w.HTML:
    """Return an input's name with what it means, and what each row must choose between."""
    ways = ", or ".join(" and ".join(map(in_words, way)) for way in getattr(asked, "one_of", ()))
    more = f" · exactly one of {ways}" if ways else ""
    unit = f" [{unit_of(asked)}]" if unit_of(asked) else ""
    shown = f"{asked.meaning}{more}{' · needed' if asked.needed else ''}"
    name = f'<span class="fw-name">{escape(in_words(asked.name) + unit)}</span>'
    return w.HTML(f'{name} <span class="fw-note">{escape(shown)}</span>')


def _heading(column: Input) -> w.HTML:
    unit = f" [{unit_of(column)}]" if unit_of(column) else ""
    name = escape(in_words(column.name) + unit)
    return w.HTML(f'<span class="fw-name">{name}</span><br><span class="fw-note">{escape(column.meaning)}</span>')


def _width(column: Input) -> str:
    if isinstance(column, Flag):
        return "5em"
    return "minmax(8em, 1fr)" if plain(column) else "minmax(13em, 2fr)"
