"""A case as plain data, for other programs: what `fitwright work --json` prints.

The layout is promised: names stay, meanings stay, and a change raises `FORMAT`. Each number stands in the unit
named beside it, and `text` is what a reader sees.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kit.core.model.compiled import NoValueError
from kit.core.model.terms import Given, Relation
from kit.core.quantity import Display
from kit.core.uncertainty.answers import answered
from kit.core.uncertainty.budget import budget
from kit.core.verdict import Check, Verdict

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation
    from kit.core.model.case import Case, Entry
    from kit.core.model.solve_for import Found

FORMAT = 2


def stated(model: Calculation, display: Display | None = None) -> dict[str, Any]:
    """Return what a model asks and answers: name, question, givens with unit and span, picks, inputs, results."""
    return {
        "name": model.name,
        "title": model.title,
        "question": model.question,
        "givens": [_asked(given, display) for given in model.free.values()],
        "picks": [
            {"name": pick.name, "table": pick.table, "row": pick.row, "fills": list(pick.fills)}
            for pick in model.picks.values()
        ],
        "inputs": [each.schema() for each in model.inputs.values()],
        "results": [{"name": r.name, "meaning": r.meaning, "unit": r.unit.text} for r in model.results.values()],
    }


def _asked(given: Given, display: Display | None) -> dict[str, Any]:
    low, high = (plain(given.unit.from_base(end)) for end in given.span)
    asked: dict[str, Any] = {
        "name": given.name,
        "meaning": given.meaning,
        "kind": given.kind,
        "unit": given.unit.text,
        "value": _told(given, given.base),
        "span": [low, high],
        "span_text": given.span_text(display),
        "origin": given.origin.record(),
    }
    if given.options:
        asked["options"] = list(given.options)
        del asked["span"]
    return asked


def _told(given: Given, base: float) -> float | str:
    return given.option(base) if given.options else plain(given.unit.from_base(base))


def plain(value: float) -> float:
    """Return a number as it was stated: 60, not the 59.99999999999999 that becomes of 60° there and back."""
    return float(f"{value:.14g}")


def worked(case: Case, display: Display | None = None) -> dict[str, Any]:
    """Return a case: givens, results with their standard uncertainty, limits, cautions and the verdict.

    A result's `u` is None where first order has none, as at the zero of a root.
    """
    return {
        "model": case.model.name,
        "givens": {name: _given(entry, display) for name, entry in case.entries.items()},
        "picks": dict(case.picks),
        "results": {name: _result(case, relation, display) for name, relation in case.model.results.items()},
        "limits": [checked(check, display) for check in case.checks],
        "cautions": list(case.cautions),
        "outside": list(case.outside),
        "ok": case.ok,
    }


def _given(entry: Entry, display: Display | None) -> dict[str, Any]:
    given = entry.given
    return {
        "value": _told(given, entry.base),
        "unit": given.unit.text,
        "text": entry.show(display),
        "u": entry.u / given.unit.factor,
        "source": entry.origin.source or entry.origin.state,
        "origin": entry.origin.record(),
        "half_assumed": entry.usual,
        "unit_assumed": entry.bare,
    }


def _result(case: Case, relation: Relation, display: Display | None) -> dict[str, Any]:
    base = case.base[relation.name]
    try:
        u: float | None = budget(case, relation.name).u / relation.unit.factor
    except NoValueError:
        u = None
    return {
        "value": relation.unit.from_base(base),
        "unit": relation.unit.text,
        "text": answered(case, relation, display),
        "u": u,
    }


def checked(check: Check, display: Display | None = None) -> dict[str, Any]:
    """Return a check: whether it is met and how likely, and its numbers where it has some."""
    record: dict[str, Any] = {
        "name": check.name,
        "ok": check.ok,
        "chance": check.chance,
        "origin": check.origin,
    }
    if check.base is not None and check.allowed is not None and check.margin is not None:
        record |= {
            "value": check.unit.from_base(check.base),
            "allowed": check.unit.from_base(check.allowed),
            "margin": check.margin / check.unit.factor,
            "unit": check.unit.text,
        }
    return record | {"words": check.words(display)}


def judged(verdict: Verdict, display: Display | None = None) -> dict[str, Any]:
    """Return a verdict: its state, its checks, what is open, and what it rests on that does not meet its limits."""
    return {
        "state": verdict.state,
        "words": verdict.words,
        "checks": [checked(check, display) for check in verdict.checks],
        "values": len(verdict.origins),
        "examples": verdict.examples,
        "open": list(verdict.open),
        "resting": list(verdict.resting),
    }


def sought(found: Found, display: Display | None = None) -> dict[str, Any]:
    """Return what an inversion found."""
    unit = found.unknown.unit
    return {
        "unknown": found.unknown.name,
        "result": found.result.name,
        "target": found.result.unit.from_base(found.target),
        "unit": unit.text,
        "values": [_told(found.unknown, value) for value in found.values],
        "intervals": [[unit.from_base(end) for end in run] for run in found.runs],
        "how": found.how,
        "words": found.words(display),
    }
