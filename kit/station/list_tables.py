"""The lists of a job as tables of plain texts, for a reader's units; each line names the parts that it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from kit.core.lists import GLUE, ONE_PERSON, TEAM, WOOD_GLUE, Need
from kit.core.place import Point
from kit.core.quantity import Display, show, unit
from kit.station.lists import StationLists

_BOUGHT = {
    "m": {"mm": "m", "in": "ft"},
    "m²": {"mm": "m²", "in": "ft²"},
    "g": {"mm": "g", "in": "oz"},
    "L": {"mm": "L", "in": "qt"},
}
"""In what an amount is bought, by its own unit and the reader's."""
SAME = 1e-9
"""Of the last digit told: what is more by less than this is not rounded up."""


@dataclass(frozen=True)
class ListTable:
    """A table: its title, its heads, its rows each with the ids of the parts it comes from, and what is said below."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]
    below: str = ""


def list_tables(found: StationLists) -> list[ListTable]:
    """Return the weights, the shopping list and the cut list of a job, those that are not empty."""
    display = found.job.display
    tables = [_weights(found, display), whole_table(found), _shopping(found, display), _cut(found, display)]
    return [table for table in tables if table.rows]


def told_mass(mass: float, display: Display) -> str:
    """Return a mass (t) as fine as a bathroom or a kitchen scale weighs it: to 0.1 kg, below 1 kg to a gram."""
    return show(mass, "kg" if mass >= 1e-3 else "g", display, resolution=known_to(mass))


def known_to(mass: float) -> float:
    """Return what is told of a mass at most: the step of the scale that weighs it; both in t."""
    return 1e-4 if mass >= 1e-3 else 1e-6


def told_amount(need: Need, display: Display) -> str:
    """Return how much is bought, rounded up: lengths in meters or feet, pieces as a count."""
    if not need.unit:
        return str(ceil(need.amount - SAME))
    shown = unit(_BOUGHT[need.unit][display.system])
    amount = shown.from_base(need.amount)
    places = 0 if amount >= 100 else 1 if amount >= 1 else 2
    return f"{ceil(amount * 10**places - SAME) / 10**places:.{places}f} {shown.text}"


def _weights(found: StationLists, display: Display) -> ListTable:
    rows: list[tuple[tuple[str, ...], tuple[str, ...]]] = []
    for id, each in found.weights.items():
        center = _point(each.center, display) if each.center else "–"
        rows.append(((told_mass(each.mass, display), center, each.lifted), (id,)))
    if len(rows) > 1:
        rows.append(((told_mass(found.mass, display), "", "all that is listed here"), ()))
    return ListTable(
        "Weight",
        ("Mass", "Center of mass: x, y, z in the part's own axes", "Who may lift it, at best"),
        tuple(rows),
        "At best: close to the body, with a good grip, now and then, by healthy adults; one person up to "
        f"{told_mass(ONE_PERSON, display)} (NIOSH 94-110, load constant), two and three together {TEAM[1]} and "
        f"{TEAM[2]} of that (HSE, guidance to the Manual Handling Operations Regulations). Large boards, wind, "
        "stairs and a bent back allow far less: the page support.lift works out yours. Your local rules come first. "
        "Wood is weighed at 12 % moisture.",
    )


def whole_table(found: StationLists) -> ListTable:
    """Return the whole station's mass and center; a sum in which something is missing says so."""
    whole, display = found.whole, found.job.display
    titles = {id: part.title or id for id, part in found.job.parts.items()}
    rows: list[tuple[tuple[str, ...], tuple[str, ...]]] = []
    if whole.center is not None:
        least = "at least " if whole.missing else ""
        counted = "; ".join(titles[id] for id in whole.counted)
        rows.append(((f"{least}{told_mass(whole.mass, display)}", _point(whole.center, display), counted), ()))
    missing = "; ".join(f"{titles[id]}: {why}" for id, why in whole.missing.items())
    return ListTable(
        "The whole station",
        ("Mass", "Center of mass: x, y, z in the station's axes", "What is counted"),
        tuple(rows),
        "The station's axes are the machine's: x to the right, y to the back, z up from the plane that it stands on. "
        + (f"This is a part of the sum. Not in it: {missing}." if missing else "All that has a body is in it."),
    )


def _point(at: Point, display: Display) -> str:
    return ", ".join(show(each, "mm", display, resolution=1.0) for each in at)


def _size(sides: tuple[float, ...], display: Display) -> str:
    return " × ".join(show(side, "mm", display, resolution=1.0) for side in sides)


def _shopping(found: StationLists, display: Display) -> ListTable:
    def rows() -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
        for each in found.needs:
            need = each.need
            size, cost = _size(need.sides, display), "–" if need.cost is None else f"{need.cost:.2f}"
            yield (need.name, told_amount(need, display), size or "–", cost), each.parts

    told = [f"All that has a price: {found.cost:.2f}, in the currency of the prices."] if found.cost else []
    if any(each.need.name == WOOD_GLUE for each in found.needs):
        told.append(
            f"Glue at {show(GLUE, 'g/m²', display, resolution=1e-12)} of joint, spread on one face (common practice, "
            "no source; its maker's sheet comes first). End grain takes a second coat."
        )
    if any(each.need.tool for each in found.needs):
        told.append("Clamps and needles serve one part after the other: the most that one of them takes counts.")
    return ListTable("Shopping list", ("What", "Amount", "Size", "Cost"), tuple(rows()), " ".join(told))


def _cut(found: StationLists, display: Display) -> ListTable:
    rows = tuple(
        ((piece.name, str(piece.count), _size(piece.sides, display), piece.of or "–"), (id,))
        for id, piece in found.pieces
    )
    return ListTable("Cut list", ("Piece", "Count", "Size, along the grain first", "Of"), rows)
