"""Changing one value of a text. The judge is the standard library's parser, and the text around the change."""

import re
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.job.merge import canonical
from kit.job.positions import scan
from kit.job.toml_edit import ABSENT, placed, put
from tests.job.spelled import KEYS, PLAIN, documents

GIVENS = st.dictionaries(KEYS, PLAIN | st.dictionaries(KEYS, PLAIN, max_size=3), max_size=3)
PARTS = st.dictionaries(KEYS, st.fixed_dictionaries({"model": st.just("m")}, optional={"givens": GIVENS}), max_size=3)
JOBS = st.fixed_dictionaries(
    {"format": st.just(1)}, optional={"parts": PARTS, "tables": st.just({"woods": {"x": {"y": "z"}}})}
)


@pytest.mark.parametrize(
    ("before", "path", "value", "after"),
    [
        ("a = 1 # one\nb = 2\n", ("a",), "x", 'a = "x" # one\nb = 2\n'),
        (
            "[p]\r\na = 1\r\n\r\n# next\r\n[q]\r\n",
            ("p", "b"),
            2,
            "[p]\r\na = 1\r\nb = 2\r\n\r\n# next\r\n[q]\r\n",
        ),
        ("[p]\n  a = 1", ("p", "b"), 2, "[p]\n  a = 1\n  b = 2\n"),
        ("[p] # here\n[q]\n", ("p", "b"), 2, "[p] # here\nb = 2\n[q]\n"),
        (
            "[p]\na = 1\n\n[q]\nb = 1\n",
            ("p", "givens", "c"),
            2,
            "[p]\na = 1\n\n[p.givens]\nc = 2\n\n[q]\nb = 1\n",
        ),
        ("p = { a = 1 }\n", ("p", "b"), 2, "p = { a = 1, b = 2 }\n"),
        ("p = {}\n", ("p", "b"), 2, "p = { b = 2 }\n"),
        ("p.g.a = 1\nq = 2\n", ("p", "g", "b"), 2, "p.g.a = 1\np.g.b = 2\nq = 2\n"),
        ("[p.g.a]\nvalue = 1 # it\nhow = 'x'\n", ("p", "g", "a"), {"value": 2}, "[p.g.a]\nvalue = 2 # it\n"),
        (
            "p = { a  =  1, how='x', }".replace(", }", " }"),
            ("p",),
            {"a": 2, "how": "x"},
            "p = { a  =  2, how='x' }",
        ),
        ("p = { a = 1, b = 2 }\n", ("p", "a"), ABSENT, "p = { b = 2 }\n"),
        ("p = { a = 1, b = 2 }\n", ("p", "b"), ABSENT, "p = { a = 1 }\n"),
        ("a = [ # two\n 1,\n 2 ]\nb = 3\n", ("a",), ABSENT, "b = 3\n"),
    ],
)
def test_only_what_changes_changes(before: str, path: tuple[str, ...], value: Any, after: str) -> None:
    assert put(before, path, value) == after


@st.composite
def changes(draw: st.DrawFn) -> tuple[str, tuple[str, ...], Any]:
    text = draw(documents(JOBS))
    parts = tomllib.loads(text).get("parts", {})
    part = draw(st.sampled_from([*parts, "new"]))
    path: tuple[str, ...] = ("parts", part, *draw(st.sampled_from([("wood",), ("givens",), ("beyond",)])))
    if path[-1] == "givens":
        known = list(parts.get(part, {}).get("givens", {}))
        path = (*path, draw(st.sampled_from([*known, "new", "new one"])))
    return text, path, draw(st.just(ABSENT) | PLAIN | st.dictionaries(KEYS, PLAIN, max_size=2))


@settings(derandomize=True, deadline=None)
@given(changes())
def test_the_changed_text_says_the_change_and_all_else_as_before(
    change: tuple[str, tuple[str, ...], Any],
) -> None:
    text, path, value = change
    changed = put(text, path, value)
    assert canonical(tomllib.loads(changed)) == canonical(placed(tomllib.loads(text), path, value))


@settings(derandomize=True, deadline=None)
@given(changes())
def test_comments_survive(change: tuple[str, tuple[str, ...], Any]) -> None:
    """Only what stands in the value itself, or on a line that is taken out, may go."""
    text, path, value = change
    changed = put(text, path, value)
    if value is ABSENT or isinstance(value, dict):
        return
    notes = re.findall(r"# note \d+\.", text)
    kept = re.findall(r"# note \d+\.", changed)
    taken = text_of_tables(text, path)
    assert [note for note in notes if note not in taken] == [note for note in kept if note not in taken]


def text_of_tables(text: str, path: tuple[str, ...]) -> str:
    """Return the lines of a table over several lines that a plain value replaces."""
    places = scan(text)
    if path in places.spots:
        return ""
    lines = text.splitlines()
    inside = [s for s in places.spots.values() if s.path[: len(path)] == path and not s.inline]
    spans = [(s.key, s.end) for s in inside]
    spans += [(h.start, h.end) for h in places.heads.values() if h.path[: len(path)] == path and not h.implied]
    numbers = {places.line(at)[0] - 1 for start, end in spans for at in range(start, end + 1)}
    return "\n".join(lines[number] for number in sorted(numbers))
