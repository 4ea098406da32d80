"""Every notebook runs from top to bottom without an error, and prints what it says it prints.

All run in this process; nbval runs a small one as well, in a kernel of its own. In a kernel of JupyterLab they run in
`tests/browser/test_notebooks.py`.
"""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import nbformat
import pytest
from IPython import get_ipython
from nbformat.v4 import new_code_cell, new_notebook, new_output

from tests import NOTEBOOKS
from tests.notebooks.checking import with_checks
from tests.notebooks.run import run

CELL = 120  # seconds a cell may take on a busy machine
WHOLE = 900  # seconds a notebook may take


@pytest.mark.parametrize("path", sorted(NOTEBOOKS.glob("*.ipynb")), ids=lambda path: path.stem)
def test_notebook_runs(path: Path, working_copy: Callable[..., Path]) -> None:
    assert run(with_checks(working_copy(path))) == []


TWO = [new_output("stream", name="stdout", text="2\n")]
CHECKED = "# NBVAL_CHECK_OUTPUT\n"
SHOWN = "class Shown:\n    def _repr_html_(self):\n        raise ValueError('not shown')\nShown()"
CALLED = "from ipywidgets import Output\nwith Output():\n    raise ValueError('in a widget')"


def written(folder: Path, *cells: nbformat.NotebookNode) -> Path:
    path = folder / "faults.ipynb"
    kernel = {"name": "python3", "display_name": "Python 3"}
    nbformat.write(new_notebook(cells=cells, metadata={"kernelspec": kernel}), path)
    return path


@pytest.mark.parametrize(
    ("cell", "told"),
    [
        (new_code_cell("1 / 0"), "ZeroDivisionError: division by zero"),
        (new_code_cell("1 +"), "SyntaxError"),
        (new_code_cell(SHOWN), "ValueError: not shown"),
        (new_code_cell(CALLED), "ValueError: in a widget"),
        (new_code_cell("import sys; print('careful', file=sys.stderr)"), "stderr: careful"),
        (new_code_cell(f"{CHECKED}print(1 + 2)", outputs=TWO), "prints\n3\n\ninstead of\n2"),
        (new_code_cell(f"{CHECKED}1 + 1", outputs=[new_output("execute_result", {"text/plain": "2"})]), "instead of"),
    ],
)
def test_what_goes_wrong_is_told_with_its_cell(tmp_path: Path, cell: nbformat.NotebookNode, told: str) -> None:
    good = new_code_cell("two = 2"), new_code_cell(f"{CHECKED}print(two)", outputs=TWO)
    (found,) = run(written(tmp_path, good[0], cell, good[1]))
    assert found.startswith("faults.ipynb, cell 2: ")
    assert told in found


def test_a_notebook_knows_nothing_of_the_one_before_and_works_in_its_folder(tmp_path: Path) -> None:
    before = Path.cwd()
    first = new_code_cell("left = 1"), new_code_cell("from pathlib import Path; Path('here').touch()")
    assert run(written(tmp_path, *first)) == []
    assert (tmp_path / "here").exists()
    (found,) = run(written(tmp_path, new_code_cell("left")))
    assert "NameError" in found
    assert Path.cwd() == before
    assert get_ipython() is None  # type: ignore[no-untyped-call]


def test_of_another_job_only_the_printed_lines_may_differ(tmp_path: Path) -> None:
    path = written(tmp_path, new_code_cell(f"{CHECKED}print(3)", outputs=TWO), new_code_cell("1 / 0"))
    (found,) = run(path, stored=False)
    assert "ZeroDivisionError" in found


def nbval(notebook: Path, env: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """Run nbval on a notebook, in its folder, away from the settings of this test run.

    nbval refuses outputs of a cell without an execution count; stored notebooks have none: it is filled in.
    """
    content = nbformat.read(notebook, as_version=nbformat.NO_CONVERT)
    for cell in content["cells"]:
        if cell.get("outputs"):
            cell["execution_count"] = 1
    nbformat.write(content, notebook)
    options = ["--nbval-lax", "--nbval-current-env", f"--nbval-cell-timeout={CELL}"]
    plain = ["-p", "no:cacheprovider", "--color=no", "-ra"]
    return subprocess.run(
        [sys.executable, "-m", "pytest", *options, *plain, notebook.name],
        cwd=notebook.parent,
        env=env,
        timeout=WHOLE,
        capture_output=True,
        text=True,
    )


def test_nbval_finds_no_fault_in_a_fresh_kernel(working_copy: Callable[..., Path], jupyter_env: dict[str, str]) -> None:
    done = nbval(working_copy(NOTEBOOKS / "85_shelves.ipynb"), jupyter_env)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.long
def test_nbval_finds_an_error_and_a_wrong_output(tmp_path: Path, jupyter_env: dict[str, str]) -> None:
    cells = [
        new_code_cell("import kit"),
        new_code_cell(f"{CHECKED}print(1 + 1)", outputs=TWO),
        new_code_cell(f"{CHECKED}print(1 + 2)", outputs=TWO),
        new_code_cell("assert 1 + 1 == 3"),
    ]
    done = nbval(written(tmp_path, *cells), jupyter_env)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "2 failed, 2 passed" in done.stdout
