"""Where the values of a row, a list or an option come from: one button, and behind it the editor of each."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import in_words
from kit.core.model.input_fields import Amount
from kit.core.model.input_origins import at_place, origin_at, origins_in, places, with_origin, with_value
from kit.core.model.inputs import Input, Path, Reading
from kit.core.quantity import Quantity, ValueOrigin
from kit.core.quantity.origin import STATES, value_of
from kit.job.toml_edit import ABSENT
from kit.ui.panel.origin_editor import NOT_YOURS, OriginEditor, half_width

_SEVERAL = "several origins"


class CellOrigin:
    """A button that names the origin, and a box that it opens. `read` gives the data of `asked`, ABSENT for none.

    `write` takes them with another origin; `on_fault` is called when what is entered here can be taken or no more.
    `example`: what states no origin is an example.
    """

    def __init__(
        self,
        asked: Input,
        read: Callable[[], Any],
        write: Callable[[Any], None],
        on_fault: Callable[[], None],
        *,
        example: bool,
    ) -> None:
        self.asked, self._read, self._write, self._on_fault, self._example = asked, read, write, on_fault, example
        self.opened = w.ToggleButton(_dom_classes=("fw-state",))
        self.opened.observe(lambda _: self.refresh(), "value")
        self.box = w.VBox(_dom_classes=("fw-origin-box",))
        self.box.layout.display = "none"
        self.which = w.Dropdown(description="of")
        self.which.observe(lambda _: self._show(), "value")
        self.editor: OriginEditor | None = None  # made when it is first looked at
        self._shown: tuple[Path, Any] | None = None  # of which place, and of which data
        self._quiet = False
        self.name("")

    @property
    def refused(self) -> bool:
        """Whether something is entered here that cannot be taken."""
        return self.editor is not None and self.editor.refused

    def name(self, where: str) -> None:
        """Give the button its accessible name: of what, and where it stands."""
        self._about = f"{in_words(self.asked.name)}{where}"
        self.opened.tooltip = f"{self._about}: measured when, how and by whom, ±, note"
        self.which.tooltip = f"{self._about}: the value of which the origin is shown"

    def refresh(self) -> None:
        """Show what holds now."""
        raw = self._read()
        found = {} if raw is ABSENT else origins_in(self.asked, raw, example=self._example)
        states = {STATES[origin.kind] for origin in found.values()}
        self.opened.layout.display = "" if found else "none"
        self.opened.description = states.pop() if len(states) == 1 else _SEVERAL
        shown = self.opened.value and bool(found)
        self.box.layout.display = "" if shown else "none"
        if not shown:
            return
        if self.editor is None:
            self.editor = OriginEditor(self._about, self._told, self._on_fault)
            self.box.children = (self.which, self.editor)
        options = [(_named(path), path) for path in places(self.asked, raw)]
        options = options[1:] if len(options) == 2 else options  # the whole is the one value
        if list(self.which.options) != options:
            kept = self.which.value
            self._quiet = True
            self.which.options = options
            self.which.value = kept if kept in [path for _, path in options] else options[0][1]
            self._quiet = False
        self.which.layout.display = "" if len(options) > 1 else "none"
        self._show()

    # -- inside ---------------------------------------------------------------------------------------

    def _show(self) -> None:
        if self._quiet or self.editor is None:
            return
        raw, at = self._read(), self.which.value
        asked, value = at_place(self.asked, raw, at)
        if (at, raw) != self._shown:  # what waits for another field there stays as it is entered
            self._shown = (at, raw)
            origin = origin_at(self.asked, raw, at, example=self._example)
            self.editor.show(origin, _half(_quantity(asked, value)))

    def _told(self, origin: ValueOrigin, half: str | None) -> None:
        """Take an origin. Raises KitError where an example's ± would become the reader's own."""
        raw, at = self._read(), self.which.value
        asked, value = at_place(self.asked, raw, at)
        found = _quantity(asked, value)
        if found is not None and half:
            sure = Quantity.from_base(found.base, found.unit, half_width(half, found.unit))
            raw = with_value(raw, at, str(sure))
        elif origin.kind not in NOT_YOURS:
            foreign = [_named(path) for path in self._foreign(raw, at)]
            if foreign:
                whose = foreign[0] if found is not None else ", ".join(foreign)
                where = "below" if found is not None else "beside each of them"
                raise KitError(f"the ± of {whose} is not yours yet; enter how far off yours may be, {where}")
            if found is not None and half == "" and found.half is not None:
                raw = with_value(raw, at, str(Quantity(found.value, found.unit)))
        self._write(with_origin(self.asked, raw, at, origin, example=self._example))
        self.refresh()

    def _foreign(self, raw: Any, at: Path) -> Iterable[Path]:
        """Yield the values at a place whose ± is an example's, a default's or a table's."""
        for path, origin in origins_in(self.asked, raw, example=self._example).items():
            found = _quantity(*at_place(self.asked, raw, path))
            if path[: len(at)] == at and origin.kind in NOT_YOURS and found is not None and found.half:
                yield path


def _quantity(asked: Input, raw: Any) -> Quantity | None:
    """Return the quantity that stands at a place, if one does."""
    found = asked.read(value_of(raw), (), Reading()) if isinstance(asked, Amount) else None
    return found if isinstance(found, Quantity) else None


def _half(found: Quantity | None) -> str | None:
    """Return a quantity's half-width in its unit, empty where it has none; None for what is no quantity."""
    if found is None:
        return None
    return "" if found.half is None else f"{found.half:.6g} {found.unit.text}".strip()


def _named(path: Path) -> str:
    """Return the name of a place within an input's data."""
    return ", ".join(f"number {key + 1}" if isinstance(key, int) else in_words(key) for key in path) or "the whole"
