"""What matters: which given brings a result's uncertainty, what to measure better and how well, and over the range."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import called
from kit.core.quantity import parse
from kit.core.uncertainty import budget, needed, sensitivity
from kit.core.uncertainty.over_range import about
from kit.sheet.numbers import uncertainty
from kit.sheet.words import sentence
from kit.ui.explore.printing import Printing
from kit.ui.explore.searching import Searching
from kit.ui.panel.labels import labels

if TYPE_CHECKING:
    from kit.core.uncertainty import Budget
    from kit.core.uncertainty.over_range import Sensitivity
    from kit.ui.panel.state import PanelState

RANGES = {"a quarter about the design": 0.25, "a twentieth about the design": 0.05, "whole spans": 1.0}
MOST = 8  # bars


class MattersView(w.VBox):
    """Charts and sentences on a panel's results."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel
        self.result = w.Dropdown(
            options=labels(panel.model, panel.model.results), description="result", tooltip="the result that is charted"
        )
        self.wished = w.Text(
            description="wished ±",
            placeholder="half of what it is",
            tooltip="the uncertainty (k = 2) that the result is to have",
            continuous_update=False,
        )
        self.range = w.Dropdown(options=list(RANGES), description="over", tooltip="how far the givens roam")
        for each in (self.result, self.wished, self.range):
            each.observe(lambda _: self.refresh(), "value")
        self.chart, self.told, self.each = w.HTML(), w.HTML(), w.HTML()
        self.roamed, self.range_chart = w.HTML(), w.HTML()
        self.searching = Searching(self._say)
        self.printing = Printing(panel, "what matters")
        row = w.HBox([self.result, self.wished, self.range], _dom_classes=("fw-row",))
        super().__init__(
            [
                row,
                self.told,
                self.chart,
                w.HBox([self.searching, self.roamed], _dom_classes=("fw-row",)),
                self.range_chart,
                self.each,
                self.printing,
            ],
            _dom_classes=("fw-explore", "fw-matters"),
        )

    def refresh(self) -> None:
        """Show what matters to the panel's case."""
        try:
            words, picture = self._here()
        except KitError as error:
            words, picture = _fault(str(error)), ""
        self.told.value, self.chart.value, self.each.value = words, picture, self._results()
        self.range_chart.value = ""
        self._print()
        case, name = self.panel.case, self.result.value
        real = [each for each, given in case.model.free.items() if given.kind == "real"]
        ranges = about(case, real, RANGES[self.range.value])
        self.searching.begin(lambda watch: sensitivity(case, name, ranges, watch=watch), self._roaming, self._say_fault)

    def sections(self) -> list[tuple[str, str]]:
        """Return the charts with their sentences, where they are to be printed."""
        return self.printing.sections()

    # -- inside ---------------------------------------------------------------------------------------

    def _here(self) -> tuple[str, str]:
        """Return what brings the uncertainty at the design, and what to measure better."""
        from kit.drawing.charts_svg import Bar, bars_svg

        case, display, name = self.panel.case, self.panel.display, self.result.value
        found = budget(case, name)
        relation = case.model.relations[name]
        if not found.u > 0:
            return f"<p>{escape(sentence(f'nothing that {called(relation)} rests on is uncertain'))}</p>", ""
        target = parse(self.wished.value, relation.unit).base if self.wished.value.strip() else found.expanded / 2
        plan = needed(found, target)
        wanted, now = (uncertainty(each, relation.unit, display) for each in (target, found.expanded))
        words = f"{called(relation)} is uncertain by ±\u00a0{now} (k = 2)"
        steps = [
            f"{called(row.entry.given)} to ±\u00a0{uncertainty(row.half, row.entry.given.unit, display)} instead of "
            f"±\u00a0{uncertainty(row.entry.spread.half, row.entry.given.unit, display)}"
            for row in plan.together
            if row.half is not None
        ]
        if target >= found.expanded:
            words += f", no more than the ±\u00a0{wanted} wished"
        else:
            words += f"; to reach ±\u00a0{wanted}, measure {'; and '.join(steps)}"
            alone = [row for row in plan.rows[:1] if row.half is not None]
            if len(steps) > 1 and alone:
                entry = alone[0].entry
                half = uncertainty(alone[0].half or 0.0, entry.given.unit, display)
                words += f"; or {called(entry.given)} alone to ±\u00a0{half}"
        bars = []
        for row in found.rows[:MOST]:
            half = uncertainty(row.entry.spread.half, row.entry.given.unit, display)
            bars.append(Bar(called(row.entry.given), row.share, f"of ±\u00a0{half}"))
        title = f"What brings the uncertainty of {called(relation)}: shares of its variance"
        return f"<p>{escape(sentence(words))}</p>", bars_svg(bars, title, ids=f"here{id(self)}")

    def _print(self) -> None:
        """Note what is printed with the sheet: what is shown now."""
        pictures = {"at the design": self.chart.value, "over the range": self.range_chart.value}
        self.printing.pictures = {
            f"{self.result.value} {name}": picture for name, picture in pictures.items() if picture
        }
        self.printing.words = self.told.value + (self.roamed.value if self.range_chart.value else "")

    def _say(self, words: str) -> None:
        self.roamed.value = f'<p role="status">{escape(sentence(words))}</p>'

    def _say_fault(self, words: str) -> None:
        self.roamed.value = _fault(words)

    def _roaming(self, found: Sensitivity) -> None:
        """Show what moves the result while all givens roam."""
        from kit.drawing.charts_svg import Bar, bars_svg

        if not found.settled:
            self._say_fault(
                f"over {self.range.value} a few corners outweigh all else, so that no share can be told; "
                "take a narrower range"
            )
            return
        case, name = self.panel.case, found.result
        first = found.rows[0]
        relation = case.model.relations[name]
        low, high = (relation.show(each, self.panel.display) for each in (found.low, found.high))
        with_others = f", {100 * max(first.total - first.first, 0):.0f} % more together with others"
        words = (
            f"over {self.range.value} {called(relation)} goes from {low} to {high} (90 %), and "
            f"{called(case.model.givens[first.name])} moves it most: {100 * max(first.first, 0):.0f} % alone"
            f"{with_others if first.total - first.first > 0.005 else ''}"
        )
        bars = [Bar(called(case.model.givens[row.name]), row.first, whole=row.total) for row in found.rows[:MOST]]
        title = f"What moves {called(relation)} over {self.range.value}"
        chart = bars_svg(bars, title, ("alone (first order)", "with others (total)"), ids=f"range{id(self)}")
        self._say(words)
        self.range_chart.value = chart
        self._print()

    def _results(self) -> str:
        """Return a sentence per result: what to measure better first."""
        items = []
        for name, relation in self.panel.model.results.items():
            try:
                found = budget(self.panel.case, name)
            except KitError as error:
                items.append(f"{called(relation)}: {error}")
                continue
            if found.u > 0:
                items.append(self._first_of(found))
        listed = "".join(f"<li>{escape(sentence(item))}</li>" for item in items)
        return f'<p class="fw-label">What to measure better, result by result</p><ul>{listed}</ul>' if listed else ""

    def _first_of(self, found: Budget) -> str:
        relation, row, display = self.panel.model.relations[found.result], found.rows[0], self.panel.display
        half = uncertainty(row.entry.spread.half / 2, row.entry.given.unit, display)
        rest = found.k * (found.u**2 - 0.75 * row.contribution**2) ** 0.5
        was, then = (uncertainty(each, relation.unit, display) for each in (found.expanded, rest))
        return (
            f"{called(relation)} ±\u00a0{was}: {100 * row.share:.0f} % of it comes from {called(row.entry.given)}; "
            f"known to ±\u00a0{half}, twice as well, it would leave ±\u00a0{then}"
        )


def _fault(words: str) -> str:
    return f'<p class="fw-fault" role="alert">{escape(sentence(words))}</p>'
