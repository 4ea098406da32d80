"""The accuracy of a chain in its conventions side by side, and what must be improved for the target."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from kit.core.build import Build, BuildInput, Picture, Progress, Table
from kit.core.model import Case
from kit.core.quantity import Display, show
from kit.core.uncertainty import Budget, Draws, budget, monte_carlo, needed, root_sum_square, worst_case
from kit.drawing.table_files import csv_output

if TYPE_CHECKING:
    from kit.drawing.plots import Figure

RESULT = "part_error"
DRAWS = 100_000
SEED = 1
LONGEST = "a bar for each contributor, as long as it moves the part either way, the longest on top"


def build(inputs: BuildInput) -> Build:
    """Return the conventions side by side and the improvements that the target asks for."""
    case, display = inputs.case, inputs.display
    found = budget(case, RESULT)
    side, plan = _conventions(case, found, _draws(case), display), _improvements(case, found, display)
    return Build(
        tables=(side, plan),
        outputs=(csv_output("improve", "what must be improved, for a spreadsheet", plan),),
        data=found,
    )


def plotted(inputs: BuildInput, _progress: Progress) -> Build:
    """Return the same with the two plots, which are too slow to follow a slider."""
    case = inputs.case
    pictures = (
        Picture(
            "tornado",
            "What matters most",
            LONGEST,
            partial(_tornado, case),
        ),
        Picture(
            "histogram",
            "Conventions side by side",
            "the sampled errors of a part, the bell of the first order, and the ends by each convention",
            partial(_histogram, case, _draws(case)),
        ),
    )
    return replace(build(inputs), pictures=pictures)


TASKS = {"Plot what matters": plotted}


def _draws(case: Case) -> Draws:
    return monte_carlo(case, (RESULT,), draws=DRAWS, seed=SEED)[RESULT]


def _tornado(case: Case, display: Display) -> str:
    from kit.drawing.tornado_svg import tornado

    return tornado(case, RESULT, display, LONGEST)


def _histogram(case: Case, draws: Draws, display: Display) -> Figure:
    from kit.drawing.plots_uncertainty import histogram

    return histogram(case, draws, display)


def _conventions(case: Case, found: Budget, draws: Draws, display: Display) -> Table:
    """Return what each convention says of the same chain."""

    def between(low: float, high: float) -> tuple[str, str]:
        ends = " to ".join(case.model.relations[RESULT].show(end, display) for end in (low, high))
        return f"± {show((high - low) / 2, 'mm', display, resolution=0.01)}", ends

    def ends(half: float) -> tuple[str, str]:
        return between(found.base - half, found.base + half)

    rows = (
        ("Worst case", *ends(worst_case(found)), "all: no part can be farther off"),
        (
            "Root sum of squares",
            *ends(root_sum_square(found)),
            "99.7 %, if each half-width is three deviations",
        ),
        ("First order, k = 2", *ends(found.expanded), "about 95 %, if the sum is near normal"),
        (
            f"Monte Carlo, {draws.sample.size:,} draws",
            *between(*draws.interval()),
            "95 %, whatever the shape of the sum",
        ),
    )
    return Table("Side by side", ("Convention", "Half-width", "Part is off by", "Covers"), rows)


def _improvements(case: Case, found: Budget, display: Display) -> Table:
    """Return for each contributor what it may be to meet the target: improved alone, or the largest ones together."""
    plan = needed(found, case.base["wish"])
    together = {row.entry.given.name: row for row in plan.together}
    rows = []
    for row, part in zip(plan.rows, found.rows, strict=False):
        half = abs(part.sensitivity) * row.entry.spread.half  # a chance is a plain number: its effect counts

        def words(factor: float | None, half: float = half) -> str:
            return "not enough alone" if factor is None else f"± {show(half * factor, 'mm', display, resolution=0.001)}"

        also = together.get(row.entry.given.name)
        rows.append(
            (
                row.entry.given.meaning.split(";")[0],
                f"± {show(half, 'mm', display, resolution=0.001)}",
                "< 1 %" if part.share < 0.005 else f"{100 * part.share:.0f} %",
                words(row.factor),
                words(also.factor) if also else "may stay",
            )
        )
    heads = ("Contributor", "Moves the part by", "Share", "Alone, down to", "Together, down to")
    return Table("What must be improved", heads, tuple(rows))
