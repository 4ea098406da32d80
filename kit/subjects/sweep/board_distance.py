"""How near a flat board may stand on each side of a machine that sweeps: sampled, and certified over all positions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from kit.core.build import Progress, Table
from kit.core.quantity import Display, show
from kit.geometry.clearance import Body, farthest
from kit.geometry.motion import Chain, apply
from kit.subjects.sweep.swept import Sweep

Array = NDArray[np.float64]
TITLE = "How near a flat board may stand"
TOLERANCE = 0.01  # mm, to which the certified reach is proven
SECONDS = 20.0  # for one part on one side
FEW = 5  # positions of each joint, for the sampled reach
SHOWN = 0.1  # mm, to which a reach is shown; a certified one is rounded up to it
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
        toward = np.array(way)
        few = max(_few(body, chain, toward) for body, chain in sweep.moves)
        each = [farthest(body, chain, toward, TOLERANCE, SECONDS) for body, chain in sweep.moves]
        found, sure = max(few, *(one.found for one in each)), max(one.sure for one in each)
        answers.append(Near(side, few, found, sure, all(one.sure <= found + TOLERANCE for one in each)))
    return answers


def _few(body: Body, chain: Chain, way: Array) -> float:
    counts = [FEW if joint.low < joint.high else 1 for joint in chain.joints]
    return float((apply(chain.poses(chain.grid(counts)), body.corners) @ way).max())


def table(answers: Sequence[Near], error: float, d: Display) -> Table:
    """Return the answers as a table; a board may stand where the certified reach ends, and the scan's error beyond."""

    def words(base: float) -> str:
        return show(base, "mm", d, resolution=SHOWN)

    def sure(base: float) -> str:
        return words(ceil(base / SHOWN) * SHOWN)

    rows = []
    for each in answers:
        over = "" if each.complete else " (time over)"
        reaches = (words(each.sampled), words(each.found), sure(each.sure) + over)
        rows.append((each.side, *reaches, sure(each.sure + error)))
    heads = (
        "side",
        f"sampled, {FEW} positions a joint",
        "found",
        "certified: never beyond",
        "board not nearer than",
    )
    return Table(TITLE, heads, tuple(rows))
