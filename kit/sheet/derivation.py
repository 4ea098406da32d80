"""The derivation of a model with the numbers of a case: one step per relation, line under line."""

from __future__ import annotations

from html import escape
from typing import NamedTuple

from kit.core.model import Case, Relation, Step, called
from kit.core.model import derivation as steps
from kit.core.quantity import Display
from kit.core.uncertainty.answers import answered
from kit.sheet.carried import Carried, Numbers, Turned, carried
from kit.sheet.mathml import filled, mathml, width
from kit.sheet.notes import Notes

_ROOM = 32.0  # what fits beside the equals sign on a page, in ems
_LONG = 20.0  # ems: from here on it may scroll, and the very numbers are measured: half as long again as typical ones
_LEAST = 38  # percent of their size on a page; only numbers put into the longest formulas come near it


class _Line(NamedTuple):
    """One line: HTML, the sentence that leads to it, and MathML of the same width that does not change."""

    html: str
    why: str
    gauge: str
    kind: str = ""


def derivation(
    case: Case, display: Display | None = None, *, numbers: Carried | None = None, notes: Notes | None = None
) -> str:
    """Return every relation in order: its lines and why, its formula, the numbers put in, its value.

    `numbers` are the case's, if they are known; with `notes` sources are footnotes.
    """
    found = (numbers or carried(case, display)).lines
    body = "".join(_step(case, display, step, found[step.relation.name], notes) for step in steps(case.model))
    return f'<ol class="fw-derivation">{body}</ol>'


def formula(case: Case, display: Display | None, name: str) -> str:
    """Return one relation's lines, formula, numbers put in, and value."""
    numbers = carried(case, display, upto=name).lines[name]
    step = next(step for step in steps(case.model) if step.relation.name == name)
    return f'<ol class="fw-derivation fw-formula" data-testid="formula">{_step(case, display, step, numbers)}</ol>'


def _step(case: Case, display: Display | None, step: Step, numbers: Numbers, notes: Notes | None = None) -> str:
    relation = step.relation
    whole = [_line(line.tex, line.because) for line in step.lines if line.whole]
    equal = [_line(f"= {line.tex}", line.because) for line in step.lines if not line.whole]
    equal.append(_line(f"= {step.formula}", relation.because))
    if numbers.before:
        equal.append(_Line(" ".join(_turned(case, turned) for turned in numbers.before), "", "", "fw-before"))
    if numbers.template:
        template = f"= {numbers.template}"
        equal.append(_Line(filled(template, numbers.slots), "", mathml(template), "fw-numbers"))
    equal.append(_Line(_value(case, relation, numbers, display), "", "", "fw-comes-out"))
    lefts = ["" for _ in whole] + [mathml(relation.tex)] + ["" for _ in equal[1:]]
    body = "".join(_row(left, line) for left, line in zip(lefts, whole + equal, strict=True))
    kind = "fw-step fw-result" if relation.result else "fw-step"
    source = f' <span class="fw-source">({escape(relation.source)})</span>' if relation.source else ""
    source = f" {notes.mark(relation.source)}" if notes and relation.source else source
    head = f'<p class="fw-step-head">{escape(headed(relation))}{source}</p>'
    return f'<li class="{kind}">{head}{body}</li>'


def _turned(case: Case, turned: Turned) -> str:
    """Return a number that is converted before it is put in: "E = 1.75 Msi · 1000000 = 1750000 psi"."""
    words = escape(f"= {turned.pressed} = {turned.text}")
    return f'<span class="fw-turned">{mathml(case.model.part(turned.name).tex)} {words}</span>'


def _value(case: Case, relation: Relation, numbers: Numbers, display: Display | None) -> str:
    """Return what comes out of a step, as it is carried on and, for a result, as it is answered."""
    texts = [numbers.turned.pressed, numbers.turned.text] if numbers.turned else [numbers.text]
    sign, answer = "=", texts.pop()
    if relation.result:
        carried_on, answer = answer, answered(case, relation, display)
        if answer != carried_on.replace("\u00a0", " "):
            sign = "≈"
            texts.append(carried_on)
    words = "".join(f"= {text} " for text in texts) + sign
    shown = f'<span class="fw-value" data-testid="derived-{relation.name}">{escape(answer)}</span>'
    return f"{escape(words)} {shown}"


def _line(tex: str, why: str) -> _Line:
    formula = mathml(tex)
    return _Line(formula, why, formula)


def _row(left: str, line: _Line) -> str:
    wide = width(line.gauge)
    if wide > _LONG:
        wide = max(wide, width(line.html))
    small = f' style="--fw-small:{max(_LEAST, round(100 * _ROOM / wide))}%"' if wide > _ROOM else ""
    scrolls = f'{small} tabindex="0" role="group" aria-label="Long formula"' if wide > _LONG else ""
    note = f'<span class="fw-why">{escape(line.why)}</span>' if line.why else ""
    kind = f" {line.kind}" if line.kind else ""
    return (
        f'<div class="fw-line{kind}"><span class="fw-equation"><span class="fw-left">{left}</span>'
        f'<span class="fw-right"{scrolls}>{line.html}</span></span>{note}</div>'
    )


def headed(relation: Relation) -> str:
    """Return what a relation is called, as a heading begins: with a capital."""
    words = called(relation)
    return words[:1].upper() + words[1:]
