"""The whole pattern of a skin or of a parted strip: pieces with their finishes, match marks on all seams, the seams."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from kit.core.errors import KitError, near_misses
from kit.geometry.development.arrays import Floats
from kit.geometry.remembered import remembered
from kit.subjects.cloth.geometry.covering import CoveredPanel
from kit.subjects.cloth.geometry.edge_finish import edges_of_strip, finished, with_finish
from kit.subjects.cloth.geometry.hems import Tolerance
from kit.subjects.cloth.geometry.match_marks import match
from kit.subjects.cloth.geometry.parting import parted_alike
from kit.subjects.cloth.geometry.pattern import CornerKind, Finish, Pattern, Piece, SewEdge
from kit.subjects.cloth.geometry.seams import Parted
from kit.subjects.cloth.geometry.sewing import Seam
from kit.subjects.cloth.geometry.skin_panels import SkinPanel, shared_edges

CREASE = "crease"  # name of the fold lines inside a piece


@dataclass(frozen=True)
class Assembly:
    """A pattern and the seams by which its pieces are sewn together, for `sewing_order`."""

    pattern: Pattern
    seams: tuple[Seam, ...]


@dataclass(frozen=True)
class Making:
    """How pieces are made.

    Finish of each edge by name (`seam` for all that are sewn together), marks on a seam, the share that may be eased,
    grain on the flat piece (rad), tolerance of hems, how allowances end at corners, and the outlines (n, 2) of cut-outs
    by the name of their piece.
    """

    finishes: Mapping[str, Finish]
    seam: Finish = field(default_factory=lambda: Finish("seam", 10.0))
    marks: int = 3
    easing: float = 0.02
    grain: float = math.pi / 2
    tolerance: Tolerance = field(default_factory=Tolerance)
    corner: CornerKind = "extended"
    holes: Mapping[str, Sequence[Floats]] = field(default_factory=dict)


def pattern_of_skin(name: str, panels: Sequence[SkinPanel], making: Making) -> Assembly:
    """Return the pattern of a skin: edges named as the frame's, and "<panel> begin" and "<panel> end" at the sides.

    Raises: KitError for a finish of an edge that no piece has, and what `finished` and `match` refuse.
    """
    shared = shared_edges(panels)
    edges = {
        panel.name: edges_of_strip(
            panel.development.flat,
            (panel.edges[0], f"{panel.name} end", panel.edges[1], f"{panel.name} begin"),
        )
        for panel in panels
    }
    pairs = [(edge, owners[0], owners[1]) for edge, owners in shared.items()]
    crowded = [edge for edge, owners in shared.items() if len(owners) > 2]
    if crowded:
        raise KitError(f"The edge {crowded[0]} belongs to more than two panels of the {name}; a seam joins two")
    return assembled(name, edges, pairs, making)


def pattern_of_parts(name: str, parted: Parted, making: Making) -> Assembly:
    """Return the pattern of a parted strip: pieces "<name> 1" …, edges named as the strip's, and "seam 1" … between.

    An open strip's outer ends are the edges "begin" and "end".
    Raises: as `pattern_of_skin`.
    """
    count = len(parted.panels)
    is_ring = len(parted.seams) == count
    edges, pairs = {}, []
    for k, (panel, flat) in enumerate(zip(parted.panels, parted.flats, strict=True)):
        begin = f"seam {k + 1}" if is_ring else (f"seam {k}" if k else "begin")
        end = f"seam {(k + 1) % count + 1}" if is_ring else (f"seam {k + 1}" if k + 1 < count else "end")
        if is_ring and count == 1:
            end = "seam 1'"
        edges[f"{name} {k + 1}"] = edges_of_strip(flat, (panel.names[0], end, panel.names[1], begin))
        if is_ring or k:
            pairs.append((begin, f"{name} {(k - 1) % count + 1}", f"{name} {k + 1}"))
    return assembled(name, edges, pairs, making)


@remembered(most=8)
def skin_pattern(title: str, panels: Sequence[CoveredPanel], making: Making) -> Assembly:
    """Return the pattern of a skin: an edge that two pieces have is a seam, so are both sides of a dart.

    Raises: KitError for an edge that more than two pieces have, and as `assembled`.
    """
    pieces = parted_alike(panels)
    grains = {piece.name: piece.grain for panel in panels for piece in panel.pieces}
    owners: dict[str, list[str]] = {}
    for piece, edges in pieces.items():
        for side in edges:
            owners.setdefault(side.name, []).append(piece)
    pairs = []
    for edge, here in owners.items():
        if len(here) > 2:
            raise KitError(
                f"The edge {edge} belongs to {', '.join(here)}; a seam joins two: part it by another edge curve"
            )
        if len(here) == 2:
            pairs.append((edge, here[0], here[1]))
        elif owners.get(f"{edge}'") == here:  # both sides of a dart
            pairs.append((edge, here[0], here[0]))
    made = assembled(title, pieces, pairs, making, grains)
    creases = {piece.name: piece.creases for panel in panels for piece in panel.pieces}
    folded = (
        replace(piece, folds=(*piece.folds, *((CREASE, line) for line in creases[piece.name])))
        for piece in made.pattern.pieces
    )
    return replace(made, pattern=Pattern(title, tuple(folded)))


def assembled(
    name: str,
    edges: Mapping[str, list[SewEdge]],
    pairs: Sequence[tuple[str, str, str]],
    making: Making,
    grains: Mapping[str, float] | None = None,
) -> Assembly:
    """Finish all pieces, and mark each pair of edges (edge, piece, other piece) that are sewn together.

    grains: the grain of pieces on which it differs from the making's, rad.
    Raises: KitError for a finish of an edge that no piece has, and what `finished` and `match` refuse.
    """
    known = sorted({edge.name for piece in edges.values() for edge in piece})
    for edge in making.finishes:
        if edge not in known:
            raise KitError(f"The {name} has no edge {edge!r}{near_misses(edge, known)}")
    for piece in making.holes:
        if piece not in edges:
            raise KitError(f"The {name} has no piece {piece!r} to cut out of{near_misses(piece, list(edges))}")
    sewn = {edge for edge, _, _ in pairs} | {f"{edge}'" for edge, one, other in pairs if one == other}
    pieces: dict[str, Piece] = {}
    for piece, its in edges.items():
        wanted = [edge.name for edge in its if edge.name in sewn or edge.name in making.finishes]
        chosen = {edge: making.finishes.get(edge, making.seam) for edge in wanted}
        pieces[piece] = finished(
            piece,
            [replace(edge, corner=making.corner) for edge in with_finish(its, chosen)],
            grain=(grains or {}).get(piece, making.grain),
            holes=making.holes.get(piece, ()),
            tolerance=making.tolerance,
        )
    seams = []
    for number, (edge, one, other) in enumerate(pairs, 1):
        label = f"{number}."
        if one == other:
            pieces[one] = _marked_to_itself(pieces[one], edge, label, making)
        else:
            pieces[one], pieces[other] = match(
                (pieces[one], edge),
                (pieces[other], edge),
                count=making.marks,
                label=label,
                easing=making.easing,
            )
        seams.append(Seam(edge, one, other, pieces[one].edge(edge).length))
    return Assembly(Pattern(name, tuple(pieces.values())), tuple(seams))


def _marked_to_itself(piece: Piece, edge: str, label: str, making: Making) -> Piece:
    """Mark the two edges of one piece that are sewn together, as on a tube of a single piece."""
    first, second = match((piece, edge), (piece, f"{edge}'"), count=making.marks, label=label, easing=making.easing)
    marks = (*first.marks, *second.marks[len(piece.marks) :])
    return replace(piece, marks=marks)
