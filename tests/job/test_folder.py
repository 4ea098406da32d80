"""Which job is open in a folder, new jobs, copies, and what a new job begins with."""

from pathlib import Path

import pytest

from kit.job import Job, JobError, check, open_job
from kit.job.folder import VARIABLE, copy_job, current_job, demos, job_files, new_job, remember, rename_job
from kit.job.proposing import begin, goals
from kit.subjects import PAGES, heading, makes, model, names, subject
from tests import DATA


@pytest.fixture(autouse=True)
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)


def test_a_new_job_is_empty_and_sound_whatever_its_name(tmp_path: Path) -> None:
    job = new_job('  Ann\'s "big" saw \\ [x]', "in", "Ann", folder=tmp_path)
    assert (job.name, job.maker, job.display.system, dict(job.parts)) == ('Ann\'s "big" saw \\ [x]', "Ann", "in", {})
    assert job.path.name == "ann_s_big_saw_x.toml"
    assert new_job('Ann\'s "big" saw \\ [x]', folder=tmp_path).path != job.path
    assert check(job.path) == []
    with pytest.raises(JobError, match="needs a name"):
        new_job(" ", folder=tmp_path)


def test_the_job_that_was_open_last_is_open_again(tmp_path: Path) -> None:
    assert current_job(tmp_path) is None
    one, two = new_job("one", folder=tmp_path), new_job("two", folder=tmp_path)
    remember(one.path, tmp_path)
    assert current_job(tmp_path) == one.path
    remember(two.path, tmp_path)
    assert current_job(tmp_path) == two.path
    two.path.unlink()
    assert current_job(tmp_path) is None
    (tmp_path / ".fitwright.json").write_text("[")
    assert current_job(tmp_path) is None


def test_the_variable_wins_and_is_never_passed_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    one, two = new_job("one", folder=tmp_path), new_job("two", folder=tmp_path)
    remember(one.path, tmp_path)
    monkeypatch.setenv(VARIABLE, "two.toml")
    assert current_job(tmp_path) == two.path
    monkeypatch.chdir(tmp_path)
    assert open_job().name == "two"
    remember(one.path, tmp_path)
    assert current_job(tmp_path) == one.path, "what a person opens later wins"
    monkeypatch.setenv(VARIABLE, "mine.toml")
    with pytest.raises(JobError, match=r"mine\.toml"):
        current_job(tmp_path)


def test_without_an_open_job_none_is_chosen_silently(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(JobError, match="no job is open"):
        open_job()
    assert list(tmp_path.iterdir()) == []


def test_jobs_are_listed_and_what_is_no_job_is_passed_over(tmp_path: Path) -> None:
    new_job("Bench", folder=tmp_path)
    (tmp_path / "tool.toml").write_text("[tool]\nx = 1\n")
    (tmp_path / "broken.toml").write_text("format = 2\n[job\n")
    found = {each.path.name: each for each in job_files(tmp_path)}
    assert found["bench.toml"].name == "Bench"
    assert "line 2" in found["broken.toml"].fault
    assert "tool.toml" not in {name for name, each in found.items() if not each.fault}


def test_a_job_is_copied_and_renamed(tmp_path: Path) -> None:
    first = copy_job(DATA / "schoolshop.toml", folder=tmp_path)
    assert first.path.read_bytes() == (DATA / "schoolshop.toml").read_bytes()
    again = copy_job(DATA / "schoolshop.toml", folder=tmp_path)
    assert again.path.name == "schoolshop_2.toml"
    other = copy_job(first.path, "My bench", folder=tmp_path)
    assert (other.path.name, other.name) == ("my_bench.toml", "My bench")
    rename_job(other, "Our bench")
    assert Job.open(other.path).name == "Our bench"
    assert other.path.name == "my_bench.toml"


def test_the_demos_are_named() -> None:
    assert demos() == {"boatshed.toml": "Boat-shed cut-off bench", "schoolshop.toml": "School-shop drill bench"}


def test_a_goal_begins_with_parts_in_building_order_that_take_each_other(tmp_path: Path) -> None:
    job = new_job("saw", folder=tmp_path)
    begin(job, ["cutting", "hood", "sweep"])
    models = [part.model for part in job.parts.values()]
    assert models == [name for name in names() if name in models]
    assert job.links("hood_shape") == {"envelope": "sweep_step"}
    assert job.links("cutting_stock") == {"first": "hood_shape"}
    assert begin(job, ["hood"]) == [], "what is there is not added again"
    assert check(job.path) == []


def test_every_goal_names_pages_that_are_there() -> None:
    assert {model for goal in goals() for model in goal.models} <= PAGES.keys()


def test_whatever_is_taken_is_made_by_some_page() -> None:
    kinds = {kind for name in names() for kind in makes(name)}
    assert {kind for name in names() for kind in subject(name).takes.values()} == kinds
    assert all(subject(name).build for name in names() if makes(name))


def test_what_the_demos_take_is_of_the_kind_that_is_asked_for() -> None:
    for path in sorted(DATA.glob("*.toml")):
        job = Job.open(path)
        for id in job.parts:
            for name, other in job.links(id).items():
                assert job.takes(id)[name] in makes(job.parts[other].model), (path.name, id, name)


def test_a_heading_says_what_its_page_says() -> None:
    for name in names():
        assert heading(name) == (model(name).title, model(name).question)
