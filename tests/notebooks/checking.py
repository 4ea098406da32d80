"""What must hold in a notebook, put into a copy of it as cells of their own: lessons themselves hold no assertions."""

from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell

from tests.notebooks.answers import ANSWERS
from tests.notebooks.checks import CHECKS

ANSWERED = "assert _.posed.question.answer == {0!r}, _.posed.question.answer"  # of what the cell before shows


def with_checks(notebook: Path) -> Path:
    """Add what must hold after each cell to a notebook, a copy, and return it. Every check must find its cell."""
    content = nbformat.read(notebook, as_version=nbformat.NO_CONVERT)
    asked = ANSWERS.get(notebook.stem, {})
    checks = CHECKS.get(notebook.stem, {}) | {id: (ANSWERED.format(answer),) for id, answer in asked.items()}
    ids = [cell["id"] for cell in content["cells"]]
    assert set(checks) <= set(ids), f"checks of cells that {notebook.name} does not have"
    cells = []
    for cell in content["cells"]:
        cells += [cell, *map(new_code_cell, checks.get(cell["id"], ()))]
    content["cells"] = cells
    nbformat.write(content, notebook)
    return notebook
