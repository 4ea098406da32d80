"""A map round a panel's design: what to show over which two givens, and the design moved on it."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from html import escape
from time import monotonic
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import numpy as np

from kit.core.errors import KitError
from kit.core.model.grid import Grid, axes_of, grid, least_chance
from kit.drawing.map_strip import strip_svg
from kit.drawing.map_svg import Equal, Sampled, frame_of, map_svg
from kit.job.pins import alike
from kit.sheet.tables import MARK
from kit.sheet.words import sentence
from kit.ui.explore.map_picture import MapPicture
from kit.ui.explore.printing import Printing
from kit.ui.idle import Action, Idle
from kit.ui.panel.labels import labels

if TYPE_CHECKING:
    from kit.core.model import Calculation, Case
    from kit.core.quantity import Display
    from kit.ui.panel.build_view import BuildView
    from kit.ui.panel.state import PanelState

    Changed = Callable[[Mapping[str, str]], Case]

COARSE = 7  # points each way at which the limits of what is built are sampled
REST = 1.0  # seconds without a change after which they are
FEW, SOME, MANY = 48, 120, 400  # points each way: for a first look, for chances, for a map
SOON = 0.05  # seconds that a map may take
ZOOMS = {"whole span": 1.0, "half of it": 0.5, "a quarter": 0.25, "a tenth": 0.1}
MOST_MAPS = 9
RESULT, CHANCE = "a result", "how likely all limits hold"


class MapView(w.VBox):
    """The map of a panel's model; it follows the panel, and the panel follows the design that is moved on it."""

    def __init__(self, panel: PanelState) -> None:
        self.panel = panel
        known = axes_of(panel.case)
        axes = labels(panel.model, known)
        results = labels(panel.model, panel.model.results)
        judged = (limit.judges for limit in panel.model.limits.values())
        first = next((name for name in judged if name in panel.model.results), results[0][1])
        across, up = [*(name for name in known if _moves(panel.case, name, first)), *known][:2]
        self.across = _menu("across", axes, across)
        self.up = _menu("up", axes, up if up != across else next(name for name in known if name != across))
        self.result = _menu("result", results, first)
        self.kind = _menu("bands show", [(each, each) for each in (RESULT, CHANCE)], RESULT)
        self.zoom = _menu("axes reach over", [(each, each) for each in ZOOMS], "whole span")
        parts = [*panel.model.relations, *known]
        self.equal = _menu("lines of equal", [("nothing", ""), *labels(panel.model, parts)], "")
        thirds = [*known, *(n for n, given in panel.model.free.items() if given.kind == "choice"), *panel.model.picks]
        named = [(panel.model.called(name), name) for name in thirds]
        self.third = _menu("small maps of", [("nothing", ""), *named], "")
        self.strip = w.HTML()
        self.printing = Printing(panel, "map")
        self.picture = MapPicture(self.move, self.look)
        self.said = w.HTML()
        self._made: tuple[object, Grid, Any] | None = None
        self._sampled: list[Sampled] = []  # of the grid that is shown
        self._sampling: Idle | None = None
        for menu in (self.across, self.up, self.result, self.kind, self.zoom, self.equal, self.third):
            menu.observe(lambda _: self.refresh(), "value")
        shown = [self.across, self.up, self.kind, self.result, self.zoom, self.equal, self.third]
        menus = w.HBox(shown, _dom_classes=("fw-row",))
        children = [menus, self.picture, self.said, self.strip, self.printing]
        super().__init__(children, _dom_classes=("fw-explore",))

    def refresh(self) -> None:
        """Draw the map of the panel's case; a fault is shown in its place."""
        case, display = self.panel.case, self.panel.display
        try:
            made, chance = self._grid()
        except KitError as error:
            self.picture.picture, self.printing.pictures = "", {}
            self._say(f'<p class="fw-fault" role="alert">{escape(sentence(str(error)))}</p>')
            return
        frame = frame_of(made)
        ends = ((frame.x, case.base[made.across]), (frame.y, case.base[made.up]))
        self.picture.design = [(base - low) / (high - low) for (low, high), base in ends]
        self.picture.label = f"map over {case.model.called(made.across)} and {case.model.called(made.up)}"
        axes = {made.across: made.x[None, :], made.up: made.y[:, None]}
        equal = None
        if self.equal.value:
            found = case.compute(axes, [self.equal.value])[self.equal.value]
            equal = Equal(self.equal.value, np.broadcast_to(np.asarray(found, dtype=float), made.result.shape))
        self.picture.picture = map_svg(
            case, made, display, chance=chance, equal=equal, sampled=self._sampled, ids=f"map{id(self)}"
        )
        self.printing.pictures = {f"{made.across} {made.up}": self.picture.picture}
        self._say(ruled_out(case.model, made))
        self._side_by_side()

    def move(self, across: float, up: float) -> None:
        """Take the design to a place on the map; a place that the model refuses gets a sentence."""
        texts = self._texts(across, up)
        if texts is None:
            return
        try:
            self.panel.show_case(self.panel.case.changed(texts))
        except KitError as error:
            self._say(f'<p class="fw-fault" role="alert">{escape(sentence(str(error)))}</p>')

    def look(self, across: float, up: float) -> None:
        """Tell all numbers of a place on the map, which stays where it is."""
        texts = self._texts(across, up)
        if texts is None:
            return
        display, level, model = self.panel.display, self.panel.judged.level, self.panel.model
        where = ", ".join(f"{model.called(name)} {text}" for name, text in texts.items())
        try:
            case = self.panel.case.changed(texts)
            results = "; ".join(f"{model.called(name)}: {case.show(name, display)}" for name in model.results)
            failing = [check.words(display, level) for check in case.checks if not check.ok]
        except KitError as error:
            self._say(f"<p>{escape(sentence(f'{where}: {error}'))}</p>")
            self.picture.tip = self.said.value
            return
        state = f"fails: {'; '.join(failing)}" if failing else "all limits hold"
        self._say(f"<p>{escape(sentence(f'{where}: {state}'))} {escape(sentence(results))}</p>")
        numbers = ((model.called(name), case.show(name, display)) for name in model.results)
        rows = "".join(f"<tr><td>{escape(name)}</td><td>{escape(text)}</td></tr>" for name, text in numbers)
        limits = "".join(
            f"<p>{MARK[check.outcome(level)]} {escape(check.words(display, level))}</p>" for check in case.checks
        )
        self.picture.tip = f"<p><b>{escape(where)}</b></p><table>{rows}</table>{limits}"

    def sample(self) -> Iterator[Action]:
        """Yield the steps that look at the limits of what is built, at one point of a coarse grid after the other."""
        view, made = self.panel.build_view, self._made
        if view is None or made is None:
            return
        case, frame = self.panel.case, frame_of(made[1])
        shares = (np.arange(COARSE) + 0.5) / COARSE
        points = [(float(across), float(up)) for up in shares for across in shares]
        for number, at in enumerate(points, 1):
            texts = self._texts(*at)
            assert texts is not None
            yield partial(self._look_at, view, case.changed, texts, frame.at(*at))
            if number % COARSE == 0:
                yield self.refresh

    def sections(self) -> list[tuple[str, str]]:
        """Return the map, where it is to be printed with the sheet."""
        return self.printing.sections()

    # -- inside ---------------------------------------------------------------------------------------

    def _grid(self) -> tuple[Grid, Any]:
        """Return the grid and its chances, made anew only where more than the design's place has changed."""
        case, axes = self.panel.case, (self.across.value, self.up.value)
        others = tuple((name, entry.base, entry.u) for name, entry in case.entries.items() if name not in axes)
        spread = tuple(case.entries[name].u for name in axes)
        key = (*axes, self.result.value, self.kind.value, self.zoom.value, others, spread, self.panel.raw)
        if self.zoom.value != "whole span":
            key = (*key, *(case.base[name] for name in axes))
        if self._made is None or self._made[0] != key:
            ends = self._ends(axes[0]), self._ends(axes[1])
            begin = monotonic()
            made = grid(case, *axes, self.result.value, points=FEW, ends=ends)
            dense = MANY if (monotonic() - begin) * (MANY / FEW) ** 2 < SOON else SOME
            chances = self.kind.value == CHANCE
            if chances or (monotonic() - begin) * (SOME / FEW) ** 2 < 2 * SOON:
                made = grid(case, *axes, self.result.value, points=SOME if chances else dense, ends=ends)
            self._made = key, made, least_chance(case, made) if chances else None
            self._sampled = []
            self._sample_later()
        return self._made[1], self._made[2]

    def _sample_later(self) -> None:
        """Look at the limits of what is built once the controls rest, between the kernel's other work."""
        if self._sampling is not None:
            self._sampling.stop()
            self._sampling = None
        try:
            asyncio.get_running_loop()
        except RuntimeError:
            return  # nobody looks; `sample` does it at once
        self._sampling = Idle(self.sample(), first=REST)

    def _look_at(self, view: BuildView, changed: Changed, texts: dict[str, str], at: tuple[float, float]) -> None:
        try:
            holds: bool | None = view.tried(changed(texts)).ok
        except KitError:
            holds = None
        self._sampled.append(Sampled(*at, holds))

    def _ends(self, name: str) -> tuple[float, float]:
        """Return the ends of an axis: a share of the span about the design, kept within the span."""
        (low, high), share = self.panel.model.givens[name].span, ZOOMS[self.zoom.value]
        wide, here = share * (high - low), self.panel.case.base[name]
        begin = min(max(here - wide / 2, low), high - wide)
        return begin, begin + wide

    def _side_by_side(self) -> None:
        """Draw the small maps, where a third given or a choice is to be seen."""
        self.strip.value = ""
        if not self.third.value:
            return
        axes = (self.across.value, self.up.value)
        ends = self._ends(axes[0]), self._ends(axes[1])
        try:
            cases = beside(self.panel.case, self.third.value, axes, self.panel.display)
            strip = strip_svg(cases, axes, self.result.value, self.panel.display, ends=ends, ids=f"strip{id(self)}")
        except KitError as error:
            self.strip.value = f'<p class="fw-fault" role="alert">{escape(sentence(str(error)))}</p>'
            return
        self.strip.value = strip
        self.printing.pictures = self.printing.pictures | {f"by {self.third.value}": strip}

    def _texts(self, across: float, up: float) -> dict[str, str] | None:
        """Return what is to be typed for the two givens at a place, or None while there is no map."""
        if self._made is None:
            return None
        made, display = self._made[1], self.panel.display
        texts = {}
        for name, base in zip((made.across, made.up), frame_of(made).at(across, up), strict=True):
            given = self.panel.model.givens[name]
            texts[name] = f"{base:.0f}" if given.kind == "count" else given.show(base, display)
        return texts

    def _say(self, html: str) -> None:
        self.said.value = html


def ruled_out(model: Calculation, made: Grid) -> str:
    """Return a sentence as HTML where no place of a map will do, empty where one does."""
    if not np.isfinite(made.result).any():
        words = f"{model.called(made.name)} has no value anywhere on this map; take other axes or change the design"
        return f'<p class="fw-fault" role="alert">{escape(sentence(words))}</p>'
    holds = [np.where(np.isfinite(margin), margin >= 0, False) for margin in made.margins.values()]
    if not holds or np.logical_and.reduce(holds).any():
        return ""
    never = [f"“{model.limits[name].words}”" for name, each in zip(made.margins, holds, strict=True) if not each.any()]
    words = (
        f"at no point worked on this map do all limits hold: at each {', '.join(never)} "
        f"{'fails' if len(never) == 1 else 'fail'}; change another given"
        if never
        else "at no point worked on this map do all limits hold, though each does somewhere; change another given"
    )
    return f'<p class="fw-note" role="status">{escape(sentence(words))}</p>'


def beside(case: Case, third: str, axes: tuple[str, str], display: Display) -> dict[str, Case]:
    """Return the case with several values of a third given, with each option of a choice, or with rows of a pick.

    Each under what it has there; the design's own is among them. Rows without a figure that is needed are left out.

    Raises:
        KitError: the given is an axis, or none of its values can be taken.
    """
    if third in axes:
        raise KitError(f"{case.model.called(third)} is an axis already; take another given for the small maps")
    found: dict[str, Case] = {}
    if third in case.picks:
        rows = [case.picks[third], *case.table(case.model.picks[third].table).ids]
        values: list[str | float] = list(dict.fromkeys(rows))
    else:
        given = case.model.free[third]
        low, high = given.span
        if given.kind == "choice":
            values = list(given.options)
        elif given.kind == "count":
            values = [int(each) for each in np.unique(np.linspace(low, high, MOST_MAPS).round())]
        else:
            spread = [low + share * (high - low) for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
            values = [given.unit.from_base(each) for each in sorted({*spread, case.base[third]})]
    for value in values:
        if len(found) == MOST_MAPS:
            break
        try:
            tried = case.changed({third: value})
        except KitError:
            continue
        label = tried.picks[third] if third in tried.picks else tried.show(third, display)
        here = alike(tried, case, third)
        found[f"{label} (the design)" if here else label] = tried
    if not found:
        raise KitError(f"no value of {case.model.called(third)} can be taken here; take another given")
    return found


def _moves(case: Case, name: str, result: str) -> bool:
    """Return whether a result changes while a given goes over its span."""
    found = case.compute({name: np.linspace(*case.model.givens[name].span, 5)}, [result])[result]
    known = np.atleast_1d(found)[np.isfinite(np.atleast_1d(found))]
    return bool(known.size and np.ptp(known) > 1e-9 * np.abs(known).max())


def _menu(label: str, options: list[tuple[str, str]], value: str) -> w.Dropdown:
    return w.Dropdown(options=options, value=value, description=label, tooltip=label)
