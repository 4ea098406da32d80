"""Changing lists in TOML text: only the cells that differ change. The judge is the standard library's parser."""

import re
import tomllib
from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.job.toml_edit import put

BRACKETS = """\
[parts.bed]
gaps = [ # from the fence
    # the near one
    { x = "10 mm",  depth = "3.2 ± 0.1 mm" }, # chalk mark
    # the far one
    { x = '20 mm', depth = "3.5 ± 0.1 mm" }   # no mark
] # taped
# after
"""
ROWS = """\
[parts.bed]
model = "level.plane"

[[parts.bed.gaps]] # the near one
# from the fence
x = "10 mm"  # chalk mark
depth = '3.2 ± 0.1 mm'

# the far one
[[parts.bed.gaps]]
x = "20 mm"
depth = "3.5 ± 0.1 mm"

# after
[parts.next]
"""
PATH = ("parts", "bed", "gaps")
NEAR, FAR = {"x": "10 mm", "depth": "3.2 ± 0.1 mm"}, {"x": "20 mm", "depth": "3.5 ± 0.1 mm"}
NEW = {"x": "30 mm", "depth": "3 ± 1 mm"}
LINE = '    { x = "30 mm", depth = "3 ± 1 mm" },\n'
BLOCK = '[[parts.bed.gaps]]\nx = "30 mm"\ndepth = "3 ± 1 mm"\n'


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize(
    ("text", "value", "old", "new"),
    [
        (BRACKETS, [NEAR | {"x": "11 mm"}, FAR], '"10 mm"', '"11 mm"'),
        (BRACKETS, [NEAR, FAR | {"depth": "4 ± 1 mm"}], '"3.5 ± 0.1 mm"', '"4 ± 1 mm"'),
        (BRACKETS, [NEAR, FAR, NEW], '" }   # no mark\n', '" },   # no mark\n' + LINE),
        (BRACKETS, [NEAR, NEW, FAR], "# chalk mark\n", "# chalk mark\n" + LINE),
        (BRACKETS, [NEW, NEAR, FAR], "    { x = \"10 mm\",  ", LINE + "    { x = \"10 mm\",  "),
        (BRACKETS, [FAR], '    { x = "10 mm",  depth = "3.2 ± 0.1 mm" }, # chalk mark\n', ""),
        (BRACKETS, [NEAR], "    { x = '20 mm', depth = \"3.5 ± 0.1 mm\" }   # no mark\n", ""),
        (BRACKETS, [NEAR, {"x": "20 mm"}], "{ x = '20 mm', depth = \"3.5 ± 0.1 mm\" }", "{ x = '20 mm' }"),
        (BRACKETS, [NEAR | {"y": 1}, FAR], ' }, # chalk', ', y = 1 }, # chalk'),
        (ROWS, [NEAR | {"x": "11 mm"}, FAR], '"10 mm"', '"11 mm"'),
        (ROWS, [NEAR, FAR | {"depth": "4 ± 1 mm"}], '"3.5 ± 0.1 mm"', '"4 ± 1 mm"'),
        (ROWS, [NEAR, FAR, NEW], '"3.5 ± 0.1 mm"\n', '"3.5 ± 0.1 mm"\n\n' + BLOCK),
        (ROWS, [NEAR, NEW, FAR], "'3.2 ± 0.1 mm'\n", "'3.2 ± 0.1 mm'\n\n" + BLOCK),
        (ROWS, [NEW, NEAR, FAR], "[[parts.bed.gaps]] #", BLOCK + "\n[[parts.bed.gaps]] #"),
        (ROWS, [NEAR], '[[parts.bed.gaps]]\nx = "20 mm"\ndepth = "3.5 ± 0.1 mm"\n', ""),
        (ROWS, [NEAR, {"x": "20 mm"}], 'depth = "3.5 ± 0.1 mm"\n', ""),
        (ROWS, [NEAR, FAR | {"y": [1, 2]}], '"3.5 ± 0.1 mm"\n', '"3.5 ± 0.1 mm"\ny = [1, 2]\n'),
    ],
)  # fmt: skip
def test_only_the_cells_that_differ_change(text: str, value: Any, old: str, new: str, ends: str) -> None:
    assert text.count(old) == 1
    changed = put(text.replace("\n", ends), PATH, value)
    assert changed == text.replace(old, new).replace("\n", ends)
    assert tomllib.loads(changed)["parts"]["bed"]["gaps"] == value


def test_a_row_of_the_first_header_can_go() -> None:
    changed = put(ROWS, PATH, [FAR])
    assert tomllib.loads(changed)["parts"]["bed"]["gaps"] == [FAR]
    for remark in ("# from the fence", "# the far one", "# after"):
        assert remark in changed


@pytest.mark.parametrize("text", [BRACKETS, ROWS])
@pytest.mark.parametrize("value", [[], ["a", "b"], [NEW], [[1], {"a": True}], [NEW, NEW, NEW, FAR]])
def test_a_list_may_become_any_other(text: str, value: Any) -> None:
    changed = put(text, PATH, value)
    assert tomllib.loads(changed)["parts"]["bed"]["gaps"] == value
    assert "# after" in changed


@pytest.mark.parametrize(
    ("before", "value", "after"),
    [
        ("a = [1, 2, 3]", [1, 5, 3], "a = [1, 5, 3]"),
        ("a = [1, 2, 3]", [1, 3], "a = [1, 3]"),
        ("a = [1, 2,]", [1], "a = [1,]"),
        ("a = [1,]", [], "a = []"),
        ("a = [ ] # none", [4], "a = [4 ] # none"),
        ("a = [1, 2]", [0, 1, 2], "a = [0, 1, 2]"),
        ("a = [1\n, 2\n]", [1], "a = [1\n]"),
        ("a = [\n1\n, 2\n,]", [2], "a = [\n2\n,]"),
        ("a = [\n1\n,]", [], "a = []"),
        ("a = [1, 1.0]", [1.0, 1.0], "a = [1.0, 1.0]"),
        ('a = [["0 mm", "1 mm"], # low\n ["2 mm", "3 mm"]]', [["0 mm", "1 mm"], ["2 mm", "4 mm"]],
         'a = [["0 mm", "1 mm"], # low\n ["2 mm", "4 mm"]]'),
    ],
)  # fmt: skip
def test_lists_in_any_layout(before: str, value: Any, after: str) -> None:
    changed = put(before, ("a",), value)
    assert changed == after
    assert tomllib.loads(changed) == {"a": value}


CELLS = st.sampled_from(["1 mm", 2, 2.0, True, ["a", "b"], [["1", "2"], ["3", "4"]], {"x": 1}, []])
RECORDS = st.dictionaries(st.sampled_from(["x", "y", "two words"]), CELLS, min_size=1, max_size=3)


def spelled(rows: list[dict[str, Any]], *, headed: bool, spaced: bool) -> str:
    """The rows as a list in brackets or under headers, with a remark at each."""
    from kit.job.toml_edit import render

    if headed:
        body = "".join(
            f"# before {n}\n[[p.rows]] # row {n}\n"
            + "".join(
                f"{render(key) if ' ' in key else key} = {render(item)} # {key} {n}\n" for key, item in row.items()
            )
            for n, row in enumerate(rows)
        )
        return f"[p]\n{body}\n# end\n[q]\n"
    gap = "\n  " if spaced else " "
    remark = " # row" if spaced else ""
    return f"[p]\nrows = [{gap}" + gap.join(f"{render(row)},{remark}" for row in rows) + f"{gap}]\n# end\n[q]\n"


@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.lists(RECORDS, min_size=1, max_size=4), st.data(), st.booleans(), st.booleans(), st.booleans())
def test_any_change_of_rows_is_written(
    rows: list[dict[str, Any]], data: st.DataObject, headed: bool, spaced: bool, returns: bool
) -> None:
    text = spelled(rows, headed=headed, spaced=spaced)
    text = text.replace("\n", "\r\n") if returns else text
    wanted = deepcopy(rows)
    match data.draw(st.sampled_from(["cell", "add", "take", "any"])):
        case "cell":
            row = wanted[data.draw(st.integers(0, len(rows) - 1))]
            row[data.draw(st.sampled_from(sorted(row)))] = data.draw(CELLS)
        case "add":
            wanted.insert(data.draw(st.integers(0, len(rows))), data.draw(RECORDS))
        case "take":
            wanted.pop(data.draw(st.integers(0, len(rows) - 1)))
        case _:
            wanted = data.draw(st.lists(RECORDS, max_size=4))
    changed = put(text, ("p", "rows"), wanted)
    assert tomllib.loads(changed) == {"p": {"rows": wanted}, "q": {}}
    assert "# end" in changed
    assert "\r\n" in changed or not returns
    assert not re.search(r"[^\r]\n", changed) or not returns
    if len(wanted) == len(rows) and [row.keys() for row in wanted] == [row.keys() for row in rows]:
        assert re.findall(r"# \w+ ?\w*", changed) == re.findall(r"# \w+ ?\w*", text)
