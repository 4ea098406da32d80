"""Rules that every work passes on the demo jobs: it is used, names its keys, draws, writes, and is the same twice."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from pkgutil import iter_modules

import pytest

import kit.works
from kit.errors import KitError
from kit.job import Job
from kit.quantity import Display
from kit.sheet import shaped
from kit.topics import names
from kit.works import Made, Order, made, order, work_of
from tests import ROOT

JOBS = ("boatshed.toml", "schoolshop.toml")
SLUG = re.compile(r"[a-z][a-z0-9_]*")


@cache
def job(name: str) -> Job:
    return Job.open(ROOT / "data" / name)


def parts() -> Iterator[tuple[str, str]]:
    for name in JOBS:
        for id, part in job(name).parts.items():
            if work_of(part.model):
                yield name, id


@pytest.fixture(params=list(parts()), ids="-".join)
def place(request: pytest.FixtureRequest) -> tuple[str, str]:
    found: tuple[str, str] = request.param
    return found


@pytest.fixture
def ordered(place: tuple[str, str]) -> Order:
    name, id = place
    return order(job(name), id)


@pytest.fixture
def shape(place: tuple[str, str]) -> Made:
    name, id = place
    found = made(job(name), id)
    assert found is not None
    return found


def test_every_work_is_shown_in_a_demo_job() -> None:
    hung = {model for model in names() if work_of(model)}
    shown = {job(name).parts[id].model for name, id in parts()}
    assert hung == shown


def test_no_work_hangs_on_a_model_that_is_not_there() -> None:
    known = {name.replace(".", "_") for name in names()}
    for module in iter_modules(kit.works.__path__):
        loaded = __import__(f"kit.works.{module.name}", fromlist=["make"])
        assert not hasattr(loaded, "make") or module.name in known, module.name


def test_it_says_what_it_makes(shape: Made) -> None:
    for named in (shape.numbers, shape.limits, shape.pictures, shape.outputs):
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
    for held in shape.limits:
        assert re.search(r"\d", held.words), f"{held.words}: a limit tells its margin"
    for table in shape.tables:
        assert table.rows, table.title
        assert {len(row) for row in table.rows} == {len(table.heads)}, table.title


def test_the_demo_meets_its_limits(shape: Made) -> None:
    assert [held.words for held in shape.limits if not held.ok] == []


@pytest.mark.parametrize("system", ["mm", "in"])
def test_every_picture_draws(shape: Made, system: str) -> None:
    for number, picture in enumerate(shape.pictures):
        assert picture.words.strip()
        html = shaped.picture(picture, Display(system=system), ids=f"p{number}", still=True)  # type: ignore[arg-type]
        assert "<svg" in html or "<img" in html
        assert "nan" not in re.sub(r"<[^>]*>|base64,[^\"]*", "", html).lower().split()


def test_it_makes_the_same_twice(ordered: Order) -> None:
    work = work_of(ordered.case.model.name)
    assert work is not None
    first, second = work.make(ordered), work.make(ordered)
    assert first.numbers == second.numbers
    assert first.limits == second.limits
    assert first.tables == second.tables


def test_a_key_that_it_does_not_know_is_refused(ordered: Order) -> None:
    work = work_of(ordered.case.model.name)
    assert work is not None
    with pytest.raises(KitError, match="nonsense"):
        work.make(replace(ordered, shape={**ordered.shape, "nonsense": 1}))


def test_what_it_writes_is_there_and_named_after_the_part(
    shape: Made, place: tuple[str, str], tmp_path: Path
) -> None:
    written = [
        path for output in shape.outputs for path in output.write(tmp_path / "files", place[1], Display())
    ]
    assert len(written) == len(set(written)), "two outputs write the same file"
    for path in written:
        assert path.name.startswith(place[1])
        assert path.stat().st_size > 0
    assert {*(tmp_path / "files").glob("*")} == {*written} if written else True


def test_what_it_proposes_can_be_taken(ordered: Order) -> None:
    work = work_of(ordered.case.model.name)
    assert work is not None
    if work.propose:
        proposed = work.propose(ordered)
        assert proposed
        assert ordered.case.changed(proposed)
