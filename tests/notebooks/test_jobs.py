"""No cell of any notebook fails, whatever job is open."""

import shutil
from pathlib import Path

import pytest

from kit.job.folder import VARIABLE
from tests import NOTEBOOKS
from tests.notebooks.checking import own_cells
from tests.notebooks.jobs import JOBS
from tests.notebooks.run import run

WHOLE = "school shop"
"""The job on which all cells are run: it is in inches and names its parts in its own way."""


@pytest.mark.parametrize("path", sorted(NOTEBOOKS.glob("[1-9]*.ipynb")), ids=lambda path: path.stem)
def test_no_cell_fails(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name, make in JOBS.items():
        folder = tmp_path / name
        folder.mkdir()
        monkeypatch.setenv(VARIABLE, str(make(folder).path))
        copy = Path(shutil.copy(path, folder))
        assert run(copy if name == WHOLE else own_cells(copy), stored=False) == [], name
