"""The clearance of a hood proven over every position of the joints, within a time that is given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from time import process_time

import numpy as np

from kit.core.build import Progress
from kit.geometry.clearance import Obstacle, certified, farthest
from kit.geometry.motion import Chain
from kit.geometry.solids.convex import Array
from kit.subjects.hood.geometry.boards import INSIDE, Board
from kit.subjects.hood.geometry.gaps import Swept, before, gaps
from kit.subjects.hood.geometry.openings import pierced, region
from kit.subjects.hood.geometry.under import Outside, Room, proven_outside
from kit.subjects.hood.hood_boards import HoodBoards
from kit.subjects.hood.machine import Machine

CLOSE = 0.01  # [mm] to which the clearance from the plane of a board's inside is proven
TOLERANCE = 1.0  # [mm] to which the tightest clearance is proven where the board is searched
FINE = 0.1  # [mm] the same where little more is there than is needed


@dataclass(frozen=True)
class Proof:
    """What is proven: no position comes nearer than `least` [mm]; `found` [mm] was met, at the tightest `board`.

    Where a piece of the machine is outside the hood at some position, or it is not proven that none is, there is no
    proof: no pair is looked at.
    """

    least: float
    found: float
    board: str
    done: int  # pairs of a board and a moving part that were looked at
    pairs: int
    complete: bool  # False: the time was over before `least` was within the tolerance of `found`
    outside: Outside | None = None  # a piece of the machine that is not under the hood
    under: bool = True  # whether it is proven that there is none

    def sure(self, error: float) -> float:
        """Return what the clearance is at least [mm] if every surface may be off by `error` [mm]."""
        return self.least - error


def certificate(machine: Machine, made: HoodBoards, needed: float, seconds: float, progress: Progress) -> Proof:
    """Return what can be proven in so many seconds, the tightest pairs of board and moving part first.

    No board is nearer than the plane of its inside. Only where that does not decide, as before an opening, is the
    board searched triangle by triangle, so closely that its bound tells whether it is farther than `needed` [mm].
    """
    end = process_time() + seconds
    pairs = sorted(
        (
            _pair(board, made.openings.get(board.name, {}), part, chain, end)
            for part, chain in zip(machine.moving, machine.chains, strict=True)
            for board in made.boards
        ),
        key=lambda pair: (pair.found == np.inf, pair.least),
    )
    progress(0.0, "proving that the machine is under the hood")
    out, under = _under(machine, made, end)
    least, found, board, done, complete = np.inf, np.inf, pairs[0].board.name, 0, True
    if out is not None or not under:
        return Proof(0.0, 0.0, board, 0, len(pairs), False, out, under)
    for pair in pairs:
        left = end - process_time()
        if left <= 0.0 or not progress(done / len(pairs), f"certifying the {pair.board.name} board"):
            break
        done += 1
        if pair.least < least and pair.found == np.inf:
            pair = _searched(pair, found, needed, left)
        found = min(found, pair.found)
        if pair.least < least:
            least, board, complete = pair.least, pair.board.name, pair.complete
    progress(1.0, "certified")
    return Proof(float(least), float(found), board, done, len(pairs), complete)


@dataclass(frozen=True)
class _Pair:
    """A board and a part: no position comes nearer than `least` [mm]; `found` [mm] was met, infinite if none was."""

    board: Board
    cut: Mapping[str, Array]
    part: Swept
    chain: Chain
    least: float
    found: float
    complete: bool


def _pair(board: Board, cut: Mapping[str, Array], part: Swept, chain: Chain, end: float) -> _Pair:
    """Return what the plane of the board's inside tells."""
    way = board.face.plane.normal
    far = farthest(part.body, chain, way, CLOSE, end - process_time())
    gap, there = before(board, region(board, cut, INSIDE), far.here)
    least = gap - (far.sure - far.found)
    if there is None:
        return _Pair(board, cut, part, chain, least, np.inf, False)
    return _Pair(board, cut, part, chain, max(0.0, least), gap, far.sure - far.found <= CLOSE)


def _searched(pair: _Pair, found: float, needed: float, seconds: float) -> _Pair:
    """Return what the search over the board's triangles tells, where `found` [mm] was met at others."""
    gap = gaps([pair.part], [pair.board], {pair.board.name: pair.cut})[0].gap
    tolerance = max(FINE if gap - needed < 2.0 * TOLERANCE else TOLERANCE, (gap - max(0.0, found)) / 2.0)
    hood = Obstacle.of([(pair.board.name, *pierced(pair.board, pair.cut))])
    answer = certified(pair.part.body, hood, pair.chain, tolerance=tolerance, seconds=seconds)[0]
    return replace(pair, least=answer.least, found=answer.found, complete=answer.complete)


def _under(machine: Machine, made: HoodBoards, end: float) -> tuple[Outside | None, bool]:
    """Return a piece that is outside at some position, or None, and whether that is proven."""
    room = Room(made.form.faces(), below=machine.joined)
    if room.holds(machine.reached):
        return None, True
    return proven_outside(machine.moving, machine.chains, machine.standing, room, machine.joined, end)
