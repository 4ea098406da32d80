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


@dataclass(frozen=True, slots=True)
class PutIn:
    """A formula as templates, one for each way through its case distinctions.

    `conditions` has the condition of each case, of one distinction after the other, from all symbols' values; `cases`
    says how many each has. A template is found by the numbers of the cases that apply. `told` are those that tell more
    than the value itself, which a lone symbol or number does not.
    """

    conditions: Tape
    cases: tuple[int, ...]
    templates: Mapping[tuple[int, ...], str]
    told: frozenset[tuple[int, ...]]

    def way(self, case: Case) -> tuple[int, ...]:
        """Return the numbers of the cases that apply."""
        if not self.cases:
            return ()
        holds = iter(self.conditions.at(*case.base.values()))
        truths = [[next(holds) == 1.0 for _ in range(count)] for count in self.cases]
        return tuple(each.index(True) if True in each else len(each) - 1 for each in truths)


@dataclass(frozen=True, slots=True)
class Step:
    """One relation of a derivation, typeset: the lines that lead to it, its formula, and templates for numbers."""

    relation: Relation
    lines: tuple[LineTex, ...]
    formula: str
    put_in: PutIn

    def substituted(self, case: Case) -> str:
        """Return the formula's template at this point; of its cases, only the one that applies.

        The TeX is made once; a reader's numbers are put in after it has become MathML, which is much faster than
        typesetting anew.
        """
        return self.put_in.templates[self.put_in.way(case)]

    def tells(self, case: Case) -> bool:
        """Whether the formula with numbers put in tells more than the value that follows it."""
        return self.put_in.way(case) in self.put_in.told


def derivation(model: Calculation) -> tuple[Step, ...]:
    """Return all relations of a model, in order, typeset once."""
    return model.steps


def substituted(case: Case, relation: Relation) -> str:
    """Return the template of a relation at this point: of its cases, only the one that applies."""
    return next(step for step in case.model.steps if step.relation.name == relation.name).substituted(case)


def slot(name: str) -> str:
    """Return the mark that stands for the number of `name` in a template."""
    return f"\u27e6{name}\u27e7"
