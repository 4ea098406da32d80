"""An exercise out of a model: one result asked for at seeded givens, the answer read as a quantity and judged."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Calculation, Case, Given, NoValueError
from kit.core.quantity import Display, QuantityError, parse, show_in, unit
from kit.sheet import sections
from kit.sheet.mathml import mathml
from kit.ui.lesson.html import KEYS, Shown, plain

if TYPE_CHECKING:
    from kit.core.model import Relation

DIGITS = 3  # asked of an answer
_TRIES = 50
_NOTHING = 1e-9  # in the base: a result that is 0 has no digits to ask for
_CHOICES = 16  # about as many values a given may take


@dataclass(frozen=True, slots=True)
class Judgment:
    """Whether an answer is right, and what to say about it."""

    right: bool
    words: str


@dataclass(frozen=True)
class Exercise:
    """One result of a model asked for; displays the task, a field for the answer, and the solution."""

    case: Case
    result: str
    varied: tuple[str, ...]
    display: Display

    @property
    def relation(self) -> Relation:
        """What is asked for."""
        return self.case.model.relations[self.result]

    @property
    def tolerance(self) -> float:
        """How far an answer may be off, in the base: half of its third digit."""
        value = self._unit.from_base(self.case.base[self.result])
        digit = 10.0 ** (math.floor(math.log10(abs(value))) - DIGITS + 1)
        return float(0.5 * digit * self._unit.factor)

    def judge(self, text: str) -> Judgment:
        """Read an answer and judge it within the rounding; what cannot be read is explained."""
        if not text.strip():
            return Judgment(False, "Type a value with its unit.")
        try:
            typed = parse(text, self._unit)
        except QuantityError as error:
            return Judgment(False, f"{error}.")
        value, off = self.case.base[self.result], self.tolerance * (1 + 1e-9)
        assumed = f" ({self._unit.text} taken)" if typed.bare and self._unit.text else ""
        said = f"{show_in(typed.base, typed.unit)}{assumed}"
        if abs(typed.base - value) <= off:
            return Judgment(True, f"{said} is right; to more digits it is {show_in(value, self._unit, digits=5)}.")
        if abs(typed.base + value) <= off:
            return Judgment(False, f"{said} has the right size and the wrong sign.")
        if self._unit.angle == 1 and abs(math.pi / 2 - typed.base - value) <= off:
            return Judgment(False, f"{said} is counted from the other zero: 90° less that is what is asked for.")
        much = "too large" if typed.base > value else "too small"
        return Judgment(False, f"{said} is {much}. Try again, or open the solution.")

    def task(self) -> str:
        """Return the task as HTML: the givens that were drawn, and what is asked for."""
        model = self.case.model
        drawn = "".join(
            f"<li>{mathml(model.part(name).tex)} = <b>{escape(self.case.entries[name].text or '')}</b>, "
            f"{escape(model.part(name).meaning)}</li>"
            for name in self.varied
        )
        return (
            f"<p>{escape(model.title)}: all givens as in the model, but</p><ul>{drawn}</ul>"
            f"<p>Find {mathml(self.relation.tex)}, {escape(self.relation.meaning)}, to {DIGITS} digits.</p>"
        )

    def way(self) -> str:
        """Return the steps to the answer with these numbers, closed until somebody opens them."""
        needed = self.case.model.needed([self.relation.name])
        steps = "".join(sections.formula(self.case, self.display, step.name) for step in needed)
        return (
            f"<details><summary {KEYS}>The way to it</summary>"
            f"{plain(sections.givens_table(self.case, self.display))}{plain(steps)}</details>"
        )

    @property
    def _unit(self) -> Any:
        return self.display.unit_for(self.relation.unit)

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(Shown(f'<div class="fw-ask">{self.task()}</div>', f"exercise on {self.case.model.name}"))
        display(Answering(self))
        display(Shown(self.way(), "solution"))


class Answering(w.VBox):
    """A field and what is said about the answer in it; Enter or the button judges."""

    def __init__(self, exercise: Exercise) -> None:
        self.exercise = exercise
        self.box = w.Text(
            placeholder="value with unit",
            continuous_update=False,
            tooltip="your answer: a value with its unit",
        )
        self.button = w.Button(description="Check answer", tooltip="check the answer within its rounding")
        self.said = w.HTML()
        self.box.observe(lambda _: self.judge(), "value")
        self.button.on_click(lambda _: self.judge())
        super().__init__([w.HBox([self.box, self.button], _dom_classes=("fw-row",)), self.said])
        self.add_class("fw-panel")
        self.add_class("fw-answering")

    def judge(self) -> None:
        """Say whether the answer typed is right."""
        found = self.exercise.judge(self.box.value)
        kind, mark = ("fw-meets", "✓") if found.right else ("fw-fails", "✗")
        self.said.value = (
            f'<p class="{kind}" role="status"><span class="fw-mark" aria-hidden="true">{mark}</span> '
            f"{escape(found.words)}</p>"
        )


def exercise(
    model: str | Calculation, result: str, vary: Sequence[str], *, seed: int = 1, display: Display | None = None
) -> Exercise:
    """Return an exercise: the givens `vary` are drawn, round and inside their spans; `seed` draws them again.

    Raises:
        KitError: an unknown name, a given that is no measure, or a result without value wherever it was tried.
    """
    from kit.subjects import model as named

    stated = named(model) if isinstance(model, str) else model
    reader = display or Display()
    rng = random.Random(seed)
    stated.part(result)
    for _ in range(_TRIES):
        typed: dict[str, Any] = {name: _drawn(stated.part(name), reader, rng) for name in vary}
        try:
            case = stated.at(**typed)
        except NoValueError:
            continue
        if abs(case.base[result]) > _NOTHING:
            return Exercise(case, result, tuple(vary), reader)
    raise KitError(f"{result} had no value at {_TRIES} points drawn for {', '.join(vary)}; vary fewer givens")


def _drawn(part: Any, reader: Display, rng: random.Random) -> str:
    """Return a round value not far from the model's own, as text with its unit."""
    if not isinstance(part, Given) or part.kind not in ("real", "count"):
        raise KitError(f"{part.name} is not a number; vary givens that are typed as a number")
    of = unit("") if part.kind == "count" else reader.unit_for(part.unit)
    low, high, own = (of.from_base(x) for x in (*part.span, part.base))
    room = abs(own) or 0.5 * (high - low)
    low, high = max(low, own - 0.4 * room), min(high, own + 0.6 * room)
    step = 1.0 if part.kind == "count" else _round_step((high - low) / _CHOICES, of.text)
    first, last = math.ceil(low / step), math.floor(high / step)
    return show_in(of.to_base(rng.randint(first, max(first, last)) * step), of, digits=6)


def _round_step(wanted: float, of: str) -> float:
    """Return the next larger round step: 1, 2, 5 and their tens, or inch fractions down to a sixteenth."""
    if of == "in" and wanted > 1 / 32:
        return float(2.0 ** math.ceil(math.log2(wanted)))
    decade = 10.0 ** math.floor(math.log10(wanted))
    return next(decade * factor for factor in (1, 2, 5, 10) if decade * factor >= wanted * 0.999)
