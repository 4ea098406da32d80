"""An exercise: what is asked at one case of a model, the answer, and how an answer typed or chosen is judged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from kit.core.quantity import QuantityError, parse, show_in
from kit.teach.rounding import Rounding, rounding
from kit.teach.slips import cost, slips

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.core.quantity import Display, Quantity, Unit

Kind = Literal["read", "evaluate", "solve backwards", "mend", "judge"]

LETTERS = "abcdefgh"


@dataclass(frozen=True, slots=True)
class Judgment:
    """Whether an answer is right, and what to say about it; `mistake` names the wrong turn where one is known."""

    right: bool
    words: str
    mistake: str = ""


@dataclass(frozen=True)
class Exercise:
    """What is asked at a case, about the quantity or limit `about`. `ask` is plain text.

    `data` are the givens that a reader needs, `steps` the relations.

    `whole` says that the picture keeps the numbers that follow from the givens; else it would tell the answer.
    """

    kind: Kind
    case: Case
    display: Display
    ask: str
    about: str
    data: tuple[str, ...]
    steps: tuple[str, ...]
    whole: bool

    def judge(self, text: str) -> Judgment:
        """Read an answer and judge it."""
        raise NotImplementedError

    @property
    def answer(self) -> str:
        """The right answer, as a key prints it."""
        raise NotImplementedError


@dataclass(frozen=True)
class Typed(Exercise):
    """A quantity is asked for: `values` are all that are right, in base units, to be rounded."""

    values: tuple[float, ...]

    @property
    def rounding(self) -> Rounding:
        """To what the answer is rounded."""
        return rounding(self.values[0], self._stated, self.display)

    @property
    def answer(self) -> str:
        """All right values to more digits than are asked for."""
        return " or ".join(show_in(value, self._unit, digits=5) for value in self.values)

    def judge(self, text: str) -> Judgment:
        """Read a quantity in any unit and judge it within the rounding; a known wrong turn is named with its cost."""
        if not text.strip():
            return Judgment(False, "Type a value with its unit.")
        try:
            typed = parse(text, self._unit)
        except QuantityError as error:
            return Judgment(False, f"{error}.")
        assumed = f" ({self._unit.text} taken)" if typed.bare and self._unit.text else ""
        said = f"{show_in(typed.base, typed.unit)}{assumed}"
        for value in self.values:
            if self.rounding.takes(typed.base, value):
                return Judgment(True, f"{said} is right; to more digits it is {show_in(value, self._unit, digits=5)}.")
        mistake = self._mistake(typed)
        price = cost(self.case, self.about, typed.base, self.display)
        if mistake:
            return Judgment(False, f"{said} is not right. It looks as if {mistake}. {price}", mistake)
        much = "too large" if typed.base > self.values[0] else "too small"
        return Judgment(False, f"{said} is {much}. {price} Try again.")

    def _mistake(self, typed: Quantity) -> str:
        for slip in slips(self.case, self.about):
            if slip.base == slip.base and rounding(slip.base, self._stated, self.display).takes(typed.base, slip.base):
                return slip.words
        return ""

    @property
    def _stated(self) -> Unit:
        return self.case.model.part(self.about).unit

    @property
    def _unit(self) -> Unit:
        return self.display.unit_for(self._stated)


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to choose: whether it is right, and why or why not."""

    text: str
    right: bool
    why: str


@dataclass(frozen=True)
class Choice(Exercise):
    """One of a few options is right; they stand in the order drawn."""

    options: tuple[Option, ...]

    @property
    def answer(self) -> str:
        """The letter of the right option, and its text."""
        return next(f"{LETTERS[n]}) {each.text}" for n, each in enumerate(self.options) if each.right)

    def judge(self, text: str) -> Judgment:
        """Judge a letter, or the text of an option."""
        said = text.strip().lower().rstrip(").")
        for letter, option in zip(LETTERS, self.options, strict=False):
            if said in (letter, option.text.lower()):
                mark = "is right" if option.right else "is not right"
                return Judgment(option.right, f"{letter}) {mark}: {option.why}", "" if option.right else option.text)
        known = ", ".join(LETTERS[: len(self.options)])
        return Judgment(False, f"{text.strip() or 'Nothing'} is none of the answers; choose {known}.")
