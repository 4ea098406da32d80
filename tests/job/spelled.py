"""Random TOML: a table of values written in any of the ways that TOML allows, with comments and blanks."""

from collections.abc import Mapping
from datetime import date, datetime, time
from typing import Any

import tomlkit
from hypothesis import strategies as st

KEYS = st.sampled_from(["a", "b", "length", "x-1", "3", "two words", "dot.ted", "", "é", 'quo"te', "#"])
TEXTS = st.sampled_from(["", "600 ± 0.2 mm", "1' 6 1/2\"", "# no comment", "a\nb", "tab\t", "]}", "\\", '"""', "'''"])
PLAIN = st.one_of(
    TEXTS, st.integers(-9, 10**6), st.floats(-1e9, 1e9), st.booleans(), st.dates(date(1900, 1, 1)),
    st.just(datetime(1979, 5, 27, 7, 32)), st.just(time(7, 32)),
)  # fmt: skip
VALUES = st.recursive(
    PLAIN, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3), max_leaves=6
)
TABLES = st.dictionaries(KEYS, VALUES | st.dictionaries(KEYS, VALUES, max_size=3), max_size=4)


def key(draw: st.DrawFn, name: str) -> str:
    bare = name and name.isascii() and name.replace("-", "").isalnum()
    if bare and draw(st.booleans()):
        return name
    return f"'{name}'" if "'" not in name and draw(st.booleans()) else tomlkit.item(name).as_string()


def value(draw: st.DrawFn, item: Any) -> str:
    gap = draw(st.sampled_from(["", " "]))
    if isinstance(item, Mapping):
        pairs = [f"{key(draw, name)}{gap}= {value(draw, inner)}" for name, inner in item.items()]
        return "{" + gap + f",{gap}".join(pairs) + gap + "}"
    if isinstance(item, list):
        gap = draw(st.sampled_from(["", " ", "\n  ", " # a, ] }\n"]))
        end = draw(st.sampled_from(["", ","])) if item else ""
        return "[" + gap + f"{gap},{gap}".join(value(draw, inner) for inner in item) + gap + end + gap + "]"
    if isinstance(item, str):
        shapes = [tomlkit.item(item).as_string()]
        if not set(item) & set("'\n"):
            shapes.append(f"'{item}'")
        if "'''" not in item and not item.endswith("'"):
            shapes.append(f"'''\n{item}'''")
        if "\\" not in item and '"""' not in item:
            shapes.append(f'"""\n{item}"""')
        return draw(st.sampled_from(shapes))
    return str(tomlkit.item(item).as_string())


@st.composite
def documents(draw: st.DrawFn, tables: st.SearchStrategy[dict[str, Any]] = TABLES) -> str:
    """TOML text; every comment in it is the word 'note' with a number of its own."""
    notes = 0

    def note() -> str:
        nonlocal notes
        notes += 1
        return f"# note {notes}."

    def tail() -> str:
        return draw(st.sampled_from(["", "  ", " " + note()])) + "\n"

    def between() -> str:
        return draw(st.sampled_from(["", "", "\n", f"{note()}\n", f"\n\t{note()}\n\n"]))

    def body(table: Mapping[str, Any], prefix: str, indent: str) -> tuple[str, list[tuple[str, Mapping[str, Any]]]]:
        text, later = "", []
        for name, item in table.items():
            spelled = prefix + key(draw, name)
            way = draw(st.sampled_from(["inline", "dotted", "table"])) if isinstance(item, Mapping) else "inline"
            if way == "table" and not prefix:
                later.append((key(draw, name), item))
            elif way == "dotted" and item:
                inner, _ = body(item, f"{spelled} . " if draw(st.booleans()) else f"{spelled}.", indent)
                text += inner
            else:
                text += between() + f"{indent}{spelled} = {value(draw, item)}{tail()}"
        return text, later

    def whole(table: Mapping[str, Any], header: str) -> str:
        text, later = body(table, "", draw(st.sampled_from(["", "  "])))
        if header and (text or not later or draw(st.booleans())):
            text = between() + f"[{header}]{tail()}" + text
        for name, inner in later:
            text += whole(inner, f"{header}.{name}" if header else name)
        return text

    text = whole(draw(tables), "")
    if draw(st.booleans()):
        text = text.rstrip("\n")
    return text.replace("\n", "\r\n") if draw(st.booleans()) else text
