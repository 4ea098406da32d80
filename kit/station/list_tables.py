"""The lists of a job as tables of plain texts, for a reader's units; each line names the parts that it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kit.core.quantity import Display, show
from kit.station.lists import StationLists

_FINE = {"m": 10.0, "g": 1e-7}
"""How finely amounts are told: 10 mm, 0.1 g."""


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
    tables = [_weights(found, display), _shopping(found, display), _cut(found, display)]
    return [table for table in tables if table.rows]


def _kilograms(mass: float, display: Display) -> str:
    return show(mass, "kg", display, resolution=1e-6)


def _weights(found: StationLists, display: Display) -> ListTable:
    rows: list[tuple[tuple[str, ...], tuple[str, ...]]] = []
    for id, each in found.weights.items():
        center = ", ".join(show(at, "mm", display, resolution=1.0) for at in each.center) if each.center else "–"
        rows.append(((_kilograms(each.mass, display), center, each.lifted), (id,)))
    if len(rows) > 1:
        rows.append(((_kilograms(found.mass, display), "", "all that is listed here"), ()))
    return ListTable(
        "Weight",
        ("Mass", "Center of mass: x, y, z in the part's own axes", "Who may lift it, at best"),
        tuple(rows),
        "At best: close to the body, with a good grip, now and then, by healthy adults; up to 23 kg (51 lb) one person "
        "(NIOSH, revised lifting equation, load constant), two persons two thirds of what each could alone (HSE, L23, "
        "from memory). Large boards, wind, stairs and a bent back allow far less; your local rules come first.",
    )


def _size(sides: tuple[float, ...], display: Display) -> str:
    return " × ".join(show(side, "mm", display, resolution=1.0) for side in sides)


def _shopping(found: StationLists, display: Display) -> ListTable:
    def rows() -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
        for each in found.needs:
            need = each.need
            amount = f"{need.amount:.0f}"
            if need.unit:
                amount = show(need.amount, need.unit, display, resolution=_FINE[need.unit])
            size, cost = _size(need.sides, display), "–" if need.cost is None else f"{need.cost:.2f}"
            yield (need.name, amount, size or "–", cost), each.parts

    cost = f"All that has a price: {found.cost:.2f}, in the currency of the prices." if found.cost else ""
    return ListTable("Shopping list", ("What", "Amount", "Size", "Cost"), tuple(rows()), cost)


def _cut(found: StationLists, display: Display) -> ListTable:
    rows = tuple(
        ((piece.name, str(piece.count), _size(piece.sides, display), piece.of or "–"), (id,))
        for id, piece in found.pieces
    )
    return ListTable("Cut list", ("Piece", "Count", "Size, along the grain first", "Of"), rows)
