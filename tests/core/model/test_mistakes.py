"""Mistakes: what comes out after a stated wrong turn, carried on through the relations that follow."""

import json
from pathlib import Path

import pytest

from kit.core.model import Calculation, DimensionError, Model, ModelError
from kit.core.model.store import StoredModel, written
from kit.subjects import model, names
from kit.subjects.stop import section

HEAD = """A strip.

How much does it take?

In the trade's words: how much does it take?

Picture: A strip.

Assumptions:
- it is flat

Sources:
- geometry
"""


def stated() -> Model:
    m = Model("test.strip", HEAD)
    w = m.given("width", "w", "30 mm", (1, 100), "width")
    t = m.given("thickness", "t", "20 mm", (1, 100), "thickness")
    area = m.result("area", "A", "mm^2", "area")
    m.equals(w * t, "a rectangle")
    m.mistake(2 * (w + t) * t / 2, "the edge was taken for the face")
    volume = m.result("volume", "V", "mm^3", "volume of a strip as long as it is wide")
    m.equals(area * w, "area times length")
    m.limit("small", "the volume is", volume, "<=", 1e9, in_unit="mm^3")
    m.mend("make it smaller")
    return m.done()


def test_a_mistake_is_carried_on_to_what_follows() -> None:
    m = stated()
    area, volume = m.mistaken.at(30.0, 20.0)
    assert area == 50 * 20  # by hand: (30 + 20) · 20
    assert volume == 50 * 20 * 30


def test_a_mistake_is_refused_where_it_is_none() -> None:
    m = Model("test.strip", HEAD)
    w = m.given("width", "w", "30 mm", (1, 100), "width")
    with pytest.raises(ModelError, match="follows the relation"):
        m.mistake(w, "early")
    m.result("double", "d", "mm", "twice the width")
    m.equals(2 * w, "twice")
    with pytest.raises(ModelError, match="is the right formula"):
        m.mistake(2 * w, "none")
    with pytest.raises(DimensionError, match="a mistake at 'double'"):
        m.mistake(w**2, "squared")
    m.mistake(w, "once")
    with pytest.raises(ModelError, match="stated twice"):
        m.mistake(3 * w, "once")


@pytest.mark.parametrize("name", [name for name in names() if model(name).mistakes])
def test_every_stated_mistake_changes_a_result_and_outlives_the_store(name: str) -> None:
    m: Calculation = model(name)
    results, values = list(m.results), [given.base for given in m.givens.values()]
    right = [m.at().base[result] for result in results]
    found = m.mistaken.at(*values)
    for n in range(len(m.mistakes)):
        after = found[n * len(results) : (n + 1) * len(results)]
        assert any(abs(a - b) > 1e-6 * abs(b) for a, b in zip(after, right, strict=True)), m.mistakes[n].text


def test_a_stored_model_has_the_mistakes_of_its_statement() -> None:
    m = stated()
    lines = written(m, Path(section.__file__)).split("\n")
    kept = StoredModel("test.strip", json.loads(lines[1])["words"], lines[2], lambda: m)
    assert [(each.text, each.of) for each in kept.mistakes] == [("the edge was taken for the face", "area")]
    assert kept.mistaken == m.mistaken
    assert kept.mistakes[0].expr == m.mistakes[0].expr
