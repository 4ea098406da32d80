"""A notebook run in this process, in a shell of its own: what a kernel says of it, without a kernel's start.

Modules stay imported and models stated from one notebook to the next, so that a run costs what its cells cost.
"""

import contextlib
import io
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import nbformat
from IPython.core.interactiveshell import InteractiveShell
from traitlets.config import Config

Notebook = dict[str, Any]

QUIET = Config({"HistoryManager": {"enabled": False}, "InteractiveShell": {"colors": "nocolor"}})


class _Shell(InteractiveShell):
    """A shell that keeps what it would show of an error: of a cell, of what a cell displays, of a callback."""

    def __init__(self, home: str) -> None:
        self.told: list[str] = []
        super().__init__(config=QUIET, ipython_dir=home, user_module=ModuleType("notebook"))

    def _showtraceback(self, kind: type[BaseException], error: BaseException, lines: list[str]) -> None:
        self.told.append("\n".join([f"{kind.__name__}: {error}", *lines]))


@contextlib.contextmanager
def _shell() -> Iterator[_Shell]:
    """Yield the shell that `IPython.get_ipython()` finds inside the block; outside there is none."""
    with tempfile.TemporaryDirectory() as home:
        shell = _Shell.instance(home)
        try:
            yield shell
        finally:
            _Shell.clear_instance()


def run(notebook: Path, *, stored: bool = True, only: Callable[[list[str]], set[int]] | None = None) -> list[str]:
    """Run all cells of a notebook in its folder and return a text for each thing that went wrong.

    `only` picks of all cells' sources the numbers of those that are run, from 0. A cell may not raise, nor may what it
    displays, and it may write nothing to stderr. A cell with stored outputs must print just these, unless `stored` is
    false: they are those of the job that the notebook was written for.
    """
    found: list[str] = []
    content = nbformat.read(notebook, as_version=nbformat.NO_CONVERT)
    with contextlib.chdir(notebook.parent), _shell() as shell:
        code = [cell["source"] if cell["cell_type"] == "code" else "" for cell in content["cells"]]
        picked = only(code) if only else {*range(len(code))}
        for number, cell in enumerate(content["cells"], start=1):
            if cell["cell_type"] == "code" and number - 1 in picked:
                told = _run_cell(shell, cell, stored=stored)
                found += [f"{notebook.name}, cell {number}: {text}" for text in told]
    return found


def _run_cell(shell: _Shell, cell: Notebook, *, stored: bool) -> list[str]:
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        shell.run_cell(cell["source"])
    found, shell.told = shell.told, []
    if err.getvalue().strip():
        found.append(f"stderr: {err.getvalue()}")
    if stored and cell["outputs"]:
        wanted = "".join(output.get("text", f"({output['output_type']})") for output in cell["outputs"])
        if out.getvalue() != wanted:
            found.append(f"prints\n{out.getvalue()}\ninstead of\n{wanted}")
    return found
