"""What the command says of models and tables: a line each, or all of it on request."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable, Iterator
from textwrap import wrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kit.core.model import Calculation
    from kit.core.quantity import Display
    from kit.core.tables import Table

_NAME = 24  # letters that a name takes in a line


def width() -> int | None:
    """Return how wide a line may be: what COLUMNS says, else the terminal's width; None where it goes elsewhere."""
    stated = os.environ.get("COLUMNS", "")
    if stated.isdecimal() and int(stated) > 0:
        return int(stated)
    return shutil.get_terminal_size().columns if sys.stdout.isatty() else None


def overview(models: Iterable[Calculation]) -> Iterator[str]:
    """Yield a line for each model: its name and its question, cut to the width."""
    room = width()
    for each in models:
        line = f"{each.name:<20} {each.question}"
        yield line if room is None or len(line) <= room else f"{line[: room - 1]}…"


def details(model: Calculation, display: Display | None) -> Iterator[str]:
    """Yield the lines that tell a model's question, what it asks and what it answers."""
    yield from _wrapped(f"{model.name}: {model.question}", "  ")
    for given in model.free.values():
        yield from _line(given.name, f"{given.meaning}; {given.span_text(display)}")
    for pick in model.picks.values():
        yield from _line(pick.name, f"{pick.meaning}; a row of the table {pick.table!r}")
    for asked in model.inputs.values():
        yield from _line(asked.name, f"{asked.meaning}; {asked.kind}")
    for result in model.results.values():
        yield from _line(f"-> {result.name}", f"{result.meaning} [{result.unit.text or '1'}]")


def rows(table: Table, display: Display | None) -> Iterator[str]:
    """Yield each row of a table: its names, its figures, and the source of each with how surely it is known."""
    from kit.core.quantity import show

    for row in table:
        yield from _wrapped(", also ".join(filter(None, (row.id, ", ".join(row.also)))), "  ")
        cited: dict[str, list[str]] = {}
        for name, column in table.schema.column.items():
            if name in row:
                entry = row.entry(name)
                shown = show(entry.base, entry.unit, display, half=entry.half)
                yield from _line(name, f"{shown}  {column.meaning}")
                cited.setdefault(entry.cited, []).append(name)
        for source, of in cited.items():
            yield from _line("source", f"{source}: {', '.join(of) if len(cited) > 1 else 'all of it'}")
        if row.note:
            yield from _line("note", row.note)


def _line(name: str, text: str) -> Iterator[str]:
    yield from _wrapped(f"  {name:<{_NAME}} {text}", " " * (_NAME + 3))


def _wrapped(text: str, indent: str) -> list[str]:
    room = width()
    if room is None or len(text) <= room:
        return [text]
    return wrap(text, max(room, 40), subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)
