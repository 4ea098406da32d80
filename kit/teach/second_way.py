"""A key worked a second way: the stated formulas at thirty digits, with none of the tapes that made the key."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from kit.teach.exercise import Exercise, Typed

if TYPE_CHECKING:
    from kit.core.model import Case

_DIGITS = 30
_CLOSE = 1e-9


def agrees(exercise: Exercise) -> bool:
    """Whether a key comes out the same a second way: sympy puts the numbers into the stated formulas.

    A given that was solved for must bring the result that was asked for. Readings and options have nothing to be
    worked. A whole number just at its edge does not agree, and is not asked.
    """
    if not isinstance(exercise, Typed) or exercise.kind == "read":
        return True
    wanted, back = exercise.steps[-1], exercise.kind == "solve backwards"
    for value in exercise.values:
        found = worked(exercise.case, wanted, {exercise.about: value} if back else {})
        right = exercise.case.base[wanted] if back else value
        if not math.isclose(found, right, rel_tol=_CLOSE):
            return False
    return True


def worked(case: Case, name: str, moved: dict[str, float]) -> float:
    """Return the quantity `name` in base units from the stated formulas, with some givens `moved`."""
    import sympy as sp

    model = case.model
    known = {part.symbol: sp.Float(moved.get(key, case.base[key]), _DIGITS) for key, part in model.givens.items()}
    for relation in model.needed([name]):
        value = relation.expr.xreplace(known)
        known[relation.symbol] = sp.N(value.doit() if value.has(sp.Sum) else value, _DIGITS)
    return float(known[model.relations[name].symbol])
