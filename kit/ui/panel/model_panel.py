"""An interactive panel over a model: controls on the left, verdict, answers and figure on the right.

The panel knows nothing that the model does not state. One case is its whole state; a control asks the case
for a changed one, and what a reader sees is written anew from that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.build import Build
from kit.core.errors import KitError
from kit.core.model import Calculation, Case, SpanError, Stated
from kit.core.model.input_origins import cell_origins
from kit.core.quantity import Display, ValueOrigin
from kit.core.verdict import LEVEL, Verdict
from kit.job.fits import fitting_parts
from kit.job.verdict import standalone_verdict
from kit.sheet import sections
from kit.sheet.style import panel_style
from kit.subjects import subject
from kit.ui.explore.room import Room
from kit.ui.panel.build_view import BuildView
from kit.ui.panel.field import Field, PickField
from kit.ui.panel.flash import flashing
from kit.ui.panel.groups import in_groups
from kit.ui.panel.input_view import InputView
from kit.ui.panel.labels import in_labels, labels
from kit.ui.panel.origin_editor import NOT_YOURS
from kit.ui.panel.rests_on import RestsOn
from kit.ui.panel.saving import Saving
from kit.ui.panel.shop_offer import Shopping, stated_anew
from kit.ui.panel.solve_view import Solving
from kit.ui.panel.static_view import StaticView
from kit.ui.panel.steps import Steps
from kit.ui.panel.typed import given_anew, picked_anew

if TYPE_CHECKING:
    from kit.job import Job


class Panel(w.VBox):
    """A model's panel. `case` is what it shows; changing a control replaces it."""

    def __init__(
        self, case: Case, *, display: Display | None = None, job: Job | None = None, part: str | None = None
    ) -> None:
        self.case, self.start = case, case  # what it shows, and what the job's file says
        self.first = case  # with which it was opened; a value typed back to that gets its date and method back
        self.job, self.part = job, part
        self.changed: list[Callable[[], None]] = []  # called after every change, once it is written
        self.display = display or (job.display if job else Display())
        self.verdict, self.answer, self.formula = w.HTML(), w.HTML(), w.HTML()
        self.shown = w.Dropdown(
            options=labels(self.model, self.model.relations),
            value=self._first_shown(),
            tooltip="the quantity whose formula is shown with the numbers put in",
        )
        self.shown.observe(lambda _: self._write_formula(), "value")
        told, self.shop = (self.change, self.tell, self.hold), Shopping(self)
        self.picks = {
            name: PickField(pick, case.table(pick.table), case.picks[name], case.origins[name], *told)
            for name, pick in case.model.picks.items()
        }
        self.fields = {
            name: Field(given, case.entries[name], self.display, *told, linked=self._linked(name), shop=self.shop)
            for name, given in case.model.free.items()
        }
        self.units = w.ToggleButtons(
            options=[("millimeters", "mm"), ("inches", "in")],
            value=self.display.system,
            tooltips=["show lengths in millimeters", "show lengths in inch fractions"],
        )
        self.units.observe(self._other_units, "value")
        self.solving = Solving(self, self.shown.value)
        self.inputs = self._inputs()
        self.rests_on = RestsOn(self)
        self.saving = Saving(self)
        self.steps = Steps(self)
        self.build_view = BuildView(self) if subject(self.model.name).build else None
        self.room = Room(self)
        self.more = self._more()
        self.static_view = StaticView(self)
        super().__init__(self._lay_out())
        self.add_class("fw-panel")
        self.add_class("fw-live")
        self._write()
        self.rests_on.judge()

    @property
    def model(self) -> Calculation:
        """The panel's model."""
        return self.case.model

    @property
    def build(self) -> Build | None:
        """The shape that goes with the case, where the model has a build and it succeeds."""
        return self.build_view.build if self.build_view else None

    @property
    def shown_build(self) -> Build | None:
        """The same with what is stated beside the givens, as a reader is shown it."""
        return self.build_view.shown() if self.build_view else None

    def final_build(self) -> Build | None:
        """The same, never coarse, with what stands for all its inputs, and settled, as a file shows it."""
        return self.build_view.signed() if self.build_view else None

    @property
    def raw(self) -> Mapping[str, Any]:
        """What is stated beside the givens, as in a job's file."""
        return self.inputs.raw

    @property
    def links(self) -> Mapping[str, Any]:
        """The parts that are taken, by what is taken of them."""
        return self.inputs.links

    def restate_static(self) -> None:
        """Write the static view again, once the controls have come to rest."""
        self.static_view.refresh_soon()

    def more_of_sheet(self) -> list[tuple[str, str]]:
        """Return what was looked at round the design, as further parts of its sheet."""
        return self.room.sections()

    @property
    def judged(self) -> Verdict:
        """What is known of the case, of what is built of it, and of the parts that it rests on."""
        level = self.job.level if self.job else LEVEL
        cells = cell_origins(self.model.inputs, self.raw, example=self.job.example if self.job else False).values()
        return standalone_verdict(self.case, self.build, upstream=self.rests_on.known, level=level, cells=cells)

    # -- what controls call ---------------------------------------------------------------------------

    def change(self, name: str, text: str) -> None:
        """Take what was typed or moved for a given or a pick; a wrong entry is explained beside it."""
        field = self.fields.get(name)
        try:
            known = (self.start, self.first)
            anew = given_anew(known, name, text, self.display) if field else picked_anew(self.start, name, text)
            self.case = self.case.changed(anew, beyond=self._beyond(name, field))
        except KitError as error:
            if field is None:
                self.picks[name].complain(in_labels(self.model, str(error)), self.case.picks[name])
                return
            asks = isinstance(error, SpanError) and error.given == name
            field.complain(in_labels(self.model, getattr(error, "words", str(error))), about_span=asks)
            self.hold()
            return
        if field is not None:
            field.settle(self.case.entries[name], linked=self._linked(name))
        else:
            self.picks[name].say(self.case.origins[name])
            self._show_filled(name)
        self._write()

    def tell(self, name: str, text: str, origin: ValueOrigin) -> None:
        """Take the origin of a given or a pick as a person states it, with the text of its value and ±, or its row."""
        if name in self.picks:
            filled = {each: self.case.typed.get(each) for each in self.model.picks[name].fills}
            self.show_case(self.case.changed({**filled, name: Stated(text, origin=origin)}))
            return
        before = self.case.typed.get(name)
        kept = before if isinstance(before, Stated) and before.origin.kind not in NOT_YOURS else Stated(text)
        try:
            self.case = self.case.changed({name: stated_anew(kept, text, origin)})
        except KitError as error:
            self.fields[name].complain(in_labels(self.model, str(error)), about_span=False)
            self.hold()
            return
        self.fields[name].show(self.case.entries[name])
        self._write()

    def take_all(self, texts: dict[str, str]) -> None:
        """Take several givens as proposed. Raises KitError, and nothing changes, where the model refuses one."""
        found = ValueOrigin("solved", how="proposed from what is linked")
        self.show_case(self.case.changed({name: Stated(text, origin=found) for name, text in texts.items()}))

    def show_case(self, case: Case, *, what: str = "") -> None:
        """Show another case of the same model; `what` is the step's name, else it is named by what changed."""
        self._show_controls(case)
        self.steps.named = what
        self._write()

    def go_to(self, case: Case, raw: Mapping[str, Any], links: Mapping[str, Any]) -> None:
        """Show an earlier or later state of the panel: its case, and what is stated beside the givens."""
        self._show_controls(case)
        self.inputs.show(raw, links)
        self._restate()

    @property
    def refused(self) -> tuple[str, ...]:
        """What stands in the panel and cannot be taken, in words."""
        picks = (name for name, pick in self.picks.items() if pick.refused)
        fields = (name for name, field in self.fields.items() if field.refused)
        return tuple(map(self.model.called, (*picks, *fields, *self.inputs.refused)))

    def hold(self) -> None:
        """Hold off what would write something else than the panel shows."""
        self.saving.hold()
        if self.build_view:
            self.build_view.hold()

    def keep(self, raw: Mapping[str, Any]) -> None:
        """State inputs by which what is shown is built again; `save` writes them like any that were typed."""
        self.inputs.take(raw)
        if self.build_view:
            self.build_view.restated()

    def reset(self) -> None:
        """Go back to the case that the panel began with."""
        self._show_controls(self.start, whole=True)
        self.steps.named = "Reset"
        self.inputs.reset()
        self._restate()

    # -- inside ---------------------------------------------------------------------------------------

    def _show_controls(self, case: Case, *, whole: bool = False) -> None:
        """Take a case, and show it in the controls of what differs, or in all of them."""
        before, self.case = self.case, case
        for name, field in self.fields.items():
            outside = name in case.beyond
            if whole or case.entries[name] != before.entries[name] or outside != (name in before.beyond):
                field.show(case.entries[name], beyond=outside, linked=self._linked(name))
        for name, pick in self.picks.items():
            if whole or case.picks[name] != before.picks[name] or case.origins[name] != before.origins[name]:
                pick.show(case.picks[name], case.origins[name])

    def _beyond(self, name: str, field: Field | None) -> frozenset[str]:
        if field is None or field.beyond is None:
            return self.case.beyond
        return self.case.beyond | {name} if field.beyond else self.case.beyond - {name}

    def _linked(self, name: str) -> bool:
        """Return whether a given is what the job's link says it is."""
        if self.job is None or self.part is None or self.case.typed.get(name) != self.start.typed.get(name):
            return False
        entry = self.job.parts[self.part].givens.get(name)
        return entry is not None and entry.link is not None

    def _inputs(self) -> InputView:
        job, part = self.job, self.part
        return InputView(
            self.model.inputs,
            self.model.givens,
            job.raw_inputs(self.part) if job and self.part else {},
            self._restate,
            takes={name: fitting_parts(job, part, name) for name in job.takes(part)} if job and part else {},
            links=job.links(self.part) if job and self.part else {},
            attempt=lambda links: self.build_view.attempt(links) if self.build_view else None,
            on_faults=self.hold,
            example=job.example if job else False,
        )

    def _restate(self) -> None:
        """Make anew what depends on what is stated beside the givens."""
        self.rests_on.forget()
        if self.build_view:
            self.build_view.restated()
        self._write()
        self.rests_on.judge()

    def _show_filled(self, pick: str) -> None:
        for name in self.model.picks[pick].fills:
            self.fields[name].show(self.case.entries[name])

    def _other_units(self, change: dict[str, Any]) -> None:
        self.display = replace(self.display, system=change["new"])
        for name, field in self.fields.items():
            field.show(self.case.entries[name], self.display)
        self._write()

    def _write(self) -> None:
        """Write everything that depends on the case."""
        case, display = self.case, self.display
        if self.build_view:
            self.build_view.refresh()
        self.write_verdict()
        answer = sections.answer(case, display, ids=f"fw{id(self)}", level=self.judged.level)
        self.answer.value = flashing(answer, self.answer.value)
        self._write_formula()
        self._write_more()
        self.room.refresh()
        self.solving.refresh()
        self.steps.note()
        self.hold()
        self.static_view.refresh_soon()
        for told in self.changed:
            told()

    def write_verdict(self) -> None:
        """Write whether the limits are met, those of the shape among them."""
        self.verdict.value = sections.verdict_box(self.judged, self.display, more=sections.outside_list(self.case))

    def _write_formula(self) -> None:
        self.formula.value = sections.formula(self.case, self.display, self.shown.value)

    def _first_shown(self) -> str:
        """The quantity that the first limit judges, where it is one; else the first result."""
        limited = [limit.judges for limit in self.model.limits.values() if not limit.size]
        for name in self.model.results:
            if name in limited:
                return name
        return next(iter(self.model.results))

    def _write_more(self, _change: object = None) -> None:
        """Write the part below that is open; the closed ones wait until somebody looks."""
        opened = self.more.selected_index
        if opened is not None:
            writer = (sections.derivation, sections.budgets, sections.background)[opened]
            self.more.children[opened].value = writer(self.case, self.display)

    def _more(self) -> w.Accordion:
        more = w.Accordion(
            children=[w.HTML(), w.HTML(), w.HTML()],
            titles=["Derivation with these numbers", "Uncertainty budget", "Assumptions and sources"],
            selected_index=None,
        )
        more.observe(self._write_more, "selected_index")
        return more

    def _lay_out(self) -> list[w.Widget]:
        heading = w.HTML(style() + sections.heading(self.model))
        controls = w.VBox(in_groups(self.model, self.fields, self.picks, self._linked), _dom_classes=("fw-controls",))
        below = w.VBox([self.units, self.solving, self.saving, self.steps], _dom_classes=("fw-below",))
        shown = w.HBox([w.HTML("formula of"), self.shown], _dom_classes=("fw-row", "fw-shown"))
        beside = [self.build_view.beside] if self.build_view else []
        self.answer.add_class("fw-answer")
        answers = w.VBox([*beside, self.answer, shown, self.formula], _dom_classes=("fw-answers",))
        columns = w.Layout(grid_template_columns="repeat(auto-fit, minmax(min(100%, 340px), 1fr))")
        grid = w.GridBox([w.VBox([controls, below]), answers], layout=columns, _dom_classes=("fw-grid",))
        inputs = [self.inputs] if self.inputs.any else []
        shape = [self.build_view] if self.build_view else []
        return [heading, self.verdict, grid, *inputs, *shape, self.room, self.more]

    def __repr__(self) -> str:
        of = f" of part {self.part}" if self.part else ""
        return f"<panel{of} on {self.model.name}: {self.judged.words}>"

    def _ipython_display_(self) -> None:
        self.static_view.display(self)

    def export(self, folder: Path) -> Path:
        """Write the worked sheet of what the panel shows into `folder`; return the file."""
        from kit.sheet.write import write_sheet

        origin = self.saving.origin()
        build = self.final_build()
        return write_sheet(
            self.case,
            folder,
            display=self.display,
            origin=origin,
            build=build,
            verdict=self.judged,
            more=self.more_of_sheet(),
        )


@cache
def style() -> str:
    """Return the style element of a panel: the sheet's rules and the panel's own."""
    return f"{panel_style()}<style>{(files('kit.ui.panel') / 'panel.css').read_text(encoding='utf-8')}</style>"


def panel(
    model: str | Calculation | None = None,
    *,
    job: Job | None = None,
    part: str | None = None,
    display: Display | None = None,
    **givens: Any,
) -> Panel:
    """Return the panel of a model, or of a part of a job.

    Raises:
        KitError: an unknown model or part, or a given that cannot be read.

    >>> panel("scale.cursor", eye_height="500 mm", eye_offset="30 mm")
    <panel on scale.cursor: the limit holds; 6 of 9 values are examples, not yet yours>
    """
    from kit.subjects import model as named

    if job is not None and part is not None:
        return Panel(job.case(part), display=display, job=job, part=part)
    if model is None:
        raise KitError("a panel needs a model, such as panel('stop.deflection'), or a job and one of its parts")
    stated = named(model) if isinstance(model, str) else model
    return Panel(stated.at(**givens), display=display)
