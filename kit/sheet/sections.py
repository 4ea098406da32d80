"""The pieces of HTML that a sheet and a panel are made of: pure functions of a case, all text escaped.

Each number that changes with the givens carries a `data-testid`: value-NAME for results, u-NAME for their
uncertainties, given-NAME, derived-NAME, limit-NAME, budget-NAME, verdict.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from html import escape
from typing import TYPE_CHECKING

from kit.core.model import Calculation, Case
from kit.core.quantity import Display
from kit.core.uncertainty import Draws
from kit.core.uncertainty.budget import Correlations
from kit.core.verdict import LEVEL, Verdict
from kit.drawing.svg import svg
from kit.job.verdict import standalone_verdict
from kit.sheet.budgets import budget_table, budgets
from kit.sheet.build_section import rows_table, sections_of_shape
from kit.sheet.carried import carried
from kit.sheet.derivation import derivation, formula
from kit.sheet.notes import Notes
from kit.sheet.tables import (
    assumptions_list,
    cautions_list,
    checks_list,
    givens_table,
    outside_list,
    results_table,
    sources_list,
    verdict_box,
)
from kit.subjects import subject

if TYPE_CHECKING:
    from kit.core.build import Build, Table

__all__ = [
    "answer",
    "assumptions_list",
    "background",
    "budget_table",
    "budgets",
    "cautions_list",
    "checks_list",
    "derivation",
    "figure",
    "formula",
    "givens_table",
    "heading",
    "outside_list",
    "results_table",
    "sections",
    "sources_list",
    "static",
    "verdict_box",
]

_WIDTH = 640  # of a figure in CSS pixels: as wide as a page between its margins
_HEIGHT = 480  # in a panel, where the page must stand still while a control moves


def heading(model: Calculation, *, level: int = 2) -> str:
    """Return title and question."""
    return (
        f'<h{level} class="fw-title">{escape(model.title)}</h{level}>'
        f'<p class="fw-question">{escape(model.question)}</p>'
    )


def figure(
    case: Case,
    display: Display | None = None,
    *,
    ids: str = "figure",
    width_px: float = _WIDTH,
    height_px: float | None = None,
    caption: bool = False,
    legend: bool = True,
) -> str:
    """Return the model's figure as inline SVG, with the picture in words under it if `caption`.

    Raises:
        KitError: the model has no figure.
    """
    scene = subject(case.model.name).draw(case.base, display or Display())
    words = f"<figcaption>{escape(case.model.picture)}</figcaption>" if caption else ""
    picture = svg(scene, width_px, height_px, ids=ids, legend=legend)
    return f'<figure class="fw-figure" data-testid="figure">{picture}{words}</figure>'


def answer(
    case: Case,
    display: Display | None = None,
    *,
    ids: str = "figure",
    height_px: float | None = _HEIGHT,
    level: float = LEVEL,
) -> str:
    """Return what a reader looks at while moving a control: results, figure, limits and cautions.

    `level` is how sure a limit must be to hold without a word more.
    """
    cautions = cautions_list(case)
    return (
        '<div class="fw-scroll" role="group" aria-label="Results" tabindex="0">'
        f"{results_table(case, display, settings_first=True)}</div>"
        + checks_list(case.checks, display, level=level)
        + figure(case, display, ids=ids, height_px=height_px, legend=False)
        + (f'<p class="fw-label">Cautions</p>{cautions}' if cautions else "")
    )


def background(case: Case, display: Display | None = None) -> str:
    """Return what the numbers rest on: givens with their sources, assumptions, sources of the formulas."""
    return (
        givens_table(case, display)
        + f'<p class="fw-label">Assumptions</p>{assumptions_list(case)}'
        + f'<p class="fw-label">Sources</p>{sources_list(case)}'
    )


def sections(
    case: Case,
    display: Display | None = None,
    *,
    ids: str = "figure",
    correlations: Correlations | None = None,
    draws: dict[str, Draws] | None = None,
    remark: str = "",
    stated: tuple[Table, ...] = (),
    more: Sequence[tuple[str, str]] = (),
    short: bool = False,
) -> list[tuple[str, str]]:
    """Return the parts of a worked sheet after its answer, each with its heading.

    `draws` are set beside the budgets, `remark` stands below them; `stated` is what is stated beside the givens, `more`
    are further parts as HTML.
    `short` leaves out how the numbers come about: derivation and budgets.
    """
    notes, numbers = Notes(case.model.sources), None if short else carried(case, display)
    spread = "" if short else budgets(case, display, correlations=correlations, draws=draws)
    givens = givens_table(case, display, notes=notes, in_formulas=numbers.givens if numbers else None)
    parts = [
        ("Cautions", cautions_list(case)),
        ("Assumptions", assumptions_list(case)),
        ("Picture", figure(case, display, ids=ids, caption=True)),
        ("Givens", givens),
        ("Lists and options", "".join(map(rows_table, stated))),
        ("Derivation", derivation(case, display, numbers=numbers, notes=notes) if numbers else ""),
        ("Uncertainty", spread + (f"<p>{escape(remark)}</p>" if remark else "")),
        *more,
    ]
    parts.append(("Sources", notes.html()))
    return [(title, body) for title, body in parts if body]


def static(
    case: Case,
    display: Display | None = None,
    *,
    ids: str = "static",
    build: Build | None = None,
    verdict: Verdict | None = None,
    more: Sequence[tuple[str, str]] = (),
) -> str:
    """Return a worked sheet's content without its page, for where no kernel moves the panel.

    It stands beside a live panel, so its numbers carry no `data-testid`. Of the shape it has the first picture.
    `verdict` is what is known of the case where a job knows more, `more` are further parts as HTML.
    """
    judged = verdict or standalone_verdict(case, build)
    shape = (
        sections_of_shape(
            replace(build, pictures=build.pictures[:1]),
            display,
            ids=f"{ids}s",
            still=True,
            legend=False,
            level=judged.level,
        )
        if build
        else []
    )
    pieces = [*shape, *sections(case, display, ids=ids, stated=build.stated if build else (), more=more)]
    parts = "".join(f"<h3>{escape(title)}</h3>{body}" for title, body in pieces)
    box = verdict_box(judged, display, more=outside_list(case))
    content = (
        f"{heading(case.model)}<h3>Answer</h3>{box}"
        f"{results_table(case, display)}{checks_list(case.checks, display, level=judged.level)}{parts}"
    )
    return re.sub(r' data-testid="[^"]*"', "", content)
