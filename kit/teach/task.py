"""An exercise and the way to its answer as HTML: what a pupil is told, and what a key tells besides."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from kit.core.model import derivation as steps_of
from kit.core.quantity import show
from kit.sheet import sections
from kit.sheet.mathml import mathml
from kit.teach.exercise import LETTERS, Choice, Exercise, Typed
from kit.teach.picture import figure

if TYPE_CHECKING:
    from kit.core.model import Entry

_SPREAD = ("judge",)  # where a reader is told how far a given may be off


def task(exercise: Exercise, *, ids: str) -> str:
    """Return what is asked: the question, the figure, the givens and the formulas that it takes, and the options.

    Nothing in it tells the answer. `ids` begins every id in the figure.
    """
    picture = figure(exercise.case, exercise.display, whole=exercise.whole, ids=ids)
    return (
        f'<p class="fw-ask-words">{escape(exercise.ask)}{_sign(exercise)}</p>'
        f'{picture}<div class="fw-beside"><div>{_data(exercise)}</div><div>{_formulas(exercise)}</div></div>'
        f"{_options(exercise)}"
    )


def way(exercise: Exercise) -> str:
    """Return the way to the answer: each step with the numbers put in, and for options why and why not."""
    html = "".join(sections.formula(exercise.case, exercise.display, name) for name in exercise.steps)
    if isinstance(exercise, Choice):
        told = (f"{letter}) {each.why}" for letter, each in zip(LETTERS, exercise.options, strict=False))
        html += "<ul>" + "".join(f"<li>{escape(words)}</li>" for words in told) + "</ul>"
    return html


def _sign(exercise: Exercise) -> str:
    """Return the sign of what is asked for, and to what it is rounded."""
    if not isinstance(exercise, Typed):
        return ""
    if exercise.kind == "read":
        return " Copy it with its unit."
    part = exercise.case.model.part(exercise.about)
    return f" Its sign is {mathml(part.tex)}. Round it {escape(exercise.rounding.words)}, and write its unit."


def _data(exercise: Exercise) -> str:
    rows = "".join(
        f'<tr><td>{mathml(entry.given.tex)}</td><th scope="row">{escape(entry.given.meaning)}</th>'
        f"<td>{escape(_value(exercise, entry))}</td></tr>"
        for entry in (exercise.case.entries[name] for name in exercise.data)
    )
    if not rows:
        return ""
    return (
        '<table class="fw-table"><thead><tr><th scope="col">Sign</th><th scope="col">Meaning</th>'
        f'<th scope="col">Value</th></tr></thead><tbody>{rows}</tbody></table>'
    )


def _value(exercise: Exercise, entry: Entry) -> str:
    if exercise.kind in _SPREAD:
        return entry.show(exercise.display)
    if entry.given.kind == "real":
        return show(entry.base, entry.given.unit, exercise.display, resolution=entry.given.resolution)
    return entry.given.show(entry.base, exercise.display)


def _formulas(exercise: Exercise) -> str:
    """Return the formulas that the answer takes, without numbers."""
    rows = "".join(
        f"<li>{mathml(f'{step.relation.tex} = {step.formula}')}</li>"
        for step in steps_of(exercise.case.model)
        if step.relation.name in exercise.steps
    )
    box = f'<div class="fw-formulas" tabindex="0" role="group" aria-label="Formulas"><ul>{rows}</ul></div>'
    return f'<p class="fw-label">Formulas</p>{box}' if rows else ""


def _options(exercise: Exercise) -> str:
    if not isinstance(exercise, Choice):
        return ""
    rows = "".join(
        f"<li>{letter}) {escape(each.text)}</li>" for letter, each in zip(LETTERS, exercise.options, strict=False)
    )
    return f'<ul class="fw-options">{rows}</ul>'
