"""A lesson on the reader's own job: it takes the part that answers its question, else an example with an offer."""

from pathlib import Path

import pytest

from kit import Lesson, example_job
from kit.core.errors import KitError
from kit.job import Job
from kit.job.arrange import add_part
from kit.job.demo import is_example
from kit.job.folder import VARIABLE, new_job, remember


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def job(folder: Path) -> Job:
    """A job of one part, open in this folder."""
    job = new_job("Ann's <saw>", "in", folder=folder)
    add_part(job, "scale.cursor", "Her cursor")
    job.set("her_cursor", "gap", "3 mm")
    job.save()
    remember(job.path)
    return job


def test_without_a_job_an_example_is_shown_and_not_saved(folder: Path) -> None:
    lesson = Lesson.open(example_job())
    assert lesson.case("scale_cursor").base == example_job().case("scale_cursor").base
    assert "No job is open" in lesson._repr_html_()
    made = lesson.panel("scale_cursor")
    assert made.shown.saving.save.disabled
    assert "an example" in made.said.value
    assert made.add not in made.children
    assert list(folder.iterdir()) == []


def test_the_readers_part_is_found_by_its_model(job: Job) -> None:
    lesson = Lesson.open(example_job())
    assert lesson.display.system == "in"
    assert "Ann&#x27;s &lt;saw&gt;" in lesson._repr_html_()
    assert lesson.case("scale_cursor")["gap"].value == 3
    made = lesson.panel("scale_cursor")
    assert "Her cursor" in made.said.value
    made.shown.fields["gap"].box.value = "2 mm"
    made.shown.saving.save.click()
    assert 'gap = "2 mm"' in job.path.read_text()


def test_the_part_of_the_same_name_comes_first(job: Job) -> None:
    lesson = Lesson(job=job, example=example_job())
    assert lesson.panel("scale_cursor").shown.part == "her_cursor"
    add_part(job, "scale.cursor", "Scale cursor")
    assert lesson.panel("scale_cursor").shown.part == "scale_cursor"


def test_an_example_is_added_to_the_readers_job(job: Job) -> None:
    made = Lesson.open(example_job()).panel("scale_tape")
    assert "answers this yet" in made.said.value
    made.add.click()
    assert "scale.tape" in [part.model for part in Job.open(job.path).parts.values()]
    assert "a part of your job" in made.said.value
    assert not made.shown.saving.save.disabled


def test_a_part_that_cannot_be_computed_gives_way_to_the_example(job: Job) -> None:
    job.path.write_text(job.path.read_text().replace('gap = "3 mm"', 'gap = "3 kg"'))
    lesson = Lesson.open(example_job())
    assert lesson.case("scale_cursor").base == example_job().case("scale_cursor").base


def test_an_example_is_a_copy() -> None:
    one, two = example_job(), example_job()
    one.set("scale_cursor", "gap", "7 mm")
    assert two.case("scale_cursor")["gap"].value != 7
    assert is_example(one)
    with pytest.raises(KitError, match=r"schoolshop\.toml"):
        example_job("school.toml")
    with pytest.raises(KitError, match="no example"):
        Lesson().case("scale_cursor")
