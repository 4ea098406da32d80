"""The clearance of a hood proven over every position of the joints, within a time that is given."""

from __future__ import annotations

from dataclasses import dataclass
from time import process_time

import numpy as np

from kit.core.build import Progress
from kit.geometry.clearance import Obstacle, certified
from kit.subjects.hood.geometry.gaps import gaps
from kit.subjects.hood.geometry.openings import pierced
from kit.subjects.hood.geometry.under import Outside, Room, proven_outside
from kit.subjects.hood.hood_boards import HoodBoards
from kit.subjects.hood.machine import Machine

TOLERANCE = 1.0  # [mm] to which the tightest clearance is proven
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

    A pair that is far from the tightest one is proven only as closely as it takes to be sure that it is farther; one
    that is hardly farther than `needed` [mm], so closely that the bound tells whether it is.
    """
    end = process_time() + seconds
    boards = {board.name: board for board in made.boards}
    pairs = sorted(
        (
            (gap, part, chain)
            for part, chain in zip(machine.moving, machine.chains, strict=True)
            for gap in gaps([part], made.boards, made.openings)
        ),
        key=lambda pair: pair[0].gap,
    )
    progress(0.0, "proving that the machine is under the hood")
    out, under = _under(machine, made, end)
    if out is not None or not under:
        return Proof(0.0, pairs[0][0].gap, pairs[0][0].board, 0, len(pairs), False, out, under)
    tightest = max(0.0, pairs[0][0].gap)
    least, found, board, done, complete = np.inf, np.inf, pairs[0][0].board, 0, True
    for gap, part, chain in pairs:
        left = end - process_time()
        if left <= 0.0 or not progress(done / len(pairs), f"certifying the {gap.board} board"):
            break
        hood = Obstacle.of([(gap.board, *pierced(boards[gap.board], made.openings.get(gap.board, {})))])
        close = FINE if gap.gap - needed < 2.0 * TOLERANCE else TOLERANCE
        tolerance = max(close, (gap.gap - tightest) / 2.0)
        answer = certified(part.body, hood, chain, tolerance=tolerance, seconds=left)[0]
        done += 1
        found = min(found, answer.found)
        if answer.least < least:
            least, board, complete = answer.least, gap.board, answer.complete
    progress(1.0, "certified")
    return Proof(float(least), float(found), board, done, len(pairs), complete)


def _under(machine: Machine, made: HoodBoards, end: float) -> tuple[Outside | None, bool]:
    """Return a piece that is outside at some position, or None, and whether that is proven."""
    room = Room(made.form.faces(), below=machine.joined)
    if (room.depth(machine.reached) > 0.0).all():
        return None, True
    return proven_outside(machine.moving, machine.chains, machine.standing, room, machine.joined, end)
