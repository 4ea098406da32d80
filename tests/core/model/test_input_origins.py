"""Cells of inputs that say where they come from, themselves or through their row."""

from datetime import date, time
from typing import Any

import pytest

from kit.core.model.input_origins import cell_origins, origin_at, origins_in, places, restated, with_origin
from kit.core.model.input_terms import amount, bound, count, file, named, outline, record, rows, steps, text
from kit.core.model.inputs import read_inputs
from kit.core.quantity import CHOSEN, EXAMPLE, ValueOrigin

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


def test_what_is_typed_anew_keeps_no_origin_and_what_says_the_same_keeps_its_own() -> None:
    row = {
        "name": "a",
        "x": "1 mm",
        "depth": {"value": "3.2 ± 0.1 mm", "origin": "table", "source": "s"},
        "n": 2,
        **TAPE,
    }

    def told(change: dict[str, Any]) -> dict[str, Any]:
        found = restated(GAPS, [row], [{**row, "depth": "3.2 ± 0.1 mm", **change}])
        assert not read_inputs(ASKED, {"gaps": found})[1]
        return dict(found[0])

    assert told({}) == row
    assert told({"depth": "0.32 ± 0.01 cm", "x": "0.1 cm"}) == row | {
        "depth": {"value": "0.32 ± 0.01 cm", "origin": "table", "source": "s"}, "x": "0.1 cm",
    }  # fmt: skip
    assert told({"depth": "3.2 ± 0.2 mm"})["depth"] == {"value": "3.2 ± 0.2 mm", "origin": "chosen"}
    assert told({"n": 3})["n"] == {"value": 3, "origin": "chosen"}, "the row says how the 2 was measured, not the 3"
    assert told({"name": "b"}) == row | {"name": "b"}, "a name is not measured"
    assert restated(GAPS, [row], [row, {"name": "b", "x": "2 mm"}], example=True)[1] == {
        "name": "b", "x": "2 mm", "origin": "chosen",
    }  # fmt: skip
    edge = [["0 mm", "0 mm"], ["1 mm", "0 mm"]]
    assert restated(ASKED["edge"], edge, [*edge, ["1 mm", "2 mm"]], example=True) == [
        *edge, [{"value": "1 mm", "origin": "chosen"}, {"value": "2 mm", "origin": "chosen"}],
    ]  # fmt: skip
    assert restated(ASKED["bars"], {"x": "1 mm"}, {"x": "1 mm", "y": "2 mm"}) == {"x": "1 mm", "y": "2 mm"}
    assert restated(ASKED["bars"], {"x": "1 mm"}, {"x": "1 mm", "y": "2 mm"}, example=True)["x"] == "1 mm"
    box = {"high": "1 mm"}
    assert restated(ASKED["box"], box | TAPE, {"high": "2 mm"} | TAPE)["high"] == {"value": "2 mm", "origin": "chosen"}
    assert restated(ASKED["scan"], "a.ply", "b.ply", example=True) == {"value": "b.ply", "origin": "chosen"}


def test_an_origin_is_stated_at_any_place_and_read_back() -> None:
    tape = ValueOrigin("measured", "2026-05-02", "tape", "A. Turner")
    gaps = [{"name": "a", "x": "1 mm", "depth": "3.2 ± 0.1 mm", "n": 2}]
    assert places(GAPS, gaps) == [(), (0,), (0, "x"), (0, "depth"), (0, "n")]
    for at in places(GAPS, gaps):
        told = with_origin(GAPS, gaps, at, tape)
        found, faults = read_inputs(ASKED, {"gaps": told})
        assert (found, faults) == read_inputs(ASKED, {"gaps": gaps})
        for path, origin in origins_in(GAPS, told).items():
            assert (origin == tape) == (path[: len(at)] == at)
        assert origin_at(GAPS, told, at) == tape
        assert with_origin(GAPS, told, at, CHOSEN) == gaps
    for name, raw in (
        ("edge", [["0 mm", 2]]),
        ("bars", {"x": "1 mm"}),
        ("recipe", [{"do": "drop", "smaller": "2 mm"}]),
    ):
        told = with_origin(ASKED[name], raw, (), tape, example=True)
        assert set(origins_in(ASKED[name], told, example=True).values()) == {tape}
        assert with_origin(ASKED[name], told, (), EXAMPLE, example=True) == raw
    assert places(ASKED["scan"], "a.ply") == [()]
    assert places(GAPS, [{"name": "a"}]) == [(), (0,)]


def test_what_a_search_found_and_kept_is_no_value_that_somebody_states() -> None:
    kept = rows("layout", "where each part lies", text("part", "the part"), amount("x", "place"), found=True)
    raw = {"layout": [{"part": "rib", "x": "12 mm"}], "rail": "4 mm"}
    assert set(cell_origins({**ASKED, "layout": kept}, raw, example=True)) == {("rail",)}
