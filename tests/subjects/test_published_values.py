"""Every model against values from outside: one TOML file beside each page, one table per published example.

A file states the source, how surely its numbers are known ('read': seen in a text; 'memory': recalled;
'arithmetic': follows from a definition or from another printed number), the givens and what must come out,
with half of the last printed digit as the allowed difference unless a note says otherwise.
"""

import tomllib
from typing import Any

import pytest

from kit.core.quantity import parse
from kit.subjects import model, names
from tests import ROOT

FOLDER = ROOT / "kit" / "subjects"


def load() -> list[tuple[str, dict[str, Any]]]:
    found = []
    for path in sorted(FOLDER.glob("*/*.values.toml")):
        name = f"{path.parent.name}.{path.name.removesuffix('.values.toml')}"
        for check in tomllib.loads(path.read_text(encoding="utf-8"))["check"]:
            found.append((name, check))
    return found


CHECKS = load()


def test_every_model_has_values_and_every_file_its_model() -> None:
    assert {name for name, _ in CHECKS} == set(names())


@pytest.mark.parametrize(("name", "check"), CHECKS, ids=[f"{n}-{c['title']}" for n, c in CHECKS])
def test_published_value(name: str, check: dict[str, Any]) -> None:
    assert check["source"].strip()
    assert check["known"] in ("read", "memory", "arithmetic")
    stated = model(name)
    case = stated.at(beyond=check.get("beyond", ()), **check.get("givens", {}))
    assert check["expect"]
    for result, wanted in check["expect"].items():
        unit = stated.part(result).unit
        value, off = parse(wanted["value"], unit), parse(wanted["off"], unit)
        assert case.base[result] == pytest.approx(value.base, abs=off.value * off.unit.factor, rel=0), result
