"""The tables of a skin: pieces, seams in sewing order, staples, proposed cuts, and sewn pieces against the pattern."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from shapely import Polygon

from kit.core.build import LateTable, Table
from kit.core.errors import KitError, near_misses
from kit.core.model import Case
from kit.core.quantity import Display, show
from kit.geometry.development.arrays import lengths_along
from kit.subjects.cloth.geometry.as_built import as_built
from kit.subjects.cloth.geometry.consumption import extent
from kit.subjects.cloth.geometry.covering import CoveredPanel
from kit.subjects.cloth.geometry.pattern import Pattern, Piece, SewEdge
from kit.subjects.cloth.geometry.sewing import Step
from kit.subjects.cloth.pattern_drawing import corners_of, edge_words
from kit.subjects.cloth.pattern_inputs import Measured

HOW = {
    "dart": "sew up the dart, from the edge to its tip",
    "join": "join lying flat",
    "close": "close to a ring",
    "hem": "hem",
}
LAID = {"dart": "to either side", "hem": "in the order of the pieces"}
LEAST_CREASE = np.radians(1.0)  # below which cloth shows no crease
CONTRADICTS = 1.0  # mm left over of a measure that is more than a tape's reading


def _worked(case: Case, name: str, given: str, values: Sequence[float]) -> list[float]:
    """Return a quantity of the model for each of several values of one given, all else as in the case."""
    found = case.compute({given: np.array(values, dtype=np.float64)}, [name])[name]
    return [float(each) for each in np.broadcast_to(found, (len(values),))]


def thread(case: Case, seams: float) -> float:
    """Return the thread for seams of that length, mm."""
    return _worked(case, "thread", "seam_length", [seams])[0]


def staple_counts(case: Case, edges: Sequence[SewEdge]) -> list[int]:
    """Return how many staples each edge takes."""
    return [round(count) for count in _worked(case, "staples", "stapled_length", [edge.length for edge in edges])]


def area(pattern: Pattern) -> float:
    """Return the cloth of all pieces, mm²."""
    return float(sum(piece.count * Polygon(piece.cut, piece.holes).area for piece in pattern.pieces))


def pieces(pattern: Pattern, display: Display) -> Table:
    """Return the pieces with their size along and across the grain, and how their edges are finished."""

    def rows() -> Iterator[tuple[str, ...]]:
        for piece in pattern.pieces:
            along = piece.grain[1] - piece.grain[0]
            size = extent(piece.cut, float(np.arctan2(along[1], along[0])))
            sizes = (show(each, "mm", display, resolution=1.0) for each in size)
            words = "; ".join(f"{edge.name}: {edge_words(edge, display) or 'raw'}" for edge in piece.edges)
            yield piece.name, str(piece.count), *sizes, words

    return LateTable("Pieces", ("piece", "count", "along the grain", "across", "edges"), rows)


def seams(case: Case, steps: Sequence[Step], pattern: Pattern, display: Display) -> list[Table]:
    """Return the seams and hems in the order in which they are sewn; none if nothing is."""
    if not steps:
        return []

    def rows() -> Iterator[tuple[str, ...]]:
        eased = {
            mark.edge: (piece.name, piece.edge(mark.edge).length * mark.ease / (1 + mark.ease))
            for piece in pattern.pieces
            for mark in piece.marks
            if mark.ease
        }
        more = {edge: f"{piece} by {show(long, 'mm', display)}" for edge, (piece, long) in eased.items()}
        threads = _worked(case, "thread", "seam_length", [step.seam.length for step in steps])
        for number, (step, need) in enumerate(zip(steps, threads, strict=True), 1):
            yield (
                str(number),
                step.seam.name,
                HOW[step.kind],
                " and ".join(dict.fromkeys(name for name in (step.seam.piece, step.seam.other) if name)),
                show(step.seam.length, "mm", display, resolution=1.0),
                more.get(step.seam.name, "none"),
                f"toward {step.lay}" if step.lay else LAID[step.kind],
                show(need, "m", display, resolution=10.0),
            )

    heads = ("step", "seam", "how", "pieces", "length", "eased", "lay the allowance", "thread")
    return [LateTable("Seams", heads, rows)]


def staples(case: Case, pattern: Pattern, display: Display) -> list[Table]:
    """Return the stapled edges; none if nothing is stapled."""
    edges = [(piece.name, edge) for piece in pattern.pieces for edge in piece.edges if edge.finish.kind == "staple"]
    if not edges:
        return []

    def rows() -> Iterator[tuple[str, ...]]:
        gaps = _worked(case, "staple_gap", "stapled_length", [edge.length for _, edge in edges])
        counts = staple_counts(case, [edge for _, edge in edges])
        for (name, edge), count, gap in zip(edges, counts, gaps, strict=True):
            yield (
                name,
                edge.name,
                show(edge.length, "mm", display, resolution=1.0),
                str(count),
                show(gap, "mm", display, resolution=1.0),
                show(edge.finish.line, "mm", display, resolution=0.5),
            )

    heads = ("piece", "edge", "length", "staples", "apart", "beyond the rail's edge")
    return [LateTable("Staples", heads, rows)]


def cuts(panels: Sequence[CoveredPanel], display: Display) -> list[Table]:
    """Return the darts and seams that the strain asks for; none if the cloth takes it."""
    rows = []
    for panel in panels:
        for number, cut in enumerate(panel.cuts, 1):
            begin = cut.points[0]
            near = min(panel.lines, key=lambda name: float(np.linalg.norm(panel.lines[name] - begin, axis=1).min()))
            line = panel.lines[near]
            at = float(lengths_along(line)[int(np.linalg.norm(line - begin, axis=1).argmin())])
            long = float(lengths_along(cut.points)[-1])
            rows.append(
                (
                    panel.asked.name,
                    f"{panel.asked.name} {cut.kind} {number}",
                    near,
                    show(at, "mm", display, resolution=1.0),
                    show(long, "mm", display, resolution=1.0),
                )
            )
    heads = ("panel", "cut", "begins on the edge", "from its begin", "length")
    return [Table("Darts and seams", heads, tuple(rows))] if rows else []


def diagonals(pattern: Pattern, display: Display) -> Table:
    """Return what each piece measures from corner to opposite corner, lying flat, to check it by."""

    def rows() -> Iterator[tuple[str, ...]]:
        for piece in pattern.pieces:
            corners = list(corners_of(piece).items())
            half = len(corners) // 2
            for (one, here), (other, there) in zip(corners, corners[half:], strict=False):
                far = float(np.linalg.norm(here - there))
                yield piece.name, f"{one}{other}", show(far, "mm", display, resolution=0.5)

    return LateTable("Diagonals", ("piece", "from corner to corner", "flat, sew line to sew line"), rows)


def sewn(pattern: Pattern, measured: Sequence[Measured], display: Display) -> list[Table]:
    """Return where corners of sewn pieces are, by the distances measured on them; none if nothing was measured.

    Raises:
        KitError: a piece or a corner that is not there, or a distance that cannot be meant.
    """
    rows = []
    by_name: dict[str, Piece] = {piece.name: piece for piece in pattern.pieces}
    for name in dict.fromkeys(each.piece for each in measured):
        if name not in by_name:
            raise KitError(f"a measure was taken on the piece {name!r}{near_misses(name, list(by_name))}")
        piece = by_name[name]
        corners = corners_of(piece)
        lengths = {each.pair: each.length for each in measured if each.piece == name}
        found = as_built(np.array(list(corners.values())), tuple(corners), lengths)
        for letter, off in zip(corners, found.off, strict=True):
            far = float(np.hypot(*off))
            toward = f"{np.degrees(np.arctan2(off[1], off[0])) % 360:.0f}°" if far > 0.05 else ""
            rows.append((name, letter, show(far, "mm", display, resolution=0.1), toward))
        for (one, other), left in found.misfit.items():
            if abs(left) < CONTRADICTS:
                continue
            words = show(abs(left), "mm", display, resolution=0.1)
            rows.append((name, f"{one}{other}", words, "left over: measures that contradict each other"))
    heads = ("piece", "corner", "off by", "toward, from the x direction of the pattern")
    return [Table("As sewn", heads, tuple(rows))] if rows else []


def folded(panels: Sequence[CoveredPanel], display: Display) -> tuple[str, ...]:
    """Say which panels do not twist but fold: flat faces with a crease that no corner of the frame asks for."""
    found = []
    for panel in panels:
        for line, angle, free in panel.creases:
            if free and angle > LEAST_CREASE:
                long = show(float(np.linalg.norm(line[1] - line[0])), "mm", display, resolution=1.0)
                turn = show(angle, "deg", display, resolution=1e-3)
                found.append(
                    f"The edges of the panel {panel.asked.name} are twisted against each other: it becomes two "
                    f"faces that meet at a crease of {turn}, {long} long, drawn as a fold line. Put another edge "
                    "curve between them where no crease may be seen."
                )
    return tuple(found)


def cautions(pattern: Pattern, display: Display) -> tuple[str, ...]:
    """Return what is to be heeded with this pattern beside the model's own cautions."""
    eased = {(mark.edge, piece.name) for piece in pattern.pieces for mark in piece.marks if mark.ease}
    found = [
        f"Ease the edge {edge} of the {piece} evenly between its marks; stretch nothing."
        for edge, piece in sorted(eased)
    ]
    found.append(
        f"Print at actual size and measure the check bars before you cut: 100 mm must be {show(100.0, 'mm', display)}."
    )
    return tuple(found)
