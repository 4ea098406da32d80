"""A derivation as it is printed: TeX with the model's symbols, and TeX with slots for a reader's numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.core.model.tape import Tape

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation
    from kit.core.model.case import Case
    from kit.core.model.terms import Relation


@dataclass(frozen=True, slots=True)
class LineTex:
    """One line of a derivation: an expression on the right of '=', or a whole equation."""

    tex: str
    because: str
    whole: bool


HALF_TURN = "half_turn"
"""The slot that stands for π where a formula is worked in degrees."""


@dataclass(frozen=True, slots=True)
class PutIn:
    """A formula with numbers put in, one way through its case distinctions.

    `names` are the quantities in it, `tape` works it from their values in that order. `template` is its TeX with slots;
    `degrees` the same where it can be worked in degrees, else empty. `alone` says that it is a lone "number" or
    "symbol", which tells no more than the value that follows.
    """

    names: tuple[str, ...]
    tape: Tape
    template: str
    degrees: str
    alone: str


@dataclass(frozen=True, slots=True)
class Cases:
    """A formula for each way through its case distinctions, by the numbers of the cases that apply.

    `conditions` has the condition of each case, of one distinction after the other, from all symbols' values; `counts`
    says how many each has.
    """

    conditions: Tape
    counts: tuple[int, ...]
    ways: Mapping[tuple[int, ...], PutIn]

    def at(self, case: Case) -> PutIn:
        """Return the formula as it applies at a point."""
        if not self.counts:
            return self.ways[()]
        holds = iter(self.conditions.at(*case.base.values()))
        truths = [[next(holds) == 1.0 for _ in range(count)] for count in self.counts]
        return self.ways[tuple(each.index(True) if True in each else len(each) - 1 for each in truths)]


@dataclass(frozen=True, slots=True)
class Step:
    """One relation of a derivation, typeset: the lines that lead to it, its formula, and the same for numbers.

    The TeX is made once; a reader's numbers are put in after it has become MathML, which is much faster than
    typesetting anew.
    """

    relation: Relation
    lines: tuple[LineTex, ...]
    formula: str
    cases: Cases


def derivation(model: Calculation) -> tuple[Step, ...]:
    """Return all relations of a model, in order, typeset once."""
    return model.steps


def slot(name: str) -> str:
    """Return the mark that stands for the number of `name` in a template."""
    return f"\u27e6{name}\u27e7"
