"""The head of a page, read from the text of its module.

Paragraphs are parted by blank lines. The first is the title, the second the question; one begins with "Picture:",
and two are lists, whose items begin with "- " and run on indented. Other paragraphs are for whoever reads the page:

    Stop block with a rib.

    How stiff is a block with a rib glued to it against a sideways push?

    In the trade's words: a block alone bends too much …

    Picture: A section across the block: the push comes from the left onto its front face.

    Assumptions:
    - the glue line does not slip, and plane sections stay plane
    - the grain of block and rib runs along the block

    Sources:
    - S. P. Timoshenko, Strength of Materials I: transformed section, from memory
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Sequence
from dataclasses import dataclass

from kit.core.model.terms import ModelError

_PARTS = ("Picture:", "Assumptions:", "Sources:")


@dataclass(frozen=True, slots=True)
class Head:
    """What a page says before its first quantity."""

    title: str
    question: str
    picture: str
    assumptions: tuple[str, ...]
    sources: tuple[str, ...]


def read_head(name: str, text: str | None, assumptions: Sequence[str] = (), sources: Sequence[str] = ()) -> Head:
    """Return the head that `text`, the docstring of the page called `name`, states.

    `assumptions` and `sources` come with parts that are taken from elsewhere; they follow the page's own, which may
    then be none.

    Raises:
        ModelError: a part is missing, empty or stated twice; it is named.
    """
    blocks = [block.strip() for block in re.split(r"\n\s*\n", inspect.cleandoc(text or ""))]
    title, question = (" ".join(block.split()) for block in [*blocks, ""][:2])
    if not title or title.startswith(_PARTS):
        raise ModelError(f"{name}: its text has no title; begin the module's docstring with it")
    if not question.endswith("?") or question.startswith(_PARTS):
        raise ModelError(f"{name}: its text asks nothing; write the question, with its ?, as its second paragraph")
    rest = blocks[2:]
    return Head(
        title.removesuffix("."),
        question,
        " ".join(_part(name, rest, "Picture:").split()),
        (*_items(name, rest, "Assumptions:", needed=not assumptions), *assumptions),
        (*_items(name, rest, "Sources:", needed=not sources), *sources),
    )


def _part(name: str, blocks: Sequence[str], part: str, *, needed: bool = True) -> str:
    """Return what follows the word `part` in the one block that begins with it."""
    found = [block.removeprefix(part) for block in blocks if block.startswith(part)]
    if len(found) > 1:
        raise ModelError(f"{name}: its text has {part!r} twice; write it once")
    if not any(said.strip() for said in found) and (needed or found):
        raise ModelError(f"{name}: its text has no {part!r}; write a paragraph that begins so and says it")
    return "".join(found)


def _items(name: str, blocks: Sequence[str], part: str, *, needed: bool) -> tuple[str, ...]:
    """Return the items of the list below the word `part`."""
    text = _part(name, blocks, part, needed=needed)
    before, *items = re.split(r"^-(?:\s|$)", text, flags=re.MULTILINE)
    if before.strip() or (text and not items) or not all(item.strip() for item in items):
        raise ModelError(f"{name}: {part!r} is a list; begin each of its lines with '- ', right below it")
    return tuple(" ".join(item.split()) for item in items)
