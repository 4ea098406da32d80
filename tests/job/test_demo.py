"""The demo jobs are sound, complete, and say that they are invented."""

import tomllib

import pytest

import kit.job
from kit import subjects
from kit.job import Job, check
from kit.job.schema import PART_KEYS
from tests import DATA

MODELS = [name for name in subjects.names() if not name.startswith("test.")]


@pytest.mark.parametrize("name", ["boatshed", "schoolshop"])
def test_a_demo_job_has_no_findings_and_every_limit_is_met(name: str) -> None:
    path = DATA / f"{name}.toml"
    assert "invented demo job" in path.read_text(encoding="utf-8").partition("format")[0]
    assert check(path) == []
    job = Job.open(path)
    failing = {id: state.words() for id in job.parts for state in job.case(id).checks if not state.ok}
    assert failing == {}


def test_the_boat_shed_has_every_model_in_building_order() -> None:
    job = Job.open(DATA / "boatshed.toml")
    assert list(dict.fromkeys(part.model for part in job.parts.values())) == MODELS
    assert job.display.system == "mm"


def test_the_school_shop_speaks_inches() -> None:
    job = Job.open(DATA / "schoolshop.toml")
    assert len(job.parts) >= 6
    assert job.display.system == "in"
    told = [given.text for part in job.parts.values() for given in part.givens.values()]
    assert any("/" in text for text in told)
    assert not [text for text in told if "mm" in text]


@pytest.mark.parametrize("name", MODELS)
def test_no_pick_of_a_model_is_called_as_a_key_of_a_part(name: str) -> None:
    model = subjects.model(name)
    assert not model.picks.keys() & {*PART_KEYS, *model.free}
    assert not {*model.picks, *model.free} & {"beyond", "tables"}


def test_the_example_in_the_documentation_is_toml() -> None:
    text = (kit.job.__doc__ or "").partition("format = 2")[2].partition("Unknown keys")[0]
    assert set(tomllib.loads(f"format = 2{text}")["parts"]["stop"]) == set(PART_KEYS) | {"wood", "gaps", "envelope"}
