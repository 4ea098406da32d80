"""Every finding with its line. Each fault is put into a sound job; where it is then found is known from the text."""

from collections.abc import Callable
from pathlib import Path

import pytest

from kit.job import check
from kit.subjects import RENAMED
from tests.job.conftest import JOB, LENGTH

# what is changed into what, the text at which the finding must point, its severity, words of message and remedy
DEPTH = '{ value = "18 ± 0.1 mm", measured = 2026-05-02, how = "caliper" }'
TITLE = 'title = "Long'
FAULTS = {
    "unknown top key": ("[machine]", "[machin]", "[machin]", "hint", "did you mean 'machine'?"),
    "unknown job key": ('units = "in"', 'unit = "in"', "unit =", "hint", "did you mean 'units'?"),
    "units": ('units = "in"', 'units = "ft"', '"ft"', "fault", "'mm' or 'in'"),
    "denominator": ("denominator = 16", "denominator = 12", "12", "fault", "not 12"),
    "name no text": ('name = "Shelves"', "name = 7", "7 ", "fault", "put it in quotes"),
    "unknown table": ("[tables.woods.", "[tables.wods.", "[tables.wods.", "fault", "did you mean 'woods'"),
    "unknown column": ("modulus_along =", "modulus_alon =", "modulus_alon =", "fault", "did you mean"),
    "cell": ('"11.9 ± 0.6 GPa"', '"11.9 kg"', '"11.9 kg"', "fault", "a mass"),
    "cell no text": ('"11.9 ± 0.6 GPa"', "11.9", "11.9", "fault", "in quotes"),
    "no source": ('source = "bent between two trestles"', "", '[tables.woods."boat', "fault", "where the row is from"),
    "taken name": ('"boat-shed ash"', '"hard maple"', '[tables.woods."hard', "fault", "is taken"),
    "unknown model": ('"test.shelf"', '"test.shelve"', '"test.shelve"', "fault", "did you mean 'test.shelf'"),
    "no model": ('model = "test.ring"', "", "[parts.ring]", "fault", "model ="),
    "model no text": ('model = "test.ring"', "model = 3", "3\n", "fault", "put it in quotes"),
    "unknown part key": ('title = "Long', 'titel = "Long', "titel", "hint", "did you mean 'title'?"),
    "given in the part": ('title = "Long shelf"', 'load = "5 N"', 'load = "5', "fault", "[parts.shelf.givens]"),
    "table in the part": ("[parts.ring.givens]", "[parts.ring.given]", "[parts.ring.given]", "fault", "did you mean"),
    "unknown row": ('wood = "boat-shed', 'wood = "boatshed', '"boatshed ash"', "fault", "did you mean 'boat-shed ash'"),
    "unknown given": ("width =", "widht =", "widht", "fault", "did you mean 'width'"),
    "unknown given key": ('how = "steel rule"', 'hwo = "steel rule"', "hwo", "hint", "did you mean 'how'?"),
    "unreadable": ('"2 in"', '"two in"', '"two in"', "fault", "takes a length"),
    "unreadable in a table": ('"700 ± 0.2 mm"', '"700 ± mm"', '"700 ± mm"', "fault", "takes a length"),
    "dimension": ('"2 in"', '"2 lbf"', '"2 lbf"', "fault", "a force"),
    "no quantity": ('"2 in"', "true", "true", "fault", "put the quantity in quotes"),
    "date for a quantity": ('"2 in"', "2026-05-02", "2026-05-02\n", "fault", "is a date"),
    "no value": (LENGTH, '{ how = "seen" }', "length = {", "fault", "neither a value nor a link"),
    "spread": ('"normal"', '"gauss"', '"gauss"', "fault", "rectangular, triangular, normal"),
    "k of nothing": ("k = 2", "k = 0", "0, measured", "fault", "above 0"),
    "no degrees of freedom": ("k = 2", "dof = 0", "0, measured", "fault", "1 or more"),
    "degrees of freedom in words": ("k = 2", 'dof = "four"', '"four",', "fault", "dof = 4"),
    "k": ("k = 2", 'k = "2"', '"2",', "fault", "k = 2"),
    "date": ("measured = 2026-05-02, how = \"s", 'measured = "May", how = "s', '"May"', "fault", "2026-05-02"),
    "span": ('"2 in"', '"8 in"', '"8 in"', "fault", 'write beyond = ["width"] under [parts.shelf]'),
    "count": ("sides = 8", "sides = 8.5", "8.5", "fault", "whole number"),
    "too unsure": ('"2 in"', '"2 in ± 2 ft"', '"2 in ±', "hint", "more uncertain than its whole span"),
    "unknown beyond": (TITLE, f'beyond = ["lenght"]\n{TITLE}', '["lenght"]', "fault", "did you mean 'length'"),
    "needless beyond": (TITLE, f'beyond = ["length"]\n{TITLE}', '["length"]', "hint", "take it out"),
    "beyond no list": (TITLE, f'beyond = "length"\n{TITLE}', '"length"', "fault", 'beyond = ["length"]'),
    "link to no part": ('"ring.miter"', '"rign.miter"', '"rign.miter"', "fault", "did you mean 'ring'"),
    "link to no result": ('"ring.miter"', '"ring.mitre"', '"ring.mitre"', "fault", "did you mean 'miter'"),
    "link of another kind": ('"ring.miter"', '"ring.side"', '"ring.side"', "fault", "must be an angle"),
    "link without a dot": ('"ring.miter"', '"ring"', '"ring"', "fault", 'from = "frame.bevel"'),
    "link to no measure": ('"machine.depth"', '"machine.dept"', '"machine.dept"', "fault", "did you mean 'depth'"),
    "link and value": ('{ from = "ring.m', '{ value = 3, from = "ring.m', "value = 3", "fault", "value or from"),
    "link in the machine": (DEPTH, '{ from = "ring.side" }', "depth =", "fault", "what was measured"),
    "circle": ("sides = 8", 'radius = { from = "shelf.width" }', '"ring.miter"', "fault", "run in a circle"),
    "part called machine": ("[parts.ring]", "[parts.machine]\n[parts.ring]", "[parts.machine]", "fault", "cannot name"),
    "no value here": ("load = 60 ", 'room = "-1 mm"\nload = 60 ', "[parts.shelf]", "fault", "has no gap at"),
}  # fmt: skip


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_a_sound_job_has_no_findings(write: Callable[..., Path], ends: str) -> None:
    assert check(write(JOB.replace("\n", ends))) == []


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_found_where_it_stands(write: Callable[..., Path], name: str) -> None:
    old, new, at, severity, words = FAULTS[name]
    assert old in JOB
    text = JOB.replace(old, new)
    findings = check(write(text))
    found = [finding for finding in findings if words in f"{finding.message}; {finding.remedy}"]
    assert found, findings
    before = text[: text.index(at)]
    assert {(f.line, f.column, f.severity) for f in found} == {
        (before.count("\n") + 1, len(before) - before.rfind("\n"), severity)
    }


def test_one_slip_is_one_finding(write: Callable[..., Path]) -> None:
    """What follows from a fault is not told again: a row that is wrong, a part linked to one that is."""
    two = {"unknown top key", "unknown table", "link in the machine", "part called machine"}
    for name, (old, new, *_) in FAULTS.items():
        findings = check(write(JOB.replace(old, new)))
        assert len(findings) == 1 + (name in two), (name, [str(finding) for finding in findings])


def test_all_faults_are_told_at_once_in_the_order_of_the_lines(write: Callable[..., Path]) -> None:
    text = JOB.replace('"2 in"', '"2 lbf"').replace("sides = 8", "sides = 80").replace('units = "in"', 'unit = "in"')
    findings = check(write(text))
    assert [finding.severity for finding in findings] == ["hint", "fault", "fault"]
    assert [finding.line for finding in findings] == [
        text[: text.index(at)].count("\n") + 1 for at in ("unit =", '"2 lbf"', "80")
    ]
    assert findings[1].where == "parts.shelf.givens.width"


def test_a_value_knowingly_outside_is_no_finding(write: Callable[..., Path]) -> None:
    text = JOB.replace('"2 in"', '"8 in"').replace('title = "Long', 'beyond = ["width"]\ntitle = "Long')
    assert check(write(text)) == []


def test_a_row_may_lack_what_the_job_states_itself(write: Callable[..., Path]) -> None:
    text = JOB.replace('modulus_along = "11.9 ± 0.6 GPa"', 'density = "650 kg/m^3"')
    (finding,) = check(write(text))
    assert finding.where == "parts.shelf.wood"
    assert check(write(text.replace("load = 60 ", 'modulus = "9 GPa"\nload = 60 '))) == []


def test_a_linked_value_outside_the_span_is_found_at_the_link(write: Callable[..., Path]) -> None:
    """A ring of 3 boards has a miter of 60°, the end of the span; one of 4 in width is 101.6 of 100 mm."""
    text = JOB.replace('"2 in"', '{ from = "ring.radius" }').replace("sides = 8", 'radius = "4 in"')
    (finding,) = check(write(text))
    before = text[: text.index('{ from = "ring.radius"')]
    assert (finding.line, finding.where) == (before.count("\n") + 1, "parts.shelf.givens.width")
    assert 'beyond = ["width"]' in finding.remedy


def test_free_tables_of_a_part_are_not_read(write: Callable[..., Path]) -> None:
    free = "\n[parts.ring.built]\nside = [1, 2]\n\n[parts.ring.record]\ndate = 2026-06-01\nside = '230 mm'\n"
    assert check(write(JOB + free)) == []


def test_a_finding_reads_as_editors_know_it_and_goes_out_as_data(write: Callable[..., Path]) -> None:
    text = JOB.replace('"2 in"', '"2 lbf"')
    (finding,) = check(write(text))
    line = text[: text.index('"2 lbf"')].count("\n") + 1
    assert str(finding).startswith(f"{line}:9: fault in parts.shelf.givens.width: ")
    assert finding.record() == {
        "line": line, "column": 9, "severity": "fault", "where": "parts.shelf.givens.width",
        "message": finding.message, "remedy": finding.remedy,
    }  # fmt: skip


@pytest.mark.parametrize(("old", "new"), RENAMED.items())
def test_a_renamed_model_is_read_and_pointed_out_at_its_line(write: Callable[..., Path], old: str, new: str) -> None:
    text = JOB + f'\n[parts.renamed]\nmodel = "{old}"\n'
    (finding,) = check(write(text))
    assert (finding.line, finding.where) == (text[: text.index(old)].count("\n") + 1, "parts.renamed.model")
    assert finding.severity == "hint"
    assert new in finding.message
    assert finding.remedy == f'write model = "{new}"'


def test_a_link_that_is_no_name_is_a_fault_at_its_place(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    text = 'format = 2\n[job]\nname = "x"\n[parts.hood]\nmodel = "hood.shape"\nenvelope = { value = "5 mm", k = 0 }\n'
    path.write_text(text, encoding="utf-8")
    (fault,) = check(path)
    assert fault.where.startswith("parts.hood.envelope")
    assert "but the job has no such part" in fault.message
