"""A page's questions asked about a part of a job: in what order its options stand, and how a choice is judged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError, near_misses
from kit.core.question import Bench, Question
from kit.job import Job
from kit.subjects import subject
from kit.teach.exercise import Judgment

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.model import Case


@dataclass(frozen=True)
class Posed:
    """A question as it is put to a reader: where it comes from, and its options in the order shown."""

    model: str
    name: str
    question: Question

    @property
    def options(self) -> tuple[str, ...]:
        """The texts to choose from."""
        return tuple(each.text for each in self.question.options)

    def judge(self, text: str) -> Judgment:
        """Judge a chosen text; of a wrong one it says why not, then what is right, and why."""
        answer, why = self.question.answer, self.question.why
        for each in self.question.options:
            if each.text == text:
                if each.holds:
                    return Judgment(True, f"{_begun(text)}: right. {why}")
                words = f"{_begun(text)}: no, {each.why_not}. Right is: {answer}. {why}"
                return Judgment(False, words, text)
        return Judgment(False, f"{text or 'Nothing'} is none of the options; choose one of them.")


def posed(job: Job, part: str, name: str, *, seed: str = "") -> Posed:
    """Return the question `name` of a part's page, asked about the part; `seed` draws another order of its options.

    Raises:
        KitError: the job has no such part, its page no such question, or no single option holds on the part.
    """
    model = job.case(part).model.name
    asks = subject(model).questions
    if name not in asks:
        hint = near_misses(name, list(asks)) or f"; it has {', '.join(asks) or 'none'}"
        raise KitError(f"{model} has no question {name!r}{hint}")
    return Posed(model, name, asks[name](bench(job, part)).shuffled(f"{model} {name} {seed}"))


def bench(job: Job, part: str) -> Bench:
    """Return a part of a job as its questions see it; what they change, they change on a copy."""

    def made(changes: Mapping[str, Any], best: bool) -> Build:
        changed = Job.open(job.path) if changes else job
        for given, value in changes.items():
            if isinstance(value, str):
                changed.set(part, given, value)
            else:
                changed.set_input(part, given, value)
        found = changed.best_build(part) if best else changed.build(part)
        if found is None:
            raise KitError(f"{part} has no geometry: its page {job.parts[part].model} builds nothing")
        return found

    def beside(model: str) -> Case:
        for id, other in job.parts.items():
            if other.model == model:
                return job.case(id)
        raise KitError(f"no part of the job {job.name} is computed by {model}; add one")

    return Bench(job.case(part), job.display, made, partial(job.propose, part), beside, job.raw_inputs(part))


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]
