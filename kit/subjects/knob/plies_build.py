"""The drilling schedule of a knob's plies: from the face that presses upward, which hole goes into which ply."""

from __future__ import annotations

from dataclasses import dataclass

from kit.core.build import Build, BuildInput, Table
from kit.core.model import Case
from kit.core.quantity import Display, show
from kit.drawing.paper import paper_plan
from kit.drawing.table_files import card_output, csv_output

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


def build(inputs: BuildInput) -> Build:
    """Return the schedule as a table and files; its plies are what the outline takes."""
    plies = schedule(inputs.case)
    table = schedule_table(plies, inputs.display)
    return Build(
        tables=(table,),
        outputs=(
            card_output(
                "drilling",
                "drilling schedule of the plies, at full size",
                table,
                paper_plan(inputs.stated, inputs.printer),
            ),
            csv_output("drilling_list", "drilling schedule, for a spreadsheet", table),
        ),
        data=plies,
    )


def schedule(case: Case) -> tuple[Ply, ...]:
    """Return the plies of a case of `knob.plies`, from the face that presses upward."""
    v = case.base
    groups = (
        ("foot_plies", v["stud_hole"], "stud, below the nut"),
        ("well_plies", v["well"], "nut and washer"),
        ("end_plies", v["stud_hole"], "end of the stud"),
        ("roof_plies", 0.0, "roof"),
    )
    uses = [(hole, use) for name, hole, use in groups for _ in range(round(v[name]))]
    return tuple(Ply(n + 1, n * v["ply"], (n + 1) * v["ply"], *each) for n, each in enumerate(uses))


def schedule_table(plies: tuple[Ply, ...], display: Display) -> Table:
    """Return plies as a table, in the reader's units."""

    def seen(base: float) -> str:
        return show(base, "mm", display, resolution=0.1)

    rows = (
        (str(ply.number), seen(ply.bottom), seen(ply.top), seen(ply.hole) if ply.hole else "none", ply.use)
        for ply in plies
    )
    return Table(TITLE, HEADS, tuple(rows))
