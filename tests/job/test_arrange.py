"""Parts added, copied, renamed, moved and taken out: links follow, and every other line stays as it was typed."""

from collections.abc import Callable
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.job import Job, JobError
from kit.job.arrange import add_part, copy_part, links_of, links_to, move_part, remove_part, rename_part
from kit.job.fits import fitting, fitting_parts
from kit.job.history import History
from kit.job.overview import overview
from kit.job.pasted import read_block
from tests import DATA
from tests.job.conftest import JOB


@pytest.fixture
def job(write: Callable[..., Path]) -> Job:
    return Job.open(write())


def lines(text: str) -> list[str]:
    return sorted(line for line in text.splitlines() if line.strip())


def said(job: Job) -> str:
    return job.path.read_text(encoding="utf-8")


def test_a_part_is_renamed_and_links_follow(job: Job) -> None:
    assert rename_part(job, "ring", "Big ring") == "big_ring"
    expected = JOB.replace("[parts.ring", "[parts.big_ring").replace("ring.miter", "big_ring.miter")
    assert lines(said(job)) == lines(expected.replace('model = "test.ring"', 'model = "test.ring"\ntitle = "Big ring"'))
    assert job.case("shelf").base["tilt"] == Job.open(job.path).case("big_ring").base["miter"]


def test_a_part_whose_id_begins_like_another_or_like_the_table_is_renamed_alone(write: Callable[..., Path]) -> None:
    text = JOB + '\n[parts.part]\nmodel = "test.ring"\n\n[parts.ring2]\nmodel = "test.ring"\n'
    job = Job.open(write(text))
    assert rename_part(job, "part", "Rim") == "rim"
    assert rename_part(job, "ring", "Hoop") == "hoop"
    assert list(job.parts) == ["shelf", "hoop", "rim", "ring2"]


def test_a_part_is_copied_below_itself_with_its_links(job: Job) -> None:
    assert copy_part(job, "shelf") == "shelf_copy"
    assert list(job.parts) == ["shelf", "shelf_copy", "ring"]
    assert job.parts["shelf_copy"].title == "Long shelf (copy)"
    assert job.case("shelf_copy").base == job.case("shelf").base
    assert [link.takes for link in links_of(job, "shelf_copy")] == ["machine.depth", "ring.miter"]
    assert JOB.rstrip() in said(job).replace(
        said(job)[said(job).index("[parts.shelf_copy]") : said(job).index("# The ring comes after.")], ""
    )


def test_parts_are_moved_and_every_line_goes_along(job: Job) -> None:
    move_part(job, "ring", -1)
    assert list(job.parts) == ["ring", "shelf"]
    assert lines(said(job)) == lines(JOB)
    assert said(job).index("# The ring comes after.") < said(job).index("[parts.ring]") < said(job).index("# measured")
    move_part(job, "ring", 1)
    assert said(job) == JOB
    move_part(job, "ring", 1)
    assert list(job.parts) == ["shelf", "ring"], "the last one stays where it is"


def test_a_part_is_taken_out_and_its_links_are_told(job: Job) -> None:
    assert [link.words for link in links_to(job, "ring")] == ["tilt of shelf"]
    assert [link.words for link in remove_part(job, "ring")] == ["tilt of shelf"]
    gone = {"# The ring comes after.", "[parts.ring]", 'model = "test.ring"', "[parts.ring.givens]", "sides = 8"}
    assert lines(said(job)) == [
        line for line in lines(JOB) if line not in gone and line != 'tilt = { from = "ring.miter" }'
    ]
    remove_part(job, "shelf")
    assert dict(Job.open(job.path).parts) == {}, "a job without parts is a job"


def test_a_part_is_added_in_building_order(job: Job) -> None:
    assert add_part(job, "test.shelf", "Short shelf") == "short_shelf"
    assert list(job.parts) == ["shelf", "short_shelf", "ring"]
    assert add_part(job, "test.ring") == "test_ring"
    assert list(job.parts)[-1] == "test_ring"
    with pytest.raises(KitError):
        add_part(job, "no.such")


@pytest.mark.parametrize("text", ['parts = { ring = { model = "test.ring" } }', 'parts.ring.model = "test.ring"'])
def test_what_has_no_lines_of_its_own_is_refused(write: Callable[..., Path], text: str) -> None:
    job = Job.open(write(f"format = 2\n{text}\n"))
    for change in (
        lambda: remove_part(job, "ring"),
        lambda: copy_part(job, "ring"),
        lambda: rename_part(job, "ring", "x"),
    ):
        with pytest.raises(JobError, match="by hand"):
            change()
    assert said(job) == f"format = 2\n{text}\n"


def test_what_was_changed_by_hand_meanwhile_stays(job: Job) -> None:
    job.path.write_text(JOB.replace("load = 60 ", "load = 70 "), encoding="utf-8")
    move_part(job, "ring", -1)
    assert "load = 70 " in said(job)
    assert job.case("shelf").base["load"] == 70


def test_everything_is_undone_and_done_again(job: Job) -> None:
    history = History(job)
    job.set("shelf", "load", "80 N")
    job.save()
    history.note("load")
    remove_part(job, "ring")
    history.note("removed ring")
    assert (history.undoes, history.redoes) == ("removed ring", "")
    assert history.undo() == "removed ring"
    assert "ring" in job.parts
    assert history.undo() == "load"
    assert said(job) == JOB
    assert (history.undoes, history.redoes) == ("", "load")
    with pytest.raises(JobError, match="nothing to undo"):
        history.undo()
    assert history.redo() == "load"
    assert job.case("shelf").base["load"] == 80
    job.set("shelf", "load", "90 N")
    job.save()
    history.note("load again")
    assert history.redoes == "", "what comes after an undo takes the place of what was undone"


def test_an_undo_meets_what_was_changed_by_hand_with_a_question(job: Job) -> None:
    history = History(job)
    job.set("shelf", "load", "80 N")
    job.save()
    history.note("load")
    by_hand = said(job).replace("sides = 8", "sides = 6")
    job.path.write_text(by_hand, encoding="utf-8")
    with pytest.raises(JobError, match="by hand"):
        history.undo()
    assert said(job) == by_hand
    assert job.case("ring").base["sides"] == 6
    assert history.undo() == "changes made by hand"
    assert job.case("ring").base["sides"] == 8


def test_only_what_fits_is_offered_as_a_link(job: Job) -> None:
    assert [fit.link for fit in fitting(job, "shelf", "tilt")] == ["ring.miter"]
    assert [fit.link for fit in fitting(job, "shelf", "height")] == ["machine.depth", "ring.side", "ring.radius"]
    assert fitting(job, "ring", "sides") == [], "a count takes no angle, and the shelf rests on the ring"
    assert "22.5" in fitting(job, "shelf", "tilt")[0].words  # half of a full turn shared by eight, 180°/8


def test_a_given_is_linked_and_the_link_is_saved(job: Job) -> None:
    job.set_from("shelf", "room", "machine.depth")
    with pytest.raises(KitError, match="no part 'rong'"):
        job.set_from("shelf", "tilt", "rong.miter")
    with pytest.raises(KitError, match="angle"):
        job.set_from("shelf", "load", "ring.miter")
    job.save()
    assert 'room = { from = "machine.depth" }' in said(job)


def test_only_parts_that_make_it_are_offered() -> None:
    job = Job.open(DATA / "boatshed.toml")
    assert list(fitting_parts(job, "hood", "envelope")) == ["saw_sweep"]
    assert list(fitting_parts(job, "skirt_cloth", "first")) == ["hood", "brow_skin", "wall_skin", "drop_chute"]


def test_an_overview_says_what_a_part_takes_and_when_it_was_measured(job: Job) -> None:
    found = overview(job, "shelf")
    assert found.verdict is not None
    assert found.verdict.words == job.verdict("shelf").words
    assert found.takes == ("height from the machine", "tilt of the board from ring")
    assert found.measured == "2026-05-02"


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("a\t1 mm\nb\t2 mm\n", [{"name": "a", "depth": "1 mm"}, {"name": "b", "depth": "2 mm"}]),
        ("depth,name\n1 mm,a\n", [{"name": "a", "depth": "1 mm"}]),
        ("Depth [mm];name\r\n1,5;\r\n", [{"depth": "1,5"}]),
        ('"a, b",2 mm', [{"name": "a, b", "depth": "2 mm"}]),
        ("\n\na\n", [{"name": "a"}]),
    ],
)
def test_a_pasted_block_becomes_rows(text: str, rows: list[dict[str, str]]) -> None:
    assert read_block(text, ["name", "depth"]) == rows


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("  \n", "nothing to paste"),
        ("a\tb\tc", "3 cells"),
        ("name\tdeep\n1\t2", "'deep' is no column"),
        ("a\n" * 2001, "2000"),
    ],
)
def test_a_block_that_does_not_fit_is_refused(text: str, words: str) -> None:
    with pytest.raises(KitError, match=words):
        read_block(text, ["name", "depth"])
