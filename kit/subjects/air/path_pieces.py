"""The pieces of a path as typed, as what each of them costs the air."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import pi, sqrt
from typing import Any

from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display, show
from kit.subjects.air.entries import MOUTHS
from kit.subjects.air.losses import bend, branch_entry, contraction, friction, pushed_together, widening
from kit.subjects.air.network import Branch, Piece

Row = Mapping[str, Any]
Coefficient = Callable[[float], float]
"""Passed a friction factor, returns a loss in velocity pressures."""


class _Air:
    """The air of the shop: what a loss in velocity pressures, or one measured, costs at a flow."""

    def __init__(self, viscosity: float, density: float, loaded: bool) -> None:
        self.viscosity, self.density, self.loaded = viscosity, density, loaded

    def by_speed(self, wide: float, loss: Coefficient, roughness: float = 0.0) -> Callable[[float], float]:
        """Return the cost of a piece `wide` at its narrow end, whose walls are this rough."""
        area = pi * wide**2 / 4

        def cost(flow: float) -> float:
            speed = flow / area
            lam = friction(speed * wide / self.viscosity, roughness / wide)
            return loss(lam) * self.density / 2 * speed**2

        return cost

    def as_measured(self, drop: float, at: float, power: int) -> Callable[[float], float]:
        """Return the cost of a piece that was measured at one flow, growing with this power of it."""
        return lambda flow: drop * (flow / at) ** power


def branches(stated: Mapping[str, Any], viscosity: float, density: float, loaded: bool, d: Display) -> list[Branch]:
    """Return the branches as typed, each with its pieces; `loaded`: the filter must be shaken.

    Raises:
        KitError: a branch that is not there, one without pieces or without an entry, or a piece that cannot be.
    """
    air, names = _Air(viscosity, density, loaded), [row["name"] for row in stated["branches"]]
    fed = {row["joins"] for row in stated["branches"]}
    pieces: dict[str, list[Piece]] = {name: [] for name in names}
    for row in stated["pieces"]:
        on = row["branch"]
        if on not in pieces:
            raise KitError(f"a {row['piece']} lies on the branch {on!r}, which is not there{near_misses(on, names)}")
        if row["piece"] == "entry" and (pieces[on] or on in fed):
            raise KitError(f"the entry of the branch {on!r} is not its beginning; a branch has one, at its hood")
        pieces[on].append(_dearer(_piece(row, air, d), row.get("dearer", 1.0)))
    for row in stated["branches"]:
        name, joins = row["name"], row["joins"]
        if joins and joins not in names:
            raise KitError(f"the branch {name!r} joins {joins!r}, which is not there{near_misses(joins, names)}")
        if not pieces[name]:
            raise KitError(f"the branch {name!r} has no pieces; add its hose or duct")
        if name not in fed and pieces[name][0].carries:
            raise KitError(
                f"the branch {name!r} begins with a {pieces[name][0].words}; put its entry first, or its hood's chute"
            )
        if name in fed and any(piece.gate for piece in pieces[name]):
            raise KitError(f"the branch {name!r} has a gate, but others join it; put a gate into each of them")
    return [Branch(row["name"], row["joins"] or "", tuple(pieces[row["name"]])) for row in stated["branches"]]


def _dearer(piece: Piece, by: float) -> Piece:
    """Return a piece whose loss is so many times as large, as when its uncertainty is worked out."""
    loss = piece.loss
    return piece if by == 1.0 else replace(piece, loss=lambda flow: by * loss(flow))


def _piece(row: Row, air: _Air, d: Display) -> Piece:
    kind = row["piece"]
    wide = row["diameter"].base if "diameter" in row else 0.0
    words = f"{kind} ⌀{show(wide, 'mm', d)}" if wide else kind
    match kind:
        case "entry":
            mouth = MOUTHS[row["mouth"]]
            return Piece(words, air.by_speed(wide, lambda lam: mouth), wide)
        case "chute" | "cone":
            return Piece(words, air.by_speed(wide, _cone(row, wide, d)), wide)
        case "hose" | "duct":
            long, rough = row["length"].base, row["roughness"].base
            more = pushed_together(row["drawn"].base, wide) if kind == "hose" else 1.0
            return Piece(words, air.by_speed(wide, lambda lam: more * lam * long / wide, rough), wide, carries=True)
        case "bend":
            angle, radius = row["angle"].base, row["radius"].base / wide
            if radius < 0.5:
                raise KitError(
                    f"a bend ⌀{show(wide, 'mm', d)} has a radius of {show(row['radius'].base, 'mm', d)}; that of its "
                    "axis is at least half the diameter"
                )
            return Piece(
                words,
                air.by_speed(wide, lambda lam: bend(angle, radius, lam), row["roughness"].base),
                wide,
                carries=True,
            )
        case "wye":
            entering = branch_entry(row["angle"].base)
            return Piece(words, air.by_speed(wide, lambda lam: entering), wide)
        case "gate":
            return Piece(words, diameter=wide, leak=row["slit"].base, gate=True)
        case "leak":
            return Piece(words, leak=row["area"].base)
        case "cyclone":
            return Piece(words, air.as_measured(row["drop"].base, row["at"].base, 2))
        case "filter":
            drop = row["loaded" if air.loaded else "clean"].base
            return Piece(words, air.as_measured(drop, row["at"].base, 1))
        case _:
            loss = row["loss"].base
            return Piece(words, air.by_speed(wide, lambda lam: loss), wide)


def _cone(row: Row, wide: float, d: Display) -> Coefficient:
    """Return what a chute or cone costs at its narrow end; a rectangle counts as a circle of its area."""
    begin = row["from"].base if row["piece"] == "cone" else sqrt(4 * row["width"].base * row["height"].base / pi)
    long = row["length"].base
    if begin > wide:
        return lambda lam: contraction(begin, wide, long, lam)
    if row["piece"] == "chute":
        raise KitError(
            f"a chute begins as wide as a circle of {show(begin, 'mm', d, resolution=1)} and ends at "
            f"{show(wide, 'mm', d)}; it must become narrower, so take a cone for what widens"
        )
    at_end = (wide / begin) ** 4  # the loss counts at the narrow end, its velocity pressure is taken at the wide one
    return lambda lam: widening(begin, wide) * at_end
