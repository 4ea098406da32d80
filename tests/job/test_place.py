"""Where parts stand: read, resolved, checked, and right after a part was renamed, copied or taken out."""

from collections.abc import Callable
from math import radians
from pathlib import Path

import pytest
from scipy.spatial.transform import Rotation

from kit.core.place import Frame
from kit.job import Job, JobError, check
from kit.job.arrange import copy_part, links_to, place_part, remove_part, rename_part
from kit.job.content import content_digests
from kit.job.history import History
from kit.job.place import standing

JOB = """format = 2
[job]
name = "Places"
units = "in"

[parts.saw]
model = "sweep.step"
[parts.hood]
model = "hood.shape"
envelope = "saw"
[parts.skin]
model = "cloth.skin"
frame = "hood"
[parts.bench]
model = "support.tip"
place = { at = ["1 m", 10, "-880 mm"], turn = "90 deg" } # a bare number is inches
body = { boxes = [[["0 mm", "0 mm", "0 mm"], ["1 m", "600 mm", "40 mm"]]], mass = { from = "bench.bench" } }
[parts.shelf]
model = "support.shelf"
place = { at = ["100 mm", "200 mm", "300 mm"], turn = "30 deg", on = "bench" }
body = { mass = { from = "bench.machine" } }
[parts.wing]
model = "support.wing"
"""


@pytest.fixture
def job(tmp_path: Path) -> Job:
    (tmp_path / "a.toml").write_text(JOB, encoding="utf-8")
    return Job.open(tmp_path / "a.toml")


@pytest.fixture
def found(tmp_path: Path) -> Callable[[str, str], list[str]]:
    """Return `found(old, new)`: what `check` says where, once the job says `new` in place of `old`."""

    def found(old: str, new: str) -> list[str]:
        assert JOB.count(old) == 1
        (tmp_path / "b.toml").write_text(JOB.replace(old, new), encoding="utf-8")
        return [f"{each.where}: {each.message}; {each.remedy}" for each in check(tmp_path / "b.toml")]

    return found


def test_a_frame_moves_and_turns_as_a_rotation_of_another_library_does() -> None:
    outer, inner = Frame((1.0, 2.0, 3.0), radians(70)), Frame((-40.0, 5.0, 6.0), radians(-25))
    point = (3.0, -7.0, 11.0)
    # scipy.spatial.transform.Rotation about z
    within = Rotation.from_euler("z", -25, degrees=True).apply(point) + inner.at
    over = Rotation.from_euler("z", 70, degrees=True).apply(within) + outer.at
    assert outer.holds(inner).point(point) == pytest.approx(tuple(over))


def test_parts_stand_where_they_say_or_with_what_has_the_same_axes(job: Job) -> None:
    frames, origin = standing(job).frames, Frame()
    assert {id: frames[id] for id in ("saw", "hood", "skin")} == dict.fromkeys(("saw", "hood", "skin"), origin)
    assert frames["bench"].at == pytest.approx((1000.0, 254.0, -880.0))
    # by hand: a quarter turn takes 100 to the right and 200 back into 200 to the left and 100 back
    assert frames["shelf"].at == pytest.approx((800.0, 354.0, -580.0))
    assert frames["shelf"].turn == pytest.approx(radians(120))
    assert "wing" not in frames
    assert check(job.path) == []


def test_what_has_the_axes_of_a_part_that_is_moved_moves_along(job: Job) -> None:
    place_part(job, "saw", {"at": ["0 mm", "5 mm", "0 mm"]})
    assert standing(job).frames["skin"].at == (0.0, 5.0, 0.0)
    place_part(job, "hood", False)
    assert {"hood", "skin"}.isdisjoint(standing(job).frames)


@pytest.mark.parametrize(
    ("old", "new", "where", "words"),
    [
        ('on = "bench"', 'on = "bensh"', "parts.shelf.place.on", "did you mean 'bench'"),
        ('on = "bench"', 'on = "wing"', "parts.shelf.place.on", "not known where it stands; give wing a place"),
        ('on = "bench"', 'on = "shelf"', "parts.shelf.place.on", "in a circle"),
        ('turn = "90 deg"', 'on = "shelf"', "parts.bench.place.on", "in a circle; say of one"),
        ('turn = "90 deg"', 'turn = "9 mm"', "parts.bench.place.turn", "an angle"),
        ('["1 m", 10, "-880 mm"]', '["1 m", 10]', "parts.bench.place.at", "three lengths; write it such as at ="),
        ('"1 m", 10,', '"1 kg", 10,', "parts.bench.place.at.0", "bench: x:"),
        ('"1 m", 10,', '"1 ± 0.1 m", 10,', "parts.bench.place.at.0", "± is not counted here; write the value alone"),
        ('"1 m", 10,', '"1000 m", 10,', "parts.bench.place.at.0", "is 1000 m; a station fits into 100 m"),
        ('"1 m", 10,', '"1 m", true,', "parts.bench.place.at.1", "y is no quantity; write it such as"),
        ("place = { at = [\"100", "place = { to = [\"100", "parts.shelf.place.to", "has no 'to'"),
        ('{ from = "bench.machine" }', '{ from = "bench.feet" }', "parts.shelf.body.mass", "no mass of a part"),
        ('{ from = "bench.machine" }', '{ from = "machine.feet" }', "parts.shelf.body.mass", "or of the machine"),
        ('{ from = "bench.machine" }', '"-2 kg"', "parts.shelf.body.mass", "more than 0 kg"),
        ('"600 mm", "40 mm"', '"0 mm", "40 mm"', "parts.bench.body.boxes.0", "one in y; write the low corner first"),
        (', ["1 m", "600 mm", "40 mm"]]', "]", "parts.bench.body.boxes.0", "two corners; write it such as"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_in_a_sentence_at_its_place(
    found: Callable[[str, str], list[str]], old: str, new: str, where: str, words: str
) -> None:
    said = found(old, new)
    assert len(said) == 1
    assert said[0].startswith(f"{where}: ")
    assert words in said[0]
    assert said[0].count("; ") == 1


def test_a_job_with_a_wrong_place_is_opened_and_the_rest_stands(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(JOB.replace('"1 m", 10,', '"1 kg", 10,'), encoding="utf-8")
    stands = standing(Job.open(tmp_path / "a.toml"))
    assert [*stands.frames] == ["saw", "hood", "skin"]
    assert [fault.part for fault in stands.faults] == ["bench"]


def test_a_place_is_written_into_the_file_and_undone(job: Job) -> None:
    history = History(job)
    before = job.path.read_text(encoding="utf-8")
    place_part(job, "wing", {"at": ["1 in", "2 in", "3 in"], "on": "bench"})
    history.note("moved")
    assert 'place = { at = ["1 in", "2 in", "3 in"], on = "bench" }' in job.path.read_text(encoding="utf-8")
    assert standing(Job.open(job.path)).frames["wing"].at == pytest.approx((1000.0 - 50.8, 254.0 + 25.4, -880.0 + 76.2))
    history.undo()
    assert job.path.read_text(encoding="utf-8") == before
    for wrong, words in (({"at": ["1 in"]}, "three lengths"), ({"on": "wing"}, "circle")):
        with pytest.raises(JobError, match=words):
            place_part(job, "wing", wrong)
    assert job.path.read_text(encoding="utf-8") == before


def test_what_stands_on_a_part_follows_its_name_and_goes_with_it(job: Job) -> None:
    assert [link.words for link in links_to(job, "bench")] == ["place of shelf", "mass of shelf"]
    assert rename_part(job, "bench", "Work table") == "work_table"
    assert job.parts["shelf"].place["on"] == "work_table"
    assert job.parts["work_table"].body["mass"] == {"from": "work_table.bench"}
    assert check(job.path) == []
    remove_part(job, "work_table")
    assert (job.parts["shelf"].place, job.parts["shelf"].body) == (None, {})
    assert check(job.path) == []


def test_a_copy_does_not_stand_where_its_original_does(job: Job) -> None:
    shelf, wing = copy_part(job, "shelf"), copy_part(job, "wing")
    assert job.parts[shelf].place is False
    assert job.parts[wing].place is None


def test_a_part_that_is_moved_needs_no_new_sheet(job: Job) -> None:
    before = content_digests(job)
    place_part(job, "shelf", {"at": ["0 mm", "0 mm", "0 mm"]})
    assert content_digests(job) == before
