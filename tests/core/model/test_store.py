"""Models read from the store: the same as stated, never stale, never damaged."""

import json
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
import sympy as sp

from kit.core.model import Calculation, Model, prove, store
from kit.core.model.store import StoredModel, made_from, stored, user_folder, written
from kit.core.quantity import Display
from tests.core.model.small import HEAD

PAGE = Path(store.__file__)  # any source file of the kit: here it stands for the page that states the model


def mixed() -> Model:
    """A model with a bit of everything that a file keeps."""
    m = Model("test.mixed", HEAD)
    a = m.given("a", "a", "3 ± 0.1 mm", (1, 10), "one side", resolution=0.01)
    m.measured("caliper", spread="normal", k=2, dof=9)
    n = m.count("n", "n", 2, (1, 9), "how many")
    way = m.choice("way", "w", ("over", "under"), "over", "the way")
    luck = m.chance("luck", "l", "where the error lies")
    G = m.given("other", "G", "1 GPa", (0.1, 25), "another modulus")
    F = m.given("modulus", "E", "12 GPa", (1, 25), "modulus")
    m.pick("wood", "woods", "hard maple", {"modulus": "modulus_along"}, "the wood")
    b = m.relation("b", "b", "mm")
    m.step(a + a * (n - 1), "one, and those beside it")
    m.equals(a * n, "n of them")
    c = m.result("c", "c", "mm", "the other side", resolution=0.1)
    m.equals(sp.Piecewise((a + b, sp.Eq(way, 0)), (sp.Max(a, b) - luck * a * sp.sqrt(F / G), True)), "so")
    m.source("plane geometry")
    m.limit("wide", "it is wide", sp.Abs(c), "<=", a * 4, in_unit="mm")
    m.mend("make it narrow")
    m.limit("low", "it is low", c, ">=", b)
    m.mend("make it higher")
    m.caution("mind the edge", when=c > a)
    m.caution("always")
    return m.done()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    monkeypatch.setattr(store, "_SHIPPED", tmp_path / "none shipped")
    return user_folder()


class Counted:
    """States the model and counts how often."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self) -> Model:
        self.times += 1
        return mixed()


def get(state: Callable[[], Model]) -> Calculation:
    return stored("test.mixed", PAGE, state)


def test_what_is_read_is_what_was_stated(folder: Path) -> None:
    state = Counted()
    first, second = get(state), get(state)
    assert (state.times, type(first), type(second)) == (1, Model, StoredModel)
    for part in ("title", "question", "picture", "assumptions", "sources", "givens", "picks", "limits", "inputs"):
        assert getattr(second, part) == getattr(first, part)
    assert [each.text for each in second.cautions] == ["mind the edge", "always"]
    assert second.relations == first.relations
    assert written(second, PAGE) == written(first, PAGE)
    typed = {"a": "4 ± 0.2 mm", "way": "under", "wood": "white ash"}
    one, two = first.at(**typed), second.at(**typed)
    assert (one.base, one.checks, one.cautions) == (two.base, two.checks, two.cautions)
    assert [step.cases.at(two) for step in second.steps] == [step.cases.at(one) for step in first.steps]
    assert two.show("c", Display(system="in")) == one.show("c", Display(system="in"))
    assert state.times == 1


def test_its_formulas_are_stated_when_they_are_asked_for(folder: Path) -> None:
    state = Counted()
    get(state)
    read = get(state)
    assert read.relations["c"].expr == mixed().relations["c"].expr
    assert read.limits["wide"].value == sp.Abs(sp.Symbol("c", real=True))
    assert read.cautions[1].when == sp.true
    assert len(prove(read, points=50)) == 1
    found = read.at().find("a", "c", "12 mm")
    assert found.values == pytest.approx([4.0])


@pytest.mark.parametrize(
    "damage",
    [
        lambda text: text[:-5],
        lambda text: text.replace("one side", "one sign"),
        lambda text: "",
        lambda text: "\n\n",
        lambda text: text.replace("\n", " "),
    ],
)
def test_a_damaged_file_is_stated_anew(folder: Path, damage: Callable[[str], str]) -> None:
    state = Counted()
    get(state)
    path = folder / "test.mixed.txt"
    whole = path.read_text(encoding="utf-8")
    path.write_text(damage(whole), encoding="utf-8")
    assert get(state).givens == mixed().givens
    assert state.times == 2
    assert path.read_text(encoding="utf-8") == whole


@pytest.mark.parametrize("changed", ["core/model/store.py", "core/quantity/units.py", "sympy"])
def test_a_file_made_from_other_sources_is_stated_anew(
    folder: Path, monkeypatch: pytest.MonkeyPatch, changed: str
) -> None:
    state = Counted()
    get(state)
    assert changed in made_from(PAGE)
    before = store._digest
    monkeypatch.setattr(store, "_digest", lambda source: "other" if source == changed else before(source))
    get(state)
    assert state.times == 2
    get(state)
    assert state.times == 2


def test_a_page_names_what_it_takes_from_others() -> None:
    sources = made_from(PAGE.parents[2] / "subjects" / "stop" / "deflection.py")
    assert {"subjects/stop/deflection.py", "subjects/stop/section.py", "core/model/tape_writer.py"} <= sources.keys()
    assert "subjects/hood/shape.py" not in sources
    assert all(digest for digest in sources.values())


def test_a_folder_that_cannot_be_written_only_costs_time(folder: Path) -> None:
    folder.parent.mkdir(parents=True)
    folder.write_text("no folder")
    state = Counted()
    assert get(state).at().base == get(state).at().base
    assert state.times == 2


def test_a_file_holds_data_only(folder: Path) -> None:
    lines = written(mixed(), PAGE).split("\n")
    assert len(lines) == 3
    assert set(json.loads(lines[2])) == {"point", "verdicts", "mistaken", "steps"}


def test_many_processes_share_a_folder(folder: Path) -> None:
    """Whoever comes second replaces a file by the same."""
    texts = {written(mixed(), PAGE) for _ in range(2)}
    assert len(texts) == 1
    assert partial(get, Counted())() is not None
