"""A job read, worked and changed. What cases must come to is worked here by hand from the givens in conftest."""

import re
from collections.abc import Callable
from math import cos, pi, sqrt
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.core.model import SpanError
from kit.core.model.digest import digest
from kit.core.quantity import ValueOrigin
from kit.job import GivenEntry, Job, JobError
from tests.job.conftest import JOB, LENGTH


@pytest.fixture
def job(write: Callable[..., Path]) -> Job:
    return Job.open(write())


def test_the_head_of_a_job(job: Job) -> None:
    assert (job.name, job.about, job.maker) == ("Shelves", "", "")
    assert (job.display.system, job.display.denominator) == ("in", 16)
    assert list(job.parts) == ["shelf", "ring"]
    assert job.machine["depth"] == GivenEntry("18 ± 0.1 mm", origin=ValueOrigin("measured", "2026-05-02", "caliper"))


def test_a_job_without_a_name_is_called_as_its_file(write: Callable[..., Path]) -> None:
    assert Job.open(write(JOB.replace('name = "Shelves"', ""))).name == "shelves"


def test_a_part_as_told(job: Job) -> None:
    part = job.parts["shelf"]
    assert (part.model, part.title, part.picks) == ("test.shelf", "Long shelf", {"wood": "boat-shed ash"})
    length = part.givens["length"]
    assert (length.text, length.spread, length.k) == ("700 ± 0.2 mm", "normal", 2)
    assert length.origin == ValueOrigin("measured", "2026-05-02", "steel rule")
    assert part.givens["tilt"].link == ("ring", "miter")
    assert part.givens["load"].text == "60"


def test_a_case_follows_from_what_the_file_says(job: Job) -> None:
    """Cantilever, w = F·cosθ·L³/(3·E·I), I = n·b·h³/12: N and mm; the tilt is the ring's half turn over 8."""
    sag = 60 * cos(pi / 8) * 700**3 / (3 * 11_900 * 3 * 50.8 * 18**3 / 12)
    case = job.case("shelf")
    assert case.base["sag"] == pytest.approx(sag, rel=1e-11)
    assert case.entries["length"].u == pytest.approx(0.1)
    assert case.entries["length"].origin.measured == "2026-05-02"
    assert case.entries["load"].bare
    assert case.entries["modulus"].base == pytest.approx(11_900)
    assert case.entries["modulus"].spread.half == pytest.approx(600)


def test_a_link_to_the_machine_brings_its_measure(job: Job) -> None:
    entry = job.case("shelf").entries["height"]
    assert (entry.base, entry.spread.half) == pytest.approx((18, 0.1))
    assert entry.origin == ValueOrigin("measured", "2026-05-02", "caliper", source="the machine's depth")


def test_a_link_brings_the_standard_uncertainty_of_a_result(write: Callable[..., Path]) -> None:
    """The side of a hexagon is its radius, so its uncertainty is the radius's: 1 mm at k = 2."""
    text = JOB.replace('"2 in"', '{ from = "ring.side" }').replace("sides = 8", "radius = '60 ± 0.8 mm'")
    case = Job.open(write(text)).case("shelf")
    width = case.entries["width"]
    assert width.base == pytest.approx(60, rel=1e-11)
    assert (width.u, width.spread.shape, width.spread.k) == (pytest.approx(0.4), "normal", 1.0)
    assert width.origin == ValueOrigin("part", source="part ring: side")


def test_a_link_to_a_given_brings_its_own_spread(write: Callable[..., Path]) -> None:
    radius = 'radius = { value = "4 ± 1/8 in", spread = "triangular" }'
    text = JOB.replace('{ from = "ring.miter" }', '"0 deg"').replace("sides = 8", radius)
    text = text.replace(LENGTH, '{ from = "ring.radius" }')
    length = Job.open(write(text)).case("shelf").entries["length"]
    assert length.base == pytest.approx(101.6)
    assert length.u == pytest.approx(25.4 / 8 / sqrt(6))


def test_an_uncertainty_of_nothing_stays_nothing(job: Job) -> None:
    """A count has no uncertainty, so the miter has none, though a tilt as typed might."""
    assert job.case("shelf").entries["tilt"].u == 0


def test_links_run_on_from_part_to_part(write: Callable[..., Path]) -> None:
    """The side of a hexagon is its radius, twice over: 300 ± 3 mm at k = 2."""
    more = '\n[parts.second]\nmodel = "test.ring"\ngivens.radius = { from = "ring.side" }\n'
    job = Job.open(write(JOB.replace("sides = 8", "radius = '300 ± 3 mm'") + more))
    assert job.case("second").entries["radius"].u == pytest.approx(1.5)
    assert job.case("second").base["side"] == pytest.approx(300)


def test_a_case_is_worked_once_until_something_changes(job: Job) -> None:
    before = job.case("shelf")
    assert job.case("shelf") is before
    job.set("ring", "sides", 12)
    assert job.case("shelf") is not before
    assert job.case("shelf").base["tilt"] == pytest.approx(pi / 12)


def test_the_digest_stands_for_the_inputs(job: Job) -> None:
    before = digest(job.case("shelf"))
    assert len(before) == 12
    assert int(before, 16) >= 0
    assert digest(job.case("ring")) != before
    job.set("ring", "sides", 12)
    assert digest(job.case("shelf")) != before, "a linked part is an input"
    job.set("ring", "sides", 8)
    assert digest(job.case("shelf")) == before


def test_what_is_set_counts_and_can_be_taken_back(job: Job) -> None:
    job.set("shelf", "boards", "2")
    assert job.changed
    assert job.case("shelf").base["boards"] == 2
    job.unset("shelf", "boards")
    assert not job.changed
    assert job.case("shelf").base["boards"] == 3


def test_another_text_takes_out_what_was_told_about_the_old_one(job: Job) -> None:
    job.set("shelf", "length", "710 ± 1 mm", how="folding rule")
    assert job.parts["shelf"].givens["length"] == GivenEntry(
        "710 ± 1 mm", origin=ValueOrigin("chosen", how="folding rule")
    )


def test_the_same_text_keeps_what_was_told_about_it(job: Job) -> None:
    job.set("shelf", "length", "700 ± 0.2 mm", note="again", k=None)
    length = job.parts["shelf"].givens["length"]
    assert (length.k, length.spread, length.origin.note) == (None, "normal", "again")
    assert length.origin.measured == "2026-05-02"


def test_another_row_takes_out_what_was_stated_for_the_givens_that_it_fills(
    write: Callable[..., Path],
) -> None:
    job = Job.open(write(JOB.replace("load = 60 ", 'modulus = "9 GPa"\nload = 60 ')))
    job.set("shelf", "wood", "boat-shed ash")
    assert job.case("shelf").base["modulus"] == pytest.approx(9_000), "the same row changes nothing"
    job.set("shelf", "wood", "hard maple")
    maple = job.case("shelf")
    assert maple.base["modulus"] == maple.model.at(wood="hard maple").base["modulus"]
    job.save()
    assert "9 GPa" not in job.path.read_text()


@pytest.mark.parametrize(
    ("part", "name", "text", "meta", "words"),
    [
        ("shelv", "length", "1 mm", {}, "did you mean 'shelf'"),
        ("shelf", "lenght", "1 mm", {}, "did you mean 'length'"),
        ("shelf", "length", "60 N", {}, "a force"),
        ("shelf", "length", "long", {}, "long"),
        ("shelf", "length", "3 m", {}, "0.1 m to 2 m"),
        ("shelf", "boards", "2.5", {}, "whole number"),
        ("shelf", "end", "loose", {}, "clamped or propped"),
        ("shelf", "wood", "boatshed ash", {}, "did you mean 'boat-shed ash'"),
        ("shelf", "wood", "hard maple", {"spread": "normal"}, "'spread' cannot be stated for wood"),
        ("shelf", "length", "700 mm", {"colour": "red"}, "'colour' cannot be stated"),
        ("shelf", "length", "700 mm", {"measured": "May"}, "measured is not a date"),
        ("shelf", "length", "700 mm", {"k": 0}, "a coverage factor of 0 is not allowed"),
        ("shelf", "length", "700 mm", {"spread": ""}, "rectangular, triangular, normal"),
        ("shelf", "length", "700 mm", {"spread": "gauss"}, "rectangular, triangular, normal"),
    ],
)
def test_what_a_model_cannot_take_is_refused_and_changes_nothing(
    job: Job, part: str, name: str, text: str, meta: dict[str, str], words: str
) -> None:
    with pytest.raises(KitError, match=re.escape(words)):
        job.set(part, name, text, **meta)
    assert not job.changed


def test_a_span_is_left_only_knowingly(job: Job) -> None:
    with pytest.raises(SpanError):
        job.set("shelf", "length", "3 m")
    job.set_beyond("shelf", ["length"])
    job.set("shelf", "length", "3 m")
    assert job.case("shelf").outside
    with pytest.raises(JobError, match="did you mean 'length'"):
        job.set_beyond("shelf", ["lenght"])


def test_a_part_that_cannot_be_worked_says_which_and_why(write: Callable[..., Path]) -> None:
    job = Job.open(write(JOB.replace("sides = 8", "sides = 80")))
    with pytest.raises(JobError, match=r"part ring: sides is 80; this model holds for 3 to 24"):
        job.case("shelf")
    with pytest.raises(JobError, match="its parts are shelf, ring"):
        job.case("x")


def test_a_circle_of_links_is_told(write: Callable[..., Path]) -> None:
    job = Job.open(write(JOB.replace("sides = 8", 'radius = { from = "shelf.width" }')))
    with pytest.raises(JobError, match="shelf → ring → shelf"):
        job.case("shelf")
    with pytest.raises(JobError, match="ring → shelf → ring"):
        job.case("ring")


def test_faults_of_the_layout_stop_the_opening_all_at_once(write: Callable[..., Path]) -> None:
    text = JOB.replace('model = "test.ring"', "").replace('units = "in"', 'units = "ft"')
    with pytest.raises(JobError) as refused:
        Job.open(write(text))
    assert "line 6: " in str(refused.value)
    assert "part ring names no model" in str(refused.value)


PLANES = """\
format = 2
[parts.bed]
model = "level.plane"
gaps = [{ x = "60 mm", y = "500 mm", depth = "3.2 mm" }]
[parts.pad]
model = "level.pads"
plane = "bed"
"""


@pytest.fixture
def planes(write: Callable[..., Path]) -> Job:
    return Job.open(write(PLANES))


def test_an_input_is_stated_and_taken_out(planes: Job) -> None:
    gaps = [{"x": "60 mm", "y": "500 mm", "depth": "3.6 mm"}]
    planes.set_input("bed", "gaps", gaps)
    assert planes.raw_inputs("bed") == {"gaps": gaps}
    planes.set_input("bed", "gaps", None)
    assert planes.raw_inputs("bed") == {}
    planes.save()
    assert "gaps" not in planes.path.read_text()


def test_a_link_is_stated_and_taken_out(planes: Job) -> None:
    planes.set_link("pad", "plane", None)
    assert planes.links("pad") == {}
    planes.set_link("pad", "plane", "bed")
    assert planes.links("pad") == {"plane": "bed"}
    assert not planes.changed


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda job: job.set_input("bed", "gasp", []), "level.plane has no input 'gasp'; did you mean 'gaps'"),
        (lambda job: job.set_input("bed", "gaps", [{"x": "1 kg"}]), "gaps, number 1: y is not stated"),
        (lambda job: job.set_link("pad", "plain", "bed"), "level.pads does not take 'plain'; did you mean 'plane'"),
        (lambda job: job.set_link("bed", "plane", "pad"), "level.plane does not take 'plane'; it takes nothing"),
        (lambda job: job.set_link("pad", "plane", "bet"), "no part 'bet'; did you mean 'bed'"),
        (lambda job: job.verdict("bet"), "no part 'bet'; did you mean 'bed'"),
        (lambda job: job.set_link("pad", "plane", "pad"), "pad → pad would be linked in a circle"),
    ],
)
def test_what_cannot_be_stated_is_refused_and_changes_nothing(
    planes: Job, change: Callable[[Job], None], words: str
) -> None:
    with pytest.raises(JobError, match=re.escape(words)):
        change(planes)
    assert not planes.changed
    assert planes.raw_inputs("bed") == {"gaps": [{"x": "60 mm", "y": "500 mm", "depth": "3.2 mm"}]}
    assert planes.links("pad") == {"plane": "bed"}
