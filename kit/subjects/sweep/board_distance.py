"""How near a flat board may stand on each side of a machine that sweeps: sampled, and certified over all positions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from kit.core.build import Progress, Table
from kit.core.quantity import Display, show
from kit.geometry.clearance import Body, Clearance, Obstacle, certified, sampled
from kit.geometry.motion import Chain
from kit.subjects.sweep.swept import Sweep

Array = NDArray[np.float64]
TITLE = "How near a flat board may stand"
TOLERANCE = 0.5  # mm, to which the certified reach is proven
SECONDS = 20.0  # for one part on one side
FEW = 5  # positions of each joint, for the sampled reach
BEYOND = 20.0  # mm, by which a board stands clear of the envelope, to be measured from there
SIDES = {
    "front": (0.0, -1.0, 0.0),
    "left": (-1.0, 0.0, 0.0),
    "right": (1.0, 0.0, 0.0),
    "back": (0.0, 1.0, 0.0),
    "top": (0.0, 0.0, 1.0),
}


@dataclass(frozen=True)
class Near:
    """How far the machine reaches toward a side [mm], from the swing axis at the bed's height."""

    side: str
    sampled: float  # at few positions
    found: float  # the farthest that was met
    sure: float  # no position reaches farther: certified
    complete: bool


def near(sweep: Sweep, progress: Progress) -> list[Near]:
    """Return the reach toward each side; fewer sides if `progress` asks to stop."""
    answers = []
    for number, (side, way) in enumerate(SIDES.items()):
        if not progress(number / len(SIDES), f"certifies the {side}"):
            break
        away, board = _board(sweep, np.array(way))
        rides = [(body, _matters(chain, side)) for body, chain in sweep.moves]
        few = [_few(body, chain, board) for body, chain in rides]
        sure = [certified(body, board, chain, tolerance=TOLERANCE, seconds=SECONDS)[0] for body, chain in rides]
        least, found = min(each.least for each in sure), min(each.found for each in (*sure, *few))
        complete = all(each.complete for each in sure)
        answers.append(Near(side, away - min(each.found for each in few), away - found, away - least, complete))
    return answers


def _board(sweep: Sweep, way: Array) -> tuple[float, Obstacle]:
    """Return a flat board square to `way` beyond the envelope, larger than it, and how far out it stands."""
    left, low, right, high = sweep.envelope.plan().bounds
    top = float(sweep.envelope.top().max())
    corners = np.array([[left, low, sweep.envelope.floor], [right, high, top]])
    middle, size = corners.mean(axis=0), float(np.ptp(corners, axis=0).max())
    away = float((corners @ way).max()) + BEYOND
    center = middle + (away - middle @ way) * way
    first = np.roll(way, 1)
    second = np.cross(way, first)
    square = np.array([center + size * (a * first + b * second) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))])
    return away, Obstacle.of([("board", square, [[0, 1, 2], [0, 2, 3]])])


def _matters(chain: Chain, side: str) -> Chain:
    """Return the chain; toward the top without its upright swing at all other values than 0, which lifts nothing."""
    first = chain.joints[0]
    upright = first.kind == "turn" and abs(first.direction[2]) == np.linalg.norm(first.direction)
    if side != "top" or not upright:
        return chain
    still = type(first)(first.name, first.kind, first.point, first.direction, 0.0, 0.0)
    return Chain((still, *chain.joints[1:]))


def _few(body: Body, chain: Chain, board: Obstacle) -> Clearance:
    counts = [FEW if joint.low < joint.high else 1 for joint in chain.joints]
    return sampled(body, board, chain.poses(chain.grid(counts)))[0]


def table(answers: Sequence[Near], error: float, d: Display) -> Table:
    """Return the answers as a table; a board may stand where the certified reach ends, and the scan's error beyond."""

    def words(base: float) -> str:
        return show(base, "mm", d, resolution=0.1)

    rows = []
    for each in answers:
        over = "" if each.complete else " (time over)"
        reaches = (words(each.sampled), words(each.found), words(each.sure) + over)
        rows.append((each.side, *reaches, words(each.sure + error)))
    heads = (
        "side",
        f"sampled, {FEW} positions a joint",
        "found",
        "certified: never beyond",
        "board not nearer than",
    )
    return Table(TITLE, heads, tuple(rows))
