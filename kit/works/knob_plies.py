"""The drilling schedule of a knob's plies: from the face that presses upward, which hole goes into which ply.

A job tells under `shape` nothing but `paper` and `printer`, for the card.
"""

from __future__ import annotations

from dataclasses import dataclass

from kit.model import Case
from kit.quantity import Display, show
from kit.works.listing import card_output, csv_output
from kit.works.told import PAPER, check_keys, paper_plan
from kit.works.work import Made, Order, Rows

TITLE = "Drilling schedule"
HEADS = ("Ply", "From", "To", "Hole", "What for")


@dataclass(frozen=True, slots=True)
class Ply:
    """One ply: its number from the pressing face, its underside and top over that face, its hole (0 if none), mm."""

    number: int
    bottom: float
    top: float
    hole: float
    use: str


def make(order: Order) -> Made:
    """Return the schedule as a table and files; its plies are what the outline takes."""
    check_keys(order.shape, PAPER)
    plies = schedule(order.case)
    table = schedule_table(plies, order.display)
    return Made(
        tables=(table,),
        outputs=(
            card_output("drilling", "drilling schedule of the plies, at full size", table, paper_plan(order)),
            csv_output("drilling_list", "drilling schedule, for a spreadsheet", table),
        ),
        data=plies,
    )


def schedule(case: Case) -> tuple[Ply, ...]:
    """Return the plies of a case of `knob.plies`, from the face that presses upward."""
    v = case.value
    groups = (
        ("foot_plies", v["stud_hole"], "stud, below the nut"),
        ("well_plies", v["well"], "nut and washer"),
        ("end_plies", v["stud_hole"], "end of the stud"),
        ("roof_plies", 0.0, "roof"),
    )
    uses = [(hole, use) for name, hole, use in groups for _ in range(round(v[name]))]
    return tuple(Ply(n + 1, n * v["ply"], (n + 1) * v["ply"], *each) for n, each in enumerate(uses))


def schedule_table(plies: tuple[Ply, ...], display: Display) -> Rows:
    """Return plies as a table, in the reader's units."""

    def seen(base: float) -> str:
        return show(base, "mm", display, resolution=0.1)

    rows = (
        (str(ply.number), seen(ply.bottom), seen(ply.top), seen(ply.hole) if ply.hole else "none", ply.use)
        for ply in plies
    )
    return Rows(TITLE, HEADS, tuple(rows))
