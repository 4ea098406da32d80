"""What is made once in a run and read by all its processes."""

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests import ROOT

STATED = "FITWRIGHT_STATED"  # says in which folder the pages of this run were stated, if they were
LONGEST = 900  # seconds that a process waits for another one before it makes the thing itself


def once(factory: pytest.TempPathFactory, name: str, make: Callable[[], dict[str, str]]) -> dict[str, str]:
    """Return the texts that `make` returns; of the processes of a run the first one makes them, the others read them.

    name: of the file in the run's own temporary folder. A maker that fails leaves none, and the next one tries.
    """
    base = factory.getbasetemp()
    run = base.parent if base.name.startswith("popen-") else base  # each process of a run has a folder in it
    kept, claim = run / f"{name}.json", run / f"{name}.claim"
    try:
        claim.touch(exist_ok=False)
    except FileExistsError:
        end = time.monotonic() + LONGEST
        while claim.exists() and not kept.exists() and time.monotonic() < end:
            time.sleep(0.2)
        if kept.exists():
            return _read(kept)
    try:
        made = make()
    except BaseException:
        claim.unlink(missing_ok=True)
        raise
    half = kept.with_suffix(f".{base.name}")
    half.write_text(json.dumps(made), encoding="utf-8")
    half.replace(kept)
    return made


def state_all(folder: Path) -> None:
    """State every page into `folder` by processes of their own, with another seed for hashes than this one's."""
    environment = os.environ | {"PYTHONHASHSEED": "7"}
    subprocess.run([sys.executable, "-m", "kit.subjects.shipping", folder], cwd=ROOT, env=environment, check=True)


def _read(path: Path) -> dict[str, str]:
    found: dict[str, str] = json.loads(path.read_text(encoding="utf-8"))
    return found
