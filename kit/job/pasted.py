"""Rows pasted from a spreadsheet or a CSV file, as texts under the columns of a list."""

from __future__ import annotations

import csv
from collections.abc import Sequence

from kit.core.errors import KitError

MOST = 2000
"""Rows that one block may have."""


def read_block(text: str, columns: Sequence[str]) -> list[dict[str, str]]:
    """Return the rows of a block by column; cells without a text are left out.

    Cells are parted by tabs, semicolons or commas. A first line of the columns' names says which is which; without
    one the cells go to the columns in their order.

    Raises:
        KitError: nothing but blanks, more rows than are read, or a row with more cells than there are columns.

    >>> read_block("12 mm\\t3.2 mm\\n40 mm\\t3.3 mm", ["x", "depth"])
    [{'x': '12 mm', 'depth': '3.2 mm'}, {'x': '40 mm', 'depth': '3.3 mm'}]
    """
    mark = next((sign for sign in "\t;" if sign in text), ",")
    lines = [[cell.strip() for cell in line] for line in csv.reader(text.splitlines(), delimiter=mark)]
    lines = [line for line in lines if any(line)]
    if not lines:
        raise KitError("there is nothing to paste; copy some rows of a spreadsheet first")
    if len(lines) > MOST:
        raise KitError(f"{len(lines)} rows are pasted, but {MOST} are the most; paste a part of them")
    named = {name.replace("_", " ").lower(): name for name in columns}
    heads = [named.get(cell.partition("[")[0].strip().replace("_", " ").lower()) for cell in lines[0]]
    order = list(columns)
    if any(heads):
        unknown = [cell for cell, head in zip(lines[0], heads, strict=True) if head is None and cell]
        if unknown:
            raise KitError(f"the heading {unknown[0]!r} is no column here; the columns are {', '.join(named)}")
        order, lines = [head or "" for head in heads], lines[1:]
    for number, line in enumerate(lines, start=1):
        if len(line) > len(order):
            raise KitError(
                f"row {number} of the block has {len(line)} cells, but there are {len(order)} columns: "
                f"{', '.join(named)}"
            )
    return [{name: cell for name, cell in zip(order, line, strict=False) if name and cell} for line in lines]
