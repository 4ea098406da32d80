"""A scan taken in by hand: the file, the view that is turned and touched, the steps, and what each of them found.

The widget knows no trade: the page of its part says which steps there are. Each step is saved to the job at once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from html import escape
from importlib.resources import files
from threading import Event
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import numpy as np
from numpy.typing import NDArray

from kit.core.errors import KitError
from kit.core.intake import Found, Seen, Step
from kit.core.quantity import show
from kit.sheet.style import panel_style
from kit.ui.idle import aside
from kit.ui.intake.form import StepForm
from kit.ui.intake.moving import Moving
from kit.ui.intake.taken import Taken
from kit.ui.intake.upload import Upload
from kit.ui.intake.view import TurningView

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.job import Job

Array = NDArray[np.float64]


class _StoppedError(Exception):
    """Somebody wants no more of what is being worked out."""


class Intake(w.VBox):
    """The intake of a part of a job. `changed` is called after each step, so that others show the job anew.

    Raises:
        KitError: the job has no such part, or its page takes in no scan.
    """

    def __init__(self, job: Job, part: str, changed: Callable[[], None] = lambda: None) -> None:
        self.taken, self._changed = Taken(job, part), changed
        self._stopping = Event()
        self.job, self.part = job, part
        intake = self.taken.intake
        self.upload = Upload(
            f"Scan ({', '.join(each[1:].upper() for each in intake.endings)}), choose it or drop it here",
            job.path.parent,
            intake.endings,
            self._file,
        )
        self.view = TurningView(self._touched, self._nudged, self._delete, self._late)
        self.which = w.ToggleButtons(
            description="shown",
            options=[("the scan", False), ("the second scan", True)],
            tooltips=["the machine as it was scanned first", "the machine scanned again, one joint moved"],
        )
        self.which.observe(lambda _: self._write(self.taken.fault), "value")
        self.moving = Moving(self._moved, self._ended)
        self.name = w.Text(
            description="name of the next spot",
            value="spot 1",
            tooltip="name of the next spot",
            continuous_update=False,  # what stands in it reaches the kernel before the touch that follows
        )
        self.chosen = w.Dropdown(description="chosen spot", options=[("–", "")], tooltip="the spot that keys move")
        self.chosen.observe(lambda _: self._show(), "value")
        near = job.path.parent
        self.forms = {
            step.name: StepForm(step, self._do, self._framed, job.display, folder=near, endings=intake.endings)
            for step in intake.steps
        }
        self.steps = w.ToggleButtons(
            description="step",
            options=[(step.title, step.name) for step in intake.steps],
            tooltips=[step.words for step in intake.steps],
        )
        self.steps.observe(lambda _: self._open(), "value")
        self.form = w.VBox()
        self.undo = w.Button(description="Undo", icon="undo", tooltip="take the last step back")
        self.redo = w.Button(description="Redo", icon="repeat", tooltip="do again what was taken back")
        self.reread = w.Button(description="Reload file", tooltip="read the job file again, as it is on the disk")
        self.envelope = w.Button(
            description="Work out the swept envelope", tooltip="what the machine sweeps, and its bound"
        )
        self.undo.on_click(lambda _: self._try(self.taken.undo))
        self.redo.on_click(lambda _: self._try(self.taken.redo))
        self.reread.on_click(lambda _: self._try(self._reload))
        self.envelope.on_click(lambda _: self._work_out())
        self.stop = w.Button(description="Stop", tooltip="drop what is being worked out; nothing is changed by it")
        self.stop.disabled = True
        self.stop.on_click(lambda _: self._stopping.set())
        self.bar = w.FloatProgress(min=0.0, max=1.0, tooltip="how much of the swept envelope is worked out")
        self.bar.layout.visibility = "hidden"
        self.found, self.message, self.answer = w.VBox(_dom_classes=("fw-found",)), w.HTML(), w.HTML()
        self._result: tuple[Array, Any] | None = None
        super().__init__(self._lay_out())
        self.add_class("fw-panel")
        self.add_class("fw-intake")
        self._open()
        self._write(self.taken.fault)

    # -- what the reader does -------------------------------------------------------------------------

    def _file(self, name: str) -> None:
        """Take a file that has arrived. Raises KitError where it cannot be read."""
        self.taken.file(name)
        self._result = None
        self._write()
        self._changed()
        self.upload.said = f"{name} is read"  # once there is something to touch

    def _touched(self, point: Array | None, pixel: float) -> None:
        if point is None:
            self._say("There is no surface under the pointer; turn the scan or aim again.", fault=True)
        elif not self._on_second and any(self.moving.values.values()):
            self._say("Spots lie on the machine as scanned; move its joints back to 0 first.", fault=True)
        else:
            name = self.name.value.strip()
            if self._try(lambda: self.taken.spot(name, point, second=self._on_second)):
                self.chosen.value = name
                self.name.value = self._next_name()
                self._say(
                    f"{name} is set at {self._place(point)}, ± {self._length(pixel)} (one pixel); zoom in for less."
                )

    def _late(self) -> None:
        self._say("The picture has changed since it was touched; nothing was done. Aim again.", fault=True)

    def _nudged(self, by: Array) -> None:
        seen, name = self._shown, self.chosen.value
        if seen is None or not name:
            self._say("No spot is chosen; choose one to move it.", fault=True)
            return
        place = self.view.nearest(seen.spots[name] + by)
        if self._try(lambda: self.taken.spot(name, place, second=self._on_second)):
            self._say(f"{name} is moved to {self._place(place)}.")

    def _delete(self) -> None:
        name = self.chosen.value
        if not name:
            self._say("No spot is chosen; choose one to take it out.", fault=True)
        elif self._try(lambda: self.taken.spot(name, None, second=self._on_second)):
            self._say(f"{name} is taken out.")

    def _do(self, step: Step, answers: dict[str, Any]) -> None:
        before, alone = self._found(), self.taken.second is None
        if self._try(lambda: self.taken.step(step, answers)):
            if alone and self.taken.second:
                self.which.value = True  # its spots are touched next
            new = [f"{each.title}: {each.words}" for each in self._found() if each not in before]
            self._say("; ".join(new) or f"{step.title}: done")

    @property
    def _on_second(self) -> bool:
        return bool(self.which.value) and self.taken.second is not None

    @property
    def _shown(self) -> Seen | None:
        return self.taken.second if self._on_second else self.taken.seen

    def _found(self) -> tuple[Found, ...]:
        return self.taken.seen.found if self.taken.seen else ()

    def _ended(self, joint: str, low: str, high: str) -> None:
        step = next(step for step in self.taken.intake.steps if step.name == "limits")
        self._do(step, {"joint": joint, "low": low, "high": high})

    def _take_out(self, found: Found) -> None:
        self._try(lambda: self.taken.take_out(found.at, found.title))

    def _reload(self) -> None:
        self.job.reload()
        self.taken.reload()

    def _work_out(self) -> None:
        """Work out what is swept beside the kernel's other work, or at once where there is no loop."""
        self._stopping.clear()
        self._busy(True)
        aside(self._sweep)

    def _busy(self, busy: bool) -> None:
        """Hold all steps off while the envelope is worked out: it is that of what is stated now."""
        self.stop.disabled, self.envelope.disabled = not busy, busy
        self.bar.layout.visibility = "visible" if busy else "hidden"
        for form in self.forms.values():
            form.button.disabled = busy
        for each in (self.reread, self.undo, self.redo):
            each.disabled = busy

    def _sweep(self) -> None:
        """Take the positions and arms that the page proposes, build, and show what is swept."""
        try:
            self._at(0.0, "how many positions are needed")
            self.taken.propose()
            self._changed()  # others must not take what was saved for a change made by hand
            self._at(0.2, "what the machine sweeps")
            build = self.job.build(self.part)
            assert build is not None
            self._at(0.9, "its surface")
            self._show_swept(build)
        except _StoppedError:
            self._say("Stopped; the envelope is not shown.")
        except (KitError, OSError) as error:
            self._say(str(error), fault=True)
        finally:
            self._busy(False)
            self._write_steps()

    def _at(self, share: float, words: str) -> None:
        """Say how far it is. Raises _StoppedError where somebody wants no more."""
        if self._stopping.is_set():
            raise _StoppedError
        self.bar.value = share
        self._say(f"{share:.0%}: working out {words} …")

    def _show_swept(self, build: Build) -> None:
        self._result = self.taken.intake.result(build)
        self._write()
        rows = "".join(
            f"<tr><td>{escape(each.meaning)}</td><td>{escape(each.show(self.job.display))}</td></tr>"
            for each in build.numbers
        )
        self.answer.value = f"<table class='fw-results'>{rows}</table>"
        self._say("The pale surface is the swept envelope.")
        self._changed()

    # -- what the reader sees -------------------------------------------------------------------------

    def _try(self, what: Callable[[], object]) -> bool:
        """Do something and show it; what goes wrong is said in one sentence."""
        if not self.stop.disabled:
            self._say("The envelope is being worked out; wait for it, or stop it.", fault=True)
            return False
        try:
            what()
        except (KitError, OSError) as error:
            self._say(str(error).splitlines()[0], fault=True)
            return False
        self._result = None
        self.answer.value = ""
        self._write(self.taken.fault)
        self._changed()
        return True

    def _write(self, fault: str = "") -> None:
        seen, shown = self.taken.seen, self._shown
        known = [("–", ""), *((name, name) for name in shown.spots)] if shown else [("–", "")]
        if list(self.chosen.options) != known:
            before = self.chosen.value
            self.chosen.options = known
            self.chosen.value = before if any(before == value for _, value in known) else ""
        self.which.layout.display = "" if self.taken.second else "none"
        self.moving.layout.display = "none" if self._on_second else ""
        self.moving.fit(seen.ways if seen else ())
        if shown and shown.wanted:
            self.name.value = shown.wanted[0]
        if seen:
            for form in self.forms.values():
                form.fit(seen)
        self._show()
        self.found.children = self._rows()
        self._write_steps()
        self._say(fault, fault=bool(fault))

    def _write_steps(self) -> None:
        """Offer the steps that can be taken back, and the envelope once something moves."""
        seen = self.taken.seen
        self.undo.disabled, self.redo.disabled = not self.taken.undone, not self.taken.redone
        self.undo.description = f"Undo {self.taken.undone}".strip()
        self.redo.description = f"Redo {self.taken.redone}".strip()
        self.envelope.disabled = not (seen and seen.parts)

    def _rows(self) -> list[w.Widget]:
        rows: list[w.Widget] = []
        for found in self._found():
            out = w.Button(description="Take out", tooltip=f"take {found.title} out")
            out.on_click(lambda _, each=found: self._take_out(each))
            words = w.HTML(f"<b>{escape(found.title)}</b>: {escape(found.words)}")
            rows.append(w.HBox([words, out], _dom_classes=("fw-found-row",)))
        notes = self._shown.notes if self._shown else ()
        return [*rows, w.HTML("".join(f"<p class='fw-note'>{escape(note)}</p>" for note in notes))]

    def _show(self) -> None:
        self.view.show(self._shown, self.chosen.value or "", None if self._on_second else self._result)
        self._framed()

    def _open(self) -> None:
        self.form.children = [self.forms[self.steps.value]]
        self._framed()

    def _framed(self) -> None:
        box, seen = self.forms[self.steps.value].box, self._shown
        self.view.frame(box.value if box and seen and seen.scaled else None)

    def _moved(self, values: Mapping[str, float]) -> None:
        if not self._on_second:
            self.view.move(values)

    def _say(self, words: str, *, fault: bool = False) -> None:
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        self.message.value = f"<p {kind}>{escape(words)}</p>" if words else ""

    def _next_name(self) -> str:
        if self._shown and self._shown.wanted:
            return self._shown.wanted[0]
        spots = self._shown.spots if self._shown else {}
        return next(name for number in range(1, len(spots) + 2) if (name := f"spot {number}") not in spots)

    def _place(self, point: Array) -> str:
        if self._shown and self._shown.scaled:
            return ", ".join(map(self._length, point))
        return f"{', '.join(f'{each:.4g}' for each in point)} in the scan's own unit"

    def _length(self, length: float) -> str:
        if self._shown and self._shown.scaled:
            return show(float(length), "mm", self.job.display, resolution=0.01)
        return f"{length:.2g}"

    def _lay_out(self) -> list[w.Widget]:
        spots = w.VBox([self.name, self.chosen], _dom_classes=("fw-spots",))
        left = w.VBox([self.which, self.view, self.moving])
        back = w.HBox([self.undo, self.redo, self.reread], _dom_classes=("fw-row",))
        task = w.HBox([self.envelope, self.stop, self.bar], _dom_classes=("fw-row",))
        right = w.VBox([spots, self.steps, self.form, self.message, back, self.found, task, self.answer])
        columns = w.Layout(grid_template_columns="repeat(auto-fit, minmax(min(100%, 420px), 1fr))")
        return [w.HTML(_style()), self.upload, w.GridBox([left, right], layout=columns, _dom_classes=("fw-grid",))]

    def __repr__(self) -> str:
        seen = self.taken.seen
        return f"<intake of {self.part}: {f'{len(seen.faces):,} faces' if seen else 'no scan yet'}>"


@cache
def _style() -> str:
    own = "".join(
        (files("kit.ui") / name).read_text(encoding="utf-8") for name in ("panel/panel.css", "intake/intake.css")
    )
    return f"{panel_style()}<style>{own}</style>"
