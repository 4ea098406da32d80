"""What the author of a page is told when the text at its head lacks a part."""

import re

import pytest

from kit.core.model import Model, ModelError
from tests.core.model.small import HEAD

LONG = """Stop block
with a rib.

How stiff is a block
with a rib glued to it?

In the trade's words: a block alone bends too much.

Picture: A section across the block:
the push comes from the left.

Assumptions:
- the glue line does not slip,
  and plane sections stay plane
- the grain runs along the block

Sources:
- S. P. Timoshenko - Strength of Materials I

Notes: y runs to the right.
"""


def test_the_parts_are_read_and_lines_joined() -> None:
    m = Model("test.head", LONG)
    assert m.title == "Stop block with a rib"
    assert m.question == "How stiff is a block with a rib glued to it?"
    assert m.picture == "A section across the block: the push comes from the left."
    assert m.assumptions == (
        "the glue line does not slip, and plane sections stay plane",
        "the grain runs along the block",
    )
    assert m.sources == ("S. P. Timoshenko - Strength of Materials I",)


def test_indented_text_is_read_alike() -> None:
    indented = "\n".join("    " + line if line else line for line in LONG.split("\n")).lstrip()
    assert Model("test.head", indented).assumptions == Model("test.head", LONG).assumptions


def test_what_comes_with_other_parts_follows() -> None:
    m = Model("test.head", LONG, assumptions=("dry wood",), sources=("Wood Handbook",))
    assert m.assumptions[-1] == "dry wood"
    assert m.sources == ("S. P. Timoshenko - Strength of Materials I", "Wood Handbook")
    bare = HEAD.replace("Sources:\n- test\n", "")
    assert Model("test.head", bare, sources=("Wood Handbook",)).sources == ("Wood Handbook",)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (None, "no title"),
        ("", "no title"),
        (HEAD.replace("A test.\n\n", ""), "asks nothing"),
        (HEAD.replace("What follows?", "It follows."), "asks nothing"),
        (HEAD.replace("Picture: Nothing.\n\n", ""), "no 'Picture:'"),
        (HEAD.replace("Nothing.", ""), "no 'Picture:'"),
        (HEAD.replace("Assumptions:\n- none\n\n", ""), "no 'Assumptions:'"),
        (HEAD.replace("- none", ""), "no 'Assumptions:'"),
        (HEAD.replace("Sources:\n- test\n", ""), "no 'Sources:'"),
        (HEAD.replace("- test", "test"), "'Sources:' is a list"),
        (HEAD.replace("- test", "- test\n-  "), "'Sources:' is a list"),
        (HEAD.replace("Sources:", "Sources: a book"), "'Sources:' is a list"),
        (HEAD + "\nPicture: Another.\n", "'Picture:' twice"),
        (HEAD + "\nSources:\n- another\n", "'Sources:' twice"),
    ],
)
def test_a_head_that_lacks_a_part(text: str | None, fault: str) -> None:
    with pytest.raises(ModelError, match=r"test\.head: .*" + re.escape(fault)):
        Model("test.head", text)
