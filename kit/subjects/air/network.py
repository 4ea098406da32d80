"""A path of branches that join, pulled by a fan: how much air comes through each, and where the fan runs.

All in mm, N and s, so pressures in N/mm² and densities in t/mm³. A *pull* is how far the air's total pressure lies
below the room's; what a gauge at the wall shows is that and the velocity pressure.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import pi

from scipy.optimize import brentq

from kit.core.errors import KitError

Loss = Callable[[float], float]
"""Passed a flow, returns the pressure that it costs."""

Leaking = Callable[[float], float]
"""Passed the pull at the wall, returns the speed of the air through a leak's whole area."""

SURE = 1e-12  # relative, of a flow or pull found
FLOW, PULL = 1e6, 1e-7  # mm³/s and N/mm²: where the search for a flow and for a pull begins
MOST = 1e15  # mm³/s or N/mm²: no search goes on beyond


@dataclass(frozen=True)
class Piece:
    """A piece of a branch: what it costs, how wide it is, and the areas through which air leaks in.

    `gate` marks a gate, whose `leak` is open while it is shut; `carries`: dust must be kept moving in it.
    """

    words: str
    loss: Loss = field(default=lambda flow: 0.0)
    diameter: float = 0.0
    leak: float = 0.0
    gate: bool = False
    carries: bool = False


@dataclass(frozen=True)
class Branch:
    """A run of pieces in the order of the air, and the name of the branch into whose beginning it runs, or none."""

    name: str
    joins: str
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class At:
    """What happens in a piece: the flow behind it, and the pulls before and behind it (total) and at its wall."""

    branch: str
    piece: Piece
    flow: float
    speed: float
    loss: float
    wall: float


@dataclass(frozen=True)
class Air:
    """The air behind the last piece of a branch, with all that happened in it and before it.

    `wall` is what a gauge at the wall shows below the room's pressure, `hoods` the flow into each open beginning.
    """

    flow: float
    pull: float
    wall: float
    hoods: Mapping[str, float]
    pieces: tuple[At, ...]


class Network:
    """Branches that join to one. Raises KitError where they do not."""

    def __init__(self, branches: Sequence[Branch], density: float, leaking: Leaking) -> None:
        self.branches = {branch.name: branch for branch in branches}
        self.feeding: dict[str, list[Branch]] = {name: [] for name in self.branches}
        for branch in branches:
            if branch.joins:
                self.feeding[branch.joins].append(branch)
        self.root = _root(branches)
        self.density, self.leaking = density, leaking

    def leaves(self) -> list[str]:
        """Return the names of the branches that begin at a hood."""
        return [name for name, feeding in self.feeding.items() if not feeding]

    def run(self, fan: Callable[[float], float], shut: frozenset[str], most: float) -> Air:
        """Return the air where the fan pulls as hard as the path needs; the gates of the branches `shut` are shut.

        `fan` gives its pull at the wall for a flow, falling; beyond the flow `most` it keeps its last value.

        Raises:
            KitError: a branch costs the air nothing.
        """

        def lacking(start: float) -> float:
            air = self._through(self.root, start, shut)
            return air.wall - fan(min(air.flow, most))

        if lacking(0.0) >= 0:
            return self.need(0.0, shut)
        return self.need(self._crossing(self.root, lacking, shut), shut)

    def need(self, start: float, shut: frozenset[str]) -> Air:
        """Return the air for any beginning of the search, from 0 up: a point of the path's need. Raises as `run`."""
        return self._through(self.root, start, shut)

    def asked(self, shut: frozenset[str], most: float, count: int) -> list[tuple[float, float]]:
        """Return `count` such points, flow and pull at the wall, up to the flow `most`. Raises as `run`."""

        def lacking(start: float) -> float:
            return self.need(start, shut).flow - most

        last = self._crossing(self.root, lacking, shut)
        found = []
        for number in range(count):  # pull grows about with the square of the flow
            air = self.need(last * (number / (count - 1)) ** 2, shut)
            found.append((air.flow, air.wall))
        return found

    def carrying(self, shut: frozenset[str]) -> frozenset[str]:
        """Return the branches through which air of an open hood runs."""
        found = set()
        for name in self.leaves():
            while name and not (name in shut or name in found):
                found.add(name)
                name = self.branches[name].joins
        return frozenset(found)

    def _through(self, branch: Branch, start: float, shut: frozenset[str]) -> Air:
        """Return the air behind a branch; `start` is its flow, or the pull at its beginning or behind its shut gate."""
        feeding = self.feeding[branch.name]
        pieces = branch.pieces
        done: list[At] = []
        hoods: dict[str, float] = {}
        if feeding:
            pull, flow = start, 0.0
            for other in feeding:
                air = self._at_pull(other, pull, shut)
                flow += air.flow
                hoods |= air.hoods
                done += air.pieces
        elif branch.name in shut:
            number = next(i for i, piece in enumerate(pieces) if piece.gate)
            pull, flow = start, pieces[number].leak * self.leaking(start)
            done.append(At(branch.name, pieces[number], flow, 0.0, pull, pull))
            pieces = pieces[number + 1 :]
        else:
            pull, flow = 0.0, start
            hoods[branch.name] = flow
        return self._along(branch.name, pieces, pull, flow, hoods, done)

    def starts(self, air: Air, shut: frozenset[str]) -> dict[str, float]:
        """Return the beginning of each branch in air that was found, those that feed others first."""
        found: dict[str, float] = {}

        def begin(branch: Branch) -> float:
            """Find the beginnings of a branch and of all before it; return the pull behind it."""
            name = branch.name
            if feeding := self.feeding[name]:
                pulls = [begin(other) for other in feeding]
                found[name] = pulls[0]
            else:
                gate = next((at.loss for at in air.pieces if at.branch == name), 0.0)
                found[name] = gate if name in shut else air.hoods[name]
            return self._behind(branch, found, shut).pull

        begin(self.root)
        return found

    def balance(
        self, starts: Mapping[str, float], shut: frozenset[str], fan: Callable[[float], float], most: float
    ) -> tuple[list[float], Mapping[str, float], tuple[At, ...]]:
        """Return what is lacking to a balance for any beginnings, and the flows into hoods and the pieces then.

        Of a branch that joins another: its pull less that where they meet; of the last one: its pull less the fan's.

        Raises as `run`.
        """
        lacking = []
        for name in starts:
            air = self._behind(self.branches[name], starts, shut)
            joins = self.branches[name].joins
            lacking.append(air.pull - starts[joins] if joins else air.wall - fan(min(air.flow, most)))
        last = self._behind(self.root, starts, shut)
        return lacking, last.hoods, last.pieces

    def _behind(self, branch: Branch, starts: Mapping[str, float], shut: frozenset[str]) -> Air:
        """Return the air behind a branch for any beginnings of it and of all before it."""
        if not self.feeding[branch.name]:
            return self._through(branch, starts[branch.name], shut)
        before = [self._behind(other, starts, shut) for other in self.feeding[branch.name]]
        hoods = {hood: flow for air in before for hood, flow in air.hoods.items()}
        done = [at for air in before for at in air.pieces]
        flow = sum(air.flow for air in before)
        return self._along(branch.name, branch.pieces, starts[branch.name], flow, hoods, done)

    def _along(
        self, name: str, pieces: Sequence[Piece], pull: float, flow: float, hoods: Mapping[str, float], done: list[At]
    ) -> Air:
        """Return the air behind pieces that it enters at a pull and a flow."""
        wide = next((piece.diameter for piece in pieces if piece.diameter), 0.0)
        wall = pull + self._velocity_pressure(flow, wide)
        for piece in pieces:
            loss = piece.loss(flow) if flow > 0 else 0.0
            pull += loss
            wide = piece.diameter or wide
            wall = pull + self._velocity_pressure(flow, wide)
            if piece.leak and not piece.gate:
                flow += piece.leak * self.leaking(wall)
                wall = pull + self._velocity_pressure(flow, wide)
            done.append(At(name, piece, flow, self._speed(flow, wide), loss, wall))
        return Air(flow, pull, wall, hoods, tuple(done))

    def _at_pull(self, branch: Branch, pull: float, shut: frozenset[str]) -> Air:
        """Return the air through a branch at whose end there is this pull."""
        if pull <= 0:
            return self._through(branch, 0.0, shut)
        start = self._crossing(branch, lambda start: self._through(branch, start, shut).pull - pull, shut)
        return self._through(branch, start, shut)

    def _crossing(self, branch: Branch, of: Callable[[float], float], shut: frozenset[str]) -> float:
        """Return at which start of a branch a rising function that begins below 0 crosses it."""
        by_flow = not self.feeding[branch.name] and branch.name not in shut
        low, high = 0.0, FLOW if by_flow else PULL
        while of(high) < 0:
            low, high = high, 8 * high
            if high > MOST:
                raise KitError(
                    f"the branch {branch.name!r} costs the air nothing; state its entry and its hose or duct"
                )
        return float(brentq(of, low, high, xtol=high * SURE, rtol=4 * SURE))

    def _speed(self, flow: float, wide: float) -> float:
        return flow / (pi * wide**2 / 4) if wide else 0.0

    def _velocity_pressure(self, flow: float, wide: float) -> float:
        return self.density / 2 * self._speed(flow, wide) ** 2


def _root(branches: Sequence[Branch]) -> Branch:
    """Return the branch into which all others run at last. Raises KitError where there is none, or a circle."""
    ends = [branch for branch in branches if not branch.joins]
    if len(ends) != 1:
        said = " and ".join(repr(branch.name) for branch in ends) or "none"
        raise KitError(f"one branch runs into the collector, here {said}; state for every other one which it joins")
    joins = {branch.name: branch.joins for branch in branches}
    for branch in branches:
        seen, name = [branch.name], branch.joins
        while name:
            if name in seen:
                raise KitError(f"the branches {' and '.join(map(repr, seen))} join in a circle; let one join another")
            seen.append(name)
            name = joins[name]
    return ends[0]
