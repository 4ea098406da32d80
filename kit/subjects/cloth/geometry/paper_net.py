"""A paper model: pieces joined into nets along seams that lie flat, with tabs to glue the others.

Pieces stay together along a seam only where both its edges have the same flat shape and the piece then lies on no
other: such seams become folds. They are chosen one by one, the longest first, as a tree, so that nothing is asked for
twice. Every other seam is glued: one of its edges gets tabs, short ones where it is curved.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from shapely import Polygon, unary_union

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, at_lengths, lengths_along, unit_rows
from kit.geometry.ties import rough
from kit.subjects.cloth.geometry.assembly import CREASE
from kit.subjects.cloth.geometry.pattern import Piece
from kit.subjects.cloth.geometry.sewing import Seam

SAME = 0.2  # mm, by which two edges may differ and still be one fold
SAMPLES = 33  # places at which two edges are compared
SLANT = 0.5  # of its depth by which each end of a tab is drawn in


@dataclass(frozen=True)
class Placed:
    """A piece of a net: its name and its outline (n, 2), mm."""

    name: str
    outline: Floats


@dataclass(frozen=True)
class Glued:
    """A seam to be glued: its number, the edge with tabs and the other edge, each (n, 2), and their nets' numbers.

    tabs: outlines of the tabs (k, 2) each; none where no room is left, and tape does it.
    """

    number: int
    name: str
    on: int
    edge: Floats
    tabs: tuple[Floats, ...]
    to: int
    other: Floats


@dataclass(frozen=True)
class Net:
    """Pieces that hang together: their outlines and the folds between them, (n, 2) each, mm."""

    pieces: tuple[Placed, ...]
    folds: tuple[Floats, ...]

    @property
    def overlap(self) -> float:
        """The area on which pieces lie over each other, mm²: none, but for rounding."""
        shapes = [Polygon(piece.outline) for piece in self.pieces]
        return float(sum(shape.area for shape in shapes) - unary_union(shapes).area)


@dataclass(frozen=True)
class PaperModel:
    """The nets of a paper model, and the seams to be glued in order."""

    nets: tuple[Net, ...]
    glued: tuple[Glued, ...]

    def shape(self, number: int) -> Polygon:
        """Return the outline of a net with its tabs."""
        tabs = [Polygon(tab) for glued in self.glued if glued.on == number for tab in glued.tabs]
        parts = [*(Polygon(piece.outline) for piece in self.nets[number].pieces), *tabs]
        # Widened by a hair and narrowed again, so that no slit stays between edges that only nearly coincide.
        wide = unary_union([part.buffer(2 * SAME, join_style="mitre") for part in parts])
        whole = wide.buffer(-2 * SAME, join_style="mitre").simplify(SAME / 10)
        return max(getattr(whole, "geoms", [whole]), key=lambda part: part.area)


@dataclass(frozen=True)
class _Move:
    turn: Floats
    shift: Floats

    def __call__(self, points: Floats) -> Floats:
        return np.asarray(points @ self.turn.T + self.shift)


def paper_model(pieces: Sequence[Piece], seams: Sequence[Seam], tab: float) -> PaperModel:
    """Return the nets of pieces (each once) and how their seams are folded or glued; tab: depth of tabs, mm.

    Raises: KitError for no pieces, or a depth that is not above zero.
    """
    if not pieces:
        raise KitError("A paper model needs one piece at least; the pattern has none")
    if not tab > 0:
        raise KitError(f"The tabs of the paper model are {tab:g} mm deep; they must be above 0 mm")
    by_name = {piece.name: piece for piece in pieces}
    waiting = sorted(
        (seam for seam in seams if seam.other is not None and seam.other != seam.piece),
        key=lambda seam: -rough(seam.length),
    )
    places: dict[str, tuple[int, _Move]] = {}
    folds: list[list[Floats]] = []
    shapes: list[list[Polygon]] = []
    folded: set[str] = set()
    for piece in sorted(pieces, key=lambda piece: -rough(Polygon(piece.outline).area)):
        if piece.name in places:
            continue
        number = len(shapes)
        places[piece.name] = number, _Move(np.eye(2), np.zeros(2))
        shapes.append([Polygon(piece.outline)])
        folds.append([])
        while True:
            joined = next(_joinable(waiting, folded, by_name, places, number, shapes[number]), None)
            if joined is None:
                break
            seam, name, move, fold = joined
            folded.add(seam.name)
            places[name] = number, move
            shapes[number].append(Polygon(move(by_name[name].outline)))
            folds[number].append(fold)
    for piece in pieces:
        number, move = places[piece.name]
        folds[number] += [move(line) for name, line in piece.folds if name == CREASE]
    nets = tuple(
        Net(
            tuple(Placed(name, move(by_name[name].outline)) for name, (at, move) in places.items() if at == number),
            tuple(folds[number]),
        )
        for number in range(len(shapes))
    )
    return PaperModel(nets, tuple(_glued(seams, folded, by_name, places, shapes, tab)))


def _joinable(
    waiting: Sequence[Seam],
    folded: set[str],
    by_name: dict[str, Piece],
    places: dict[str, tuple[int, _Move]],
    number: int,
    shapes: list[Polygon],
) -> Iterator[tuple[Seam, str, _Move, Floats]]:
    """Yield the seams along which another piece can stay on this net: seam, piece, its place, the fold."""
    for seam in waiting:
        here = [name for name in (seam.piece, seam.other) if name in places and places[name][0] == number]
        new = [name for name in (seam.piece, seam.other) if name is not None and name not in places]
        if seam.name in folded or len(here) != 1 or len(new) != 1:
            continue
        fold = places[here[0]][1](by_name[here[0]].edge(seam.name).line)
        move = _onto(by_name[new[0]].edge(seam.name).line[::-1], fold)
        if move is None:
            continue
        shape = Polygon(move(by_name[new[0]].outline))
        room = 1e-6 * shape.area + 2 * SAME * seam.length
        if sum(shape.intersection(other).area for other in shapes) <= room:
            yield seam, new[0], move, fold


def _onto(line: Floats, goal: Floats) -> _Move | None:
    """Return the turn and shift that lay a line (n, 2) on another one, if they have the same shape."""
    lengths = lengths_along(line)[-1], lengths_along(goal)[-1]
    if abs(lengths[0] - lengths[1]) > SAME:
        return None
    share = np.linspace(0, 1, SAMPLES)
    p, q = (at_lengths(each, share * length) for each, length in zip((line, goal), lengths, strict=True))
    middle, aim = p.mean(axis=0), q.mean(axis=0)
    u, _, v = np.linalg.svd((q - aim).T @ (p - middle))
    turn = u @ np.diag([1.0, np.sign(np.linalg.det(u @ v))]) @ v
    move = _Move(turn, aim - turn @ middle)
    return move if np.hypot(*(move(p) - q).T).max() <= SAME else None


def _glued(
    seams: Sequence[Seam],
    folded: set[str],
    by_name: dict[str, Piece],
    places: dict[str, tuple[int, _Move]],
    shapes: list[list[Polygon]],
    tab: float,
) -> Iterator[Glued]:
    """Yield the seams that are not folds, each with tabs on the edge that has the room."""
    taken = [unary_union(each) for each in shapes]
    wanted = [seam for seam in seams if seam.other is not None and seam.name not in folded]
    for number, seam in enumerate(wanted, 1):
        ends = []
        for piece, side in ((seam.piece, seam.name), (seam.other or "", _partner(seam))):
            net, move = places[piece]
            ends.append((net, move(by_name[piece].edge(side).line)))
        best: tuple[float, tuple[Floats, ...], int] = (0.0, (), 0)
        for depth in (tab, tab / 2):
            for end, (net, line) in enumerate(ends):
                tabs = tuple(each for each in _tabs(line, depth) if _is_free(each, taken[net]))
                covered = depth / tab * sum(float(np.hypot(*(each[-3] - each[0]))) for each in tabs)
                if covered > best[0] + 1e-9:
                    best = covered, tabs, end
        _, tabs, end = best
        (on, edge), (to, other) = ends[end], ends[1 - end]
        taken[on] = unary_union([taken[on], *(Polygon(each) for each in tabs)])
        yield Glued(number, seam.name, on, edge, tabs, to, other)


def _partner(seam: Seam) -> str:
    """Return the name of the edge on the other piece: on the same piece it has a prime."""
    return f"{seam.name}'" if seam.piece == seam.other else seam.name


def _is_free(tab: Floats, taken: Polygon) -> bool:
    shape = Polygon(tab)
    return bool(shape.is_valid and shape.intersection(taken).area <= 0.02 * shape.area)


def _tabs(line: Floats, depth: float) -> Iterator[Floats]:
    """Yield tabs outside a counterclockwise edge: one along a straight stretch, short ones round a curve.

    A tab is its stretch of the edge, and then its two outer corners.
    """
    along = lengths_along(line)
    heading = np.unwrap(np.arctan2(*np.diff(line, axis=0).T[::-1]))
    straight = float(np.ptp(heading)) < 0.02
    count = 1 if straight else max(1, int(np.ceil(along[-1] / (2.5 * depth))))
    for k in range(count):
        begin, end = along[-1] * k / count, along[-1] * (k + 1) / count
        inner = along[(along > begin + 1e-9) & (along < end - 1e-9)]
        base = at_lengths(line, np.array([begin, *inner, end]))
        ahead = unit_rows((base[-1] - base[0])[None])[0]
        out = np.array([ahead[1], -ahead[0]])
        chord = float(np.hypot(*(base[-1] - base[0])))
        slant = min(SLANT * depth, chord / 3)
        # A bulge of the edge may reach beyond its chord: the tab is as deep beyond the bulge.
        reach = depth + max(0.0, float(((base - base[0]) @ out).max()))
        yield np.vstack([base, base[-1] + reach * out - slant * ahead, base[0] + reach * out + slant * ahead])
