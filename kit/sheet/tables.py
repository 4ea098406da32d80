"""What is given, what comes out and what it must meet, as tables and lists."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from kit.core.model import Case, Entry, NoValueError, Relation
from kit.core.quantity import Display
from kit.core.uncertainty import budget
from kit.core.uncertainty.budget import Correlations
from kit.sheet.derivation import headed
from kit.sheet.mathml import mathml
from kit.sheet.numbers import unbroken, uncertainty

if TYPE_CHECKING:
    from kit.core.build import Build


def givens_table(case: Case, display: Display | None = None) -> str:
    """Return the picks, givens and constants with their spans and where each value came from."""
    model = case.model
    picks = "".join(
        f'<tr class="fw-pick"><td></td><th scope="row">{escape(pick.meaning)}</th>'
        f'<td><span class="fw-value" data-testid="given-{pick.name}">{escape(case.picks[pick.name])}</span></td>'
        f"<td></td><td>{escape(f'a row of the table {pick.table!r}')}</td></tr>"
        for pick in model.picks.values()
    )
    free = "".join(_given(case, case.entries[name], display) for name in model.free)
    fixed = "".join(
        _given(case, entry, display) for name, entry in case.entries.items() if name not in model.free
    )
    return (
        '<table class="fw-table fw-givens"><caption>Values with the half-width of their spread, '
        "the span for which the model holds, and where each comes from</caption><thead><tr>"
        '<th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Value</th>'
        '<th scope="col">Model holds for</th><th scope="col">Source</th></tr></thead>'
        f"<tbody>{picks}{free}{fixed}</tbody></table>"
    )


def _given(case: Case, entry: Entry, display: Display | None) -> str:
    given = entry.given
    assumed = ' <span class="fw-remark">(unit assumed)</span>' if entry.bare else ""
    span = "a constant" if given.kind == "constant" else unbroken(given.span_text(display))
    if given.name in case.beyond:
        span += "; left knowingly"
    return (
        f'<tr><td>{mathml(given.tex)}</td><th scope="row">{escape(given.meaning)}</th>'
        f'<td><span class="fw-value" data-testid="given-{given.name}">{unbroken(entry.show(display))}</span>'
        f"{assumed}</td>"
        f"<td>{span}</td><td>{escape(origin(entry))}</td></tr>"
    )


def origin(entry: Entry) -> str:
    """Return where a value came from, how it is measured, and when it was."""
    when = f"measured {entry.measured}" if entry.measured else ""
    return "; ".join(filter(None, (entry.source, entry.how, when)))


def results_table(
    case: Case, display: Display | None = None, *, correlations: Correlations | None = None
) -> str:
    """Return the answers, each with its expanded uncertainty, k = 2."""
    rows = []
    for relation in case.model.results.values():
        spread = _expanded(case, relation, display, correlations)
        value = relation.show(case.value[relation.name], display)
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


def _expanded(
    case: Case, relation: Relation, display: Display | None, correlations: Correlations | None
) -> str:
    try:
        found = budget(case, relation.name, correlations)
    except NoValueError:
        return "no slope here"
    return f"± {uncertainty(found.expanded, relation.unit, display)}" if found.u else "none stated"


#: A limit's mark, a word and a shape, by whether it is met.
MARK = {
    True: '<span class="fw-mark fw-meets"><span aria-hidden="true">✓</span> meets</span>',
    False: '<span class="fw-mark fw-fails"><span aria-hidden="true">✗</span> fails</span>',
}


def verdict_words(case: Case, build: Build | None = None) -> str:
    """Return in one sentence whether the limits are met, those of the shape that was made with them."""
    met = [state.ok for state in case.limits] + [held.ok for held in (build.limits if build else ())]
    count, failing = len(met), met.count(False)
    if not count:
        return "No limit is stated."
    if failing:
        return f"{failing} of {count} limits {'fails' if failing == 1 else 'fail'}."
    return "The one limit is met." if count == 1 else f"All {count} limits are met."


def verdict(case: Case, display: Display | None = None, build: Build | None = None) -> str:
    """Return whether the limits are met, and of those that fail by how much and what would mend it."""
    of_shape = build.limits if build else ()
    failing = "".join(
        f"<li>{escape(sentence(words))}</li>"
        for words in (
            *(state.words(display) for state in case.limits if not state.ok),
            *(held.told for held in of_shape if not held.ok),
        )
    )
    ok = case.ok and all(held.ok for held in of_shape)
    kind = "fw-meets" if ok else "fw-fails"
    mark = ("✓" if ok else "✗") if case.limits or of_shape else "–"
    return (
        f'<div class="fw-verdict {kind}" role="status" data-testid="verdict"><p><span class="fw-mark" '
        f'aria-hidden="true">{mark}</span> {escape(verdict_words(case, build))}</p>'
        f"{f'<ul>{failing}</ul>' if failing else ''}{outside_list(case)}</div>"
    )


def limits_list(case: Case, display: Display | None = None) -> str:
    """Return every limit in words with its margin; the mark is a word and a shape."""
    items = "".join(
        f'<li data-testid="limit-{state.name}">{MARK[state.ok]} '
        f'<span class="fw-words">{escape(sentence(state.words(display)))}</span></li>'
        for state in case.limits
    )
    return f'<p class="fw-label">Limits</p><ul class="fw-limits">{items}</ul>' if items else ""


def outside_list(case: Case) -> str:
    """Return what is knowingly outside the span within which the model holds; nothing if nothing is."""
    return "".join(
        f'<p class="fw-outside"><b>Outside the model:</b> {escape(words)}.</p>' for words in case.outside
    )


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


def sentence(words: str) -> str:
    """Return words with a capital and a full stop."""
    end = "" if words.endswith((".", "?", "!")) else "."
    return words[:1].upper() + words[1:] + end
