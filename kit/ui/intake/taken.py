"""What of a part is taken in by hand: steps applied to its job one by one, each saved, undone and done again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.intake import Answers, Change, Intake, Seen, Step
from kit.core.model.inputs import read_inputs
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.job import Job
    from kit.job.schema import GivenEntry


@dataclass(frozen=True)
class Before:
    """What stood before a step, by name: inputs as in the file, and givens; None where nothing was stated."""

    words: str
    inputs: Mapping[str, Any]
    givens: Mapping[str, GivenEntry | None]


class Taken:
    """A part of a job whose page has an intake, and what is seen of it now."""

    def __init__(self, job: Job, part: str) -> None:
        intake = subject(job.model(part).name).intake
        if intake is None:
            raise KitError(f"{job.model(part).name} takes in no scan; choose a part of sweep.step")
        self.job, self.part = job, part
        self.intake: Intake = intake
        self._past: list[Before] = []
        self._ahead: list[Before] = []
        self._seen: Seen | None = None
        self.second: Seen | None = None
        self.fault = ""
        self.done = "scan"
        """What was done last, in words."""
        self.reload()

    @property
    def seen(self) -> Seen | None:
        """What there is to see; None while no file is stated or it cannot be read, which `fault` then says."""
        return self._seen

    @property
    def undone(self) -> str:
        """What `undo` would take back; empty if nothing."""
        return self._past[-1].words if self._past else ""

    @property
    def redone(self) -> str:
        """What `redo` would do again; empty if nothing."""
        return self._ahead[-1].words if self._ahead else ""

    def inputs(self) -> BuildInput:
        """Return what the part states now, though it may not be complete."""
        job, part = self.job, self.part
        model, raw = job.model(part), job.raw_inputs(part)
        stated, _ = read_inputs(model.inputs, raw, model.givens)
        return BuildInput(job.case(part), job.display, stated, job.path.parent, raw=raw)

    def reload(self) -> None:
        """Look at the part anew, as the job has it now."""
        self._past.clear()
        self._ahead.clear()
        try:
            self._look()
        except KitError as error:
            self._seen, self.second, self.fault = None, None, str(error)

    def file(self, name: str) -> None:
        """Begin with a file beside the job. Raises KitError where it cannot be read; nothing is then changed."""
        self._apply(f"scan {name}", self.intake.begin(name))

    def spot(self, name: str, place: Any, *, second: bool = False) -> None:
        """State a spot (3,) on what is seen, or on the second file, or take it out. Raises KitError as `step`."""
        words = f"spot {name!r}" + (" of the second scan" if second else "") + (" taken out" if place is None else "")
        state = self.intake.second[1] if second and self.intake.second else self.intake.spot
        self._apply(words, state(self.inputs(), self._there(second=second), name, place))

    def step(self, step: Step, answers: Answers) -> None:
        """Do a step. Raises KitError where it cannot be done; nothing is then changed."""
        for ask in step.asks:
            if ask.kind in ("spot", "choice") and ask.needed and not answers[ask.name]:
                raise KitError(f"{step.title} needs {ask.words}; set or choose one.")
        self._apply(step.title.lower(), step.do(self.inputs(), self._seen, answers))

    def take_out(self, at: tuple[str, int], title: str) -> None:
        """Take one step out. Raises KitError where another needs it; nothing is then changed."""
        name, number = at
        stated = self.job.raw_inputs(self.part)[name]
        rest = None if isinstance(stated, Mapping) else [row for each, row in enumerate(stated) if each != number]
        self._apply(f"{title.lower()} taken out", Change({name: rest}))

    def propose(self) -> dict[str, str]:
        """Take the givens that the page proposes, and return them. Raises KitError where it cannot."""
        proposed = self.job.propose(self.part)
        self._apply("proposed values", Change(givens=proposed))
        return proposed

    def undo(self) -> None:
        """Take the last step back."""
        self._go(self._past, self._ahead)
        self.done = f"undo {self.redone}"

    def redo(self) -> None:
        """Do again what was taken back."""
        self._go(self._ahead, self._past)
        self.done = f"redo {self.undone}"

    def _there(self, *, second: bool) -> Seen:
        seen = self.second if second else self._seen
        if seen is None:
            raise KitError("There is no scan yet; drop one in or choose a file first.")
        return seen

    def _apply(self, words: str, change: Change) -> None:
        before = self._now(words, change.inputs, change.givens)
        try:
            for name, raw in change.inputs.items():
                self._input(name, raw)
            for name, text in change.givens.items():
                self._given(name, text)
            self._look()
        except KitError:
            self._restore(before)
            raise
        self._save()
        self._past.append(before)
        self._ahead.clear()
        self.done = words

    def _input(self, name: str, raw: Any) -> None:
        """State an input; a fault in it is said without its place in the file, which the reader does not see."""
        model = self.job.model(self.part)
        if raw is not None:
            for fault in read_inputs({name: model.inputs[name]}, {name: raw}, model.givens)[1]:
                raise KitError(f"{fault.message}; {fault.remedy}")
        self.job.set_input(self.part, name, raw)

    def _given(self, name: str, text: str) -> None:
        entry = self.job.parts[self.part].givens.get(name)
        if entry is not None and entry.link is not None:
            raise KitError(f"{name} is linked to {'.'.join(entry.link)}; change it there")
        if entry is None or entry.text != text:
            self.job.set(self.part, name, text)

    def _now(self, words: str, inputs: Mapping[str, Any], givens: Mapping[str, Any]) -> Before:
        raw, stated = self.job.raw_inputs(self.part), self.job.parts[self.part].givens
        return Before(words, {name: raw.get(name) for name in inputs}, {name: stated.get(name) for name in givens})

    def _go(self, back: list[Before], forth: list[Before]) -> None:
        if not back:
            return
        before = back.pop()
        forth.append(self._now(before.words, before.inputs, before.givens))
        self._restore(before)
        self._look()
        self._save()

    def _restore(self, before: Before) -> None:
        for name, raw in before.inputs.items():
            self.job.set_input(self.part, name, raw)
        for name, entry in before.givens.items():
            now = self.job.parts[self.part].givens.get(name)
            if entry is None:
                self.job.unset(self.part, name)
            elif entry != now:
                self.job.set(self.part, name, entry.text, **self._known(entry))

    def _known(self, entry: GivenEntry) -> dict[str, Any]:
        """Return all that is known of a given beside its value, as `Job.set` takes it."""
        origin = entry.origin
        known = {key: getattr(origin, key) or None for key in ("measured", "how", "by", "source", "note")}
        kind = origin.kind if self.job.example else None
        return {"spread": entry.spread, "k": entry.k, "dof": entry.dof, **known, "origin": kind}

    def _look(self) -> None:
        inputs = self.inputs()
        self._seen = self.intake.look(inputs)
        self.second = self.intake.second[0](inputs) if self.intake.second else None
        self.fault = ""

    def _save(self) -> None:
        self.job.save()
