"""Where things stand in TOML text. Lines and columns of the fixed text are counted by hand."""

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from hypothesis import given, settings

from kit.job.positions import Path, scan
from tests.job.spelled import documents

TEXT = '''\
# [no] = "header"
format = 2
title = """
[not.a.header]
key = "# inside a text\\""""
"odd key" . 'b.c' = 'it # is'

[parts.a]        # why
  model = "x"
givens.length = { value = "600 mm", note = ["a",
    "b"] }
givens.width . value = 2026-05-02 07:32:00  # a date with a blank
  [ parts . "b" ]
last = true
[[rows]]
x = 1
[[rows]]
x = 2
[rows.inner]
y = 3
[deep.er.table]
'''

# path → line and column of the key, of the value; None where it is a table that no single value makes
BY_HAND = {
    ("format",): ((2, 1), (2, 10)),
    ("title",): ((3, 1), (3, 9)),
    ("odd key", "b.c"): ((6, 1), (6, 21)),
    ("parts", "a"): ((8, 1), None),
    ("parts", "a", "model"): ((9, 3), (9, 11)),
    ("parts", "a", "givens", "length"): ((10, 1), (10, 17)),
    ("parts", "a", "givens", "length", "value"): ((10, 19), (10, 27)),
    ("parts", "a", "givens", "length", "note"): ((10, 37), (10, 44)),
    ("parts", "a", "givens", "length", "note", 1): ((11, 5), (11, 5)),
    ("parts", "a", "givens", "width"): ((12, 1), None),
    ("parts", "a", "givens", "width", "value"): ((12, 1), (12, 24)),
    ("parts", "b"): ((13, 3), None),
    ("parts", "b", "last"): ((14, 1), (14, 8)),
    ("rows", 0, "x"): ((16, 1), (16, 5)),
    ("rows", 1, "x"): ((18, 1), (18, 5)),
    ("rows", 1, "inner", "y"): ((20, 1), (20, 5)),
    ("deep", "er"): ((21, 1), None),
    ("parts", "b", "missing"): ((13, 3), None),
    ("nowhere",): ((1, 1), None),
}


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_lines_and_columns_are_those_counted_by_hand(ends: str) -> None:
    text = TEXT.replace("\n", ends)
    tomllib.loads(text)
    places = scan(text)
    for path, (key, value) in BY_HAND.items():
        assert places.of(path) == key, path
        assert places.of(path, value=True) == (value or key), path


@pytest.mark.parametrize(
    "text",
    ['a = """x""""', "a = '''x'''''", 'a = """"""', "a = ''''''", 'a = """\\""""', 'a = """x""y"""', "a=''"],
)
def test_a_string_ends_where_toml_ends_it(text: str) -> None:
    spot = scan(f"{text} # '\"").spots[("a",)]
    assert f"a = {text[spot.start : spot.end]}" == text.replace("a=", "a = ")
    tomllib.loads(f"b = {text[spot.start : spot.end]}")


def leaves(value: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    yield path, value
    pairs = value.items() if isinstance(value, Mapping) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in pairs:
        yield from leaves(inner, (*path, key))


@settings(derandomize=True, deadline=None)
@given(documents())
def test_every_value_of_the_parser_is_found_and_reads_back(text: str) -> None:
    """The standard library's parser is the judge: same paths, same values."""
    data = tomllib.loads(text)
    places = scan(text)
    told = dict(leaves(data))
    assert set(told) == {*places.spots, *places.heads, *places.dotted}
    for path, spot in places.spots.items():
        assert tomllib.loads(f"k = {text[spot.start : spot.end]}")["k"] == told[path]
