"""From a job's part to what its work makes: takes, faults, and each thing made once."""

from collections.abc import Mapping
from copy import copy
from dataclasses import replace
from pathlib import Path
from threading import Event, Thread

import pytest

from kit.core.build import Build, BuildInput, Table
from kit.core.errors import KitError
from kit.core.model import Model
from kit.core.model.input_terms import amount, choice, flag, point, record, rows, steps, text
from kit.core.model.inputs import Input
from kit.core.quantity import Display
from kit.job import Job
from kit.job.build import best_build, build, build_input, standalone
from kit.job.check import check_all
from kit.job.stated import stated_tables
from kit.subjects import model, subject

JOB = """\
format = 2
[parts.gauge]
model = "bevel.setting"
paper = "paper.txt"
[parts.gauge.givens]
rise = "108 mm"
[parts.hem]
model = "fold.hem"
disk = "gauge"
[parts.bend]
model = "fold.bend"
"""


def write(folder: Path, text: str = JOB) -> Job:
    path = folder / "job.toml"
    path.write_text(text)
    return Job.open(path)


def test_a_model_without_a_work_makes_nothing(works: Path) -> None:
    job = write(works)
    assert build(job, "bend") is None
    assert best_build(job, "bend") is None


def test_a_part_is_made_from_its_givens(works: Path) -> None:
    found = build(write(works), "gauge")
    assert found is not None
    assert found.number("across").base == 108
    assert found.number("across").show() == "108.0 mm"


def test_what_is_stated_beside_the_givens_comes_along(works: Path) -> None:
    job = write(works)
    beside = Table(
        "Stated beside the givens",
        ("What", "Value", "State"),
        (("paper: a paper beside the job", "paper.txt", "chosen"),),
    )
    for found in (build(job, "gauge"), best_build(job, "gauge")):
        assert found is not None
        assert found.stated == (beside,)
    taker = build(job, "hem")
    assert taker is not None
    assert taker.stated == ()


def test_tables_tell_what_is_stated_and_no_default() -> None:
    from kit.core.model.inputs import stated_inputs

    asked = {
        each.name: each
        for each in (
            rows(
                "holes",
                "further openings",
                text("face", "the face"),
                amount("width", "how wide", default="5 mm"),
                flag("round", "if round"),
                point("at", "where", 2),
            ),
            record("edge", "an edge", amount("rise", "its rise"), flag("hem", "if hemmed")),
            choice("end", "how it ends", "hem", "staples", default="hem"),
            steps("recipe", "what is done", "do", {"crop": (amount("low", "lowest"),)}),
        )
    }
    raw = {
        "holes": [{"face": "front", "at": ["1 in", "50.8 mm"]}, {"face": "<back>", "round": True}],
        "edge": {"rise": "25.4 mm"},
        "recipe": [{"do": "crop", "low": "1 in"}, {"do": "crop"}],
    }
    case = replace(model("bevel.setting").at(), model=replaced_inputs(model("bevel.setting"), asked))
    inputs = BuildInput(case, Display(system="in"), stated_inputs(asked, raw), Path(), raw=raw)
    assert stated_tables(inputs) == (
        Table(
            "Stated beside the givens. State of all: chosen",
            ("What", "Value"),
            (("edge: an edge", "rise 1 in"), ("recipe, step 1", "crop; low 1 in"), ("recipe, step 2", "crop")),
        ),
        Table(
            "Holes: further openings. State of all: chosen",
            ("face", "round", "at"),
            (("front", "–", "1 in, 2 in"), ("<back>", "yes", "–")),
        ),
    )


def replaced_inputs(page: Model, asked: Mapping[str, Input]) -> Model:
    found = copy(page)
    found.inputs = dict(asked)
    return found


def test_what_is_taken_is_made_first(works: Path) -> None:
    job = write(works)
    found = build(job, "hem")
    assert found is not None
    assert found.number("twice").base == 216
    assert build_input(job, "hem").takes["disk"].data == 108


def test_the_same_inputs_are_made_once(works: Path) -> None:
    job = write(works)
    first = build(job, "gauge")
    assert build(Job.open(job.path), "gauge") is first
    job.set("gauge", "rise", "109 mm")
    second = build(job, "gauge")
    assert second is not first
    assert second is not None
    assert first is not None
    assert second.inputs != first.inputs


def test_who_asks_for_what_is_being_made_waits_for_it(works: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    job, made, begun, on = write(works), list[str](), Event(), Event()
    page = subject("bevel.setting")

    def slow(inputs: BuildInput) -> Build:
        made.append(inputs.case.model.name)
        begun.set()
        on.wait(0.5)
        assert page.build is not None
        return page.build(inputs)

    monkeypatch.setattr("kit.job.build.subject", lambda name: replace(subject(name), build=slow))
    first = Thread(target=lambda: build(job, "gauge"))
    first.start()
    begun.wait()
    build(job, "gauge")
    first.join()
    assert made == ["bevel.setting"]


def test_another_content_of_a_named_file_is_another_input(works: Path) -> None:
    (works / "paper.txt").write_text("one")
    job = write(works)
    first = build(job, "gauge")
    taker = build(job, "hem")
    (works / "paper.txt").write_text("two")
    assert first is not None
    assert taker is not None
    again, takes_again = build(job, "gauge"), build(job, "hem")
    assert again is not None
    assert takes_again is not None
    assert again.inputs != first.inputs
    assert takes_again.inputs != taker.inputs


def test_the_best_answer_is_that_of_the_task(works: Path) -> None:
    found = best_build(write(works), "gauge")
    assert found is not None
    assert found.number("across").base == 109


def test_without_a_job_the_shape_is_empty(works: Path) -> None:
    from kit.subjects import subject

    wanted = standalone(model("bevel.setting").at(rise="70 mm"), Display())
    builder = subject("bevel.setting").build
    assert wanted.stated == {"paper": None, "broken": False}
    assert builder is not None
    assert builder(wanted).data == 70


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('disk = "gauge"', 'disk = "gage"', "no such part; did you mean 'gauge'"),
        ('disk = "gauge"', "dsk = 3", "unknown input 'dsk'"),
        ('disk = "gauge"', 'disk = "bend"', "bend has no geometry"),
        ('disk = "gauge"', 'disk = "hem"', "hem → hem are linked in a circle"),
        ('disk = "gauge"', "disk = 3", "the job has no such part"),
        ('paper = "paper.txt"', "broken = true", "part gauge: the disk <is> broken"),
    ],
)
def test_a_fault_is_told_in_one_sentence(works: Path, old: str, new: str, words: str) -> None:
    with pytest.raises(KitError) as raised:
        build(write(works, JOB.replace(old, new)), "hem")
    assert words in str(raised.value)


@pytest.mark.parametrize("kind", ["picture", "output", "number"])
def test_a_name_that_is_not_there_is_told_with_those_that_are(works: Path, kind: str) -> None:
    found = build(write(works), "gauge")
    with pytest.raises(KitError, match=f"no {kind} 'qqqq'; there are"):
        getattr(found, kind)("qqqq")
    assert found is not None
    with pytest.raises(KitError, match="no table 'disk'; did you mean 'Disks'"):
        found.rows("disk")


def test_a_check_tells_the_line_of_a_shape_that_cannot_be_made(works: Path) -> None:
    job = write(works, JOB.replace('paper = "paper.txt"', "broken = true"))
    found = [(each.line, each.where, each.message, each.remedy) for each in check_all(job.path).findings]
    told = ("part gauge: the disk <is> broken", "mend it")
    assert found == [(2, "parts.gauge", *told), (7, "parts.hem", *told)]


def test_a_check_finds_nothing_where_all_can_be_made(works: Path) -> None:
    assert check_all(write(works).path).findings == []


def test_shapes_are_not_made_of_a_job_with_faults(works: Path) -> None:
    text = JOB.replace('"108 mm"', '"108 kg"').replace('paper = "paper.txt"', "broken = true")
    assert ["givens" in each.where for each in check_all(write(works, text).path).findings] == [True]
