"""Uncertainty as a table: what each given brings to a result, and Monte Carlo beside it."""

from __future__ import annotations

import math
from html import escape

from kit.core.model import Case, NoValueError
from kit.core.quantity import Display
from kit.core.uncertainty import Budget, BudgetRow, Draws, budget
from kit.core.uncertainty.budget import Correlations
from kit.sheet.carried import read_back
from kit.sheet.derivation import headed
from kit.sheet.mathml import mathml
from kit.sheet.numbers import breaking, sensitivity, unbroken, uncertainty, with_digits, with_unit_of

_COVERAGE = 0.95
_CARRIED = 4  # digits, so that two of the expanded uncertainty follow
_COLUMNS = 8  # their widths stand in the style
_SMALL = 0.005  # of the variance: what rounds to 0 % shares one row


def budgets(
    case: Case,
    display: Display | None = None,
    *,
    correlations: Correlations | None = None,
    draws: dict[str, Draws] | None = None,
) -> str:
    """Return the budgets of all results that depend on an uncertain given, or a sentence that none does."""
    tables = [
        budget_table(case, name, display, correlations=correlations, draws=(draws or {}).get(name))
        for name in case.model.results
    ]
    return "".join(tables) or '<p class="fw-none">No uncertainty is stated for what these results rest on.</p>'


def budget_table(
    case: Case,
    result: str,
    display: Display | None = None,
    *,
    correlations: Correlations | None = None,
    draws: Draws | None = None,
) -> str:
    """Return a result's first-order budget, largest share first; nothing if no uncertain given moves it."""
    relation = case.model.relations[result]
    try:
        found = budget(case, result, correlations)
    except NoValueError as error:
        return f'<p class="fw-none"><b>{escape(headed(relation))}.</b> No budget: {escape(str(error))}.</p>'
    if not found.u > 0:
        return ""
    made = _Rows(case, found, display)
    rows = made.html()
    printed = None if correlations else math.hypot(*made.contributions)
    linked = f"<p>{escape(_linked(case, correlations))}</p>" if correlations else ""
    return (
        f'<table class="fw-table fw-budget" data-testid="budget-{result}"><caption>'
        f"{escape(headed(relation))} {mathml(relation.tex)}</caption>"
        f"<colgroup>{'<col>' * _COLUMNS}</colgroup><thead><tr>"
        '<th scope="col" colspan="2">Given</th><th scope="col">Estimate</th><th scope="col">Spread</th>'
        '<th scope="col" class="fw-number">Standard uncer&shy;tainty</th>'
        '<th scope="col" class="fw-number">Sensi&shy;tivity</th>'
        '<th scope="col" class="fw-number">Contri&shy;bution</th><th scope="col">Share</th></tr></thead>'
        f"<tbody>{rows}</tbody>{_foot(case, found, display, printed)}</table>"
        f"{linked}{_compared(case, found, draws, display) if draws else ''}"
    )


class _Rows:
    """The rows of a budget's table. Each number is worked from those that are printed beside it, as a checker would."""

    def __init__(self, case: Case, found: Budget, display: Display | None) -> None:
        self.case, self.found, self.display = case, found, display
        self.of = case.model.relations[found.result].unit
        self.contributions: list[float] = []

    def html(self) -> str:
        rows = [self._row(row) for row in self.found.rows if row.share >= _SMALL]
        return "".join(rows) + self._rest([row for row in self.found.rows if 0 < row.share < _SMALL])

    def _row(self, row: BudgetRow) -> str:
        entry = row.entry
        given, spread = entry.given, entry.spread
        half = uncertainty(spread.half, given.unit, self.display, digits=_CARRIED)
        each = with_unit_of(half, read_back(half) * spread.u / spread.half, digits=_CARRIED)
        slope = sensitivity(row.sensitivity, self.of, given.unit, self.display, digits=_CARRIED)
        worth = self._contribution(abs(read_back(slope)) * read_back(each))
        label = [f"k\u00a0=\u00a0{spread.k:g}"] if spread.shape == "normal" else []
        label += [f"{_whole(spread.dof)}\u00a0degrees of freedom"] if math.isfinite(spread.dof) else []
        shape = f"{spread.shape} ±\u00a0{half}" + (f" ({', '.join(label)})" if label else "")
        return (
            f'<tr><td>{mathml(given.tex)}</td><th scope="row">{escape(given.meaning)}</th>'
            f"<td>{unbroken(given.show(entry.base, self.display))}</td><td>{escape(shape)}</td>"
            f'<td class="fw-number">{breaking(each)}</td><td class="fw-number">{breaking(slope)}</td>'
            f'<td class="fw-number">{breaking(worth)}</td>'
            f'<td class="fw-share"><span class="fw-percent">{_percent(row.share)}</span>'
            f'<span class="fw-bar" style="width:{2.4 * min(row.share, 1):.2f}em"></span></td></tr>'
        )

    def _rest(self, rows: list[BudgetRow]) -> str:
        """Return one row for all givens that bring next to nothing."""
        if not rows:
            return ""
        symbols = ", ".join(mathml(row.entry.given.tex) for row in rows)
        seen = read_back(uncertainty(math.hypot(*(row.contribution for row in rows)), self.of, self.display, digits=9))
        return (
            f'<tr><th scope="row" colspan="6">{symbols}: together</th>'
            f'<td class="fw-number">{breaking(self._contribution(seen))}</td>'
            f'<td class="fw-share"><span class="fw-percent">{_percent(sum(row.share for row in rows))}</span></td></tr>'
        )

    def _contribution(self, seen: float) -> str:
        text = with_unit_of(uncertainty(self.found.u, self.of, self.display), seen, digits=_CARRIED)
        self.contributions.append(read_back(text))
        return text


def _percent(share: float) -> str:
    return "&lt; 1 %" if share < _SMALL else f"{100 * share:.0f} %"


def _foot(case: Case, found: Budget, display: Display | None, printed: float | None) -> str:
    """Return the foot; `printed` is the combined uncertainty by the rows as printed, if it follows from them."""
    of = case.model.relations[found.result].unit
    k, label = found.k, f"k = {found.k:g}"
    if math.isfinite(found.dof):
        k = found.k_for(_COVERAGE)
        label = f"k = {k:.2f} for {100 * _COVERAGE:g} % at {_whole(found.dof)} effective degrees of freedom"
    u, expanded = (uncertainty(x, of, display, digits=d) for x, d in ((found.u, _CARRIED), (k * found.u, 2)))
    u = u if printed is None else with_unit_of(u, printed, digits=_CARRIED)
    return (
        f'<tfoot><tr><th scope="row" colspan="6">Combined standard uncertainty; expanded, {label}: '
        f'± {escape(expanded)}</th><td class="fw-number">{breaking(u)}</td><td></td></tr></tfoot>'
    )


def _whole(dof: float) -> str:
    return f"{math.floor(dof):,}"


def _linked(case: Case, correlations: Correlations) -> str:
    pairs = ", ".join(f"{case.model.called(a)} and {case.model.called(b)} {r:g}" for (a, b), r in correlations.items())
    return f"Correlations: {pairs}. Shares leave them aside."


def _compared(case: Case, found: Budget, draws: Draws, display: Display | None) -> str:
    """Return the line that sets Monte Carlo beside the first order."""
    of = case.model.relations[found.result].unit
    low, high = (with_digits(end, of, display, 2, u=draws.u) for end in draws.interval())
    lost = f"; {draws.lost:,} draws had no value" if draws.lost else ""
    mean = with_digits(draws.mean, of, display, 2, u=draws.u)
    words = (
        f"Monte Carlo, {draws.sample.size:,} draws: mean {mean}, standard "
        f"uncertainty {uncertainty(draws.u, of, display)} ({_difference(draws.u / found.u - 1)}), "
        f"95 % between {low} and {high}{lost}."
    )
    return f'<p class="fw-compared">{escape(words)}</p>'


def _difference(ratio: float) -> str:
    """Return how far Monte Carlo is from the first order, in words."""
    percent = 100 * ratio
    if abs(percent) < 3:
        return "as by first order"
    return f"{abs(percent):.0f} % {'more' if percent > 0 else 'less'} than by first order"
