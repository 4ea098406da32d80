"""The best design: what is wished, what may vary and in which sizes, what was found, what binds, and a front."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model.input_lists import Many, Rows, Steps
from kit.core.quantity import parse
from kit.core.search.stock import ANY, fitting
from kit.core.search.wished import wishes
from kit.core.verdict import percent
from kit.sheet.words import sentence
from kit.ui.explore.map_picture import MapPicture
from kit.ui.explore.printing import Printing
from kit.ui.explore.searching import Searching
from kit.ui.panel.labels import in_labels, labels

if TYPE_CHECKING:
    from kit.core.model import Calculation, Case, Wish
    from kit.core.search import Best, Vary
    from kit.core.search.watch import Watch
    from kit.drawing.axes_svg import Plot
    from kit.ui.panel.state import PanelState

NONE = "no second wish"


class BestView(w.VBox):
    """The search for the best design of a panel's model; what it finds is taken with a button."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel
        more = panel.job.parts[panel.part].wishes if panel.job and panel.part and panel.part in panel.job.parts else ()
        self.said = w.HTML()
        try:
            known = wishes(panel.model, more)
        except KitError as error:
            known = wishes(panel.model)
            self._say(str(error), fault=True)
        options = [(wish.words, wish) for wish in known]
        self.wish = w.Dropdown(options=options, description="wish", tooltip="what would be best")
        self.second = w.Dropdown(
            options=[(NONE, None), *options], description="and", tooltip="a second wish: a front between both"
        )
        self.level = w.Text(
            description="chance", tooltip="how likely all limits hold together", continuous_update=False
        )
        self.level.value = f"{100 * panel.judged.level:g} %"
        may = [*panel.model.free, *panel.model.picks]
        self.vary = w.SelectMultiple(
            options=labels(panel.model, may),
            description="may vary",
            rows=8,
            tooltip="what may vary: givens, and rows of tables; Ctrl chooses several",
        )
        self.vary.observe(lambda _: self._sizes(), "value")
        self.sizes: dict[str, w.Dropdown] = {}
        self.rows = w.VBox()
        self.button = w.Button(description="Find the best", tooltip="search; nothing changes until a design is taken")
        self.button.on_click(lambda _: self.find())
        self.searching = Searching(self._say)
        self.accept = w.Button(description="Take this design", tooltip="show it in the panel; undo takes it back")
        self.accept.on_click(lambda _: self.take(self._best.case if self._best else None))
        self.picture = MapPicture(self.click, lambda _x, _y: None)
        self.printing = Printing(panel, "front of two wishes")
        self._best: Best | None = None
        self._asked: Case | None = None
        self._front: tuple[Plot, tuple[Case, ...], Wish, Wish] | None = None
        head = w.HBox([self.wish, self.second, self.level], _dom_classes=("fw-row",))
        act = w.HBox([self.button, self.searching, self.accept], _dom_classes=("fw-row",))
        super().__init__(
            [head, self.vary, *_stay(panel.model), self.rows, act, self.said, self.picture, self.printing],
            _dom_classes=("fw-explore", "fw-best"),
        )
        self._show()

    def refresh(self) -> None:
        """Say that what was found was found for another design than the panel shows now."""
        if self._asked is not None and self._asked is not self.panel.case:
            self._best = self._front = self._asked = None
            self._say("the design has changed since; search again")
            self._show()

    def sections(self) -> list[tuple[str, str]]:
        """Return the front, where it is to be printed with the sheet."""
        return self.printing.sections()

    def find(self) -> None:
        """Search for the best design, and for a front where there is a second wish; the panel stays as it is."""
        from kit.core.search import best, front

        self._best = self._front = None
        self._show()
        case, one, other, vary = self.panel.case, self.wish.value, self.second.value, self._varied()

        def work(watch: Watch) -> tuple[Best, tuple[Case, ...]]:
            level = parse(self.level.value, "%").base
            found = best(case, one, vary, level=level, watch=watch)
            return found, () if other is None else front(case, (one, other), vary, level=level, watch=watch)

        def done(answer: tuple[Best, tuple[Case, ...]]) -> None:
            self._asked = case
            if case is not self.panel.case:
                self.refresh()
                return
            self._best, cases = answer
            self.said.value = self._told(self._best)
            if len(cases) == 1:
                self.said.value += "<p>One design meets both wishes best: neither takes from the other here.</p>"
            if cases:
                self._plot(cases, one, other)
            self._show()

        self._say("searching …")
        self.searching.begin(work, done, lambda words: self._say(in_labels(self.panel.model, words), fault=True))

    def take(self, case: Case | None) -> None:
        """Show a design that was found in the panel."""
        if case is None:
            return
        asked, self._asked = self._asked, None
        words = self.wish.value.words
        self.panel.show_case(case, what=f"best for {words}")
        self._asked = self.panel.case if asked is not None else None
        self._redraw()

    def click(self, across: float, up: float) -> None:
        """Take the design of the front that is nearest to a place."""
        if self._front is None:
            return
        from kit.drawing.charts_svg import nearest

        plot, cases, one, other = self._front
        self.take(cases[nearest(plot, cases, one.of, other.of, across, up)])

    # -- inside ---------------------------------------------------------------------------------------

    def _varied(self) -> list[Vary]:
        from kit.core.search import Vary

        return [Vary(name, self.sizes[name].value) if name in self.sizes else Vary(name) for name in self.vary.value]

    def _sizes(self) -> None:
        """Offer the sizes of each given that may vary."""
        self.rows.children = tuple(map(self._row, self.vary.value))

    def _row(self, name: str) -> w.HBox:
        """Return what stands beside a given or a row of a table that may vary."""
        model = self.panel.model
        if name in model.picks:
            return w.HBox([w.HTML(escape(f"{model.called(name)}: any row of the table"))], _dom_classes=("fw-row",))
        if name not in self.sizes:
            about = f"{model.called(name)}: which sizes can be bought or set"
            self.sizes[name] = w.Dropdown(options=fitting(model.free[name]), value=ANY, tooltip=about)
        return w.HBox([w.HTML(escape(model.called(name))), self.sizes[name]], _dom_classes=("fw-row",))

    def _told(self, found: Best) -> str:
        """Return what was found, in words."""
        display, case, wish = self.panel.display, found.case, found.wish
        model, of = case.model, case.model.part(wish.of)

        def worth(base: float) -> str:
            return of.show(base, display)

        texts = {name: case.picks.get(name) or case.show(name, display) for name in found.space.names}
        items = [f"{model.called(name)}: {text}" for name, text in texts.items()]
        if not found.held:
            unsure = [check.name for check in case.checks if check.chance < found.level]
            failing = ", ".join(f"“{model.limits[name].words}”" for name in unsure)
            words = (
                f"no design holds with a chance of {percent(found.level)} while these vary; at the nearest all limits "
                f"hold with {percent(found.chance)}"
            )
            words += f"; not sure enough: {failing}" if failing else ""
            return f'<p class="fw-fault" role="alert">{escape(sentence(words))}</p>{_listed(items)}'
        words = (
            f"{wish.words}: {worth(found.value)} instead of {worth(found.before)}; all limits hold together with "
            f"{percent(found.chance)}"
        )
        items += [
            f"“{model.limits[each.limit].words}” binds: if it allowed a tenth more, {worth(each.value)} could be had"
            for each in found.binding
        ]
        items += [f"{model.called(name)} stands at an end of what it may be" for name in found.ends]
        return f'<p role="status">{escape(sentence(words))}</p>{_listed(items)}'

    def _plot(self, cases: tuple[Case, ...], one: Wish, other: Wish) -> None:
        from kit.drawing.charts_svg import box_of, front_plot

        plot = front_plot(cases, one.of, other.of, self.panel.case, self.panel.display)
        self._front = plot, cases, one, other
        self.picture.box = box_of(plot)
        self.picture.label = f"front between {one.words} and {other.words}; click a point to take its design"
        self._redraw()

    def _redraw(self) -> None:
        """Draw the front with the design at hand, and list its designs."""
        if self._front is None:
            return
        from kit.drawing.charts_svg import front_svg
        from kit.sheet.alternatives import alternatives_table

        plot, cases, one, other = self._front
        self.picture.picture = front_svg(plot, cases, one.of, other.of, self.panel.case)
        self.printing.pictures = {f"{one.of} {other.of}": self.picture.picture}
        numbered = {str(number): case for number, case in enumerate(cases, 1)}
        self.printing.words = alternatives_table(numbered, self.panel.display, level=self.panel.judged.level)

    def _show(self) -> None:
        self.accept.layout.display = "" if self._best else "none"
        for each in (self.picture, self.printing):
            each.layout.display = "" if self._front else "none"

    def _say(self, words: str, *, fault: bool = False) -> None:
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        self.said.value = f"<p {kind}>{escape(sentence(words))}</p>"


def _listed(items: list[str]) -> str:
    return "<ul>" + "".join(f"<li>{escape(sentence(item))}</li>" for item in items) + "</ul>"


def _stay(model: Calculation) -> list[w.Widget]:
    """Return the words on lists that a person types, which do not vary; nothing where there are none."""
    lists = [each.meaning for each in model.inputs.values() if isinstance(each, Rows | Many | Steps)]
    words = f"What is stated in lists stays as it is: {'; '.join(lists)}."
    return [w.HTML(f'<p class="fw-note">{escape(words)}</p>')] if lists else []
