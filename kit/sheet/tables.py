"""What is given, what comes out and what it must meet, as tables and lists."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from html import escape

from kit.core.model import Case, Entry, NoValueError, Relation
from kit.core.model.margins import DRAWS
from kit.core.quantity import Display
from kit.core.uncertainty import budget
from kit.core.uncertainty.answers import answered
from kit.core.uncertainty.budget import Budget, Correlations
from kit.core.verdict import LEVEL, Check, Verdict, percent
from kit.sheet.carried import reads_as
from kit.sheet.derivation import headed
from kit.sheet.mathml import mathml
from kit.sheet.notes import Notes
from kit.sheet.numbers import unbroken, uncertainty
from kit.sheet.words import sentence


def givens_table(
    case: Case,
    display: Display | None = None,
    *,
    notes: Notes | None = None,
    in_formulas: Mapping[str, str] | None = None,
) -> str:
    """Return the picks, givens and constants with their spans and where each value came from.

    With `notes`, where it came from is a footnote; `in_formulas` is how each given stands in formulas, which is said
    where that has other digits.
    """
    model = case.model

    def said(text: str) -> str:
        return notes.mark(text) if notes else escape(text)

    def row(entry: Entry) -> str:
        return _given(case, entry, display, said(origin(entry)), (in_formulas or {}).get(entry.given.name, ""))

    picks = "".join(
        f'<tr class="fw-pick"><td></td><th scope="row">{escape(pick.meaning)}</th>'
        f'<td><span class="fw-value" data-testid="given-{pick.name}">{escape(case.picks[pick.name])}</span></td>'
        f"<td>{escape(case.origins[pick.name].state)}</td><td></td>"
        f"<td>{said(_beside(case.origins[pick.name].detail, f'a row of the table {pick.table!r}'))}</td></tr>"
        for pick in model.picks.values()
    )
    free = "".join(row(case.entries[name]) for name in model.free)
    fixed = "".join(row(entry) for name, entry in case.entries.items() if name not in model.free)
    return (
        '<table class="fw-table fw-givens"><caption>Values with the half-width of their spread, '
        "whose they are, the span for which the model holds, and where each comes from</caption><thead><tr>"
        '<th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th>'
        '<th scope="col">State</th><th scope="col">Model holds for</th><th scope="col">Source</th></tr></thead>'
        f"<tbody>{picks}{free}{fixed}</tbody></table>"
    )


def _given(case: Case, entry: Entry, display: Display | None, source: str, in_formulas: str) -> str:
    given = entry.given
    assumed = ' <span class="fw-remark">(unit assumed)</span>' if entry.bare else ""
    assumed += ' <span class="fw-remark">(± not stated, the usual one)</span>' if entry.usual else ""
    state = "a constant" if given.kind == "constant" else entry.origin.state
    span = "" if given.kind == "constant" else unbroken(given.span_text(display))
    if given.name in case.beyond:
        span += "; left knowingly"
    return (
        f'<tr><td>{mathml(given.tex)}</td><th scope="row">{escape(given.meaning)}</th>'
        f'<td><span class="fw-value" data-testid="given-{given.name}">{unbroken(entry.show(display))}</span>'
        f"{assumed}{_other_digits(entry, display, in_formulas)}</td>"
        f'<td data-testid="state-{given.name}">{state}</td>'
        f"<td>{span}</td><td>{source}</td></tr>"
    )


def _other_digits(entry: Entry, display: Display | None, in_formulas: str) -> str:
    """Return the number that stands in formulas where it is not the one that is shown."""
    shown = entry.given.show(entry.base, display)
    if not in_formulas or shown == in_formulas or reads_as(shown, in_formulas, entry.given.unit):
        return ""
    return f' <span class="fw-remark">(in formulas {escape(in_formulas)})</span>'


def origin(entry: Entry) -> str:
    """Return what is known of a value's origin; of one that nobody has measured yet, how it would be."""
    how = f"to be measured: {entry.given.how}" if entry.origin.kind == "example" and entry.given.how else ""
    return _beside(entry.origin.detail, how)


def _beside(*texts: str) -> str:
    return "; ".join(filter(None, texts))


def results_table(
    case: Case,
    display: Display | None = None,
    *,
    correlations: Correlations | None = None,
    settings_first: bool = False,
) -> str:
    """Return the answers, each with its expanded uncertainty, k = 2; what is set on a machine first if wanted."""
    rows = []
    results = list(case.model.results.values())
    for relation in sorted(results, key=lambda each: settings_first and not each.setting):
        found: Budget | None = None
        with suppress(NoValueError):
            found = budget(case, relation.name, correlations)
        spread = _expanded(case, relation, display, found)
        value = answered(case, relation, display, correlations=correlations, known=found)
        rows.append(
            f'<tr><td>{mathml(relation.tex)}</td><th scope="row">{escape(headed(relation))}</th>'
            f'<td class="fw-number"><span class="fw-value" data-testid="value-{relation.name}">{escape(value)}'
            f'</span></td><td class="fw-number"><span data-testid="u-{relation.name}">{escape(spread)}</span></td></tr>'
        )
    return (
        '<table class="fw-table fw-results"><caption>Results</caption><thead><tr>'
        '<th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col" class="fw-number">Value</th>'
        '<th scope="col" class="fw-number">Uncertainty (k\u00a0=\u00a02)</th></tr></thead>'
        f"<tbody>{''.join(rows)}</tbody></table>"
    )


LEVEL_SLOPE = 1e-12  # of a result: a standard uncertainty below it comes from rounding alone


def _expanded(case: Case, relation: Relation, display: Display | None, found: Budget | None) -> str:
    if found is None:
        return "no slope here"
    if found.u <= LEVEL_SLOPE * abs(case.base[relation.name]):
        # at the top of a hill what is left of the slope is rounding
        return "none to first order" if any(row.entry.u for row in found.rows) else "none stated"
    return f"± {uncertainty(found.expanded, relation.unit, display)}"


#: A check's mark, a word and a sign, by its outcome; neither rests on color.
MARK = {
    "holds": '<span class="fw-mark fw-meets"><span aria-hidden="true">✓</span> holds</span>',
    "unsure": '<span class="fw-mark fw-unsure"><span aria-hidden="true">≈</span> holds, not surely</span>',
    "may hold": '<span class="fw-mark fw-fails"><span aria-hidden="true">✗?</span> fails, may hold</span>',
    "fails": '<span class="fw-mark fw-fails"><span aria-hidden="true">✗</span> fails</span>',
}
#: A verdict's class and sign.
_SIGN = {"meets": ("fw-meets", "✓"), "fails": ("fw-fails", "✗"), "not fully checked": ("fw-unsure", "?")}


def verdict_sign(verdict: Verdict) -> tuple[str, str]:
    """Return the class and the sign of a verdict."""
    if verdict.state == "meets" and verdict.unsure:
        return "fw-unsure", "≈"
    return _SIGN[verdict.state]


def verdict_box(verdict: Verdict, display: Display | None = None, *, more: str = "") -> str:
    """Return a verdict: in a line, then each check that fails or is unsure with its numbers, and what is open."""
    kind, sign = verdict_sign(verdict)
    words = (
        *(check.words(display, verdict.level) for check in (*verdict.failing, *verdict.unsure)),
        *verdict.open,
        *verdict.resting,
    )
    items = "".join(f"<li>{escape(sentence(each))}</li>" for each in words)
    return (
        f'<div class="fw-verdict {kind}" role="status" data-testid="verdict"><p><span class="fw-mark" '
        f'aria-hidden="true">{sign}</span> {escape(sentence(verdict.words))}</p>'
        f"{f'<ul>{items}</ul>' if items else ''}{more}</div>"
    )


def checks_list(
    checks: Sequence[Check], display: Display | None = None, *, level: float = LEVEL, title: str = "Limits"
) -> str:
    """Return every check in words with its margin; the mark is a word and a sign."""
    items = "".join(
        f'<li data-testid="limit-{check.name}">{MARK[check.outcome(level)]} '
        f'<span class="fw-words">{escape(sentence(check.words(display, level)))}{_sure(check, level)}</span></li>'
        for check in checks
    )
    if not items:
        return ""
    drawn = f'<p class="fw-remark">{_DRAWN}</p>' if any(check.drawn is not None for check in checks) else ""
    return f'<p class="fw-label">{title}</p><ul class="fw-limits">{items}</ul>{drawn}'


_DRAWN = (
    f"How sure a limit is: of {DRAWS:,} Monte Carlo draws where its margin is within three standard uncertainties, "
    "to first order elsewhere."
)


def _sure(check: Check, level: float) -> str:
    """Return how sure a check is that holds or fails surely, where its words do not tell it."""
    if check.drawn is None or check.outcome(level) not in ("holds", "fails"):
        return ""
    chance, verb = (check.chance, "holds") if check.ok else (1 - check.chance, "fails")
    return f' <span class="fw-remark">({percent(chance)} sure that it {verb})</span>'


def outside_list(case: Case) -> str:
    """Return what is knowingly outside the span within which the model holds; nothing if nothing is."""
    return "".join(f'<p class="fw-outside"><b>Outside the model:</b> {escape(words)}.</p>' for words in case.outside)


def cautions_list(case: Case) -> str:
    """Return the cautions that apply here."""
    items = "".join(f"<li>{escape(text)}</li>" for text in case.cautions)
    return f'<ul class="fw-cautions">{items}</ul>' if items else ""


def assumptions_list(case: Case) -> str:
    """Return what the model takes for granted."""
    items = "".join(f"<li>{escape(sentence(text))}</li>" for text in case.model.assumptions)
    return f'<ul class="fw-assumptions">{items}</ul>'


def sources_list(case: Case) -> str:
    """Return where the formulas come from."""
    items = "".join(f"<li>{escape(sentence(text))}</li>" for text in case.model.sources)
    return f'<ul class="fw-sources">{items}</ul>'
