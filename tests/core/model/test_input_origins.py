"""Cells of inputs that say where they come from, themselves or through their row."""

from datetime import date, time
from typing import Any

import pytest

from kit.core.model.input_origins import cell_origins
from kit.core.model.input_terms import amount, bound, count, file, named, outline, record, rows, steps, text
from kit.core.model.inputs import read_inputs
from kit.core.quantity import ValueOrigin

GAPS = rows(
    "gaps", "gaps", text("name", "its name"), amount("x", "place"), amount("depth", "depth"), count("n", "many")
)
ASKED = {
    each.name: each
    for each in (
        GAPS,
        amount("rail", "rail"),
        file("scan", "a scan", ".ply"),
        outline("edge", "an outline"),
        named("bars", "bars", amount("length", "length")),
        record("box", "a box", amount("high", "height")),
        steps("recipe", "steps", "do", {"drop": (amount("smaller", "size"),)}),
        record("way", "how it moves", bound("low", "least", "deg")),
    )
}
TAPE = {"measured": date(2026, 5, 2), "how": "tape", "by": "A. Turner"}


def kinds(raw: dict[str, Any], *, example: bool = False) -> dict[tuple[str | int, ...], str]:
    return {at: origin.kind for at, origin in cell_origins(ASKED, raw, example=example).items()}


def test_a_cell_states_its_own_origin_and_a_row_that_of_the_others() -> None:
    raw = {"gaps": [
        {"name": "a", "x": "1 mm", "depth": {"value": "3.2 ± 0.1 mm", "origin": "chosen"}, "n": 2, **TAPE},
        {"name": "b", "x": "2 mm", "depth": {"value": "3.3 mm", "measured": "2026-05-03"}},
    ]}  # fmt: skip
    found, faults = read_inputs(ASKED, raw)
    assert not faults
    assert str(found["gaps"][0]["depth"]) == "3.2 ± 0.1 mm"
    assert kinds(raw) == {
        ("gaps", 0, "x"): "measured", ("gaps", 0, "depth"): "chosen", ("gaps", 0, "n"): "measured",
        ("gaps", 1, "x"): "chosen", ("gaps", 1, "depth"): "measured",
    }  # fmt: skip
    origins = cell_origins(ASKED, raw)
    assert origins["gaps", 0, "x"] == ValueOrigin("measured", "2026-05-02", "tape", "A. Turner")
    assert origins["gaps", 1, "depth"].measured == "2026-05-03"


def test_every_value_of_every_kind_of_input_has_one() -> None:
    raw: dict[str, Any] = {
        "rail": {"value": "40 mm", **TAPE}, "scan": "a.ply", "edge": [["0 mm", "0 mm"], ["1 mm", {"value": 2, **TAPE}]],
        "bars": {"x": "99.7 mm"}, "box": {"high": "1 mm", **TAPE}, "recipe": [{"do": "drop", "smaller": "25 mm"}],
        "way": {"low": "swing"},
    }  # fmt: skip
    assert kinds(raw) == {
        ("rail",): "measured", ("scan",): "chosen", ("bars", "x"): "chosen", ("box", "high"): "measured",
        ("edge", 0, 0): "chosen", ("edge", 0, 1): "chosen", ("edge", 1, 0): "chosen", ("edge", 1, 1): "measured",
        ("recipe", 0, "smaller"): "chosen", ("way", "low"): "chosen",
    }  # fmt: skip
    assert set(kinds({"rail": "1 mm", "gaps": [{"x": "1 mm"}]}, example=True).values()) == {"example"}


@pytest.mark.parametrize(
    ("cell", "at", "words"),
    [
        ({"value": "1 mm", "origin": "guess"}, "origin", "write one of example, chosen, measured, table, solved"),
        ({"value": "1 mm", "origin": "mesured"}, "origin", "did you mean 'measured'"),
        ({"value": "1 mm", "measured": "May"}, "measured", "measured is not a date"),
        ({"value": "1 mm", "measured": time(12, 30)}, "measured", "measured is not a date"),
        ({"value": "1 mm", "measured": date(2999, 12, 31)}, "measured", "2999-12-31, which is yet to come"),
        ({"value": "1 mm", "measured": "2999-12-31"}, "measured", "2999-12-31, which is yet to come"),
        ({"value": "1 mm", "origin": "chosen", "measured": "2026-05-02"}, "origin", "take the date out"),
        ({"value": "1 mm", "by": 3}, "by", "by is 3, but must be a text"),
        ({"value": "1 mm", "whose": "x"}, "whose", "unknown input 'whose'"),
        ({"how": "tape"}, None, "rail has no value"),
    ],
)
def test_what_is_wrong_is_said_at_its_key(cell: dict[str, Any], at: str | None, words: str) -> None:
    faults = read_inputs(ASKED, {"rail": cell})[1]
    assert [fault.at for fault in faults] == [("rail",) if at is None else ("rail", at)]
    assert words in f"{faults[0].message}; {faults[0].remedy}"
    if at:  # the same in a row
        row = {"x": "1 mm"} | {key: told for key, told in cell.items() if key != "value"}
        assert [fault.at for fault in read_inputs(ASKED, {"gaps": [row]})[1]] == [("gaps", 0, at)]
