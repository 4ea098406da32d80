"""Tables as files: plain columns for a spreadsheet, and a card for the wall, printed at full size."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from kit.core.build import Output, Table
from kit.core.files import write_atomic
from kit.core.quantity import Display
from kit.drawing.card import card_scene
from kit.drawing.export import save
from kit.drawing.paper import PaperPlan
from kit.drawing.remarks import remarks


def csv_output(name: str, what: str, table: Table) -> Output:
    """Return the output that writes a table as ``<stem>_<name>.csv``: heads, then rows, as text."""

    def write(folder: Path, stem: str, _display: Display) -> list[Path]:
        text = io.StringIO()
        told = [(remark,) for remark in remarks()]
        csv.writer(text, lineterminator="\n").writerows([*told, table.heads, *table.rows])
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / f"{stem}_{name}.csv"
        write_atomic(path, text.getvalue())
        return [path]

    return Output(name, what, write)


def card_output(name: str, what: str, table: Table, paper: PaperPlan, notes: tuple[str, ...] = ()) -> Output:
    """Return the output that writes a table as a card with notes below it, PDF and SVG at full size."""

    def write(folder: Path, stem: str, _display: Display) -> list[Path]:
        return save(
            card_scene(table.title, table.heads, table.rows, notes),
            folder,
            f"{stem}_{name}",
            ("pdf", "svg"),
            paper=paper,
        )

    return Output(name, what, write)
