"""Inputs that belong together, and quantities of one of two kinds, as a machine's joints and scans state them."""

from typing import Any

import pytest

from kit.core.errors import KitError
from kit.core.model.input_terms import amount, bound, file, rows, text, together
from kit.core.model.inputs import Input, stated_inputs
from kit.core.quantity import Quantity

SCAN = together(
    file("scan", "the machine", ".ply"),
    rows("parts", "what moves", text("name", "its name")),
    with_them=(text("cut", ""),),
)
WAY = (amount("turned", "how far", "deg", other_unit="mm"), bound("low", "least", "deg", other_unit="mm"))


def read(inputs: tuple[Input, ...], raw: dict[str, Any]) -> dict[str, Any]:
    return stated_inputs("machine", {each.name: each for each in inputs}, raw, ("swing",))


def test_all_of_what_belongs_together_is_stated_or_none() -> None:
    assert read(SCAN, {}) == {"scan": None, "parts": (), "cut": None}
    assert read(SCAN, {"scan": "a.ply", "parts": []}) == {"scan": "a.ply", "parts": (), "cut": None}
    for raw, missing in (
        ({"scan": "a.ply"}, "parts is not stated, which scan needs"),
        ({"parts": []}, "scan is not stated, which parts needs"),
        ({"cut": "x"}, "scan is not stated, which cut needs"),
    ):
        with pytest.raises(KitError, match=missing):
            read(SCAN, raw)
    assert SCAN[0].schema()["together"] == ["scan", "parts", "cut"]


@pytest.mark.parametrize(("said", "unit"), [("30 deg", "deg"), ("30 mm", "mm"), ("1 in", "in"), (30, "deg")])
def test_a_way_is_an_angle_or_a_length(said: object, unit: str) -> None:
    found = read(WAY, {"turned": said, "low": said})
    for name in ("turned", "low"):
        assert isinstance(found[name], Quantity)
        assert found[name].unit.text == unit
        assert found[name].bare is (said == 30)


def test_a_way_is_told_in_its_own_unit() -> None:
    (turned, _), found = WAY, read(WAY, {"turned": "30 mm", "low": "swing"})
    assert turned.words(found["turned"]).endswith(" mm")
    assert found["low"] == "swing"
    assert turned.schema()["other_unit"] == "mm"


def test_what_is_neither_angle_nor_length_is_refused() -> None:
    with pytest.raises(KitError, match=r"turned: turned: .*3 kg"):
        read(WAY, {"turned": "3 kg", "low": 0})
