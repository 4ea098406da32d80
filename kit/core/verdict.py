"""Checks and verdicts: whether a design holds, by how much, how surely, and what nobody checked.

A check holds numbers and is worded when it is shown, so a reader's other units need nothing to be computed anew.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from kit.core.quantity import Display, Unit, ValueOrigin, show, unit
from kit.core.summary import some, summary

Sense = Literal["<=", ">="]
Origin = Literal["formula", "build", "certificate"]
Outcome = Literal["holds", "unsure", "may hold", "fails"]
State = Literal["meets", "fails", "not fully checked"]

LEVEL = 0.95
"""How sure one must be of a limit before it is said to hold without a word more, where a job does not say."""
HAIR = 1e-9
"""Relative: just met is met, whatever rounding made of 6 in less 1 in."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A number within a check's sentence: in base units, shown in `unit` and rounded to `resolution` (base units)."""

    base: float
    unit: str = "mm"
    resolution: float | None = None

    def text(self, display: Display | None) -> str:
        """Return the number with its unit, as a person reads it."""
        return show(self.base, unit(self.unit), display, resolution=self.resolution)


@dataclass(frozen=True, slots=True)
class Check:
    """One limit at one point. Numbers are in base units; a yes-or-no check has no `base` (value) and no `allowed`.

    `subject` reads on with the value ("the tip moves" 0.06 mm) or is the whole sentence of a yes-or-no check; each
    "{}" in it takes the next number of `says`. `u` is the standard uncertainty of the margin, `drawn` the chance
    that the limit holds where Monte Carlo found it.
    """

    name: str
    subject: str
    ok: bool
    mend: str = ""
    base: float | None = None
    allowed: float | None = None
    sense: Sense = "<="
    unit: Unit = field(default_factory=lambda: unit(""))
    resolution: float | None = None
    says: tuple[Shown, ...] = ()
    where: str = ""
    origin: Origin = "build"
    u: float = 0.0
    drawn: float | None = None

    @property
    def margin(self) -> float | None:
        """How far inside (positive) or outside (negative) the limit the value is, in base units."""
        if self.base is None or self.allowed is None:
            return None
        return self.allowed - self.base if self.sense == "<=" else self.base - self.allowed

    @property
    def chance(self) -> float:
        """How likely the limit holds: as drawn, else for a normal error of the margin; 0 or 1 if nothing is uncertain.

        Source: JCGM 106:2012, 7.2 and 7.3 (probability of conformity with one limit, normal PDF).
        """
        if self.drawn is not None:
            return self.drawn
        if self.margin is None or not self.u > 0:
            return float(self.ok)
        return 0.5 * math.erfc(-self.margin / (math.sqrt(2) * self.u))

    def outcome(self, level: float = LEVEL) -> Outcome:
        """Return whether the limit holds at `level`, holds less surely, fails but may hold, or fails."""
        if self.ok:
            return "holds" if self.chance >= level else "unsure"
        return "may hold" if self.chance > 1 - level else "fails"

    def words(self, display: Display | None = None, level: float = LEVEL) -> str:
        """Return the check in words: its margin, how sure it is where that matters, and what would mend a failure."""
        phrase = self._told(display) + (f" ({self.where})" if self.where else "")
        outcome = self.outcome(level)
        if outcome == "unsure":
            phrase += f"; holds, but only {percent(self.chance)} sure"
        elif outcome == "may hold":
            phrase += f"; fails, but may hold with {percent(self.chance)} likelihood"
        return phrase if self.ok or not self.mend else f"{phrase}; to mend it, {self.mend}"

    def __repr__(self) -> str:
        return f"<{self.name} {self.outcome()}: {self.words()}>"

    def _told(self, display: Display | None) -> str:
        subject = self.subject
        for number in self.says:
            subject = subject.replace("{}", number.text(display), 1)
        if self.base is None or self.allowed is None or self.margin is None:
            return subject

        def text(base: float) -> str:
            return show(base, self.unit, display, resolution=self.resolution)

        given, most = f"{subject} {text(self.base)}", self.sense == "<="
        if self.ok:
            ending = f" of {text(self.allowed)} allowed" if most else f", at least {text(self.allowed)} needed"
            return f"{given}{ending}; margin {text(self.margin)}"
        bound, ending = ("more", "allowed") if most else ("less", "needed")
        return f"{given}, {text(-self.margin)} {bound} than the {text(self.allowed)} {ending}"


def compare(
    name: str,
    subject: str,
    value: float,
    allowed: float,
    *,
    mend: str,
    unit: str | Unit = "mm",
    sense: Sense = "<=",
    resolution: float | None = None,
    says: tuple[Shown, ...] = (),
    where: str = "",
    origin: Origin = "build",
    u: float = 0.0,
) -> Check:
    """Return the check that `value` is at most (at least) `allowed`; all numbers in base units, shown in `unit`."""
    margin = allowed - value if sense == "<=" else value - allowed
    ok = bool(margin >= -HAIR * max(abs(value), abs(allowed)))
    measure = _unit(unit) if isinstance(unit, str) else unit
    return Check(name, subject, ok, mend, value, allowed, sense, measure, resolution, says, where, origin, u)


def fact(
    name: str,
    ok: bool,
    sentence: str,
    mend: str = "",
    *says: Shown,
    where: str = "",
    origin: Origin = "build",
) -> Check:
    """Return a yes-or-no check; each "{}" in `sentence` takes the next of `says`."""
    return Check(name, sentence, bool(ok), mend, says=says, where=where, origin=origin)


def percent(chance: float) -> str:
    """Return a probability as whole percents, never rounded up to certainty nor down to none."""
    if 0.99 < chance < 1:
        return "more than 99 %"
    return "less than 1 %" if 0 < chance < 0.01 else f"{100 * chance:.0f} %"


@dataclass(frozen=True)
class Verdict:
    """What is known of a part: its checks, its cautions, what nobody checked, and the states of parts it rests on.

    `level` is how sure a check must be to hold without a word more; `origins` are those of the part's own values,
    `lent` the nearest parts it rests on that have examples among theirs.
    """

    checks: tuple[Check, ...] = ()
    cautions: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    upstream: Mapping[str, State] = field(default_factory=dict)
    level: float = LEVEL
    origins: tuple[ValueOrigin, ...] = ()
    lent: tuple[str, ...] = ()

    @property
    def examples(self) -> int:
        """How many of its values are examples, which nobody has stated yet."""
        return sum(origin.kind == "example" for origin in self.origins)

    @property
    def failing(self) -> tuple[Check, ...]:
        """The checks that fail."""
        return tuple(check for check in self.checks if not check.ok)

    @property
    def unsure(self) -> tuple[Check, ...]:
        """The checks that hold, but not as surely as the level asks."""
        return tuple(check for check in self.checks if check.outcome(self.level) == "unsure")

    @property
    def resting(self) -> tuple[str, ...]:
        """The parts it rests on that do not meet all their own limits, in sentences."""
        phrases = {
            "fails": "a limit of {} fails, on which this rests",
            "not fully checked": "{} is not fully checked",
        }
        return tuple(phrases[state].format(part) for part, state in self.upstream.items() if state != "meets")

    @property
    def state(self) -> State:
        """Whether it meets every limit, fails one, or was not fully checked."""
        if self.failing:
            return "fails"
        return "not fully checked" if self.open or self.resting else "meets"

    @property
    def ok(self) -> bool:
        """Whether no limit fails."""
        return not self.failing

    @property
    def words(self) -> str:
        """The verdict in one line, without the numbers of its checks."""
        count, failing = len(self.checks), len(self.failing)
        if failing:
            head = "the limit fails" if count == 1 else f"{failing} of {count} limits fail{'s' if failing == 1 else ''}"
        elif not count:
            head = "no limit is stated"
        else:
            head = "the limit holds" if count == 1 else f"all {count} limits hold"
        least = min((check.chance for check in self.unsure), default=1.0)
        parts = [head]
        if self.unsure:
            which = "" if count == 1 or len(self.unsure) == count else f"{len(self.unsure)} of them "
            parts.append(f"{which}only {percent(least)} sure")
        if self.open or self.resting:
            parts.append("not fully checked")
        return "; ".join(filter(None, (", ".join(parts), self._not_yours())))

    def _not_yours(self) -> str:
        """Say how many values are examples; of the parts it rests on only where it has none of its own."""
        count, examples = len(self.origins), self.examples
        if not examples:
            return f"it rests on examples in {some(self.lent)}" if self.lent else ""
        if examples == count:
            return (
                "its value is an example, not yet yours"
                if count == 1
                else f"all {count} values are examples, not yet yours"
            )
        return f"{examples} of {count} values {'is an example' if examples == 1 else 'are examples'}, not yet yours"

    def __repr__(self) -> str:
        return summary(
            f"Verdict: {self.words}",
            failing=some((check.words(level=self.level) for check in self.failing), most=1),
            unsure=some((check.words(level=self.level) for check in self.unsure), most=1),
            open=some((*self.open, *self.resting), most=1),
            cautions=some(self.cautions, most=1),
        )


def joined(verdicts: Iterable[Verdict]) -> State:
    """Return the state of several verdicts together: fails before not fully checked before meets."""
    states = {verdict.state for verdict in verdicts}
    if "fails" in states:
        return "fails"
    return "not fully checked" if "not fully checked" in states else "meets"


_unit = unit  # the parameter of `compare` hides it
