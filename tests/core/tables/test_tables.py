"""All tables of the kit: they load, cannot be changed, say what they hold, and are found in either place."""

import subprocess
import sys
from dataclasses import FrozenInstanceError
from pathlib import Path

import pytest

from kit.core import resources as places
from kit.core.errors import KitError
from kit.core.quantity import unit
from kit.core.resources import data_dir, notebooks_dir
from kit.core.tables import names, table
from tests import ROOT


@pytest.mark.parametrize("name", names())
def test_every_table_loads_once_and_every_row_is_found(name: str) -> None:
    rows = table(name)
    assert rows is table(name)
    assert len(rows) > 2
    for row in rows:
        assert rows.row(row.id.upper()) is row
        assert all(rows.row(synonym) is row for synonym in row.also)
        assert row.entries, row.id


@pytest.mark.parametrize("name", names())
def test_every_figure_has_a_source_that_fits_its_confidence(name: str) -> None:
    words = {
        "read": (" via ",),
        "memory": ("from memory",),
        "practice": ("common practice, no source", "convention"),
        "demo": ("invented demo value",),
    }
    for row in table(name):
        for column, entry in row.entries.items():
            assert any(word in entry.source for word in words[entry.confidence]), (row.id, column)


@pytest.mark.parametrize("name", names())
def test_a_source_says_once_how_surely_a_figure_is_known(name: str) -> None:
    for row in table(name):
        for column, entry in row.entries.items():
            assert entry.cited.count("from memory") == entry.source.count("from memory"), (row.id, column)
            assert entry.cited.count("common practice, no source") <= 1, (row.id, column)


@pytest.mark.parametrize("name", names())
def test_every_column_is_used_and_its_derived_unit_fits(name: str) -> None:
    for column in table(name).schema.columns:
        assert any(column.name in row for row in table(name)), column.name
        assert column.low < column.high
        if column.derived is not None:
            origin = unit(table(name).schema.column[column.derived.column].unit)
            made = tuple(a + b for a, b in zip(origin.dim, unit(column.derived.unit).dim, strict=True))
            assert made == unit(column.unit).dim


def test_nothing_can_be_changed() -> None:
    row = table("woods").row("hard maple")
    with pytest.raises(FrozenInstanceError):
        row.id = "other"  # type: ignore[misc]
    with pytest.raises(TypeError):
        row.entries["density"] = row.entry("density")  # type: ignore[index]
    with pytest.raises(FrozenInstanceError):
        table("woods").rows = ()  # type: ignore[misc]


def test_no_file_stands_without_a_schema() -> None:
    assert sorted(path.stem for path in (data_dir() / "tables").glob("*")) == sorted(names())


def test_folders_of_a_clone() -> None:
    assert data_dir() == ROOT / "data"
    assert notebooks_dir() == ROOT / "notebooks"


def test_an_installed_copy_wins_over_a_stranger_beside_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "_PACKAGE", tmp_path / "kit")
    with pytest.raises(KitError, match="the folder 'data' is neither beside the package nor inside it"):
        data_dir()
    (tmp_path / "data").mkdir()
    assert data_dir() == tmp_path / "data"
    (tmp_path / "kit" / "_data").mkdir(parents=True)
    assert data_dir() == tmp_path / "kit" / "_data"
    (tmp_path / "kit" / "_notebooks").mkdir()
    assert notebooks_dir() == tmp_path / "kit" / "_notebooks"


def test_reading_tables_loads_nothing_heavy() -> None:
    program = (
        "import sys; from kit.core.tables import names, table; [table(n) for n in names()]; "
        "print([m for m in ('numpy', 'sympy', 'pint', 'scipy', 'pandas') if m in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=ROOT)
    assert run.stdout.strip() == "[]"
