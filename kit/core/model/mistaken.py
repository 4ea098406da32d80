"""What comes out after a typical mistake: the chain of a model's relations with one formula replaced."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sympy as sp

from kit.core.model.tape_writer import tape

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation
    from kit.core.model.tape import Tape


def mistaken(model: Calculation) -> Tape:
    """Return a tape from all givens to all results after the first mistake, then after the second, and so on.

    Raises:
        ModelError: a formula with a symbol that is neither a given nor an earlier relation.
    """
    arguments = [given.symbol for given in model.givens.values()]
    steps = [(relation.symbol, relation.expr) for relation in model.relations.values()]
    wanted: list[sp.Basic] = []
    for mistake in model.mistakes:
        after: dict[sp.Basic, sp.Basic] = {}
        for relation in model.relations.values():
            right = relation.expr
            taken = (mistake.expr if relation.name == mistake.of else right).xreplace(after)
            if taken != right:
                after[relation.symbol] = sp.Dummy(relation.name, real=True)
                steps.append((after[relation.symbol], taken))
        wanted += [after.get(relation.symbol, relation.symbol) for relation in model.results.values()]
    return tape(arguments, wanted, steps)
