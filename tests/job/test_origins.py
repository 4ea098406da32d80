"""Where values come from, as a job's file says it, as it is changed, and what the verdict makes of it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.core.quantity import ValueOrigin
from kit.job import Job, JobError, check
from tests.job.conftest import JOB

Write = Callable[..., Path]
DEMO = JOB.replace("[job]\n", "[job]\nexample = true\n")


def kinds(job: Job, part: str = "shelf") -> dict[str, str]:
    return {name: origin.kind for name, origin in job.case(part).origins.items()}


def test_every_value_of_an_older_file_has_one(write: Write) -> None:
    """A date makes a value measured and a link another part's; else it is chosen; what is not stated is an example."""
    job = Job.open(write(JOB.replace('"2 in"', '{ value = "2 in", how = "tape" }')))
    assert kinds(job) == {
        "wood": "chosen", "load": "chosen", "length": "measured", "width": "chosen", "height": "measured",
        "modulus": "table", "tilt": "part", "boards": "example", "end": "example", "room": "example",
    }  # fmt: skip
    assert job.case("shelf").origins["width"] == ValueOrigin("chosen", how="tape")


def test_the_verdict_counts_examples(write: Write) -> None:
    job = Job.open(write())
    assert job.verdict("shelf").words.endswith("; 3 of 10 values are examples, not yet yours")
    assert job.verdict("ring").words.endswith("; 1 of 2 values is an example, not yet yours")
    for name, text in (("boards", 3), ("end", "clamped"), ("room", "0 mm")):
        job.set("shelf", name, text)
    assert job.verdict("shelf").words.endswith("; it rests on examples in ring")
    job.set("ring", "radius", "300 mm")
    assert "example" not in job.verdict("shelf").words


def test_a_demo_s_values_are_examples_whatever_stands_beside_them(write: Write) -> None:
    job = Job.open(write(DEMO))
    assert set(kinds(job).values()) == {"example", "table", "part"}
    length = job.case("shelf").origins["length"]
    assert length.state == "example"
    assert length.detail == "in the example: steel rule; on 2026-05-02"
    assert job.case("shelf").origins["height"].kind == "example", "the machine's measures are the demo's too"


def test_what_is_set_in_a_demo_is_one_s_own_and_stays_so(write: Write) -> None:
    job = Job.open(write(DEMO))
    job.set("shelf", "load", "70 N")
    job.set("shelf", "width", "2 in", measured="2026-06-01", by="me")
    job.set("shelf", "wood", "hard maple")
    job.save()
    again = kinds(Job.open(job.path))
    assert (again["load"], again["width"], again["wood"]) == ("chosen", "measured", "chosen")
    assert again["length"] == "example"
    assert check(job.path) == []


def test_saving_compares_quantities_not_texts(write: Write) -> None:
    job = Job.open(write())
    before = job.path.read_text()
    for name, text in (("length", "700.0 ± 0.20 mm"), ("width", "2.00 in"), ("load", "60 N"), ("load", 60.0)):
        job.set("shelf", name, text)
        assert not job.changed, text
    job.set("shelf", "length", "70 ± 0.02 cm")
    job.save()
    assert job.path.read_text() == before.replace("700 ± 0.2 mm", "70 ± 0.02 cm"), "the same length, still measured"


@pytest.mark.parametrize("text", ["701 ± 0.2 mm", "700 ± 0.3 mm", "700 mm"])
def test_another_value_or_half_width_clears_method_and_date(write: Write, text: str) -> None:
    job = Job.open(write())
    job.set("shelf", "length", text)
    assert job.case("shelf").origins["length"] == ValueOrigin("chosen")
    assert job.parts["shelf"].givens["length"].k is None


def test_a_value_typed_back_gets_its_date_and_method_back(write: Write) -> None:
    job = Job.open(write())
    job.set("shelf", "length", "701 mm")
    job.set("shelf", "length", "700.0 ± 0.2 mm")
    assert not job.changed
    assert job.case("shelf").origins["length"] == ValueOrigin("measured", "2026-05-02", "steel rule")


def test_a_link_that_is_replaced_leaves_nothing_behind(write: Write) -> None:
    job = Job.open(write())
    assert job.case("shelf").entries["tilt"].spread.k == 1
    job.set("shelf", "tilt", "22.5 deg")
    entry = job.case("shelf").entries["tilt"]
    assert (entry.spread.k, entry.spread.shape, entry.origin) == (2, "rectangular", ValueOrigin("chosen"))


def test_a_measurement_is_stated_with_date_method_and_name(write: Write) -> None:
    job = Job.open(write())
    job.set("shelf", "width", "2 ± 1/64 in", measured="2026-06-01", how="rule", by="A. Turner", note="at the middle")
    job.save()
    line = '{ value = "2 ± 1/64 in", measured = 2026-06-01, how = "rule", by = "A. Turner", note = "at the middle" }'
    assert f"width = {line}\n" in job.path.read_text()
    found = Job.open(job.path).case("shelf").origins["width"]
    assert found == ValueOrigin("measured", "2026-06-01", "rule", "A. Turner", note="at the middle")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{ value = "2 in", origin = "part" }', "origin is 'part'; write one of example, chosen"),
        ('{ value = "2 in", origin = "chosen", measured = 2026-05-02 }', "take the date out"),
        ('{ from = "ring.side", by = "me" }', "is a link, which brings its own value and uncertainty, and has by"),
    ],
)
def test_a_false_origin_is_a_fault_at_its_line(write: Write, text: str, words: str) -> None:
    path = write(JOB.replace('"2 in"', text))
    (finding,) = check(path)
    assert words in f"{finding.message}; {finding.remedy}"
    assert finding.line == JOB[: JOB.index("width")].count("\n") + 1
    with pytest.raises(JobError, match="cannot be read as a job"):
        Job.open(path)


def test_a_row_may_stand_with_its_origin(write: Write) -> None:
    path = write(JOB.replace('wood = "boat-shed ash"', 'wood = { value = "boat-shed ash", origin = "example" }'))
    assert check(path) == []
    assert kinds(Job.open(path))["wood"] == "example"
    assert Job.open(path).case("shelf").picks == {"wood": "boat-shed ash"}
    (finding,) = check(write(JOB.replace('wood = "boat-shed ash"', 'wood = { value = "boatshed ash" }')))
    assert "did you mean 'boat-shed ash'" in finding.remedy


def test_changes_that_fail_together_leave_nothing(write: Write) -> None:
    job = Job.open(write())

    def both() -> None:
        with job.trial():
            job.set("shelf", "load", "70 N")
            job.set("shelf", "length", "70 N")

    with pytest.raises(KitError):
        both()
    assert not job.changed
    assert job.case("shelf").base["load"] == 60
