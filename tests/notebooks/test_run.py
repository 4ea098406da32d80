"""Every notebook runs from top to bottom in a fresh kernel, and prints what it says it prints.

nbval runs in a process of its own, one for each notebook: the cells share a kernel and must stay together,
and its import costs seconds that the other tests need not pay.
"""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_notebook, new_output

from tests import NOTEBOOKS

CELL = 120  # seconds a cell may take on a busy machine
WHOLE = 900  # seconds a notebook may take


def run(notebook: Path, env: dict[str, str]) -> subprocess.CompletedProcess[str]:
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


@pytest.mark.parametrize("path", sorted(NOTEBOOKS.glob("*.ipynb")), ids=lambda path: path.stem)
def test_notebook_runs(path: Path, working_copy: Callable[..., Path], jupyter_env: dict[str, str]) -> None:
    done = run(working_copy(path), jupyter_env)
    assert done.returncode == 0, done.stdout + done.stderr


def test_an_error_and_a_wrong_output_are_found(tmp_path: Path, jupyter_env: dict[str, str]) -> None:
    two = [new_output("stream", name="stdout", text="2\n")]
    cells = [
        new_code_cell("import kit"),
        new_code_cell("# NBVAL_CHECK_OUTPUT\nprint(1 + 1)", outputs=two),
        new_code_cell("# NBVAL_CHECK_OUTPUT\nprint(1 + 2)", outputs=two),
        new_code_cell("assert 1 + 1 == 3"),
    ]
    kernel = {"name": "python3", "display_name": "Python 3"}
    nbformat.write(new_notebook(cells=cells, metadata={"kernelspec": kernel}), tmp_path / "faults.ipynb")
    done = run(tmp_path / "faults.ipynb", jupyter_env)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "2 failed, 2 passed" in done.stdout
