"""Cases drawn by a seed: round numbers near a case's own, just as a reader sees them printed."""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.model.margins import margin_uncertainties, margins_over
from kit.core.model.root_search import Scan
from kit.core.quantity import parse, show_in, unit

if TYPE_CHECKING:
    from kit.core.model import Calculation, Case, Entry, Given
    from kit.core.quantity import Display

TRIES = 60
_WORKED = 12  # of these: one of them has a value, or none will
_FINE = 10.0  # steps of a given from one side of a judgment to the other
_CHOICES = 16  # about as many values a given may take
_MOVED = 1e-3  # as a part of a given's span
_COUNTS = 1e-6  # as a part of the result: less is no effect


def moving(case: Case, *results: str) -> list[str]:
    """Return the measures and counts that a person sets and that move one of the `results` here."""
    import numpy as np

    names = [name for name in chain_givens(case.model, results) if case.model.givens[name].kind in ("real", "count")]
    names = [name for name in names if name in case.model.free]
    if not names:
        return []
    moved = {name: np.full(len(names), case.base[name]) for name in names}
    for at, name in enumerate(names):
        given, here = case.model.givens[name], case.base[name]
        low, high = given.span
        step = 1.0 if given.kind == "count" else _MOVED * (high - low)
        moved[name][at] = here + step if here + step <= high else here - step
    found: set[str] = set()
    for result, values in case.compute(moved, results).items():
        off = np.broadcast_to(np.abs(np.asarray(values, dtype=float) - case.base[result]), len(names))
        found |= {name for name, each in zip(names, off, strict=True) if each > _COUNTS * abs(case.base[result])}
    return [name for name in names if name in found]


def chain_givens(model: Calculation, want: Iterable[str]) -> list[str]:
    """Return the givens that the quantities in `want` rest on, in the order of the page, constants included."""
    wanted = list(want)
    used = {*wanted, *(name for relation in model.needed(wanted) for name in relation.rests_on)}
    return [name for name in model.givens if name in used]


def drawn(
    case: Case, vary: Sequence[str], rng: random.Random, display: Display, *, want: str = "", failing: bool = False
) -> Case | None:
    """Return the case with the givens `vary` drawn, all as printed; None where none of the draws has a value.

    Of many draws one is taken at which all limits hold, or exactly one is `failing`. `want` is a result that may not
    be 0.
    """
    import numpy as np

    columns = {name: _lots(case.model.givens[name], case.entries[name], rng, display) for name in vary}
    fails = _fails(case, {name: np.array([base for base, _ in lots]) for name, lots in columns.items()})
    for at in np.argsort(np.abs(fails - failing), kind="stable")[:_WORKED]:
        typed = {name: lots[int(at)][1] for name, lots in columns.items()}
        found = as_printed(case, typed, display)
        if found is not None and not (want and abs(found.base[want]) < _COUNTS * _size(found, want)):
            return found
    return None


def near_limit(case: Case, limit: str, name: str, z: float, display: Display) -> Case | None:
    """Return the case with the given `name` moved so that a limit's margin is `z` of its standard uncertainties.

    The given takes as few digits as tell it from its neighbors. None where it cannot bring the limit there.
    """
    import numpy as np

    given, at = case.model.givens[name], list(case.model.limits).index(limit)

    def margin(x: Any) -> Any:
        return np.broadcast_to(np.asarray(margins_over(case, {name: x})[limit], dtype=float), np.shape(x))

    scan = Scan(given.span, 0.0, margin)
    if not scan.roots:
        return None
    border = min(scan.roots, key=lambda root: abs(root - case.base[name]))
    there = as_printed(case, {name: given.unit.from_base(border)}, display)
    step = _MOVED * (given.span[1] - given.span[0])
    slope = float(np.diff(margin(np.array([border - step, border + step])))[0]) / (2 * step)
    if there is None or not math.isfinite(slope) or not slope:
        return None
    u = margin_uncertainties(there)[at]
    moved = z * u / slope
    if not math.isfinite(moved) or not moved:
        return None
    of = display.unit_for(given.unit)
    unit_step = round_step(abs(moved) / of.factor / _FINE, "")
    value = round(of.from_base(border + moved) / unit_step) * unit_step
    return as_printed(case, {name: f"{value:.6g} {of.text}"}, display)


def as_printed(case: Case, typed: dict[str, Any], display: Display) -> Case | None:
    """Return the case with `typed` put in and every other given as a reader sees it; None without a value."""
    seen: dict[str, Any] = {}
    for name, entry in case.entries.items():
        if name in case.model.free and name not in typed:
            seen[name] = _printed(entry, display)
    try:
        return case.with_(beyond=case.beyond, **{**seen, **typed})
    except KitError:
        return None


def _printed(entry: Entry, display: Display) -> Any:
    """Return the text that a reader sees, with its half-width, or the number itself where the text cannot be read."""
    given = entry.given
    text = given.show(entry.base, display)
    if given.kind != "real":
        return text
    try:
        low, high = given.span
        inside = low <= parse(text, given.unit).base <= high
    except KitError:
        inside = False
    return text if inside else given.unit.from_base(entry.base)


def _size(case: Case, name: str) -> float:
    """Return what is large for a result: the largest number of its dimension in the case, at least its unit."""
    of = case.model.relations[name].unit
    alike = (abs(case.base[part.name]) for part in case.model.parts.values() if part.unit.dim == of.dim)
    return max(of.factor, *alike)


def _fails(case: Case, values: dict[str, Any]) -> Any:
    """Return how many limits fail, or have no value, at each draw."""
    import numpy as np

    fails = np.zeros(TRIES)
    for margin in margins_over(case, values).values():
        fails += np.nan_to_num(np.broadcast_to(np.asarray(margin, dtype=float), fails.shape), nan=-1.0) < 0
    return fails


def _lots(given: Given, entry: Entry, rng: random.Random, display: Display) -> list[tuple[float, str]]:
    """Return drawn values, round and not far from the entry's own: in base units, and as text with the unit."""
    of = unit("") if given.kind == "count" else display.unit_for(given.unit)
    low, high, own = (of.from_base(x) for x in (*given.span, entry.base))
    room = abs(own) or 0.5 * (high - low)
    low, high = max(low, own - 0.4 * room), min(high, own + 0.6 * room)
    step = 1.0 if given.kind == "count" else round_step((high - low) / _CHOICES, of.text)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    lots = []
    for _ in range(TRIES):
        base = of.to_base(rng.randint(first, max(first, last)) * step)
        lots.append((base, show_in(base, of, digits=6)))
    return lots


def round_step(wanted: float, of: str) -> float:
    """Return the next larger round step: 1, 2, 5 and their tens, or inch fractions down to a sixteenth."""
    if of == "in" and wanted > 1 / 32:
        return float(2.0 ** math.ceil(math.log2(wanted)))
    decade = 10.0 ** math.floor(math.log10(wanted))
    return next(decade * factor for factor in (1, 2, 5, 10) if decade * factor >= wanted * 0.999)
