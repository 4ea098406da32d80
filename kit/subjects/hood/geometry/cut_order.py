"""The order in which a hood's cuts are made, so that hands stay away from small pieces: common practice, no source.

One rule after the other decides: first every board is sawn oversize from the sheet, the largest first; openings
are sawn while their board is still a large rectangle; then the long cuts, all with one blade tilt together, so that
the blade is set once; then the ends, long boards first. A board that is short anywhere comes last and rides on
a carrier: its cuts are never held by hand.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kit.geometry.solids.convex import Array
from kit.geometry.ties import rough
from kit.subjects.hood.geometry.boards import Board, Edge

SMALL = 300.0  # [mm] a board shorter than this anywhere rides on a carrier (12 in, common practice, no source)
OVERSIZE = 20.0  # [mm] that a blank has more than the board
SAME = 0.0005  # [rad] tilts that differ by less are cut at one setting


@dataclass(frozen=True)
class Step:
    """One step: what is done to which board, with miter and tilt [rad] as in `Edge`, and how it is held."""

    board: str
    what: str  # "blank", "opening", "long cut" or "end cut"
    edge: str
    miter: float
    tilt: float
    carrier: bool


def cutting_order(made: Sequence[Board], openings: Mapping[str, Mapping[str, Array]]) -> list[Step]:
    """Return all steps in order for boards, and their openings (n, 2) [mm] by board and name."""
    large_first = sorted(made, key=lambda board: (is_small(board), -rough(max(board.size)), board.name))
    steps = [Step(board.name, "blank", "", 0.0, 0.0, False) for board in large_first]
    steps += [
        Step(board.name, "opening", name, 0.0, 0.0, False)
        for board in large_first
        for name in openings.get(board.name, {})
    ]
    for what, along in (("long cut", True), ("end cut", False)):
        cuts = [(board, edge) for board in large_first for edge in board.edges if edge.along == along]
        cuts.sort(key=lambda cut: (is_small(cut[0]), _setting(cut[1]), -rough(cut[1].outside)))
        steps += [Step(board.name, what, edge.meets, edge.miter, edge.tilt, is_small(board)) for board, edge in cuts]
    return steps


def is_small(board: Board) -> bool:
    """Return whether a board is so short somewhere that it rides on a carrier."""
    return min(board.size) < SMALL


def _setting(edge: Edge) -> float:
    return round(abs(edge.tilt) / SAME) * SAME
