"""The geometry that goes with a panel's model: built anew while a control moves, and its files."""

from __future__ import annotations

import asyncio
import gc
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from html import escape
from time import monotonic
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.verdict import LEVEL
from kit.job.build import best_known, build_input, input_digest, standalone
from kit.job.stated import stated_tables
from kit.sheet import build_section
from kit.sheet.words import sentence
from kit.subjects import subject
from kit.ui.idle import aside
from kit.ui.panel.labels import in_labels
from kit.ui.panel.saving import NOT_WRITTEN, SHEETS, held_words
from kit.ui.panel.settling import Settling
from kit.ui.panel.slot import Slot

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.ui.panel.state import PanelState

_OFTEN = 0.2  # seconds between two reports of progress


class BuildView(w.VBox):
    """The shape below a panel. `build` is what it shows, None while there is a fault.

    The first picture, `beside`, is laid out by the panel: it stays in sight while a control moves.
    """

    def __init__(self, panel: PanelState) -> None:
        self.panel, self.subject = panel, subject(panel.model.name)
        assert self.subject.build is not None
        self.builder = self.subject.build
        self.build: Build | None = None
        self._beside: BuildInput | None = None
        self._stopping = self.busy = False
        self._said, self._proposal = 0.0, ""
        self.settling = Settling(self)
        self.numbers, self.message, self.tables, self.held = w.HTML(), w.HTML(), w.HTML(), w.HTML()
        self.slots = [Slot(self, number) for number in (0, 1)]
        self.beside = self.slots[0]
        self.files = _button("Write files", "write drawings and solids into the folder of sheets", self.write)
        self.asking = w.HBox(_dom_classes=("fw-row",))  # the question whether to write what fails
        self._answers = (
            _button("Write all the same", "write the files, each with the limit that fails", self._write_failing),
            _button("Leave it", "write nothing", self._leave),
        )
        self.stop = _button("Stop", "stop, and keep the best so far", self._stop)
        self.stop.disabled = True
        self.tasks = [
            _button(label, "takes longer; what is shown meanwhile stays", partial(self.start, label))
            for label in self.subject.tasks
        ]
        buttons = [self.files, *self.tasks, *([self.stop] if self.tasks else [])]
        if self.subject.propose:
            buttons.insert(0, _button("Propose", "set the givens from the linked parts", self.propose))
        self.more = w.Accordion(children=[self.tables], titles=["Tables"], selected_index=None)
        self.more.observe(self._write_tables, "selected_index")
        super().__init__(
            [
                w.HBox(buttons, _dom_classes=("fw-row",)),
                self.held,
                self.message,
                self.asking,
                self.numbers,
                *self.slots[1:],
                self.more,
            ]
        )
        self.add_class("fw-shape")
        gc.freeze()  # what is there by now stays: to go through it again and again would halt a moving control

    # -- what the panel calls -------------------------------------------------------------------------

    def refresh(self) -> None:
        """Make the shape of the panel's case; a fault is shown in its place.

        Where somebody moves a control, a coarse shape may come first. Once the control rests, it is made fine, and
        with more effort where the verdict depends on that.
        """
        self._proposal = ""
        try:
            asyncio.get_running_loop()
        except RuntimeError:  # no loop, no user who moves anything
            self.make(quick=False)
        else:
            self.make(quick=True)
        self.settling.soon()

    def hold(self) -> None:
        """Hold writing files off while something that stands in the panel cannot be taken, and say so."""
        words = held_words(self.panel.refused)
        self.files.disabled = bool(words)
        self.held.value = f'<span class="fw-fault" role="status">{escape(words)}</span>' if words else ""

    def tried(self, case: Case) -> Build:
        """Return what would be built at another case, coarse if that is quicker. Raises KitError where it cannot be."""
        return self.builder(replace(self.input(), case=case, quick=True))

    def restated(self) -> None:
        """Take note that something else is stated beside the givens."""
        self._beside = None

    def attempt(self, links: Mapping[str, Any]) -> None:
        """See whether other parts can be taken. Raises KitError where they cannot be built."""
        self._from(links)

    def shown(self) -> Build | None:
        """Return the shape with what is stated beside the givens, as a reader is shown it."""
        return replace(self.build, stated=stated_tables(self.input())) if self.build else None

    def signed(self) -> Build | None:
        """Return the shape as it is shown, with what stands for all its inputs, as a sheet prints it: settled."""
        self.settling.now()
        found = self.shown()
        return replace(found, inputs=input_digest(self.input())) if found else None

    # -- what settling calls --------------------------------------------------------------------------

    @property
    def level(self) -> float:
        """How sure a limit must hold."""
        return self.panel.job.level if self.panel.job else LEVEL

    def make(self, *, quick: bool) -> None:
        """Make the shape, perhaps a coarse one, and show it or why it cannot be made."""
        try:
            inputs = self.input()
            known = best_known(inputs)
            self.settling.is_best = known is not None
            self.show(known or self.builder(replace(inputs, quick=quick)))
        except KitError as error:
            self.show(error)

    def show(self, found: Build | KitError) -> None:
        """Show what was built, or why it could not be."""
        if not isinstance(found, KitError):
            self.take(found)
            return
        self.build = None
        words = in_labels(self.panel.model, str(found))
        self.say(words, fault=True, more=" Below is the last geometry that could be built.")

    def input(self) -> BuildInput:
        """Return what the shape is built from."""
        if self._beside is None:
            self._beside = self._from(self.panel.links)
        return replace(self._beside, case=self.panel.case, display=self.panel.display)

    def take(self, build: Build) -> None:
        """Show what was built."""
        self.build, display = build, self.panel.display
        self.message.value, self.asking.children = "", ()
        if self._proposal:  # it stands until a control moves, whatever is made of it meanwhile
            self.say(self._proposal)
        self.numbers.value = build_section.found(build, display, level=self.level)
        self.more.layout.display = "" if build.tables else "none"
        self._write_tables()
        for slot in self.slots:
            slot.show(build)

    def report(self, share: float, words: str) -> None:
        """Say how far some work is; a search may report a thousand times a second."""
        if monotonic() - self._said > _OFTEN:
            self._said = monotonic()
            self.say(f"{share:.0%} {words}")

    def say(self, text: str, *, fault: bool = False, more: str = "") -> None:
        """Say something below the buttons."""
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        after = more if self.numbers.value else ""
        self.message.value = f"<p {kind}>{escape(sentence(text))}{after}</p>"

    # -- what buttons call ----------------------------------------------------------------------------

    def propose(self) -> None:
        """Set the givens as the subject proposes."""
        assert self.subject.propose is not None
        try:
            proposed = self.subject.propose(self.input())
            self.panel.take_all(proposed)
        except KitError as error:
            self.say(str(error), fault=True)
            return
        model = self.panel.model
        self._proposal = "proposed: " + "; ".join(f"{model.called(name)} {text}" for name, text in proposed.items())
        self.say(self._proposal)

    def start(self, label: str) -> None:
        """Run a task beside the kernel's other work; its answer is shown when it is done or stopped."""
        if self.busy:
            return
        self.settling.end()
        self.busy, self._stopping, self.stop.disabled = True, False, False
        wanted = self.input()

        def progress(share: float, words: str) -> bool:
            self.report(share, words)
            return not self._stopping

        def run() -> Build | KitError:
            try:
                return self.subject.tasks[label](wanted, progress)
            except KitError as error:
                return error

        def done(best: Build | KitError) -> None:
            self.busy, self.stop.disabled = False, True
            if isinstance(best, KitError):
                self.say(str(best), fault=True)
            elif wanted.case is self.panel.case and self._beside is not None and wanted.raw is self._beside.raw:
                self.take(best)
                self.panel.keep(best.kept)
                self.panel.write_verdict()
                self.say("stopped; this is the best so far" if self._stopping else f"{label}: done")
            else:
                self.say("the givens have changed meanwhile; start it again")
            self.settling.come_back()

        aside(run, done)

    def write(self, *, failing: bool = False) -> None:
        """Write the files of the shape beside the sheets and say which; where a limit fails, only if told `failing`."""
        if self.panel.refused:
            self.hold()
            return
        self.asking.children = ()
        self.settling.when_done(partial(self._written, failing), lambda: self.say(NOT_WRITTEN))

    def _written(self, failing: bool) -> None:
        """Write the files of the settled shape, or ask whether to."""
        from kit.sheet.book_parts import write_files

        if self.build is None:
            return
        verdict = self.panel.judged
        if not verdict.ok and not failing:
            self.say(f"{verdict.words}; write its files all the same, each marked with the limit that fails?")
            self.asking.children = self._answers
            return
        try:
            SHEETS.mkdir(exist_ok=True)
            stem = self.panel.part or self.panel.model.name
            written = write_files(self.build, SHEETS, stem, self.panel.display, verdict)
        except (KitError, OSError) as error:
            self.say(str(error), fault=True)
            return
        listed = ", ".join(str(SHEETS / href) for hrefs in written.values() for href in hrefs)
        marked = "" if verdict.ok else "; each says which limit fails"
        self.say(f"wrote {listed}{marked}" if listed else "this geometry has no files")

    def _write_failing(self) -> None:
        self.write(failing=True)

    def _leave(self) -> None:
        self.asking.children = ()
        self.say("nothing is written")

    # -- inside ---------------------------------------------------------------------------------------

    def _stop(self) -> None:
        self._stopping = True
        if not self.busy:
            self.settling.end()
            self.say("stopped; what is shown is not fully checked")

    def _from(self, links: Mapping[str, Any]) -> BuildInput:
        panel = self.panel
        if panel.job is None or panel.part is None:
            return standalone(panel.case, panel.display, panel.raw)
        found = build_input(panel.job, panel.part, raw=panel.raw, links=links)
        return replace(found, case=panel.case, display=panel.display)

    def _write_tables(self, _change: object = None) -> None:
        """Write the tables if they are open; closed ones wait until somebody looks."""
        if self.build is not None and self.more.selected_index is not None:
            self.tables.value = "".join(build_section.rows_table(table) for table in self.build.tables)


def _button(label: str, tooltip: str, action: Callable[[], None]) -> w.Button:
    button = w.Button(description=label, tooltip=tooltip)
    button.on_click(lambda _: action())
    return button
