"""Every lesson runs beside any job: another station, an empty job, one part alone, the demo with all values moved.

On the boat shed each notebook runs in `test_run.py`, whole. Here run the cells that look at the reader's job, and what
they need: all others work on the example alone and know nothing of the job but its units. The jobs share one example,
whose shapes are made once.
"""

import ast
import functools
from pathlib import Path

import pytest

import kit
from kit.job import Job
from kit.job.demo import example_job
from kit.job.folder import VARIABLE
from tests import NOTEBOOKS
from tests.notebooks.jobs import write_jobs
from tests.notebooks.run import run

LESSONS = sorted(NOTEBOOKS.glob("*.ipynb"))
EVERY_DAY = ("30_folds", "80_long_stop")


READER = ("job_page(", "lesson.case(", "lesson.panel(")


def of_the_reader(code: list[str]) -> set[int]:
    """Return the numbers of the cells that look at the reader's job or what is made of it, and of those they need."""
    read, made = zip(*map(_names, code), strict=True)
    own: set[str] = set()
    picked = set()
    for number, source in enumerate(code):
        if any(look in source for look in READER) or read[number] & own:
            picked.add(number)
            own |= made[number]
    for number in range(len(code) - 1, -1, -1):
        if number in picked:
            for name in read[number]:
                picked |= {max((k for k in range(number) if name in made[k]), default=number)}
    return picked


def _names(source: str) -> tuple[set[str], set[str]]:
    """Return the names that a cell reads and those that it makes."""
    read: set[str] = set()
    made: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Name):
            (made if isinstance(node.ctx, ast.Store) else read).add(node.id)
        elif isinstance(node, ast.alias):
            made.add((node.asname or node.name).split(".")[0])
        elif isinstance(node, ast.FunctionDef):
            made.add(node.name)
    return read, made


def test_what_looks_at_the_job_is_found_with_what_it_needs() -> None:
    code = [
        "from kit import Lesson",
        "lesson = Lesson()",
        "",
        "1 + 1",
        "own = lesson.case('a')",
        "x = 2",
        "own, x",
        "x",
    ]
    assert of_the_reader(code) == {0, 1, 4, 5, 6}


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    return write_jobs(tmp_path_factory.mktemp("jobs"))


@pytest.fixture
def shared_example(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kit, "example_job", functools.cache(example_job), raising=False)


@pytest.mark.usefixtures("shared_example")
@pytest.mark.parametrize(
    "path",
    [pytest.param(path, marks=[] if path.stem in EVERY_DAY else [pytest.mark.long]) for path in LESSONS],
    ids=lambda path: path.stem,
)
def test_a_lesson_runs_beside_any_job(
    path: Path, jobs: dict[str, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lesson = tmp_path / path.name
    lesson.write_bytes(path.read_bytes())
    failed = {}
    for kind, job in jobs.items():
        (tmp_path / job.name).write_bytes(job.read_bytes())
        monkeypatch.setenv(VARIABLE, job.name)
        if found := run(lesson, stored=False, only=of_the_reader):
            failed[kind] = found
    assert not failed, "\n".join(text for found in failed.values() for text in found)


def test_the_moved_job_is_another_one_in_every_part(jobs: dict[str, Path]) -> None:
    """It could be no test at all: each given that the demo states has another value, inside its span."""
    demo, moved = example_job(), Job.open(jobs["moved"])
    same = [
        f"{id}.{name}"
        for id, part in demo.parts.items()
        for name, entry in part.givens.items()
        if entry.text and name in demo.model(id).givens and moved.parts[id].givens[name].text == entry.text
    ]
    assert same == [], same
