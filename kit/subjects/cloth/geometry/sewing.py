"""Sewing: thread and staples needed, the order of seams, and their direction."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from kit.core.errors import KitError
from kit.geometry.ties import rough
from kit.subjects.cloth.geometry.pattern import base, is_dart

RUNS = {"301": 2, "401": 4}
"""How often thread runs along the cloth, by the stitch type of ISO 4915: lockstitch, chainstitch of two threads."""


def stitched_thread(seam: float, thickness: float, stitch: float, runs: int) -> float:
    """Return the thread (mm) that a seam takes, all its threads together, without waste.

    seam: its length; thickness: of all layers together; stitch: length of a stitch, mm; runs: how often thread runs
    along each stitch. Through all layers it goes once down and once up for each stitch: the trade's C = runs + 2 T S.
    Source: textilecalculations.com, sewing thread consumption, types 301 and 401.
    """
    return seam * (runs + 2 * thickness / stitch)


def lockstitch_thread(seam: float, thickness: float, stitch: float) -> float:
    """Return the thread (mm) that a lockstitch seam (type 301) takes, needle and bobbin together, without waste.

    seam: its length; thickness: of all layers together; stitch: length of a stitch, mm. Needle and bobbin thread each
    run one stitch length along the cloth, and where they lock each goes half the thickness in and out: together
    2 (stitch + thickness) for each stitch, hence seam (2 + 2 thickness / stitch), the trade's 2 + 2 T S.
    Raises: KitError for a stitch that is not above zero.
    """
    if stitch <= 0:
        raise KitError(f"The stitch is {stitch:g} mm long; it must be above 0 mm")
    return stitched_thread(seam, thickness, stitch, RUNS["301"])


def thread_to_buy(seams: float, waste: float = 0.15) -> float:
    """Return `seams` (mm of thread) with what is lost at the ends and in trials: 10 to 15 % in the trade."""
    return seams * (1 + waste)


def staple_count(length: float, spacing: float, ends: bool = True) -> int:
    """Return how many staples hold an edge (mm) at no more than a given spacing, with one at each end or none there.

    Raises: KitError for a spacing that is not above zero.
    """
    if spacing <= 0:
        raise KitError(f"The staples are {spacing:g} mm apart; the spacing must be above 0 mm")
    gaps = max(1, int(np.ceil(length / spacing - 1e-9)))
    return gaps + 1 if ends else gaps


@dataclass(frozen=True)
class Seam:
    """A seam between two pieces by their names, or a hem that runs over one or more pieces (other is then None)."""

    name: str
    piece: str
    other: str | None
    length: float


@dataclass(frozen=True)
class Step:
    """One step of sewing.

    kind: "dart" comes first, while each piece still lies alone; "join" brings in a new piece and is sewn lying flat, or
    goes on with the seam before it; "close" makes a ring or a tube; "hem" comes last.
    lay: the piece to whose side the allowance is laid, so that the next crossing stitch runs off its edge.
    """

    seam: Seam
    kind: Literal["dart", "join", "close", "hem"]
    lay: str | None


def sewing_order(seams: Sequence[Seam]) -> tuple[Step, ...]:
    """Return the seams in an order in which each is sewn as flat as can be, and to which side allowances are laid.

    Darts are sewn up before the edges on which they end. Pieces are then joined one to the next, from the free end of
    a row on; seams that close a ring come after, the longest first (while most of the work still lies flat); hems that
    cross seams come last. Sewing across a seam from the earlier to the later piece, the foot must not run up against
    the free edge of an allowance but off it: so every allowance is laid toward the later piece, and hems are sewn in
    the order of the pieces.
    Raises: KitError for two seams of one name.
    """
    names = [seam.name for seam in seams]
    for name in names:
        if names.count(name) > 1:
            raise KitError(f"Two seams are named {name!r}; give each its own name")
    darts = [seam for seam in seams if seam.piece == seam.other and is_dart(seam.name)]
    waiting = [(seam, (seam.piece, seam.other)) for seam in seams if seam.other is not None and seam not in darts]
    rank: dict[str, int] = {}
    steps = [Step(dart, "dart", None) for dart in darts]
    last = ""
    while any(not {*ends} <= rank.keys() for _, ends in waiting):
        open_ones = [(seam, ends) for seam, ends in waiting if len({*ends} & rank.keys()) == 1 and len({*ends}) == 2]
        if not open_ones:
            last = _row_end([ends for _, ends in waiting if not {*ends} & rank.keys()])
            rank[last] = len(rank)
            continue
        seam, ends = min(open_ones, key=lambda entry: last not in entry[1])  # on from the last piece, if it goes on
        last = ends[1] if ends[0] in rank else ends[0]
        rank[last] = len(rank)
        steps.append(Step(seam, "join", last))
        waiting.remove((seam, ends))
        same = [
            (other, theirs) for other, theirs in waiting if {*theirs} == {*ends} and base(other.name) == base(seam.name)
        ]
        for other, theirs in same:  # its parts beyond darts, sewn in one go
            steps.append(Step(other, "join", last))
            waiting.remove((other, theirs))
    for seam, ends in sorted(waiting, key=lambda entry: -rough(entry[0].length)):
        # A closing seam is crossed from the last piece on to the first again.
        steps.append(Step(seam, "close", min(ends, key=lambda name: rank[name])))
    hems = [seam for seam in seams if seam.other is None]
    steps += [Step(hem, "hem", None) for hem in sorted(hems, key=lambda s: rank.get(s.piece, len(rank)))]
    return tuple(steps)


def _row_end(pairs: Sequence[tuple[str, str]]) -> str:
    """Return the first piece with a single seam, where a row begins, or the first piece of all in a ring."""
    pieces = [name for pair in pairs for name in pair]
    return next((name for name in pieces if pieces.count(name) == 1), pieces[0])
