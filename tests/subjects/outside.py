"""The checks from outside: what `kit/subjects/<chapter>/<page>.values.toml` states, how it is known, how often.

A file holds one table for each check: `title`, `source`, `known`, `givens` (and `beyond`, what may leave its span),
`expect` (for each result a `value` and what it may be `off`: half of the last printed digit unless a `note` says
otherwise). `known` is one of `Known`. The source of a check that was read says where in the text it stands; that of a
check by a library begins with the name of the function that computes it, which is called from the function `by` in
`tests/subjects/libraries/<chapter>.py`.

`python -m tests.subjects.outside` writes how many checks of each kind there are into README.md.
"""

import tomllib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from tests import ROOT

FOLDER = ROOT / "kit" / "subjects"
README = ROOT / "README.md"
BEGIN, END = "<!-- checks from outside: python -m tests.subjects.outside -->\n", "<!-- end -->\n"


class Known(StrEnum):
    """How surely the number of a check is known."""

    READ = "read"
    LIBRARY = "library"
    ARITHMETIC = "arithmetic"
    PRACTICE = "practice"
    MEMORY = "memory"


MEANING = {
    Known.READ: "read in a standard, handbook, paper or worked example, which is named with the place in it",
    Known.LIBRARY: "computed anew by an independent library, whose function is named",
    Known.ARITHMETIC: "worked by hand from a definition or a stated rule",
    Known.PRACTICE: "common practice, no source",
    Known.MEMORY: "from memory",
}


@dataclass(frozen=True)
class OutsideCheck:
    """What one model must give, by something outside the kit; `by` names the function that computes it."""

    model: str
    title: str
    source: str
    known: Known
    givens: Mapping[str, Any]
    expect: Mapping[str, Mapping[str, str]]
    beyond: tuple[str, ...] = ()
    note: str = ""
    by: str = field(default="", compare=False)

    @property
    def chapter(self) -> str:
        """The chapter of the model."""
        return self.model.partition(".")[0]


def load() -> list[OutsideCheck]:
    """Return the checks of all pages, in the order of their files.

    Raises:
        ValueError: `known` is none of `Known`.
        TypeError: a check states what is not known here, or lacks something.
    """
    found = []
    for path in sorted(FOLDER.glob("*/*.values.toml")):
        name = f"{path.parent.name}.{path.name.removesuffix('.values.toml')}"
        for check in tomllib.loads(path.read_text(encoding="utf-8"))["check"]:
            told = {"givens": {}, **check, "known": Known(check["known"])}
            found.append(OutsideCheck(name, **{**told, "beyond": tuple(told.get("beyond", ()))}))
    return found


def counted(checks: list[OutsideCheck]) -> str:
    """Return the part of README.md that says how many checks of each kind there are."""
    count = Counter(check.known for check in checks)
    rows = "".join(f"| {MEANING[known]} | {count[known]} |\n" for known in Known)
    models = len({check.model for check in checks})
    return f"| {len(checks)} checks of {models} models | how many |\n| --- | ---: |\n{rows}"


def main() -> None:
    """Write the counts into README.md."""
    text = README.read_text(encoding="utf-8")
    head, _, rest = text.partition(BEGIN)
    README.write_text(head + BEGIN + counted(load()) + END + rest.partition(END)[2], encoding="utf-8")


if __name__ == "__main__":
    main()
