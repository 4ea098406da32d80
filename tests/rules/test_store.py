"""The store: every page comes out of it as it went in, in any process; what people do most loads no sympy."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from kit import subjects
from kit.core.model.store import written
from tests import DATA, ROOT
from tests.sharing import STATED, state_all


@pytest.fixture(scope="session")
def rebuilt(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All pages stated in processes of their own, with another seed for hashes: those of this run if it has some."""
    if STATED in os.environ:
        return Path(os.environ[STATED])
    folder = tmp_path_factory.mktemp("rebuilt")
    state_all(folder)
    return folder


@pytest.mark.parametrize("name", subjects.names())
def test_a_page_is_written_alike_in_every_process(rebuilt: Path, name: str) -> None:
    here = written(subjects.stated(name), subjects.source(name))
    assert here == (rebuilt / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", subjects.names())
def test_what_is_read_is_what_is_stated(
    rebuilt: Path, name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("kit.core.model.store._SHIPPED", rebuilt)
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    read, stated = subjects.MODELS[name](), subjects.stated(name)
    assert read is not stated
    for part in ("title", "question", "picture", "assumptions", "sources", "givens", "picks", "inputs", "limits"):
        assert getattr(read, part) == getattr(stated, part), part
    assert read.relations == stated.relations
    assert written(read, subjects.source(name)) == (rebuilt / f"{name}.txt").read_text(encoding="utf-8")
    assert not any(tmp_path.iterdir())  # it was fresh


@pytest.mark.parametrize(
    "arguments",
    [
        ["list"],
        ["list", "hood.shape", "--json"],
        ["work", "stop.deflection", "push=70 N"],
        ["work", "hood.shape", "--json"],
        pytest.param(["check", str(DATA / "boatshed.toml")], marks=pytest.mark.long),
    ],
    ids=" ".join,
)
def test_no_sympy(rebuilt: Path, arguments: list[str]) -> None:
    script = (
        "import sys; from pathlib import Path; from kit.core.model import store; from kit.cli import main; "
        "store._SHIPPED = Path(sys.argv[1]); code = main(sys.argv[2:]); "
        "sys.exit(9 if 'sympy' in sys.modules else code)"
    )
    done = subprocess.run([sys.executable, "-c", script, rebuilt, *arguments], capture_output=True, check=False)
    assert done.returncode in (0, 1), done.stderr


@pytest.mark.parametrize("part", ["long_stop", "hood", "test_cuts"])
def test_a_first_panel_needs_no_sympy(rebuilt: Path, part: str, tmp_path: Path) -> None:
    script = (
        "import sys; from pathlib import Path; from kit.core.model import store; store._SHIPPED = Path(sys.argv[1]); "
        "from kit import open_job, panel; panel(job=open_job('boatshed.toml'), part=sys.argv[2]); "
        "sys.exit('sympy' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, rebuilt, part],
        cwd=tmp_path,  # the demo is copied there
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


def test_no_picture_of_a_panel_needs_sympy(rebuilt: Path) -> None:
    script = (
        "import sys; from pathlib import Path; from kit.core.model import store; store._SHIPPED = Path(sys.argv[1])\n"
        "from kit.core.quantity import Display; from kit.subjects import model, names, subject\n"
        "for name in names():\n"
        "    subject(name).draw(model(name).at().base, Display())\n"
        "    assert 'sympy' not in sys.modules, name\n"
    )
    done = subprocess.run([sys.executable, "-c", script, rebuilt], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
