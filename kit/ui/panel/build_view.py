"""The geometry that goes with a panel's model: built anew while a control moves, and its files."""

from __future__ import annotations

import asyncio
import gc
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from html import escape
from threading import Thread
from time import monotonic
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.verdict import LEVEL
from kit.drawing.space import STANDARD, Camera
from kit.job.build import best_known, build_input, input_digest, standalone
from kit.job.stated import stated_tables
from kit.sheet import build_section
from kit.sheet.words import sentence
from kit.subjects import subject
from kit.ui.panel.labels import in_labels, label
from kit.ui.panel.saving import SHEETS, held_words

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.ui.panel.state import PanelState

_WIDTH, _HEIGHT = 640, 420  # of a picture in CSS pixels: the page stands still while a control moves
_REST = 0.4  # seconds without a change after which a coarse shape is made fine
_OFTEN = 0.2  # seconds between two reports of progress


class BuildView(w.VBox):
    """The shape below a panel. `build` is what it shows, None while there is a fault.

    The first picture, `beside`, is laid out by the panel: it stays in sight while a control moves.
    """

    def __init__(self, panel: PanelState) -> None:
        self.panel, self.subject = panel, subject(panel.model.name)
        assert self.subject.build is not None
        self._builder = self.subject.build
        self.build: Build | None = None
        self._beside: BuildInput | None = None
        self._waiting: asyncio.TimerHandle | None = None
        self._stopping = self._busy = False
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

        Where somebody moves a control, a coarse shape may come first and the fine one once the control rests.
        """
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # no loop, no user who moves anything
            loop = None
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None
        self._make(quick=loop is not None)
        if loop is not None and self.build is not None and self.build.coarse:
            self._waiting = loop.call_later(_REST, self._refine)

    def _refine(self) -> None:
        """Make the shape as fine as the givens ask, in place of a coarse one."""
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None
        self._make(quick=False)
        self.panel.write_verdict()

    def _make(self, *, quick: bool) -> None:
        try:
            inputs = self._input()
            self._take(best_known(inputs) or self._builder(replace(inputs, quick=quick)))
        except KitError as error:
            self.build = None
            words = in_labels(self.panel.model, str(error))
            self._say(words, fault=True, more=" Below is the last geometry that could be built.")

    def hold(self) -> None:
        """Hold writing files off while something that stands in the panel cannot be taken, and say so."""
        words = held_words(self.panel.refused)
        self.files.disabled = bool(words)
        self.held.value = f'<span class="fw-fault" role="status">{escape(words)}</span>' if words else ""

    def tried(self, case: Case) -> Build:
        """Return what would be built at another case, coarse if that is quicker. Raises KitError where it cannot be."""
        return self._builder(replace(self._input(), case=case, quick=True))

    def restated(self) -> None:
        """Take note that something else is stated beside the givens."""
        self._beside = None

    def attempt(self, links: Mapping[str, Any]) -> None:
        """See whether other parts can be taken. Raises KitError where they cannot be built."""
        self._from(links)

    def shown(self) -> Build | None:
        """Return the shape with what is stated beside the givens, as a reader is shown it."""
        return replace(self.build, stated=stated_tables(self._input())) if self.build else None

    def signed(self) -> Build | None:
        """Return the shape as it is shown, with what stands for all its inputs, as a sheet prints it: never coarse."""
        if self.build is not None and self.build.coarse:
            self._refine()
        found = self.shown()
        return replace(found, inputs=input_digest(self._input())) if found else None

    # -- what buttons call ----------------------------------------------------------------------------

    def propose(self) -> None:
        """Set the givens as the subject proposes."""
        assert self.subject.propose is not None
        try:
            proposed = self.subject.propose(self._input())
            self.panel.take_all(proposed)
        except KitError as error:
            self._say(str(error), fault=True)
            return
        model = self.panel.model
        self._say("proposed: " + "; ".join(f"{label(model, name)} {text}" for name, text in proposed.items()))

    def start(self, label: str) -> None:
        """Run a task beside the kernel's other work; its answer is shown when it is done or stopped."""
        if self._busy:
            return
        self._busy, self._stopping, self.stop.disabled = True, False, False
        wanted, said = self._input(), 0.0

        def progress(share: float, words: str) -> bool:
            nonlocal said
            if monotonic() - said > _OFTEN:  # a search may report a thousand times a second
                said = monotonic()
                self._say(f"{share:.0%} {words}")
            return not self._stopping

        def run() -> None:
            try:
                best = self.subject.tasks[label](wanted, progress)
            except KitError as error:
                self._say(str(error), fault=True)
            else:
                if wanted.case is self.panel.case and self._beside is not None and wanted.raw is self._beside.raw:
                    self._take(best)
                    self.panel.keep(best.kept)
                    self.panel.write_verdict()
                    self._say("stopped; this is the best so far" if self._stopping else f"{label}: done")
                else:
                    self._say("the givens have changed meanwhile; start it again")
            finally:
                self._busy, self.stop.disabled = False, True

        Thread(target=run, daemon=True).start()

    def write(self, *, failing: bool = False) -> None:
        """Write the files of the shape beside the sheets and say which; where a limit fails, only if told `failing`."""
        from kit.sheet.book_parts import write_files

        if self.panel.refused:
            self.hold()
            return
        if self.build is not None and self.build.coarse:
            self._refine()
        self.asking.children = ()
        if self.build is None:
            return
        verdict = self.panel.judged
        if not verdict.ok and not failing:
            self._say(f"{verdict.words}; write its files all the same, each marked with the limit that fails?")
            self.asking.children = self._answers
            return
        try:
            SHEETS.mkdir(exist_ok=True)
            stem = self.panel.part or self.panel.model.name
            written = write_files(self.build, SHEETS, stem, self.panel.display, verdict)
        except (KitError, OSError) as error:
            self._say(str(error), fault=True)
            return
        listed = ", ".join(str(SHEETS / href) for hrefs in written.values() for href in hrefs)
        marked = "" if verdict.ok else "; each says which limit fails"
        self._say(f"wrote {listed}{marked}" if listed else "this geometry has no files")

    def _write_failing(self) -> None:
        self.write(failing=True)

    def _leave(self) -> None:
        self.asking.children = ()
        self._say("nothing is written")

    # -- inside ---------------------------------------------------------------------------------------

    def _stop(self) -> None:
        self._stopping = True

    def _input(self) -> BuildInput:
        if self._beside is None:
            self._beside = self._from(self.panel.links)
        return replace(self._beside, case=self.panel.case, display=self.panel.display)

    def _from(self, links: Mapping[str, Any]) -> BuildInput:
        panel = self.panel
        if panel.job is None or panel.part is None:
            return standalone(panel.case, panel.display, panel.raw)
        found = build_input(panel.job, panel.part, raw=panel.raw, links=links)
        return replace(found, case=panel.case, display=panel.display)

    def _take(self, build: Build) -> None:
        self.build, display = build, self.panel.display
        level = self.panel.job.level if self.panel.job else LEVEL
        self.message.value, self.asking.children = "", ()
        self.numbers.value = build_section.found(build, display, level=level)
        self.more.layout.display = "" if build.tables else "none"
        self._write_tables()
        for slot in self.slots:
            slot.show(build)

    def _write_tables(self, _change: object = None) -> None:
        """Write the tables if they are open; closed ones wait until somebody looks."""
        if self.build is not None and self.more.selected_index is not None:
            self.tables.value = "".join(build_section.rows_table(table) for table in self.build.tables)

    def _say(self, text: str, *, fault: bool = False, more: str = "") -> None:
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        after = more if self.numbers.value else ""
        self.message.value = f"<p {kind}>{escape(sentence(text))}{after}</p>"


class Slot(w.VBox):
    """One of the shape's pictures: which one, and for a view in space from where."""

    def __init__(self, build_view: BuildView, number: int) -> None:
        self.build_view, self.number = build_view, number
        self._quiet = False
        self.which = w.Dropdown(tooltip="the picture that is shown here")
        self.camera = w.ToggleButtons(
            options=list(STANDARD), value="corner", tooltips=[f"seen from: {name}" for name in STANDARD]
        )
        start = STANDARD["corner"]
        self.around = _turn("around", start.around, -180, 180, "degrees around from the front")
        self.up = _turn("up", start.up, -90, 90, "degrees up from level")
        self.html = w.HTML()
        self.space = w.VBox([self.camera, w.HBox([self.around, self.up], _dom_classes=("fw-row",))])
        self.camera.observe(self._stand, "value")
        for control in (self.which, self.around, self.up):
            control.observe(self._again, "value")
        super().__init__()
        self.add_class("fw-slot")

    def show(self, build: Build) -> None:
        """Show the picture that was chosen, of what is made now; nothing if there are too few."""
        names = [picture.name for picture in build.pictures]
        if len(names) <= self.number:
            self.children = ()
            return
        options = [(picture.title, picture.name) for picture in build.pictures]
        if list(self.which.options) != options:
            kept = self.which.value if self.which.value in names else names[self.number]
            self._quiet = True
            self.which.options, self.which.value = options, kept
            self._quiet = False
        self._draw(build)

    def _stand(self, change: dict[str, Any]) -> None:
        standard = STANDARD[change["new"]]
        self._quiet = True
        self.around.value, self.up.value = standard.around, standard.up
        self._quiet = False
        self._again(change)

    def _again(self, _change: object) -> None:
        if self.build_view.build is not None and not self._quiet:
            self._draw(self.build_view.build)

    def _draw(self, build: Build) -> None:
        self.html.value = build_section.live_picture(
            build.picture(self.which.value),
            self.build_view.panel.display,
            ids=f"shape{id(self)}",
            size=(_WIDTH, _HEIGHT),
            camera=Camera(self.around.value, self.up.value),
        )
        in_space = "fw-space" in self.html.value
        children = (self.which, *([self.space] if in_space else []), self.html)
        if self.children != children:
            self.children = children


def _turn(label: str, value: float, low: int, high: int, tooltip: str) -> w.IntSlider:
    return w.IntSlider(value=round(value), min=low, max=high, step=5, description=label, tooltip=tooltip)


def _button(label: str, tooltip: str, action: Callable[[], None]) -> w.Button:
    button = w.Button(description=label, tooltip=tooltip)
    button.on_click(lambda _: action())
    return button
