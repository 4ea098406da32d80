"""What is made once in a run is made by one process, also where several ask at the same time."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests import ROOT
from tests.sharing import once

ASK = """
import sys, time
from pathlib import Path
from types import SimpleNamespace
from tests.sharing import once

run, number = Path(sys.argv[1]), sys.argv[2]
own = run / f"popen-gw{number}"
own.mkdir()

def make():
    time.sleep(0.5)
    (run / f"made-by-{number}").touch()
    return {"made by": number}

print(once(SimpleNamespace(getbasetemp=lambda: own), "thing", make)["made by"])
"""


def test_of_several_processes_one_makes_it(tmp_path: Path) -> None:
    asked = [
        subprocess.Popen(
            [sys.executable, "-c", ASK, str(tmp_path), str(k)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        )
        for k in range(3)
    ]
    answers = {process.communicate()[0].strip() for process in asked}
    assert len(answers) == 1
    assert [path.name for path in tmp_path.glob("made-by-*")] == [f"made-by-{answers.pop()}"]


def test_where_the_first_fails_the_next_makes_it(tmp_path_factory: pytest.TempPathFactory) -> None:
    def fail() -> dict[str, str]:
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        once(tmp_path_factory, "hard", fail)
    assert once(tmp_path_factory, "hard", lambda: {"a": "b"}) == {"a": "b"}
    assert once(tmp_path_factory, "hard", fail) == {"a": "b"}
    base = tmp_path_factory.getbasetemp()
    run = base.parent if base.name.startswith("popen-") else base
    assert json.loads((run / "hard.json").read_text()) == {"a": "b"}
