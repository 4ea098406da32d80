"""The command at the first touch: processor time of whole processes, in ratios to a stated floor, for reading.

Run with ``python -m pytest -m bench -s tests/bench/test_cold.py``. The floor is an interpreter that loads what every
command of its kind must: nothing, or NumPy, SciPy and shapely for geometry. Goals on two quiet cores: `list` and `work`
0.6 s, `check` of the boat shed 6 s, a first panel 2 s; a book 25 s of wall time in two processes, 4 s where nothing
changed, 8 s where one part did.
"""

import os
import resource
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests import DATA, ROOT

pytestmark = pytest.mark.bench

PANEL = f"""
from kit import open_job, panel
job = open_job({str(DATA / "boatshed.toml")!r})
panel(job=job, part="long_stop")
"""


def spent(*arguments: str) -> tuple[float, float]:
    """Return processor and wall time of a process with all that it starts."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run([sys.executable, *arguments], cwd=ROOT, capture_output=True, check=False)
    assert done.returncode in (0, 1), done.stderr.decode()
    after, wall = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter() - start
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, wall


def least(*arguments: str) -> tuple[float, float]:
    """Return the shortest of three."""
    return min(spent(*arguments) for _ in range(3))


def test_commands() -> None:
    spent("-m", "kit", "list")  # fills the store, where it is not filled
    bare, _ = least("-c", "pass")
    arrays, _ = least("-c", "import numpy, scipy.spatial, shapely")
    print(f"\nfloors: an interpreter {bare:.2f} s, with NumPy, SciPy and shapely {arrays:.2f} s")
    for words, floor, command in (
        ("list", bare, ("-m", "kit", "list")),
        ("work", bare, ("-m", "kit", "work", "stop.deflection")),
        ("check of the boat shed", arrays, ("-m", "kit", "check", str(DATA / "boatshed.toml"))),
        ("a first panel", arrays, ("-c", PANEL)),
    ):
        cpu, wall = least(*command)
        print(f"{words}: {cpu:.2f} s of processor time, {wall:.2f} s of wall time, {cpu / floor:.1f} times its floor")


def test_first_use_in_a_clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    cold, _ = spent("-m", "kit", "list")
    warm, _ = spent("-m", "kit", "list")
    print(f"\nlist with an empty store: {cold:.2f} s of processor time, then {warm:.2f} s: {cold / warm:.0f} times")


def test_book(tmp_path: Path) -> None:
    job, out = tmp_path / "job" / "boatshed.toml", tmp_path / "book"
    shutil.copytree(DATA, job.parent)
    book = ("-m", "kit", "book", str(job), "--out", str(out))
    spent("-m", "kit", "list")
    whole, wall = spent(*book)
    print(f"\nbook from nothing, {os.cpu_count()} cores: {whole:.1f} s of processor time, {wall:.1f} s of wall time")
    same, wall = spent(*book)
    print(f"nothing changed: {same:.1f} s, {wall:.1f} s of wall time, {same / whole:.2f} of the whole")
    text = job.read_text(encoding="utf-8")
    assert '"40 ± 0.2 mm"' in text
    job.write_text(text.replace('"40 ± 0.2 mm"', '"41 ± 0.2 mm"', 1), encoding="utf-8")
    one, wall = spent(*book)
    print(f"one part changed: {one:.1f} s, {wall:.1f} s of wall time, {one / whole:.2f} of the whole")
