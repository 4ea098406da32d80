"""How sure the air of a path is: what each piece and each point of the curve brings to flows and speeds.

The balance is differentiated implicitly: where the pulls of branches that join agree, and the path asks for what the
fan gives, a small change of a piece moves all beginnings so that they agree again. What a piece costs is differenced.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import hypot
from typing import Any

import numpy as np

from kit.core.build import BuildInput, Table
from kit.core.errors import KitError
from kit.core.quantity import Quantity, show
from kit.core.quantity.distribution import Spread
from kit.subjects.air.network import Air, Network

OFF = 0.2
"""How far a piece's loss may be off either way, of it, where it says nothing: common practice, no source."""
CURVE_OFF = 0.05
"""How far the pressures of a curve may be off, all alike, where they say nothing: ISO 13348, grade AN3, from memory."""
STEP = 1e-3  # of a standard uncertainty, or of a beginning, by which is differenced
_MEASURED = ("loss", "drop", "clean", "loaded")
_LEAST = 0.005  # of the variance: what rounds to 0 % is not listed

Stated = Mapping[str, Any]
Worked = Callable[[Stated], tuple[Network, Callable[[float], float]]]
"""Passed what is stated, returns the path and the fan's pull at a flow."""


@dataclass(frozen=True)
class Cause:
    """Something that is not known exactly: of which piece, what, how (1 standard uncertainty), and what it changes."""

    piece: str
    what: str
    u: float
    changed: Callable[[float], Stated]


@dataclass(frozen=True)
class Sure:
    """What each cause (m) brings to each flow into a hood (n, m), mm³/s, and to each speed (k, m), mm/s, in one u."""

    causes: tuple[Cause, ...]
    hoods: Mapping[str, np.ndarray]
    speeds: Sequence[np.ndarray]

    def u_flow(self, hood: str) -> float:
        """Return the standard uncertainty of the flow into a hood, mm³/s."""
        return float(np.linalg.norm(self.hoods[hood]))

    def u_speed(self, number: int) -> float:
        """Return the standard uncertainty of the speed in a piece by its place in the air's pieces, mm/s."""
        return float(np.linalg.norm(self.speeds[number]))


def causes(stated: Stated) -> tuple[Cause, ...]:
    """Return what is not known exactly of a path as typed: losses, each ± in a piece's cells, points of the curve."""
    return (*_of_pieces(stated), *_of_curve(stated))


def _of_pieces(stated: Stated) -> Iterator[Cause]:
    for number, row in enumerate(stated["pieces"]):
        name = f"{row['piece']} {number + 1} of {row['branch']!r}"
        off = row.get("off")
        known = any(isinstance(row.get(key), Quantity) and row[key].half_base is not None for key in _MEASURED)
        half = off.base if off is not None else 0.0 if known else OFF
        if half and row["piece"] not in ("leak", "gate"):
            yield Cause(name, "its loss", Spread(half).u, _scaled(stated, number))
        for key, cell in row.items():
            if isinstance(cell, Quantity) and cell.half_base and key != "off":
                yield Cause(name, key, Spread(cell.half_base).u, _moved(stated, "pieces", number, key))


def _of_curve(stated: Stated) -> Iterator[Cause]:
    yield Cause("collector's curve", "its pressures", Spread(CURVE_OFF).u, _stronger(stated))
    for number, row in enumerate(stated["curve"]):
        for key, cell in row.items():
            # the flow at the shut inlet is none
            if isinstance(cell, Quantity) and cell.half_base and (number or key != "flow"):
                what = f"{key} of point {number + 1}"
                yield Cause("collector's curve", what, Spread(cell.half_base).u, _moved(stated, "curve", number, key))


def _moved(stated: Stated, table: str, number: int, key: str) -> Callable[[float], Stated]:
    def changed(by: float) -> Stated:
        rows = list(stated[table])
        cell = rows[number][key]
        rows[number] = {**rows[number], key: Quantity.from_base(cell.base + by, cell.unit)}
        return {**stated, table: rows}

    return changed


def _stronger(stated: Stated) -> Callable[[float], Stated]:
    """Return how all pressures of the curve change that state no ±."""

    def changed(by: float) -> Stated:
        rows = [{**row, "pressure": _times(row["pressure"], 1 + by)} for row in stated["curve"]]
        return {**stated, "curve": rows}

    return changed


def _times(cell: Quantity, by: float) -> Quantity:
    return cell if cell.half_base is not None else Quantity.from_base(cell.base * by, cell.unit)


def _scaled(stated: Stated, number: int) -> Callable[[float], Stated]:
    def changed(by: float) -> Stated:
        rows = list(stated["pieces"])
        rows[number] = {**rows[number], "dearer": 1.0 + by}
        return {**stated, "pieces": rows}

    return changed


def sure(stated: Stated, worked: Worked, air: Air, shut: frozenset[str], most: float) -> Sure:
    """Return how sure the air is that was found; `most` is the flow at the curve's end."""
    every = causes(stated)
    network, fan = worked(stated)
    starts = network.starts(air, shut)

    def both(network: Network, fan: Callable[[float], float], at: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        lacking, hoods, pieces = network.balance(dict(zip(starts, at, strict=True)), shut, fan, most)
        return np.array(lacking), np.array([*hoods.values(), *(each.speed for each in pieces)])

    def side(cause: Cause, way: int) -> tuple[np.ndarray, np.ndarray] | None:
        """Return the balance with a cause a step off; nothing where it could not be so much as that."""
        try:
            return both(*worked(cause.changed(way * STEP * cause.u)), here)
        except KitError:  # the other side alone is differenced then
            return None

    here = np.array([*starts.values()])
    still = both(network, fan, here)
    if not np.all(here > 0):  # no air moves
        none = np.zeros(len(every))
        return Sure(every, dict.fromkeys(air.hoods, none), [none for _ in air.pieces])
    by_start: list[tuple[np.ndarray, np.ndarray]] = []
    for place, start in enumerate(here):
        step = np.zeros(len(here))
        step[place] = STEP * start
        up, down = both(network, fan, here + step), both(network, fan, here - step)
        by_start.append(((up[0] - down[0]) / (2 * step[place]), (up[1] - down[1]) / (2 * step[place])))
    lacking_by_start, seen_by_start = (np.stack(column, axis=1) for column in zip(*by_start, strict=True))
    found = []
    for cause in every:
        sides = [(way, side(cause, way)) for way in (1, -1)]
        (first, up), (last, down) = ((way, found_there) if found_there else (0, still) for way, found_there in sides)
        lacking, seen = ((a - b) / ((first - last or 1) * STEP) for a, b in zip(up, down, strict=True))
        found.append(seen - seen_by_start @ np.linalg.solve(lacking_by_start, lacking))
    rows = np.array(found).T if found else np.zeros((len(air.hoods) + len(air.pieces), 0))
    return Sure(every, dict(zip(air.hoods, rows, strict=False)), list(rows[len(air.hoods) :]))


def sure_table(positions: Sequence[tuple[str, Air, Sure]], inputs: BuildInput, resolution: float) -> Table:
    """Return a table of which piece makes the flow into each hood how unsure, the largest share first."""
    rows = []
    for name, air, known in positions:
        for hood, flow in air.hoods.items():
            u = known.u_flow(hood)
            of_piece: dict[str, float] = {}
            for cause, part in zip(known.causes, known.hoods[hood], strict=True):
                of_piece[cause.piece] = hypot(of_piece.get(cause.piece, 0.0), part)
            for piece, part in sorted(of_piece.items(), key=lambda each: (-round(each[1] / (u or 1), 6), each[0])):
                share = (part / u) ** 2 if u else 0.0
                if share >= _LEAST:
                    told = [show(each, "m^3/h", inputs.display, resolution=resolution) for each in (flow, 2 * u, part)]
                    rows.append((name, hood, f"{told[0]} ± {told[1]}", piece, told[2], f"{100 * share:.0f} %"))
    heads = ("Position", "Hood", "Flow, k = 2", "Piece", "Brings (one standard uncertainty)", "Share")
    return Table("What makes the flow unsure, filter loaded", heads, tuple(rows))
