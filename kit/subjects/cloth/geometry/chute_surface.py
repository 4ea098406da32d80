"""A chute from a rectangular opening down to a round hose: its edge curves, its surface, and where seams can lie."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np

from kit.geometry.development.arrays import Floats, norm
from kit.geometry.development.curves import Curve
from kit.geometry.development.develop import Development, develop
from kit.geometry.development.primitives import circle, rectangle
from kit.geometry.development.ruled_strip import Strip
from kit.geometry.development.rulings import Method
from kit.geometry.development.segments import Line, Piece
from kit.geometry.development.unroll import Flat
from kit.geometry.remembered import remembered
from kit.subjects.cloth.geometry.assembly import Assembly, Making, assembled
from kit.subjects.cloth.geometry.edge_finish import edges_of_strip
from kit.subjects.cloth.geometry.pattern import SewEdge
from kit.subjects.cloth.geometry.seams import Parted, part_at

SIDES = ("right", "back", "left", "front")  # counterclockwise from x, seen from above
SPREAD = ((0,), (0, 2), (0, 1, 3), (0, 1, 2, 3))  # quarter turns from the first seam to the others


@dataclass(frozen=True)
class Chute:
    """Sizes of a chute, mm and rad: the opening lies level at z = 0, the hose hangs below, low toward `toward`."""

    opening: tuple[float, float]
    radius: float
    hose: float
    middle: tuple[float, float, float]
    tilt: float = 0.0
    toward: float = 0.0

    def edges(self, start: str = "front") -> tuple[Curve, Curve]:
        """Return opening and hose as curves, clockwise seen from above, from the middle of a side on.

        Straight sides are halved, so that a ruling can leave from the middle of each.
        Raises: KitError for sizes that no rectangle or circle has.
        """
        return _edges(self, start)

    def side_middle(self, side: str) -> Floats:
        """Return the middle (3,) of a side of the opening."""
        quarter = SIDES.index(side)
        x, y = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarter]
        return np.array([x * self.opening[0] / 2, y * self.opening[1] / 2, 0.0])

    def develop(
        self, start: str = "front", *, chord: float = 0.2, offset: float = 0.0, method: Method | None = None
    ) -> Development:
        """Return the surface from opening to hose and its flat piece, seen from outside; arguments as `develop`."""
        return develop(*self.edges(start), chord=chord, offset=offset, method=method)

    def seams(self, found: Development, start: str, count: int) -> list[int]:
        """Return the rulings (by number) from the middles of `count` sides, the first on the side `start`."""
        sides = [SIDES[(SIDES.index(start) + quarter) % 4] for quarter in SPREAD[count - 1]]
        feet = self._feet(found)
        return sorted(int(norm(feet - self.side_middle(side)).argmin()) for side in sides)

    def on_side(self, found: Development, side: str) -> Floats:
        """Return for each ruling 1 where it leaves from a side of the opening or its corners' nearer halves, else 0."""
        feet = self._feet(found)[:, :2] / np.array(self.opening)
        quarter = np.rint(np.arctan2(feet[:, 1], feet[:, 0]) / (np.pi / 2)) % 4
        return np.asarray(quarter == SIDES.index(side), dtype=np.float64)

    def _feet(self, found: Development) -> Floats:
        """Return where each ruling leaves from the opening itself, not from the middle of the cloth (n, 3)."""
        first = min(SIDES, key=lambda side: float(norm(found.strip.a[:1] - self.side_middle(side))[0]))
        return self.edges(first)[0].at(found.strip.t)


@lru_cache(maxsize=16)
def _edges(chute: Chute, start: str) -> tuple[Curve, Curve]:
    whole = rectangle(*chute.opening, radius=chute.radius, name="opening")
    pieces: list[Piece] = []
    for number, piece in enumerate(whole.pieces):
        cut = isinstance(piece, Line) and 0 < number < len(whole.pieces) - 1
        pieces += _halves(piece) if cut and isinstance(piece, Line) else [piece]
    begins = np.array([piece.at(np.zeros(1))[0] for piece in pieces])
    first = int(norm(begins - chute.side_middle(start)).argmin())
    begin = SIDES.index(start) * np.pi / 2
    rim = circle(chute.hose, chute.middle, tilt=chute.tilt, azimuth=chute.toward, start=begin, name="hose")
    return Curve((*pieces[first:], *pieces[:first]), True, whole.name).reversed(), rim.reversed()


def _halves(line: Line) -> list[Piece]:
    middle = (line.begin + line.end) / 2
    return [Line(line.begin, middle), Line(middle, line.end)]


@remembered(most=8)
def laid_out(chute: Chute, found: Development, seams: Sequence[int], making: Making) -> tuple[Parted, Assembly]:
    """Part a developed chute at rulings (by number) and return its panels and their pattern.

    Pieces "chute 1" …, each with its middle upright and the grain along it; edges "opening" and "hose", "seam 1" …
    between. At a sharp corner of the opening its edge is parted into "opening", "opening 2" …, with mitered hems.
    Raises: KitError for a ruling that the chute does not have, and what `assembled` refuses.
    """
    parted = part_at(found.strip, seams)
    parted = replace(parted, flats=tuple(upright(flat) for flat in parted.flats))
    count = len(parted.panels)
    edges, pairs = {}, []
    for k, (panel, flat) in enumerate(zip(parted.panels, parted.flats, strict=True), 1):
        begin, end = f"seam {k}", f"seam {k % count + 1}" if count > 1 else "seam 1'"
        opening, *others = edges_of_strip(flat, ("opening", end, "hose", begin))
        whole = [opening] if chute.radius else _cornered(panel, flat)
        edges[f"chute {k}"] = [*whole, *others]
        pairs.append((begin, f"chute {(k - 2) % count + 1}", f"chute {k}"))
    finishes = dict(making.finishes)
    for edge in (edge for piece in edges.values() for edge in piece):
        if edge.name.startswith("opening"):
            finishes[edge.name] = making.finishes["opening"]
    return parted, assembled("chute", edges, pairs, replace(making, finishes=finishes))


def upright(flat: Flat) -> Flat:
    """Turn a flat piece so that the ruling half way between its first and its last points upward."""
    direction = flat.b - flat.a
    angle = np.unwrap(np.arctan2(direction[:, 1], direction[:, 0]))
    return flat.placed(float(np.pi / 2 - (angle[0] + angle[-1]) / 2))


def _cornered(panel: Strip, flat: Flat) -> list[SewEdge]:
    """Return the opening's edge parted at sharp corners, where many rulings fan out from one parameter of the curve."""
    joint = np.rint(panel.t)
    stays = (np.abs(np.diff(panel.t)) < 1e-9) & (np.abs(panel.t[1:] - joint[1:]) < 1e-9)
    lines, last, k = [], 0, 0
    while k < len(stays):
        end = k
        while end < len(stays) and stays[end]:
            end += 1
        if end > k + 1:  # a fan: the middle of its ends is the corner on the middle of the cloth
            lines.append(np.vstack([flat.a[last : k + 1]]))
            last = end
        k = end + 1
    lines.append(flat.a[last:])
    for before, after in pairwise(lines):
        corner = (before[-1] + after[0]) / 2
        before[-1], after[0] = corner, corner
    return [
        SewEdge(f"opening {k}" if k > 1 else "opening", _thin(line), corner="mitered" if k > 1 else "extended")
        for k, line in enumerate(lines, 1)
    ]


def _thin(line: Floats) -> Floats:
    """Return a line without points that repeat their predecessor."""
    return line[np.r_[True, norm(np.diff(line, axis=0)) > 1e-9]]
