"""Pinned designs: kept in the file beside all else, computed again as they were, taken back with their links."""

import tomllib
from difflib import ndiff
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.job import Job, check
from kit.job.arrange import copy_part, rename_part
from kit.job.pins import differing, pin, pins, restored, unpin
from tests.job.conftest import JOB


@pytest.fixture
def job(tmp_path: Path, works: object) -> Job:
    path = tmp_path / "shelves.toml"
    path.write_text(JOB, encoding="utf-8")
    return Job.open(path)


def test_a_pin_is_written_beside_its_part_and_nothing_else_changes(job: Job) -> None:
    before = job.path.read_text(encoding="utf-8")
    pin(job, "shelf", 'the "long" one', "it spans the door")
    after = job.path.read_text(encoding="utf-8")
    changes = ndiff(before.splitlines(), after.splitlines())
    assert not [line for line in changes if line.startswith("- ")]
    others = tomllib.loads(after)
    kept = others["parts"]["shelf"].pop("pins")
    assert others == tomllib.loads(before)
    assert kept['the "long" one']["why"] == "it spans the door"
    assert "from" not in str(kept), "a link is kept as the value that it had"
    assert after.index("pins") < after.index("[parts.ring]"), "it stands with its part"
    assert not [finding for finding in check(job.path) if "pins" in finding.where]
    unpin(job, "shelf", 'the "long" one')
    assert tomllib.loads(job.path.read_text(encoding="utf-8")) == tomllib.loads(before)


def test_a_pin_stays_what_it_was_and_gives_links_back(job: Job) -> None:
    was = job.case("shelf")
    pin(job, "shelf", "as it was")
    job.set("shelf", "length", "900 mm")
    job.set("shelf", "wood", "white oak")
    job.save()
    (kept,) = pins(Job.open(job.path), "shelf")
    assert kept.case is not None
    assert {name: kept.case.base[name] for name in was.base} == pytest.approx(was.base, rel=1e-12)
    assert {name: each.u for name, each in kept.case.entries.items()} == pytest.approx(
        {name: each.u for name, each in was.entries.items()}
    )
    assert differing({"now": job.case("shelf"), "then": kept.case}) == ("wood", "length", "modulus")
    back = restored(job.case("shelf"), kept.case)
    assert back.base == pytest.approx(was.base, rel=1e-12)
    assert back.typed["height"] == was.typed["height"], "what a link brings is alike, and stays the link's"


def test_pins_go_with_their_part(job: Job) -> None:
    pin(job, "shelf", "first")
    copied = copy_part(job, "shelf")
    assert [each.name for each in pins(job, copied)] == ["first"]
    assert [each.name for each in pins(job, rename_part(job, copied, "Second shelf"))] == ["first"]


def test_names_and_damage_get_a_sentence(job: Job) -> None:
    with pytest.raises(KitError, match="needs a name"):
        pin(job, "shelf", "  ")
    pin(job, "shelf", "first")
    with pytest.raises(KitError, match="called 'first' already"):
        pin(job, "shelf", "first")
    with pytest.raises(KitError, match="no pin called 'second'; it has first"):
        unpin(job, "shelf", "second")
    text = job.path.read_text(encoding="utf-8")
    broken = f'{text}\n[parts.shelf.pins.odd.givens]\nlength = "9 m"\nheight = {{ from = "machine.depth" }}\n'
    job.path.write_text(broken, encoding="utf-8")
    words = "\n".join(map(str, check(job.path)))
    assert "height of the pin odd is a link" in words
    job.path.write_text(broken.replace('height = { from = "machine.depth" }\n', ""), encoding="utf-8")
    assert "this model holds for" in "\n".join(map(str, check(job.path)))
    (_, odd) = pins(Job.open(job.path), "shelf")
    assert "this model holds for" in odd.fault
