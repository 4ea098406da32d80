"""A measured value beside a predicted one: whether they agree within what both are known to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.core.quantity import QuantityError, parse, show_in
from kit.core.uncertainty import budget
from kit.core.uncertainty.beside import Beside
from kit.teach.exercise import Judgment

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.core.quantity import Display


def compare(case: Case, result: str, text: str, display: Display) -> Judgment:
    """Set a value typed with its ± beside the predicted result; they agree if they differ by no more than both allow.

    What is typed after ± is taken for the measured value's expanded uncertainty; see `Beside`.
    """
    part = case.model.part(result)
    shown = display.unit_for(part.unit)
    try:
        typed = parse(text, shown)
    except QuantityError as error:
        return Judgment(False, f"{error}.")
    if not typed.half:
        return Judgment(False, f"{text.strip()} has no ±; add how surely you measured it, such as ± 1 {shown.text}.")
    expected = budget(case, result)
    beside = Beside(expected, typed.base, typed.half_base or 0.0)
    off, within = beside.off, beside.within
    told = (
        f"Predicted: {show_in(expected.base, shown)}, ± {show_in(expected.expanded, shown, digits=2)}. Measured: "
        f"{show_in(typed.base, shown)}, ± {show_in(typed.half_base or 0.0, shown, digits=2)}. They differ by "
        f"{show_in(abs(off), shown, digits=2)}; together they are known to ± {show_in(within, shown, digits=2)}. "
    )
    if beside.agree:
        return Judgment(True, f"{told}So they agree: nothing speaks against the prediction, nor against your hands.")
    much = "larger" if off > 0 else "smaller"
    return Judgment(
        False,
        f"{told}So they do not agree: yours is {much}. Measure again; if it stays, something else than stated acts.",
        f"measured {much} than predicted",
    )
