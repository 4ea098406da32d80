"""Rules that every build passes on the demo jobs: it is used, names its keys, draws, writes, and is the same twice."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.job import Job
from kit.job.build import build, build_input
from kit.sheet import build_section
from kit.subjects import names, subject
from tests import ROOT
from tests.builds import restated

JOBS = ("boatshed.toml", "schoolshop.toml")
SLUG = re.compile(r"[a-z][a-z0-9_]*")


@cache
def job(name: str) -> Job:
    return Job.open(ROOT / "data" / name)


def parts() -> Iterator[tuple[str, str]]:
    for name in JOBS:
        for id, part in job(name).parts.items():
            if subject(part.model).build:
                yield name, id


@pytest.fixture(params=list(parts()), ids="-".join)
def place(request: pytest.FixtureRequest) -> tuple[str, str]:
    found: tuple[str, str] = request.param
    return found


@pytest.fixture
def ordered(place: tuple[str, str]) -> BuildInput:
    name, id = place
    return build_input(job(name), id)


@pytest.fixture
def shape(place: tuple[str, str]) -> Build:
    name, id = place
    found = build(job(name), id)
    assert found is not None
    return found


def test_every_build_is_shown_in_a_demo_job() -> None:
    hung = {name for name in names() if subject(name).build}
    shown = {job(name).parts[id].model for name, id in parts()}
    assert hung == shown


def test_it_says_what_it_makes(shape: Build) -> None:
    for named in (shape.numbers, shape.checks, shape.pictures, shape.outputs):
        slugs = [each.name for each in named]
        assert len(slugs) == len(set(slugs))
        assert all(SLUG.fullmatch(slug) for slug in slugs), slugs
    assert shape.numbers or shape.tables or shape.outputs
    for number in shape.numbers:
        assert number.meaning
        assert number.show(Display()) != number.show(Display(system="in")) or number.unit not in (
            "mm",
            "m",
            "mm^2",
        )
    for held in shape.checks:
        assert re.search(r"\d", held.words()), f"{held.words()}: a limit tells its margin"
    for table in shape.tables:
        assert table.rows, table.title
        assert {len(row) for row in table.rows} == {len(table.heads)}, table.title


def test_the_demo_meets_its_limits(shape: Build) -> None:
    assert [held.words() for held in shape.checks if not held.ok] == []


@pytest.mark.parametrize("system", ["mm", "in"])
def test_every_picture_draws(shape: Build, system: str) -> None:
    for number, picture in enumerate(shape.pictures):
        assert picture.words.strip()
        html = build_section.picture(picture, Display(system=system), ids=f"p{number}", still=True)  # type: ignore[arg-type]
        assert "<svg" in html or "<img" in html
        assert "nan" not in re.sub(r"<[^>]*>|base64,[^\"]*", "", html).lower().split()


def test_it_makes_the_same_twice(shape: Build, ordered: BuildInput) -> None:
    builder = subject(ordered.case.model.name).build
    assert builder is not None
    again = builder(ordered)
    assert again is not shape
    assert shape.numbers == again.numbers
    assert shape.checks == again.checks
    assert shape.tables == again.tables


def test_a_key_that_it_does_not_know_is_refused(ordered: BuildInput) -> None:
    with pytest.raises(KitError, match="nonsense"):
        restated(ordered, {**ordered.raw, "nonsense": 1})


def test_what_it_writes_is_there_and_named_after_the_part(shape: Build, place: tuple[str, str], tmp_path: Path) -> None:
    written = [path for output in shape.outputs for path in output.write(tmp_path / "files", place[1], Display())]
    assert len(written) == len(set(written)), "two outputs write the same file"
    for path in written:
        assert path.name.startswith(place[1])
        assert path.stat().st_size > 0
    assert {*(tmp_path / "files").glob("*")} == {*written} if written else True


def test_what_it_proposes_can_be_taken(ordered: BuildInput) -> None:
    propose = subject(ordered.case.model.name).propose
    if propose:
        proposed = propose(ordered)
        assert proposed
        assert ordered.case.changed(proposed)
