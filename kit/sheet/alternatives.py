"""Designs of one model side by side: why, givens, results, margins and chances, with what differs marked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display, show
from kit.core.verdict import LEVEL, Check, percent
from kit.job.pins import Pin, alike
from kit.sheet.tables import MARK

HEADING = "Alternatives considered"
DIFFERS = '<b class="fw-differs" title="differs from the first design">≠ {}</b>'


def alternatives_table(
    cases: Mapping[str, Case],
    display: Display | None = None,
    *,
    whys: Mapping[str, str] | None = None,
    level: float = LEVEL,
    whole: bool = False,
) -> str:
    """Return a table of some designs by their names; the first is what the others are compared with.

    Picks and givens that are alike in all stand in it only if `whole`; else they are counted below it.
    """
    first, *others = cases.values()
    names = (*first.picks, *first.model.free)
    same = [name for name in names if all(alike(first, other, name) for other in others)]
    shown = [name for name in names if whole or name not in same]
    body = ""
    if whys:
        body += _row("why", [escape(whys.get(name, "") or "–") for name in cases])
    body += _head("Givens", len(cases)) + "".join(_quantity(cases, name, display) for name in shown)
    body += _head("Results", len(cases)) + "".join(_quantity(cases, name, display) for name in first.model.results)
    if first.model.limits:
        body += _head("Limits: margin, and how sure it is", len(cases))
        body += "".join(_limit(cases, number, display, level) for number in range(len(first.model.limits)))
    columns = "".join(f'<th scope="col">{escape(name)}</th>' for name in cases)
    alike_in_all = (
        "" if whole or not same else f"<p>Alike in all of them: {escape(', '.join(map(first.model.called, same)))}.</p>"
    )
    return (
        '<div class="fw-scroll" role="group" aria-label="Designs side by side" tabindex="0">'
        '<table class="fw-table fw-alternatives"><caption>Designs side by side; ≠ marks what differs from the first'
        f'</caption><thead><tr><th scope="col">Quantity</th>{columns}</tr></thead><tbody>{body}</tbody></table></div>'
        f"{alike_in_all}"
    )


def alternatives(
    case: Case, pins: Sequence[Pin], display: Display | None = None, *, level: float = LEVEL
) -> list[tuple[str, str]]:
    """Return the section of a sheet that sets its design beside those pinned, with its heading; none without pins."""
    sound = {pin.name: pin.case for pin in pins if pin.case is not None}
    if not pins:
        return []
    whys = {pin.name: pin.why for pin in pins}
    table = alternatives_table({"this design": case, **sound}, display, whys=whys, level=level) if sound else ""
    faults = "".join(f"<p>{escape(pin.name)}: {escape(pin.fault)}.</p>" for pin in pins if pin.fault)
    return [(HEADING, table + faults)]


def _head(words: str, count: int) -> str:
    return f'<tr><th scope="colgroup" colspan="{count + 1}">{words}</th></tr>'


def _row(words: str, cells: Sequence[str]) -> str:
    return f'<tr><th scope="row">{escape(words)}</th>{"".join(f"<td>{cell}</td>" for cell in cells)}</tr>'


def _quantity(cases: Mapping[str, Case], name: str, display: Display | None) -> str:
    first = next(iter(cases.values()))

    def cell(case: Case) -> str:
        text = escape(case.picks[name] if name in case.picks else case.show(name, display))
        return text if alike(first, case, name) else DIFFERS.format(text)

    return _row(first.model.called(name), [cell(case) for case in cases.values()])


def _limit(cases: Mapping[str, Case], number: int, display: Display | None, level: float) -> str:
    checks = [_check(case, number) for case in cases.values()]
    first = checks[0]

    def cell(check: Check | None) -> str:
        if check is None:
            return "no value there"
        margin = show(check.margin or 0.0, check.unit, display, resolution=check.resolution)
        text = f"{MARK[check.outcome(level)]} {escape(margin)}, {percent(check.chance)}"
        return text if first is not None and _as(first, check) else DIFFERS.format(text)

    limit = list(next(iter(cases.values())).model.limits.values())[number]
    return _row(limit.words, [cell(check) for check in checks])


def _as(one: Check, other: Check) -> bool:
    return (one.margin, one.chance) == (other.margin, other.chance)


def _check(case: Case, number: int) -> Check | None:
    try:
        return case.checks[number]
    except KitError:
        return None
