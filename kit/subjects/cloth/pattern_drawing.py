"""Flat patterns as drawings at full size: pieces beside each other, each line kind on its layer.

What a cutter, a sewer and a stapler need stands on the piece itself: cut line, sew line, fold and staple lines,
relief cuts, match marks with their labels, grain, right side, name and count, and at each sewn edge the number of
its seam in the sewing order. One edge can be pointed out by a bold line, the same as in a picture of the shape.
"""

from collections.abc import Mapping, Sequence
from math import atan2, cos, inf, pi, sin, sqrt
from string import ascii_uppercase

import numpy as np
from numpy.typing import NDArray
from shapely import LineString, Point, Polygon

from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.drawing.arc_outlines import draw_points
from kit.drawing.layers import Layer
from kit.drawing.marks import text_width
from kit.drawing.primitives import TEXT, Place
from kit.drawing.scene import Scene
from kit.subjects.cloth.geometry.match_marks import frame_at
from kit.subjects.cloth.geometry.pattern import Finish, Pattern, Piece, SewEdge, base, is_dart
from kit.subjects.cloth.geometry.sewing import Step

Floats = NDArray[np.float64]
GAP = 20.0  # between pieces, mm
NAME, WORDS = 5.0, 3.5  # heights of capitals on a piece, paper mm
LETTER = 1.5  # a corner's letter from its corner, paper mm
SIDES: tuple[Place, ...] = (
    "right",
    "above right",
    "above",
    "above left",
    "left",
    "below left",
    "below",
    "below right",
)
WIDER = 1.5  # how much wider than high the pieces are laid out, about

LEGEND = {
    Layer.OUTLINE: "cut line, relief cut, cut-out",
    Layer.SEAM: "sew line",
    Layer.MARK: "match mark: the same label meets it on the other piece",
    Layer.PHANTOM: "rim of the part that the clamp holds",
    Layer.GRAIN: "grain: warp, along the roll",
    Layer.CHOSEN: "the edge pointed out in both pictures",
}


def pattern_scene(
    pattern: Pattern,
    display: Display,
    *,
    highlight: str | None = None,
    order: Sequence[Step] = (),
    full: bool = True,
    names: bool = False,
    wide: float = inf,
) -> Scene:
    """Return all pieces of a pattern beside each other at full size, none over another.

    highlight: name of an edge to be pointed out on every piece that has it. order: the sewing order, for the numbers
    at the seams. full: with all words for paper; else only names, for a small picture. names: also those of all edges
    and the letters of corners. wide: of the rows, mm, unless a single piece is wider.
    Raises: KitError for a pattern without pieces, or an edge that no piece has.
    """
    if not pattern.pieces:
        raise KitError(f"The pattern {pattern.name} has no pieces; nothing can be drawn")
    _check(highlight, pattern.pieces)
    words = ", ".join(f"{piece.name} × {piece.count}" for piece in pattern.pieces)
    scene = Scene(f"Flat pattern: {pattern.name}", f"Pieces to cut, right side up: {words}.")
    for piece, shift in zip(
        pattern.pieces, side_by_side([_size(piece) for piece in pattern.pieces], wide=wide), strict=True
    ):
        _draw(scene, piece, shift, display, highlight, order, full, names or full)
    return _explained(scene)


def side_by_side(boxes: Sequence[tuple[Floats, Floats]], gap: float = GAP, *, wide: float = inf) -> list[Floats]:
    """Return a shift (2,) for each box (low corner, high corner), mm: rows from the top, in order, none overlapping.

    Rows are at most `wide`, unless a single box is wider.
    """
    sizes = np.array([high - low for low, high in boxes]) + gap
    about = min(sqrt(WIDER * float(sizes.prod(axis=1).sum())) * 1.1, wide + gap)
    width = max(float(sizes[:, 0].max()), about)
    shifts: list[Floats] = []
    x = top = row = 0.0
    for (low, high), size in zip(boxes, sizes, strict=True):
        if x > 0 and x + size[0] > width:
            x, top, row = 0.0, top - row, 0.0
        shifts.append(np.array([x - low[0], top - high[1]]))
        x, row = x + float(size[0]), max(row, float(size[1]))
    return shifts


def is_part(edge: str, of: str | None) -> bool:
    """Whether an edge is the named one or, parted by darts or seams, a part of it."""
    return of is not None and of in (edge, base(edge))


def _size(piece: Piece) -> tuple[Floats, Floats]:
    return piece.cut.min(axis=0), piece.cut.max(axis=0)


def _check(highlight: str | None, pieces: Sequence[Piece]) -> None:
    if highlight is not None and not any(is_part(edge.name, highlight) for piece in pieces for edge in piece.edges):
        names = sorted({edge.name for piece in pieces for edge in piece.edges})
        raise KitError(f"No piece has an edge {highlight!r} to point out; the edges are {', '.join(names)}")


def _explained(scene: Scene) -> Scene:
    for layer, words in LEGEND.items():
        scene.explain(layer, words)
    return scene


def _draw(
    scene: Scene,
    piece: Piece,
    shift: Floats,
    display: Display,
    highlight: str | None,
    order: Sequence[Step],
    full: bool,
    names: bool,
) -> None:
    draw_points(scene, piece.cut + shift, closed=True)
    for hole in piece.holes:
        draw_points(scene, hole + shift, closed=True)
    for relief in piece.reliefs:
        if relief.kind == "slit":  # a notch is part of the cut line already
            draw_points(scene, relief.points + shift)
    for edge in piece.edges:
        if edge.finish.kind in ("seam", "raw") and edge.finish.allowance > 0:
            draw_points(scene, edge.line + shift, Layer.SEAM)
        elif edge.finish.kind == "staple":
            draw_points(scene, edge.line + shift, Layer.FOLD)
        elif edge.finish.kind == "clamp":
            draw_points(scene, edge.line + shift, Layer.PHANTOM)
        if is_part(edge.name, highlight):
            draw_points(scene, edge.line + shift, Layer.CHOSEN)
    for lines, layer in ((piece.folds, Layer.FOLD), (piece.staples, Layer.STAPLE)):
        for _, line in lines:
            if len(line) > 1:
                draw_points(scene, line + shift, layer)
    for mark in piece.marks:
        scene.line(_pair(mark.sew + shift), _pair(mark.cut + shift), Layer.MARK)
        if full:
            eased = f", ease {mark.ease:.1%}" if mark.ease else ""
            _, out = frame_at(piece.edge(mark.edge).line, mark.along)
            _words_at(scene, mark.sew + shift, -out, mark.label + eased, 1.5)
    if names:
        _corners(scene, piece, shift)
    _grain(scene, piece, shift)
    _name(scene, piece, shift, full)
    steps = {step.seam.name: (number, step) for number, step in enumerate(order, 1)}
    for edge in piece.edges:
        if names or is_part(edge.name, highlight):
            _edge_words(scene, piece, edge, shift, _told(edge, steps, display, full), full)


def _pair(point: Floats) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _told(edge: SewEdge, steps: Mapping[str, tuple[int, Step]], display: Display, full: bool) -> str:
    """Say what an edge is, how it is finished, and when it is sewn."""
    if not full:
        return edge.name
    finish = edge_words(edge, display)
    wording = f"{edge.name}: {finish}" if finish else edge.name
    found = steps.get(edge.name) or steps.get(edge.name.rstrip("'"))
    if not found:
        return wording
    number, step = found
    lay = f", lay toward {step.lay}" if step.lay else ""
    return f"{wording}; step {number}{lay}"


def edge_words(edge: SewEdge, display: Display) -> str:
    """Say how an edge is finished, or that it is a side of a dart: its allowance is what lies between the two."""
    return "side of a dart, sewn to its tip" if is_dart(edge.name) else finish_words(edge.finish, display)


def finish_words(finish: Finish, display: Display) -> str:
    """Say how an edge is finished, with its widths as a person reads them."""
    depth = show(finish.depth, "mm", display)
    if finish.kind == "hem":
        return f"hem {depth}, turned {'twice' if finish.folds == 2 else 'once'}"
    if finish.kind == "staple":
        return f"stapled, {depth} beyond the rail’s edge"
    if finish.kind == "clamp":
        return f"{depth} more under the clamp"
    if finish.kind == "seam":
        return f"seam, {depth} allowance"
    return f"cut {depth} outside" if finish.depth else ""


def corners_of(piece: Piece) -> dict[str, Floats]:
    """Return the corners (2,) of a piece by their letters: A, B, … counterclockwise.

    Where a dart is sewn up, or an edge goes on beyond one (edge, edge′), there is no corner on the sewn piece.
    """
    found: dict[str, Floats] = {}
    for k, edge in enumerate(piece.edges):
        before = piece.edges[k - 1].name
        goes_on = base(edge.name) == base(before)
        if not goes_on and not is_dart(edge.name) and not is_dart(before):
            count = len(found)
            found[ascii_uppercase[count % 26] + "′" * (count // 26)] = edge.line[0]
    return found


def _corners(scene: Scene, piece: Piece, shift: Floats) -> None:
    """Write the corners' letters a little inside, by which edges and diagonals of the sewn piece are measured."""
    begins = {tuple(edge.line[0]): k for k, edge in enumerate(piece.edges)}
    for name, corner in corners_of(piece).items():
        k = begins[tuple(corner)]
        before, after = piece.edges[k - 1].line, piece.edges[k].line
        inward = (after[1] - after[0]) / np.hypot(*(after[1] - after[0]))
        inward = inward + (before[-2] - before[-1]) / np.hypot(*(before[-2] - before[-1]))
        scene.text(_pair(corner + shift), name, _toward(inward), gap=LETTER)


def _toward(way: Floats) -> Place:
    """Return the side of a point that lies in a direction (2,)."""
    step = round(atan2(way[1], way[0]) / (pi / 4)) % 8
    return SIDES[step]


def _grain(scene: Scene, piece: Piece, shift: Floats) -> None:
    tail, head = (_pair(point + shift) for point in piece.grain)
    turn = atan2(head[1] - tail[1], head[0] - tail[0])
    scene.line(tail, head, Layer.GRAIN)
    scene.arrow(head, turn, length=6.0, layer=Layer.GRAIN)
    scene.arrow(tail, turn + pi, length=6.0, layer=Layer.GRAIN)


def _name(scene: Scene, piece: Piece, shift: Floats, full: bool) -> None:
    """Write name and count beside or beyond the grain arrow, where most room is."""
    tail, head = piece.grain
    middle, half = (tail + head) / 2, (head - tail) / 2
    along = half / max(float(np.hypot(*half)), 1e-9)
    across = np.array([-along[1], along[0]])
    inside = Polygon(piece.outline, piece.holes)
    reach = float(np.hypot(*np.ptp(piece.cut, axis=0)))
    spots = []
    for begin, way in ((middle, across), (middle, -across), (head, along), (tail, -along)):
        ray = LineString([begin, begin + reach * way]).intersection(inside)
        parts = [part for part in getattr(ray, "geoms", [ray]) if part.distance(Point(begin)) < 1e-6]
        spot = begin + max((part.length for part in parts), default=0.0) / 2 * way
        spots.append((inside.boundary.distance(Point(spot)), spot + shift))
    at = _pair(max(spots, key=lambda spot: spot[0])[1])
    if full:
        scene.text(at, piece.name, "above", height=NAME, gap=0.5)
        scene.text(at, f"cut {piece.count} ×", "below", height=WORDS, gap=1.5)
        scene.text(at, "right side up", "below", height=WORDS, gap=1.5 + 1.7 * WORDS)
    else:
        scene.text(at, piece.name, height=WORDS)


def _edge_words(scene: Scene, piece: Piece, edge: SewEdge, shift: Floats, wording: str, full: bool) -> None:
    """Write along an edge, inside of it, clear of the labels of its match marks; where that is too long, the name."""
    at, out = frame_at(edge.line, 0.5 * edge.length)
    is_marked = any(mark.edge == edge.name for mark in piece.marks)
    fits = text_width(wording, TEXT) < 0.9 * edge.length or not full
    gap = 1.5 + 2.0 * TEXT * (is_marked and full)
    _words_at(scene, at + shift, -out, wording if fits else edge.name, gap)


def _words_at(scene: Scene, at: Floats, inward: Floats, wording: str, gap: float) -> None:
    """Write words on the inner side of a point of an edge, along the edge, read from below or from the right."""
    turn = atan2(inward[1], inward[0]) - pi / 2
    upright = cos(turn) > 1e-9 or (abs(cos(turn)) <= 1e-9 and sin(turn) > 0)
    if upright:
        scene.text(_pair(at), wording, "above", gap=gap, angle=turn)
    else:
        scene.text(_pair(at), wording, "below", gap=gap, angle=turn + pi)
