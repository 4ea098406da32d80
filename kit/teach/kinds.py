"""Exercises out of any model at a case: read a figure, evaluate, solve backwards, mend a design, judge one."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.model import called
from kit.core.model.margins import margins_over
from kit.core.model.root_search import Scan
from kit.core.quantity import Display, parse, show
from kit.core.verdict import LEVEL
from kit.sheet.numbers import with_digits
from kit.teach.drawing_lots import as_printed, chain_givens, drawn, moving, near_limit
from kit.teach.exercise import Choice, Exercise, Kind, Option, Typed
from kit.teach.picture import told
from kit.teach.rounding import as_rounded

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.core.verdict import Check, Outcome

Make = Callable[["Case", Display, random.Random], Exercise | None]

_MOST_VARIED = 3
_TRIES = 12
_OPTIONS = 4
_NEW = 3  # draws, until something is asked that was not asked before
_SHORT = 8  # relations: a result that rests on more is asked only where there is no other
_POINTS = 201  # of a given's span, where a design is mended
_SURE = 1.645  # standard uncertainties: one-sided 95 % of a normal distribution
_NOTHING = 1e-9
_APART = 0.15  # standard uncertainties: nearer to a border than this, rounding would decide
_ASKED = (-3.0, -0.8, 0.8, 3.0)  # standard uncertainties of a margin: one of each outcome
_OUTCOMES: dict[Outcome, tuple[str, str]] = {
    "holds": ("it holds, and one can be 95 % sure of it", f"of {_SURE} or more"),
    "unsure": ("it holds, but one cannot be 95 % sure of it", f"from 0 to {_SURE}"),
    "may hold": ("it fails, but may hold all the same", f"from -{_SURE} to 0"),
    "fails": ("it fails, and one can be 95 % sure of it", f"below -{_SURE}"),
}


def exercises(
    cases: Sequence[Case], count: int, *, seed: int, display: Display, accept: Callable[[Exercise], bool] | None = None
) -> tuple[Exercise, ...]:
    """Return so many exercises on the cases in turn, from reading a figure to judging a design; the seed draws them.

    The same thing is not asked twice while there is another. What `accept` turns down is drawn anew.

    Raises:
        KitError: a count below 1, no case, or cases of which nothing can be asked.
    """
    if count < 1 or not cases:
        raise KitError(f"{count} exercises of {len(cases)} models cannot be drawn; ask for one or more of each")
    rng = random.Random(seed)
    ahead = list(cases)
    rng.shuffle(ahead)
    found: list[Exercise] = []
    for n, kind in enumerate(sorted((KINDS[n % len(KINDS)] for n in range(count)), key=KINDS.index)):
        made = _one(ahead[n % len(ahead) :] + ahead[: n % len(ahead)], kind, display, rng, found, accept)
        if made is None:
            names = ", ".join(case.model.name for case in cases)
            raise KitError(f"nothing can be asked of {names}: no result moves with a given that is a number")
        found.append(made)
    return tuple(sorted(found, key=lambda each: KINDS.index(each.kind)))


def _one(
    cases: Sequence[Case],
    kind: Kind,
    display: Display,
    rng: random.Random,
    before: Sequence[Exercise],
    accept: Callable[[Exercise], bool] | None,
) -> Exercise | None:
    """Return an exercise of that kind on the first case that has one, else of a simpler kind; a new one if possible."""
    again: Exercise | None = None
    asked = {(each.kind, each.case.model.name, each.about) for each in before}
    simpler: tuple[Kind, ...] = ("evaluate", "read")
    for tried in (kind, *(each for each in simpler if each != kind)):
        for case in cases:
            for _ in range(_NEW):
                made = MAKERS[tried](case, display, rng)
                if made is None:
                    break
                if accept is not None and not accept(made):
                    continue
                if (made.kind, made.case.model.name, made.about) not in asked:
                    return made
                again = again or made
    return again


def read(case: Case, display: Display, rng: random.Random) -> Exercise | None:
    """Return an exercise on reading a quantity off the model's figure; None where no number stands in it alone."""
    here = _varied(case, list(case.model.results), display, rng)
    if here is None:
        return None
    words = told(here, display)
    shown = {name: part.show(here.base[name], display) for name, part in here.model.parts.items()}
    once = [
        name
        for name, text in shown.items()
        if (name in here.model.results or name in here.model.free)
        and here.model.part(name).unit.text
        and here.base[name]
        and list(shown.values()).count(text) == 1
        and sum(text in word for word in words) == 1
    ]
    if not once:
        return None
    name = rng.choice(once)
    value = parse(shown[name], here.model.part(name).unit).base
    return Typed("read", here, display, f"Read off the figure: {_asked(here, name)}.", name, (), (), True, (value,))


def evaluate(case: Case, display: Display, rng: random.Random) -> Exercise | None:
    """Return an exercise on working a result from round givens; None where no result moves with a number."""
    results = _results(case)
    rng.shuffle(results)
    for name in results:
        vary = _some(moving(case, name), rng)
        made = _about(case, name, vary, rng, display) if vary else None
        if made is not None and not _given(made.case, name):
            return made
    return None


def about(case: Case, result: str, vary: Sequence[str], *, seed: int, display: Display) -> Typed:
    """Return an exercise on that result, with those givens drawn; the same seed draws the same.

    Raises:
        KitError: an unknown name, a given that is no number, or a result without value wherever it was tried.
    """
    case.model.look_up(result, case.model.relations, "result")
    for name in vary:
        if case.model.look_up(name, case.model.free, "given").kind not in ("real", "count"):
            raise KitError(f"{name} is not a number; vary givens that are typed as a number")
    made = _about(case, result, vary, random.Random(seed), display)
    if made is None:
        raise KitError(f"{result} had no value wherever {', '.join(vary)} were drawn; vary fewer givens")
    return made


def _about(case: Case, result: str, vary: Sequence[str], rng: random.Random, display: Display) -> Typed | None:
    here = drawn(case, vary, rng, display, want=result)
    if here is None:
        return None
    ask, value = f"Find {_asked(here, result)}.", here.base[result]
    return Typed("evaluate", here, display, ask, result, *_needs(here, [result]), False, (value,))


def backwards(case: Case, display: Display, rng: random.Random) -> Exercise | None:
    """Return an exercise on the given that makes a result take a round value; None where there is none in the span."""
    results = _results(case)
    rng.shuffle(results)
    for result in results:
        names = [name for name in moving(case, result) if case.model.givens[name].kind == "real"]
        rng.shuffle(names)
        for unknown in names[:_TRIES]:
            here = _varied(case, [result], display, rng)
            made = here and _backwards(here, unknown, result, display)
            if made:
                return made
    return None


def mend(case: Case, display: Display, rng: random.Random) -> Exercise | None:
    """Return an exercise on which given must change where a limit fails; one of those offered mends it alone."""
    for _ in range(_TRIES):
        here = _failing(case, display, rng)
        if here is None:
            return None
        failing = next((check for check in here.checks if not check.ok), None)
        if failing is None:
            continue
        made = _mend(here, failing, display, rng)
        if made is not None:
            return made
    return None


def judge(case: Case, display: Display, rng: random.Random) -> Exercise | None:
    """Return an exercise on whether a limit holds and how surely, from its margin and what that leaves open."""
    limits = [limit for limit in case.model.limits.values() if limit.judges in case.model.relations]
    for _ in range(_TRIES if limits else 0):
        limit, z = rng.choice(limits), rng.choice(_ASKED)
        names = [name for name in moving(case, limit.judges) if case.model.givens[name].kind == "real"]
        here = _varied(case, [limit.judges], display, rng)
        near = here and names and near_limit(here, limit.name, rng.choice(names), z, display)
        check = near and next(each for each in near.checks if each.name == limit.name)
        if near and check and check.base and _clear(check):
            return _judge(near, check, display)
    return None


def _judge(here: Case, check: Check, display: Display) -> Exercise:
    limit = here.model.limits[check.name]
    used = [name for name in (limit.judges, limit.bound) if name]
    open_, allowed = with_digits(check.u, check.unit, display, 2), show(check.allowed or 0.0, check.unit, display)
    ask = (
        f"A limit: {check.subject} {allowed} or {'less' if check.sense == '<=' else 'more'}. The standard "
        f"uncertainty of its margin is {open_}; to be 95 % sure, the margin must be {_SURE} times that. What holds?"
    )
    z = (check.margin or 0.0) / check.u
    options = [
        Option(
            words, outcome == check.outcome(), f"that takes a margin {needed} standard uncertainties; it is {z:.2f}."
        )
        for outcome, (words, needed) in _OUTCOMES.items()
    ]
    return Choice("judge", here, display, ask, check.name, *_needs(here, used), False, tuple(options))


MAKERS: dict[Kind, Make] = {
    "read": read,
    "evaluate": evaluate,
    "solve backwards": backwards,
    "mend": mend,
    "judge": judge,
}
KINDS: tuple[Kind, ...] = ("read", "evaluate", "evaluate", "solve backwards", "mend", "judge")


def _results(case: Case) -> list[str]:
    """Return the results that can be asked for: not 0, and of a short way where there are such."""
    known = [name for name in case.model.results if case.base[name]]
    short = [name for name in known if len(case.model.needed([name])) <= _SHORT]
    return short or known


def _needs(case: Case, names: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the givens and the relations that the quantities rest on."""
    return tuple(chain_givens(case.model, names)), tuple(step.name for step in case.model.needed(names))


def _varied(case: Case, results: Sequence[str], display: Display, rng: random.Random) -> Case | None:
    """Return the case with a few givens drawn that move one of the results."""
    names = moving(case, *(result for result in results if result in case.model.relations))
    return drawn(case, _some(names, rng), rng, display) if names else None


def _some(names: Sequence[str], rng: random.Random) -> list[str]:
    return rng.sample(names, min(_MOST_VARIED, len(names)))


def _given(case: Case, name: str) -> bool:
    """Whether a value stands among the givens, so that nothing is to be worked."""
    return any(math.isclose(case.base[name], entry.base) for entry in case.entries.values())


def _asked(case: Case, name: str) -> str:
    part = case.model.part(name)
    return called(part).split(";")[0]


def _backwards(here: Case, unknown: str, result: str, display: Display) -> Exercise | None:
    """Return the exercise at a case, its result rounded; None without an answer, or where it is the result itself."""
    relation, given = here.model.relations[result], here.model.givens[unknown]
    target = as_rounded(here.base[result], relation.unit, display)
    goal = parse(target, relation.unit).base
    scan = Scan(given.span, goal, lambda x: here.compute({unknown: x}, (result,))[result])
    if not scan.roots or scan.runs or any(abs(root) < _NOTHING or math.isclose(root, goal) for root in scan.roots):
        return None
    there = as_printed(here, {unknown: given.unit.from_base(scan.roots[0])}, display)
    if there is None:
        return None
    data, steps = _needs(there, [result])
    data = tuple(name for name in data if name != unknown)
    asked = _asked(there, result)
    ask = f"{asked[:1].upper()}{asked[1:]} is to be {target}. Find {_asked(there, unknown)}."
    return Typed("solve backwards", there, display, ask, unknown, data, steps, False, tuple(scan.roots))


def _failing(case: Case, display: Display, rng: random.Random) -> Case | None:
    """Return a drawn case at which exactly one limit fails; None where none is found."""
    names = moving(case, *(each.judges for each in case.model.limits.values() if each.judges in case.model.relations))
    for _ in range(_TRIES):
        if not names:
            return None
        here = drawn(case, _some(names, rng), rng, display, failing=True)
        if here is not None and sum(margin < 0 for margin in margins_over(here, {}).values()) == 1:
            return here
    return None


def _mend(here: Case, failing: Check, display: Display, rng: random.Random) -> Exercise | None:
    measures = [name for name, given in here.model.free.items() if given.kind == "real"]
    names = [name for name in measures if not _asks_less(here, name)]
    ways = {name: _mended(here, name) for name in names}
    good, bad = ([name for name in names if (ways[name] is not None) is helps] for helps in (True, False))
    few, many, asked = (
        (good, bad, "makes all limits hold") if len(bad) >= 2 else (bad, good, "cannot make them all hold")
    )
    if not few or len(many) < 2:
        return None
    chosen = [rng.choice(few), *rng.sample(many, min(_OPTIONS - 1, len(many)))]
    options = [_way_out(here, name, ways[name], name == chosen[0], display) for name in chosen]
    rng.shuffle(options)
    words = replace(failing, mend="", u=0.0, drawn=None).words(display)
    ask = f"A limit fails: {words}. Which of these, changed alone, {asked}?"
    limit = here.model.limits[failing.name]
    used = [name for name in (limit.judges, limit.bound) if name] or list(here.model.results)
    return Choice("mend", here, display, ask, failing.name, *_needs(here, used), False, tuple(options))


def _asks_less(here: Case, name: str) -> bool:
    """Whether a given decides what some limit allows, so that to change it is no way out."""
    import numpy as np

    from kit.core.model.compiled import functions_of

    here_and_there = np.array([here.base[name], *here.model.givens[name].span])
    with np.errstate(all="ignore"):
        givens = [here_and_there if each == name else np.float64(here.base[each]) for each in here.entries]
        allowed = functions_of(here.model).limits_over(givens)[1::2]
    return any(np.ptp(np.asarray(each, dtype=float)) != 0 for each in allowed[: len(here.model.limits)])


def _way_out(here: Case, name: str, at: float | None, right: bool, display: Display) -> Option:
    given = here.model.givens[name]
    if at is None:
        why = f"from {given.span_text(display)} there is none with which all limits hold."
    else:
        why = f"at {given.show(at, display)} all limits hold."
    return Option(_asked(here, name), right, why)


def _mended(here: Case, name: str) -> float | None:
    """Return the value of a given nearest its own at which all limits hold, all else as it is; None without one."""
    import numpy as np

    low, high = here.model.givens[name].span
    values = np.linspace(low, high, _POINTS)
    holds = np.ones(_POINTS, dtype=bool)
    for margin in margins_over(here, {name: values}).values():
        holds &= np.nan_to_num(np.broadcast_to(np.asarray(margin, dtype=float), holds.shape), nan=-1.0) >= 0
    if not holds.any():
        return None
    good = values[holds]
    return float(good[np.argmin(np.abs(good - here.base[name]))])


def _clear(check: Check) -> bool:
    """Whether a check's outcome by its margin is that by its chance, and far enough from the next."""
    z = (check.margin or 0.0) / check.u
    by_margin = "fails" if z < -_SURE else "may hold" if z < 0 else "unsure" if z < _SURE else "holds"
    return by_margin == check.outcome(LEVEL) and min(abs(z - border) for border in (-_SURE, 0.0, _SURE)) > _APART
