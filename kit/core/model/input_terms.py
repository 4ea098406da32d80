"""The words with which a page states structured inputs: each returns an `Input` of `kit.core.model.inputs`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from kit.core.model.input_fields import Amount, Bound, Choice, Count, File, Flag, Numbers, Text
from kit.core.model.input_lists import Many, Named, Record, Rows, Steps
from kit.core.model.inputs import Input

Span = tuple[float, float]


def amount(
    name: str,
    meaning: str,
    in_unit: str = "mm",
    *,
    span: Span | None = None,
    default: str | None = None,
    needed: bool = False,
    sure: bool = False,
    other_unit: str = "",
) -> Amount:
    """Return a quantity in `in_unit`, within `span` in that unit; `sure`: it must state its ±.

    A quantity of the kind of `other_unit` serves as well.
    """
    return Amount(
        name=name,
        meaning=meaning,
        in_unit=in_unit,
        other_unit=other_unit,
        span=span,
        default=default,
        needed=needed,
        sure=sure,
    )


def bound(name: str, meaning: str, in_unit: str = "", *, other_unit: str = "") -> Bound:
    """Return a quantity or the name of a given of the page, which then follows it; units as of `amount`."""
    return Bound(name=name, meaning=meaning, in_unit=in_unit, other_unit=other_unit, needed=True)


def count(name: str, meaning: str, default: int | None = None, span: tuple[int, int] = (1, 1_000_000)) -> Count:
    """Return a whole number."""
    return Count(name=name, meaning=meaning, default=default, span=span)


def choice(
    name: str, meaning: str, *options: str, default: str | None = None, number: bool = False, needed: bool = False
) -> Choice:
    """Return one of a few words; with `number`, a whole number serves as well."""
    return Choice(name=name, meaning=meaning, options=options, default=default, number=number, needed=needed)


def flag(name: str, meaning: str) -> Flag:
    """Return a yes or no; no where nothing is stated."""
    return Flag(name=name, meaning=meaning)


def text(name: str, meaning: str, *, default: str | None = None, needed: bool = False, refers: str = "") -> Text:
    """Return a text; `refers` names the rows whose names it may take."""
    return Text(name=name, meaning=meaning, default=default, needed=needed, refers=refers)


def file(name: str, meaning: str, *endings: str, needed: bool = False) -> File:
    """Return the path of a file beside the job that has one of these endings."""
    return File(name=name, meaning=meaning, endings=endings, needed=needed)


def direction(name: str, meaning: str, *, needed: bool = False) -> Numbers:
    """Return three bare numbers."""
    return Numbers(name=name, meaning=meaning, count=3, needed=needed)


def amounts(
    name: str,
    meaning: str,
    in_unit: str = "mm",
    *,
    least: int = 0,
    most: int | None = None,
    needed: bool = False,
    span: Span | None = None,
) -> Many:
    """Return a list of quantities."""
    each = amount(name, meaning, in_unit, span=span)
    return Many(name=name, meaning=meaning, item=each, least=least, most=most, needed=needed)


def point(name: str, meaning: str, size: int = 3, *, needed: bool = False) -> Many:
    """Return a point: so many lengths."""
    return amounts(name, meaning, least=size, most=size, needed=needed)


def many(
    name: str, meaning: str, item: Input, *, least: int = 0, most: int | None = None, needed: bool = False
) -> Many:
    """Return a list of the same."""
    return Many(name=name, meaning=meaning, item=item, least=least, most=most, needed=needed)


def outline(name: str, meaning: str) -> Many:
    """Return a closed outline by three or more corners, each with its x and its y."""
    return many(name, meaning, point("corner", "a corner, x and y", 2), least=3)


def box(name: str, meaning: str) -> Many:
    """Return a box by its low and its high corner."""
    return many(name, meaning, point("corner", "a corner of the box"), least=2, most=2)


def record(name: str, meaning: str, *columns: Input, needed: bool = False) -> Record:
    """Return a table with named entries."""
    return Record(name=name, meaning=meaning, columns=columns, needed=needed)


def rows(
    name: str,
    meaning: str,
    *columns: Input,
    key: str = "",
    one_of: tuple[tuple[str, ...], ...] = (),
    most: int | None = None,
    needed: bool = False,
    found: bool = False,
) -> Rows:
    """Return a list of tables with the same columns; of the groups `one_of`, each row states exactly one.

    What is `found` was found by a search and kept: nobody states its values.
    """
    return Rows(
        name=name, meaning=meaning, columns=columns, key=key, one_of=one_of, most=most, needed=needed, found=found
    )


def steps(name: str, meaning: str, tag: str, kinds: Mapping[str, tuple[Input, ...]]) -> Steps:
    """Return rows of different kinds, done in order; the entry `tag` names the kind."""
    return Steps(name=name, meaning=meaning, tag=tag, kinds=kinds)


def named(name: str, meaning: str, value: Input) -> Named:
    """Return a table with free names, each with the same kind of value."""
    return Named(name=name, meaning=meaning, value=value)


def needed_by(asked: Input, *names: str) -> Input:
    """Return an input without which none of the inputs `names` of its page is stated."""
    return replace(asked, together=names)


def together(*inputs: Input, with_them: tuple[Input, ...] = ()) -> tuple[Input, ...]:
    """Return inputs of which either all are stated or none; `with_them` are stated only where these are."""
    names = tuple(each.name for each in (*inputs, *with_them))
    return *(replace(each, together=names) for each in inputs), *with_them
