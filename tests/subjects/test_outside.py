"""Every model against values from outside: one TOML file beside each page, as `tests/subjects/outside.py` says."""

import importlib
import inspect
import re
from collections import Counter
from functools import cache

import pytest

from kit.core.model import Case
from kit.core.quantity import Quantity, parse
from kit.subjects import model, names
from tests import ROOT
from tests.subjects.outside import BEGIN, END, README, Known, OutsideCheck, counted, load

CHECKS = load()
LIBRARY = [check for check in CHECKS if check.known is Known.LIBRARY]
MOST_FROM_MEMORY = 19

#: What a source that was read must name: a place in it.
PLACE = re.compile(
    r"\b(tables?|sections?|chapters?|pp?\. ?\d+|page|equations?|Eq\.|examples?|figures?|annex|appendix|problem|article"
    r"|abstract|proposition|note|test \w+)\b",
    re.IGNORECASE,
)
#: Words of sources that nobody can follow, or that nobody answers for.
DOUBTFUL = re.compile(r"https?:|www\.|\bvia\b|forum|stack ?exchange|from memory", re.IGNORECASE)


def named(checks: list[OutsideCheck]) -> list[str]:
    return [f"{check.model}-{check.title}" for check in checks]


@cache
def at(number: int) -> Case:
    check = CHECKS[number]
    return model(check.model).at(beyond=check.beyond, **check.givens)


def wanted(check: OutsideCheck, result: str) -> tuple[Quantity, float]:
    unit = model(check.model).part(result).unit
    value, off = (parse(check.expect[result][name], unit) for name in ("value", "off"))
    return value, off.value * off.unit.factor


def test_every_model_has_values_and_every_file_its_model() -> None:
    assert {check.model for check in CHECKS} == set(names())


@pytest.mark.parametrize(("number", "check"), list(enumerate(CHECKS)), ids=named(CHECKS))
def test_the_model_gives_the_value(number: int, check: OutsideCheck) -> None:
    assert check.source.strip()
    assert check.expect
    for result in check.expect:
        value, off = wanted(check, result)
        assert at(number).base[result] == pytest.approx(value.base, abs=off, rel=0), result


@pytest.mark.parametrize("check", LIBRARY, ids=named(LIBRARY))
def test_the_library_gives_the_value(check: OutsideCheck) -> None:
    """What the file states is what the library computes, from the givens alone."""
    base = at(CHECKS.index(check)).base
    givens = {name: base[name] for name in check.givens if name in base}
    computed = getattr(importlib.import_module(f"tests.subjects.libraries.{check.chapter}"), check.by)(givens)
    assert set(computed) >= set(check.expect)
    for result in check.expect:
        value, off = wanted(check, result)
        assert computed[result] == pytest.approx(value.base, abs=off, rel=0), result


@pytest.mark.parametrize("check", LIBRARY, ids=named(LIBRARY))
def test_a_library_is_named_by_its_function(check: OutsideCheck) -> None:
    name = check.source.partition(",")[0]
    package, *path = name.split(".")
    assert package != "kit"
    found = importlib.import_module(package)
    for end, part in enumerate(path, start=1):
        found = getattr(found, part, None) or importlib.import_module(".".join([package, *path[:end]]))
    assert callable(found), name
    folder = ROOT / "tests" / "subjects" / "libraries"
    code = "".join((folder / file).read_text(encoding="utf-8") for file in (f"{check.chapter}.py", "_boards.py"))
    assert path[-1] in code, name


def test_every_function_of_a_library_is_used_and_calls_no_kit() -> None:
    used = {(check.chapter, check.by) for check in LIBRARY}
    folder = ROOT / "tests" / "subjects" / "libraries"
    for path in folder.glob("[a-z]*.py"):
        module = importlib.import_module(f"tests.subjects.libraries.{path.stem}")
        assert not re.search(r"^\s*(from|import) kit\b", inspect.getsource(module), re.MULTILINE), path.stem
        public = {name for name, f in vars(module).items() if inspect.isfunction(f) and f.__module__ == module.__name__}
        assert {name for name in public if not name.startswith("_")} == {by for c, by in used if c == path.stem}


def test_a_check_says_by_what_it_is_known() -> None:
    for check in CHECKS:
        where = f"{check.model}: {check.title}"
        assert (check.known is Known.LIBRARY) == bool(check.by), where
        if check.known is Known.READ:
            assert PLACE.search(check.source), f"{where}: no place in the source"
        if check.known is not Known.MEMORY:
            assert not DOUBTFUL.search(check.source), where


def test_titles_tell_the_checks_of_a_model_apart() -> None:
    assert max(Counter(named(CHECKS)).values()) == 1


def test_every_model_has_a_check_that_was_read_or_computed_by_a_library() -> None:
    sure = {check.model for check in CHECKS if check.known in (Known.READ, Known.LIBRARY)}
    assert sorted(set(names()) - sure) == []


def test_few_checks_are_from_memory() -> None:
    assert sum(check.known is Known.MEMORY for check in CHECKS) <= MOST_FROM_MEMORY


def test_the_readme_states_the_counts() -> None:
    """`python -m tests.subjects.outside` writes them."""
    told = README.read_text(encoding="utf-8").partition(BEGIN)[2].partition(END)[0]
    assert told == counted(CHECKS)


def test_no_source_of_the_kit_is_a_forum() -> None:
    """In what models, tables, demo jobs and notebooks cite."""
    for folder, kinds in (("kit", ("py", "toml")), ("data", ("csv", "toml")), ("notebooks", ("ipynb",))):
        for kind in kinds:
            for path in (ROOT / folder).rglob(f"*.{kind}"):
                assert not re.search(r"forum|stack ?exchange", path.read_text(encoding="utf-8"), re.IGNORECASE), path
