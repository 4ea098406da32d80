"""A model's page, piece by piece, in the reader's units; each method returns what a cell displays."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from html import escape
from itertools import count
from math import sqrt
from typing import TYPE_CHECKING

from kit.core.build import Build, Table
from kit.core.errors import KitError
from kit.core.model import Case, Given, Relation
from kit.core.quantity import Display
from kit.core.uncertainty import budget
from kit.job import Job
from kit.job.build import build
from kit.job.folder import current_job
from kit.job.verdict import standalone_verdict, verdict
from kit.sheet import build_section, sections
from kit.sheet.mathml import mathml
from kit.sheet.numbers import uncertainty
from kit.sheet.tables import verdict_sign
from kit.sheet.words import sentence
from kit.teach.question import posed
from kit.ui.lesson.comparison import Compared, comparison_table
from kit.ui.lesson.html import Shown, plain, style
from kit.ui.lesson.measuring import Measured
from kit.ui.lesson.own_part import OwnPanel, OwnPart, own_part
from kit.ui.lesson.question import Prediction

if TYPE_CHECKING:
    from kit.core.uncertainty import Draws
    from kit.drawing.plots import Figure, Over

_PICTURES = count(1)
_ALONE = 0.99  # of the variance


@dataclass(frozen=True)
class Lesson:
    """The pieces of a page for a reader of `display`; the lesson itself displays the style they need.

    `job` is the reader's own, None without one; parts that it lacks are those of the job `example`.
    """

    display: Display = field(default_factory=Display)
    job: Job | None = None
    example: Job | None = None

    @classmethod
    def open(cls, example: Job) -> Lesson:
        """Return a lesson on the job that is open here, beside an example. Raises JobError where it cannot be read."""
        path = current_job()
        job = Job.open(path) if path else None
        return cls((job or example).display, job, example)

    def case(self, like: str) -> Case:
        """Return the reader's own part that answers what the example's part `like` answers, else that, computed.

        Raises:
            KitError: the lesson has no example, or the example no such part.
        """
        found = self._own(like)
        return found.job.case(found.id)

    def panel(self, like: str) -> OwnPanel:
        """Return the panel of such a part; one of the example can be added to the reader's job. Raises as `case`."""
        self._own(like)
        return OwnPanel(self.job, self._example(), like)

    def ask(self, part: str, question: str, *, seed: str = "") -> Prediction:
        """Return a question of a page, asked about the example's part; `seed` draws another order of its options.

        Raises:
            KitError: the lesson has no example, the example no such part, or its page no such question.
        """
        return Prediction(posed(self._example(), part, question, seed=seed))

    def measure(self, case: Case, result: str) -> Measured:
        """Return a field for a measured value, which is then compared with the result and its uncertainty.

        Raises:
            ModelError: the model has no such result.
        """
        return Measured(case, result, self.display)

    def _example(self) -> Job:
        if self.example is None:
            raise KitError("this lesson has no example; open it by Lesson.open(example_job())")
        return self.example

    def _own(self, like: str) -> OwnPart:
        return own_part(self.job, self._example(), like)

    def _repr_html_(self) -> str:
        units = "inches" if self.display.system == "in" else "millimeters"
        whose = "" if self.example is None else "No job is open: the numbers are those of an example. "
        if self.job is not None:
            whose = f"Your job: <b>{escape(self.job.name)}</b>. What it lacks is shown on an example. "
        return f'{style()}<p class="fw-lesson">{whose}Lengths are shown in {units}.</p>'

    def figure(self, case: Case) -> Shown:
        """Return the model's figure with the picture in words under it."""
        ids = f"lesson{next(_PICTURES)}"
        html = sections.figure(case, self.display, ids=ids, caption=True)
        return Shown(plain(html), f"figure of {case.model.name}")

    def assumptions(self, case: Case) -> Shown:
        """Return what the model takes for granted."""
        return Shown(sections.assumptions_list(case), f"assumptions of {case.model.name}")

    def givens(self, case: Case) -> Shown:
        """Return the table of givens: symbol, meaning, value, span, source."""
        return Shown(plain(sections.givens_table(case, self.display)), f"givens of {case.model.name}")

    def step(self, case: Case, *names: str) -> Shown:
        """Return relations with the lines that lead to them, numbers put in, and their values."""
        html = "".join(sections.formula(case, self.display, name) for name in names)
        return Shown(plain(html), f"steps: {', '.join(names)}")

    def dimensions(self, case: Case, name: str) -> Shown:
        """Return the dimension check of a relation: each term, and both sides."""
        import sympy as sp  # loaded by few pages, and it takes its time

        from kit.core.model import tex
        from kit.core.model.dimension import dimension, words

        model = case.model
        relation = model.relations[name]
        parts: list[Given | Relation] = [*model.givens.values(), *model.relations.values()]
        known = {part.symbol: part.unit.dim for part in parts}
        symbols = [part.symbol for part in parts if part.symbol in relation.expr.free_symbols]
        terms = sp.Add.make_args(relation.expr)
        rows = [(symbol, known[symbol]) for symbol in symbols] + [
            (term, dimension(term, known)) for term in terms if not {term, -term} & {*symbols}
        ]
        body = "".join(
            f"<tr><td>{mathml(tex(model, expr))}</td><td>{_powers(words(dim))}</td></tr>"
            for expr, dim in rows
            if dim is not None
        )
        same = _powers(words(relation.unit.dim))
        return Shown(
            f'<table class="fw-table"><thead><tr><th scope="col">What stands there</th>'
            f'<th scope="col">Dimension</th></tr></thead><tbody>{body}</tbody></table>'
            f"<p>So the right side is {same}, and {mathml(relation.tex)} "
            f"is stated in {escape(relation.unit.text or '1')}: {same} too.</p>",
            f"dimensions of {name}",
        )

    def results(self, case: Case) -> Shown:
        """Return verdict, results and limits.

        >>> from kit import model
        >>> Lesson().results(model("scale.cursor").at())
        <results of scale.cursor>
        """
        html = sections.results_table(case, self.display) + sections.checks_list(case.checks, self.display)
        return Shown(
            plain(
                sections.verdict_box(standalone_verdict(case), self.display, more=sections.outside_list(case)) + html
            ),
            f"results of {case.model.name}",
        )

    def cautions(self, case: Case) -> Shown:
        """Return the cautions that apply."""
        return Shown(sections.cautions_list(case), f"cautions of {case.model.name}")

    def budget(self, case: Case, result: str) -> Shown:
        """Return a result's uncertainty budget and one line that reads it."""
        table = sections.budget_table(case, result, self.display)
        return Shown(f"{plain(table)}{self._reading(case, result)}", f"budget of {result}")

    def _reading(self, case: Case, result: str) -> str:
        found = budget(case, result)
        if not found.rows or not found.u:
            return '<p class="fw-reading">No uncertainty is stated for what this result rests on.</p>'
        first, unit = found.rows[0], case.model.relations[result].unit
        wording = first.entry.given.meaning.split(";")[0]
        reading = f"{wording[:1].upper()}{wording[1:]} brings {100 * first.share:.0f} % of the variance. "
        whole, left = (
            f"±\u00a0{uncertainty(found.expanded * part, unit, self.display)}"
            for part in (1.0, sqrt(max(0.0, 1.0 - first.share)))
        )
        if first.share > _ALONE:
            reading += f"Nothing else matters beside it: to improve {whole}, measure that."
        else:
            reading += f"Known exactly, it would leave {left} of the {whole}; so measure it first."
        return f'<p class="fw-reading"><b>How to read it:</b> {escape(reading)}</p>'

    def comparison(self, rows: Sequence[Compared]) -> Shown:
        """Return our values beside published ones."""
        return Shown(comparison_table(rows), "ours and published")

    def sources(self, case: Case) -> Shown:
        """Return where the formulas come from."""
        return Shown(sections.sources_list(case), f"sources of {case.model.name}")

    def sweep(self, case: Case, given: str, results: Sequence[str], notice: str, *, over: Over | None = None) -> Shown:
        """Return results of one unit plotted against a given, and what to notice.

        `over` are the ends of the axis as typed, ("200 mm", "900 mm"); the given's span unless stated.

        Raises:
            KitError: an unknown name, results of different units, or a given that has no axis.
        """
        from kit.drawing.plots import sweep

        return self.plot(sweep(case, given, results, self.display, over=over), notice)

    def shares(self, case: Case, given: str, parts: Sequence[str], notice: str, *, over: Over | None = None) -> Shown:
        """Return results of one unit stacked on each other against a given: what makes up their sum.

        Raises:
            KitError: as `sweep`.
        """
        from kit.drawing.plots import shares

        return self.plot(shares(case, given, parts, self.display, over=over), notice)

    def trade_off(
        self,
        case: Case,
        across: str,
        up: str,
        result: str,
        notice: str,
        *,
        over_across: Over | None = None,
        over_up: Over | None = None,
    ) -> Shown:
        """Return a result as a map over two givens; where its limit fails is hatched.

        Raises:
            KitError: as `sweep`.
        """
        from kit.drawing.plots import trade_off

        figure = trade_off(case, across, up, result, self.display, over_across=over_across, over_up=over_up)
        return self.plot(figure, notice)

    def tornado(self, case: Case, result: str, notice: str) -> Shown:
        """Return how far each given's half-width moves a result, the largest on top.

        Raises:
            KitError: an unknown name, or a result that no uncertainty moves.
        """
        from kit.drawing.tornado_svg import tornado

        return _noticed(tornado(case, result, self.display, notice), notice)

    def histogram(self, case: Case, draws: Draws, notice: str) -> Shown:
        """Return a result's Monte Carlo sample with the first order's bell and the ends by each convention.

        Raises:
            KitError: a sample whose draws are all alike.
        """
        from kit.drawing.plots_uncertainty import histogram

        return self.plot(histogram(case, draws, self.display), notice)

    def plot(self, figure: Figure, notice: str) -> Shown:
        """Return a plot with one line on what to notice, which is also its text alternative."""
        from kit.drawing.plots import picture

        return _noticed(picture(figure, notice), notice)

    def build(self, job: Job, part: str) -> Shown:
        """Return the numbers, limits and cautions of a part's shape.

        Raises:
            KitError: the part cannot be built, or its page builds nothing.
        """
        return Shown(plain(build_section.found(_made(job, part), self.display, level=job.level)), f"shape of {part}")

    def picture(self, job: Job, part: str, *names: str) -> Shown:
        """Return pictures of a part's shape, several side by side where there is room; views in space can be turned.

        Raises:
            KitError: nothing is built of the part, or nothing with such a picture.
        """
        return self.shape(_made(job, part), *names)

    def shape(self, build: Build, *names: str) -> Shown:
        """Return pictures of what was built, such as the answer of a task. Raises KitError as `picture`."""
        shown = [build.picture(name) for name in names]
        html = "".join(build_section.picture(each, self.display, ids=f"lesson{next(_PICTURES)}") for each in shown)
        return Shown(f'<div class="fw-beside">{html}</div>', f"pictures: {', '.join(names)}")

    def rows(self, job: Job, part: str, title: str) -> Shown:
        """Return one table of a part's shape. Raises KitError as `picture`."""
        return self.table(_made(job, part).rows(title))

    def table(self, table: Table) -> Shown:
        """Return one table of what was built, such as the answer of a task."""
        return Shown(build_section.rows_table(table), f"table: {table.title}")

    def parts(self, job: Job) -> Shown:
        """Return the parts of a job with their questions and verdicts."""
        body = "".join(self._part(job, name) for name in job.parts)
        heads = "".join(f'<th scope="col">{title}</th>' for title in ("Part", "What it is", "The question", "Verdict"))
        return Shown(
            f'<table class="fw-table"><caption>{escape(job.name)}</caption><thead><tr>{heads}</tr></thead>'
            f"<tbody>{body}</tbody></table>",
            f"parts of {job.name}",
        )

    def _part(self, job: Job, name: str) -> str:
        case = job.case(name)
        judged = verdict(job, name)
        kind, mark = verdict_sign(judged)
        return (
            f'<tr><th scope="row"><code>{escape(name)}</code></th><td>{escape(job.parts[name].title)}</td>'
            f'<td>{escape(case.model.question)}</td><td class="{kind}"><span class="fw-mark" aria-hidden="true">'
            f"{mark}</span> {escape(sentence(judged.words))}</td></tr>"
        )


def _made(job: Job, part: str) -> Build:
    found = build(job, part)
    if found is None:
        raise KitError(f"{part} has no geometry: its page {job.parts[part].model} builds nothing")
    return found


def _noticed(drawn: str, notice: str) -> Shown:
    """Return a drawn plot with a line on what to notice."""
    words = f'<p class="fw-notice"><b>Notice:</b>{escape(notice)}</p>'
    return Shown(f"<div>{drawn}</div>{words}", f"plot: {notice}")


def _powers(wording: str) -> str:
    """Return the words of a dimension as HTML, with raised powers."""
    return re.sub(r"\^(-?[\d/]+)", r"<sup>\1</sup>", escape(wording))
