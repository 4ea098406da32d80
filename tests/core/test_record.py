"""The promised layout of the plain records: names, order of nothing, types of everything."""

import json
from typing import Any

import pytest
import sympy as sp

from kit.core.model import Model, find
from kit.core.model.input_terms import amount, flag, rows
from kit.core.quantity import Display
from kit.core.record import FORMAT, sought, stated, worked
from tests.core.model.small import blank

TEXT, NUMBER, FLAG = "text", "number", "flag"


def layout(value: Any) -> Any:
    """Return the shape of plain data: keys of mappings, the shapes in lists, the kind of all else."""
    if isinstance(value, dict):
        return {key: layout(inner) for key, inner in value.items()}
    if isinstance(value, list):
        shapes: list[Any] = []
        for shape in map(layout, value):
            if shape not in shapes:
                shapes.append(shape)
        return shapes
    if value is None:
        return None
    return {bool: FLAG, str: TEXT, float: NUMBER, int: NUMBER}[type(value)]


def round_trip(record: dict[str, Any]) -> Any:
    return json.loads(json.dumps(record, allow_nan=False))


ORIGIN = dict.fromkeys(("kind", "measured", "how", "by", "source", "note"), TEXT)
GIVEN = {"value": NUMBER, "unit": TEXT, "text": TEXT, "u": NUMBER, "source": TEXT, "origin": ORIGIN,
         "half_assumed": FLAG, "unit_assumed": FLAG}  # fmt: skip
RESULT = {"value": NUMBER, "unit": TEXT, "text": TEXT, "u": NUMBER}
ASKED = {
    "name": TEXT,
    "meaning": TEXT,
    "kind": TEXT,
    "unit": TEXT,
    "value": NUMBER,
    "span": [NUMBER],
    "span_text": TEXT,
    "origin": ORIGIN,
}


def test_format() -> None:
    assert FORMAT == 2, "raise it only with the layouts below, and tell those who read them"


def test_stated(bar: Model) -> None:
    record = stated(bar)
    assert layout(record) == {
        "name": TEXT, "title": TEXT, "question": TEXT,
        "givens": [ASKED, {**{k: v for k, v in ASKED.items() if k != "span"}, "value": TEXT, "options": [TEXT]}],
        "picks": [],
        "inputs": [],
        "results": [{"name": TEXT, "meaning": TEXT, "unit": TEXT}],
    }  # fmt: skip
    assert round_trip(record) == record
    by_name = {given["name"]: given for given in record["givens"]}
    assert "far" not in by_name  # a constant is not asked
    assert by_name["modulus"]["span"] == pytest.approx([1, 250])  # in GPa, the unit beside it
    assert by_name["end"]["options"] == ["clamped", "propped"]
    assert by_name["end"]["value"] == "clamped"


def test_inputs() -> None:
    m = blank()
    x = m.given("x", "x", "1 mm", (0, 2), "x")
    m.ask(rows("gaps", "all gaps", amount("depth", "how deep", span=(0, 50), needed=True)), flag("round", "if round"))
    m.result("y", "y", "mm")
    m.equals(2 * x, "two")
    record = stated(m.done())
    assert record["inputs"] == [
        {"name": "gaps", "kind": "rows", "meaning": "all gaps", "needed": False, "columns": [
            {"name": "depth", "kind": "amount", "meaning": "how deep", "needed": True, "unit": "mm", "default": None,
             "sure": False, "span": [0, 50]},
        ]},
        {"name": "round", "kind": "flag", "meaning": "if round", "needed": False},
    ]  # fmt: skip
    assert round_trip(record) == record


def test_worked(bar: Model) -> None:
    case = bar.at(length="3 m", end="propped", push="60", beyond=("length",))
    record = worked(case)
    names = ["push", "length", "width", "height", "modulus", "allowed", "end", "pitch", "far"]
    assert layout(record) == {
        "model": TEXT,
        "givens": {name: {**GIVEN, "value": TEXT if name == "end" else NUMBER} for name in names},
        "picks": {},
        "results": {"tip": RESULT, "screws": RESULT},
        "limits": [{"name": TEXT, "ok": FLAG, "chance": NUMBER, "origin": TEXT, "value": NUMBER, "allowed": NUMBER,
                    "margin": NUMBER, "unit": TEXT,
                    "words": TEXT}],
        "cautions": [TEXT],
        "outside": [TEXT],
        "ok": FLAG,
    }  # fmt: skip
    assert round_trip(record) == record
    assert record["givens"]["push"]["unit_assumed"]
    assert not record["givens"]["length"]["unit_assumed"]
    assert record["givens"]["end"]["value"] == "propped"
    assert record["givens"]["modulus"]["value"] == pytest.approx(12, rel=1e-14)
    assert record["givens"]["modulus"]["u"] == pytest.approx(1.2 / 6**0.5, rel=1e-12)  # triangular, in GPa
    assert record["results"]["tip"]["value"] == pytest.approx(7 * 60 * 3000**3 / (768 * 12_000 * 90_000), rel=1e-12)


def test_numbers_do_not_turn_with_the_reader(bar: Model) -> None:
    metric, inches = worked(bar.at()), worked(bar.at(), Display(system="in"))
    assert metric["results"]["tip"]["value"] == inches["results"]["tip"]["value"]
    assert metric["results"]["tip"]["unit"] == inches["results"]["tip"]["unit"] == "mm"
    assert inches["results"]["tip"]["text"] == "0.131 in"  # 3.3333/25.4 = 0.1312


def test_result_without_first_order_uncertainty() -> None:
    m = blank()
    x = m.given("x", "x", "0 ± 0.1", (0, 2), "x")
    m.result("y", "y", "")
    m.equals(sp.sqrt(x), "a root has no slope at zero")
    record = worked(m.done().at())
    assert record["results"]["y"]["u"] is None
    assert round_trip(record) == record


def test_picks() -> None:
    m = blank()
    E = m.given("modulus", "E", "12 GPa", (1, 25), "modulus")
    m.pick("wood", "woods", "red oak", {"modulus": "modulus_bending"}, "the wood")
    m.result("twice", "D", "GPa")
    m.equals(2 * E, "two")
    m.done()
    assert stated(m)["picks"] == [{"name": "wood", "table": "woods", "row": "red oak", "fills": ["modulus"]}]
    record = worked(m.at(wood="white oak"))
    assert record["picks"] == {"wood": "white oak"}
    assert round_trip(record) == record


SOUGHT = {"unknown": TEXT, "result": TEXT, "target": NUMBER, "unit": TEXT, "values": [NUMBER], "intervals": [],
          "how": TEXT, "words": TEXT}  # fmt: skip


@pytest.mark.parametrize(
    ("unknown", "result", "target", "changed"),
    [
        ("push", "tip", "1 mm", {}),
        ("length", "screws", 6, {"values": [], "intervals": [[NUMBER]]}),
        ("height", "tip", "1000 m", {"values": []}),
        ("end", "tip", "3.3333333333 mm", {"values": [TEXT]}),
    ],
)
def test_sought(bar: Model, unknown: str, result: str, target: str | float, changed: dict[str, Any]) -> None:
    record = sought(find(bar.at(), unknown, result, target))
    assert layout(record) == SOUGHT | changed
    assert round_trip(record) == record


def test_sought_is_told_in_the_given_s_unit(bar: Model) -> None:
    record = sought(find(bar.at(), "modulus", "tip", "4 mm"))
    assert (record["unit"], record["how"], record["target"]) == ("GPa", "closed form", 4)
    assert record["values"] == pytest.approx([10], rel=1e-12)  # 12 GPa · 3.333/4
