"""One value to enter beside the givens: its widget, and between what is typed there and TOML data."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from typing import Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model.input_fields import Amount, Choice, Count, Flag, Numbers, Text
from kit.core.model.input_lists import Many, Rows, Steps
from kit.core.model.input_origins import VALUES
from kit.core.model.inputs import Input
from kit.core.quantity.origin import value_of
from kit.job.toml_edit import ABSENT, render

_WHOLE = re.compile(r"[+-]?[0-9]+")
_PLAIN = (Amount, Count, Choice, Flag, Text)
_YES = ("yes", "true", "x", "1")
_LINE = 60  # characters of TOML that one line shows well


class Cell:
    """The widget of one input; `on_change` is called when a person has changed it."""

    def __init__(self, asked: Input, raw: Any, on_change: Callable[[], None], *, alone: bool = False) -> None:
        self.asked, self._before, self._alone, self._on_change, self._quiet = asked, raw, alone, on_change, False
        self.widget = _widget(asked, raw, alone=alone)
        self.widget.observe(lambda _: self._changed(), "value")

    def _changed(self) -> None:
        if not self._quiet:
            self._on_change()

    def show(self, raw: Any) -> None:
        """Show other data without calling back."""
        self._before, self._quiet = raw, True
        if isinstance(self.widget, w.Text | w.Textarea):
            self.widget.value = _text(self.asked, raw, alone=self._alone)
        self._quiet = False

    def read(self) -> Any:
        """Return what the widget says as TOML data, without the origin of a value; ABSENT where nothing is stated.

        Raises:
            KitError: a text that is to be TOML and is not.
        """
        value = self.widget.value
        if isinstance(value, bool):
            return value if value or isinstance(self._before, bool) else ABSENT
        if not value.strip():
            return ABSENT
        if _texts(self.asked) and not value.strip().startswith("["):
            return [each.strip() for each in value.split(";") if each.strip()]
        return _typed(self.asked, value, value_of(self._before)) if plain(self.asked) else _toml(self.asked, value)

    def paste(self, text: str) -> None:
        """Take a text that was copied from elsewhere. What is no option of a menu is shown there all the same."""
        if isinstance(self.widget, w.Checkbox):
            self.widget.value = text.lower() in _YES
        elif isinstance(self.widget, w.Dropdown) and text not in (value for _, value in self.widget.options):
            self.widget.options = (*self.widget.options, (text, text))  # read as a fault, which names what is allowed
            self.widget.value = text
        else:
            self.widget.value = text

    def name(self, where: str) -> None:
        """Give the field its accessible name: what it means, and where it stands."""
        self.widget.tooltip = f"{self.asked.meaning}{where}"

    def mark(self, faulty: bool) -> None:
        """Set off a field whose value cannot be read."""
        (self.widget.add_class if faulty else self.widget.remove_class)("fw-faulty")


def plain(asked: Input) -> bool:
    """Return whether an input is typed as it is; all else is typed as TOML, texts also one after the other."""
    return isinstance(asked, _PLAIN)


def _texts(asked: Input) -> bool:
    """Return whether an input is a list of texts, which are typed with semicolons between."""
    return isinstance(asked, Many) and type(asked.item) is Text


def unit_of(asked: Input) -> str:
    """Return the unit in which a column is read, where it has one."""
    if isinstance(asked, Many):
        return unit_of(asked.item)
    if not isinstance(asked, Amount):
        return ""
    return " or ".join(filter(None, (asked.in_unit, asked.other_unit)))


def _widget(asked: Input, raw: Any, *, alone: bool) -> w.Widget:
    if isinstance(asked, Flag) and (raw is ABSENT or isinstance(raw, bool)):
        return w.Checkbox(value=raw is True, indent=False, description=asked.name.replace("_", " ") if alone else "")
    if isinstance(asked, Choice) and not asked.number and (raw is ABSENT or isinstance(raw, str)):
        unstated = f"{asked.default} (where nothing is stated)" if asked.default else "–"
        others = [] if raw is ABSENT or raw in asked.options else [raw]
        options = [(unstated, ""), *((option, option) for option in (*asked.options, *others))]
        return w.Dropdown(options=options, value="" if raw is ABSENT else raw)
    text = _text(asked, raw, alone=alone)
    if alone and not plain(asked):
        rows = min(max(text.count("\n") + 1, len(text) // _LINE + 1, 2), 12)
        return w.Textarea(value=text, rows=rows, continuous_update=False, placeholder=_hint(asked))
    return w.Text(value=text, continuous_update=False, placeholder=_hint(asked))


def _text(asked: Input, raw: Any, *, alone: bool) -> str:
    """Return what a field shows: a value without its origin, a list alone with a line for each of its entries."""
    if raw is ABSENT:
        return ""
    shown = value_of(raw) if isinstance(asked, VALUES) else raw
    if (
        _texts(asked)
        and isinstance(shown, list)
        and all(isinstance(e, str) and e.strip("[ ") and ";" not in e for e in shown)
    ):
        return "; ".join(shown)
    text = shown if isinstance(shown, str) and plain(asked) else render(shown)
    return _lines(shown) if alone and not plain(asked) and len(text) > _LINE and isinstance(shown, list) else text


def _lines(raw: list[Any]) -> str:
    return "[\n" + "".join(f"  {render(item)},\n" for item in raw) + "]"


def _hint(asked: Input) -> str:
    """Return what stands in an empty field: the default, or how to write it."""
    default = getattr(asked, "default", None)
    if default is not None:
        return str(default)
    if isinstance(asked, Amount):
        return f"{unit_of(asked)} with ±" if asked.sure else unit_of(asked)
    return "" if plain(asked) else _example(asked)


def _example(asked: Input) -> str:
    if isinstance(asked, Numbers):
        return "[0, 0, 1]"
    if _texts(asked):
        return "one; another"
    if isinstance(asked, Many):
        inner = asked.item
        item = (
            f'"10 {inner.in_unit or inner.other_unit}"' if isinstance(inner, Amount) else '"…"' if plain(inner) else "…"
        )
        return f"[{item}, {item}]" if item != "…" else f"[{_example(inner)}, …]"
    if isinstance(asked, Rows | Steps):
        return "[{ name = … }, …]"
    return "{ name = … }"


def _typed(asked: Input, text: str, before: Any) -> Any:
    """Return a typed text as data: a whole number where one is asked for, a number where there was one before."""
    whole = _WHOLE.fullmatch(text.strip())
    if whole and (isinstance(asked, Count) or (isinstance(asked, Choice) and asked.number)):
        return int(text)
    if isinstance(asked, Amount) and isinstance(before, int | float):
        try:
            found = _toml(asked, text)
        except KitError:
            return text
        return found if isinstance(found, int | float) and not isinstance(found, bool) else text
    return text


def _toml(asked: Input, text: str) -> Any:
    """Return what a text says as the value of a TOML key; it is parsed, never evaluated."""
    try:
        found = tomllib.loads(f"value = {text}\n")
    except (ValueError, RecursionError):
        found = {}
    if found.keys() != {"value"}:
        short = text if len(text) < _LINE else f"{text[:_LINE]} …"
        raise KitError(f"{asked.name} is {short!r}, which is not TOML; write it such as {_example(asked)}")
    return found["value"]
