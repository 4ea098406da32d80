"""The promised layout of what the commands of a whole job say with --json, and its numbers by hand."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from kit.cli import main
from kit.core.record import FORMAT
from kit.job import Job
from kit.station.lists import NO_PLACE
from tests.core.test_record import FLAG, NUMBER, ORIGIN, TEXT, layout

Write = Callable[..., Job]
WORK = """
[work]
day = "8 h"
[[work.tasks]]
name = "saw"
part = "wing"
takes = "2 ± 0.5 h"
dry = "1 h"
[[work.tasks]]
name = "glue"
after = ["saw"]
takes = "1 h"
"""
PARTS = """
[parts.wing]
model = "support.wing"
place = { at = ["100 mm", "0 mm", "900 mm"], turn = "90 deg" }
[parts.tape]
model = "scale.tape"
[parts.tape.givens]
reading = "1480 mm"
[parts.frame]
model = "bevel.frame"
[parts.boards]
model = "cutting.boards"
"""
EYE = """
[parts.eye]
model = "scale.cursor"
[parts.eye.built]
parallax = { value = "0.3 ± 0.05 mm", measured = 2026-06-06 }
"""


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]) -> Callable[..., Any]:
    """Return `said(code, *arguments)`: the data that the command answers with, without its head."""

    def said(code: int, *arguments: object) -> Any:
        capsys.readouterr()
        assert main([*map(str, arguments), "--json"]) == code
        found = json.loads(capsys.readouterr().out, parse_constant=pytest.fail)
        assert found.pop("fitwright")
        assert found.pop("format") == FORMAT
        return found

    return said


def test_lists(stated: Write, said: Callable[..., Any]) -> None:
    found = said(0, "lists", stated(PARTS, units="in").path)
    shapes = layout(found)
    needs = {"name": TEXT, "amount": NUMBER, "unit": TEXT, "parts": [TEXT]}
    possible = [{**needs, "sides": sides, "cost": cost} for sides in ([NUMBER], []) for cost in (NUMBER, None)]
    assert all(each in possible for each in shapes.pop("needs"))
    assert shapes == {
        "mass": NUMBER,
        "cost": NUMBER,
        "station": {
            "mass": NUMBER, "center": [NUMBER], "counted": [TEXT], "missing": [{"part": TEXT, "why": TEXT}],
        },
        "weights": [{"part": TEXT, "mass": NUMBER, "center": [NUMBER], "lifted": TEXT}],
        "pieces": [{"part": TEXT, "name": TEXT, "count": NUMBER, "sides": [NUMBER], "of": TEXT}],
        "settings": [{"part": TEXT, "machine": TEXT, "cuts": [TEXT],
                      "values": [{"name": TEXT, "value": NUMBER, "unit": TEXT}]}],
        "open": [],
    }  # fmt: skip
    # the wing's middle, 600, 20 and -45 mm in its own axes, turned by a quarter and moved
    assert found["station"] == {
        "mass": pytest.approx(2.16),
        "center": pytest.approx([80.0, 600.0, 855.0]),
        "counted": ["wing"],
        "missing": [{"part": "tape", "why": NO_PLACE}, {"part": "frame", "why": NO_PLACE}],
    }
    # 1.2 m × 40 mm × 90 mm × 500 kg/m³ is 2.16 kg, whatever the reader's units
    assert found["mass"] == found["weights"][0]["mass"] == pytest.approx(2.16)
    tape = next(each for each in found["needs"] if each["unit"] == "m")
    assert (tape["amount"], tape["parts"]) == (pytest.approx(1.48), ["tape"])


def test_order(stated: Write, said: Callable[..., Any]) -> None:
    found = said(0, "order", stated(WORK + PARTS).path)
    step = dict.fromkeys(("takes", "half", "dry", "begin", "end", "ready", "helpers"), NUMBER)
    step |= dict.fromkeys(("name", "part", "tools", "check"), TEXT) | {"critical": FLAG}
    assert layout(found) == {
        **dict.fromkeys(("work", "ready", "shortest", "longest"), NUMBER),
        "steps": [{**step, "after": []}, {**step, "after": [TEXT]}],
        "faults": [],
    }
    # by hand: 2 h of sawing, 1 h of drying, 1 h of gluing; the sawing half an hour shorter or longer
    assert [(each["name"], each["begin"], each["end"], each["ready"]) for each in found["steps"]] == [
        ("saw", 0, 2, 3),
        ("glue", 3, 4, 4),
    ]
    assert [found[name] for name in ("work", "ready", "shortest", "longest")] == pytest.approx([3, 4, 3.5, 4.5])


def test_compare(stated: Write, said: Callable[..., Any]) -> None:
    longer = PARTS.replace("1480", "1500") + EYE
    found = said(0, "compare", stated(PARTS).path, stated(longer, "b").path)
    change = dict.fromkeys(("kind", "name", "first", "second", "by"), TEXT)
    assert layout(found) == {
        "first": TEXT,
        "second": TEXT,
        "parts": [{"id": TEXT, "title": TEXT, "changes": [change], "fault": TEXT}],
        "whole": [],
        "only_first": [],
        "only_second": [TEXT],
        "same": NUMBER,
    }
    ((tape,), same) = found["parts"], found["same"]
    assert (tape["id"], same) == ("tape", 3)
    assert tape["changes"][0] | {"name": ""} == {
        "kind": "given", "name": "", "first": "1480.0 mm", "second": "1500.0 mm", "by": "+20.0 mm",
    }  # fmt: skip


def test_built(stated: Write, said: Callable[..., Any]) -> None:
    job = stated(EYE)
    found = said(1, "built", job.path)  # 1: they do not agree
    value = {"value": NUMBER, "half": NUMBER}
    assert layout(found) == {
        "results": [{
            "part": TEXT, "result": TEXT, "unit": TEXT, "predicted": value, "measured": value, "off": NUMBER,
            "normalized": NUMBER, "agree": FLAG, "origin": ORIGIN,
            "explained": [{"given": TEXT, "off": NUMBER, "unit": TEXT, "chance": NUMBER}],
        }],
        "faults": [],
    }  # fmt: skip
    (result,) = found["results"]
    assert result["measured"] == {"value": pytest.approx(0.3), "half": pytest.approx(0.05)}
    assert result["off"] == pytest.approx(0.3 - job.case("eye").base["parallax"])
    assert result["agree"] is (abs(result["normalized"]) <= 1) is False
    assert result["origin"]["measured"] == "2026-06-06"


def test_shop(tmp_path: Path, said: Callable[..., Any]) -> None:
    record = tmp_path / "shop.toml"
    one = said(0, "shop", record, "--add", "tape", "--off=0.1 mm")["spreads"][0]
    assert one["deviation"] is one["u"] is one["half"] is None  # of one entry no spread is known
    found = said(0, "shop", record, "--add", "tape", "--off=0.3 mm")
    assert layout(found) == {
        "spreads": [{
            **dict.fromkeys(("name", "unit", "words"), TEXT),
            **dict.fromkeys(("mean", "deviation", "u", "half", "dof"), NUMBER),
            "entries": [{"off": NUMBER, **dict.fromkeys(("date", "job", "what", "note"), TEXT)}],
        }],
    }  # fmt: skip
    # by hand: 0.1 and 0.3 mm have the mean 0.2 mm and the standard deviation 0.1414 mm
    (tape,) = found["spreads"]
    assert (tape["mean"], tape["deviation"], tape["dof"]) == (pytest.approx(0.2), pytest.approx(0.02**0.5), 1)
    assert [each["off"] for each in tape["entries"]] == pytest.approx([0.1, 0.3])
