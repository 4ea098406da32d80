"""Questions that a page asks before it shows an answer: options that each state a claim, worked out on a part.

A page's questions stand beside its statement, in `<page>_questions.py`: one function a question, from a bench to the
question, all of them named in `QUESTIONS`, which the page's `Subject` names:

    def longer_bar(bench: Bench) -> Question:
        longer = bench.case.with_(length=1.5 * bench.case["length"].value)
        ratio = longer.base["bow_left"] / bench.case.base["bow_left"]
        return Question(
            "another bar is half as long again and has the same bow. How much of the bow is left after release?",
            (
                Option("less", ratio < SAME[0], "it is pressed flat more easily, and springs back as easily"),
                Option("the same", same(ratio)),
                Option("more", ratio > SAME[1], "…"),
            ),
            f"Lengths cancel: {bench.show('bow_left')} is left in both.",
        )

    QUESTIONS = named(longer_bar)

Which option is right is never typed: exactly one claim must hold on the part that the question is asked about.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.model import Case
    from kit.core.quantity import Display

SAME = (0.98, 1.02)
"""Between these a ratio counts as no change."""


@dataclass(frozen=True, slots=True)
class Option:
    """An answer to choose: its text, whether its claim holds, and what speaks against it where it does not."""

    text: str
    holds: bool
    why_not: str = ""


@dataclass(frozen=True)
class Question:
    """A question in plain text, its options, of which exactly one holds, and the reason; nothing of it is HTML."""

    ask: str
    options: tuple[Option, ...]
    why: str

    def __post_init__(self) -> None:
        """Refuse options of which not exactly one holds, or that do not say why not."""
        holding = [each.text for each in self.options if each.holds]
        if len(holding) != 1 or len({each.text for each in self.options}) < max(2, len(self.options)):
            raise KitError(
                f"of {len(self.options)} options of the question {self.ask!r} {len(holding)} hold; state two or more "
                f"that differ, of which one holds{f': {holding}' if holding else ''}"
            )
        silent = [each.text for each in self.options if not each.holds and not each.why_not]
        if silent:
            raise KitError(f"the option {silent[0]!r} of the question {self.ask!r} does not hold, and says not why")

    @property
    def answer(self) -> str:
        """The text of the option that holds."""
        return next(each.text for each in self.options if each.holds)

    def shuffled(self, seed: str) -> Question:
        """Return the question with its options in an order that follows from `seed` alone."""
        options = list(self.options)
        random.Random(seed).shuffle(options)
        return replace(self, options=tuple(options))


@dataclass(frozen=True)
class Bench:
    """What a question is asked about: a part's case, how its reader writes numbers, and what is built of the part.

    `stated` is what the part states beside its givens. `made(changes, best)` builds it with givens and inputs changed,
    `propose` returns givens to begin with, `beside` the case of another part by its model's name.
    """

    case: Case
    display: Display
    made: Callable[[Mapping[str, Any], bool], Build]
    propose: Callable[[], Mapping[str, str]]
    beside: Callable[[str], Case]
    stated: Mapping[str, Any] = field(default_factory=dict)

    def show(self, name: str, case: Case | None = None) -> str:
        """Return a given or result of the part, or of another case, as its reader writes it."""
        return (case or self.case).show(name, self.display)

    def build(self, **changes: Any) -> Build:
        """Return what is built of the part, with givens (texts) or inputs (lists) changed."""
        return self.made(changes, False)

    def best(self, **changes: Any) -> Build:
        """Return the best that can be built of the part, as `build`."""
        return self.made(changes, True)


Ask = Callable[[Bench], Question]


def named(*asks: Ask) -> Mapping[str, Ask]:
    """Return questions by the names of their functions."""
    return {ask.__name__: ask for ask in asks}


def same(ratio: float) -> bool:
    """Whether a ratio counts as no change."""
    return SAME[0] <= ratio <= SAME[1]


def near(value: float, target: float, part: float = 0.1) -> bool:
    """Whether a value lies within a part of a target, a tenth unless stated."""
    return abs(value - target) <= part * abs(target)


def largest(bench: Bench, *names: str) -> str:
    """Return which of a part's results is the largest."""
    return max(names, key=lambda name: bench.case.base[name])
