"""From a flat piece to a piece of a pattern: named edges with their finish, cut line, folds, reliefs, grain."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np
from shapely import LineString, Point, Polygon, unary_union

from kit.core.errors import KitError
from kit.geometry.development.arrays import CLOSE, Floats, Ints, norm
from kit.geometry.development.flatten import Flattened
from kit.geometry.development.mesh import Panel
from kit.geometry.development.unroll import Flat
from kit.geometry.remembered import remembered
from kit.subjects.cloth.geometry.darts import Cut
from kit.subjects.cloth.geometry.hems import HemError, Tolerance, corner_slits, kept_clear, reliefs
from kit.subjects.cloth.geometry.pattern import Finish, Piece, SewEdge
from kit.subjects.cloth.geometry.seam_allowance import cut_polygon, parallel, sew_polygon


def edges_of_strip(flat: Flat, names: tuple[str, str, str, str] = ("a", "end", "b", "begin")) -> list[SewEdge]:
    """Return the sew edges of an unrolled strip, counterclockwise: edge a, last ruling, edge b, first ruling.

    An edge that is a single point (the apex of a cone) is left out.
    """
    lines = [flat.a, np.stack([flat.a[-1], flat.b[-1]]), flat.b[::-1], np.stack([flat.b[0], flat.a[0]])]
    return [SewEdge(name, _stripped(line)) for name, line in zip(names, lines, strict=True) if _long(line)]


Sides = Mapping[frozenset[int], str]


def named_sides(panel: Panel, corners: Mapping[str, int]) -> Sides:
    """Return the name of each boundary side of a panel: each name begins at a vertex number, counterclockwise.

    Raises: KitError for a vertex that does not lie on the boundary.
    """
    loop = panel.loops[0]
    begins = {vertex: name for name, vertex in corners.items()}
    for name, vertex in corners.items():
        if vertex not in loop:
            raise KitError(f"The edge {name} begins at vertex {vertex}, which does not lie on the panel's boundary")
    first = int(np.flatnonzero(loop == next(iter(begins)))[0])
    ring = np.roll(loop, -first)
    sides, name = {}, ""
    for p, q in zip(ring.tolist(), np.roll(ring, -1).tolist(), strict=True):
        name = begins.get(p, name)
        sides[frozenset((p, q))] = name
    return sides


def cut_sides(cuts: Sequence[Cut], prefix: str = "") -> Sides:
    """Return the name of each side of a triangle along darts and seams: prefix, kind and number of its cut.

    Where another cut ends on a cut, the cut is parted, and so on both of its sides: "seam 2", "seam 2′" …
    """
    ends = {int(end) for cut in cuts for end in (cut.vertices[0], cut.vertices[-1])}
    named: dict[frozenset[int], str] = {}
    for k, cut in enumerate(cuts, 1):
        part = 0
        for pair in pairwise(cut.vertices.tolist()):
            part += pair[0] in ends and pair[0] != cut.vertices[0]
            named[frozenset(pair)] = f"{prefix}{cut.kind} {k}" + "′" * part
    return named


def edges_of_panel(flat: Flattened, sides: Sides, cuts: Sequence[Cut] = (), prefix: str = "") -> list[SewEdge]:
    """Return the sew edges of a flattened panel, or of one part of it, counterclockwise.

    sides: names of the whole panel's boundary. cuts: the darts and seams along which it was cut: both sides of the
    second cut become the edges "dart 2" and "dart 2'" of one piece, or "seam 2" of both pieces, after the prefix.
    """
    named = {**sides, **cut_sides(cuts, prefix)}
    loop = flat.panel.loops[0]
    number = flat.panel.origin[loop]
    here = [named[frozenset(pair)] for pair in zip(number.tolist(), np.roll(number, -1).tolist(), strict=True)]
    # A new edge begins where the name changes, and where the boundary turns back at the tip of a dart.
    tips = np.roll(number, 1) == np.roll(number, -1)
    starts = [k for k in range(len(loop)) if here[k] != here[k - 1] or tips[k]]
    edges: list[SewEdge] = []
    for start, end in zip(starts, [*starts[1:], starts[0] + len(loop)], strict=True):
        steps: Ints = np.arange(start, end + 1) % len(loop)
        edges.append(SewEdge(_fresh(here[start], edges), flat.flat[loop[steps]]))
    return edges


def _fresh(name: str, edges: Sequence[SewEdge]) -> str:
    """Return the name, with a prime for each edge that has it already."""
    known = {edge.name for edge in edges}
    while name in known:
        name += "'"
    return name


def _stripped(line: Floats) -> Floats:
    """Return the line without points that repeat their predecessor."""
    return line[np.r_[True, norm(np.diff(line, axis=0)) > CLOSE]]


def _long(line: Floats) -> bool:
    return float(norm(np.diff(line, axis=0)).sum()) > CLOSE


@remembered(most=64)
def finished(
    name: str,
    edges: Sequence[SewEdge],
    *,
    count: int = 1,
    grain: float = np.pi / 2,
    holes: Sequence[Floats] = (),
    tolerance: Tolerance | None = None,
) -> Piece:
    """Return the piece with its allowances, fold and staple lines, relief cuts and grain arrow.

    edges: counterclockwise, each beginning where the one before ends. grain: direction of the warp on the piece, rad.
    holes: outlines of cut-outs (n, 2). tolerance: for hems and corner cuts.
    Raises: KitError when edges cross, allowances run into each other or a cut-out leaves the piece; HemError for a hem
    that cannot be folded so on its edge.
    """
    asked = tolerance or Tolerance()
    inside = sew_polygon(name, edges)
    for number, hole in enumerate(holes, 1):
        shape = Polygon(hole)
        if not shape.is_valid or shape.area < CLOSE:
            raise KitError(f"Cut-out {number} of the {name} crosses itself or has no area; correct its outline")
        if not inside.contains(shape):
            raise KitError(f"Cut-out {number} of the {name} reaches over its sew line; move it or make it smaller")
    cuts = tuple(cut for edge in edges for cut in reliefs(edge, asked)) + corner_slits(edges, asked.clear)
    cuts = kept_clear(cuts, edges, asked.clear)
    outline = cut_polygon(name, edges, asked.clear)
    folds = [
        (edge.name, _within(parallel(edge, distance), outline)) for edge in edges for distance in edge.finish.folds_at
    ]
    staples = [
        (edge.name, _within(parallel(edge, edge.finish.line), outline))
        for edge in edges
        if edge.finish.kind == "staple"
    ]
    notches = [_opened(cut.points) for cut in cuts if cut.kind == "notch"]
    notched = outline.difference(unary_union(notches)) if notches else outline
    if notched.geom_type != "Polygon":
        raise HemError(f"The notches in the hem of the {name} cut it apart; make the hem narrower")
    return Piece(
        name,
        count,
        tuple(edges),
        _ring(notched),
        tuple(np.asarray(hole) for hole in holes),
        tuple(folds),
        tuple(staples),
        cuts,
        _arrow(inside, grain),
    )


def _opened(notch: Floats) -> Polygon:
    """Return a notch drawn on beyond the cut line, so that no thread stays across its mouth."""
    mouth, root, other = notch
    return Polygon([mouth + 0.2 * (mouth - root), root, other + 0.2 * (other - root)])


def _within(line: Floats, outline: Polygon) -> Floats:
    """Return the longest part of a line (n, 2) inside the cut line."""
    part = LineString(line).intersection(outline.buffer(1e-9))
    pieces = [p for p in getattr(part, "geoms", [part]) if p.geom_type == "LineString"]
    return np.array(max(pieces, key=lambda p: p.length).coords) if pieces else line[:0]


def _ring(polygon: Polygon) -> Floats:
    """Return the outline counterclockwise, the last point not repeated."""
    points = np.array(polygon.exterior.coords)[:-1]
    return points if polygon.exterior.is_ccw else points[::-1]


def _arrow(inside: Polygon, grain: float) -> Floats:
    """Return an arrow along the grain through the piece's inner point, half as long as the piece there."""
    middle = np.array(inside.representative_point().coords[0])
    along = np.array([np.cos(grain), np.sin(grain)])
    far = float(np.hypot(*(np.array(inside.bounds[2:]) - inside.bounds[:2])))
    chord = LineString([middle - far * along, middle + far * along]).intersection(inside)
    parts = [p for p in getattr(chord, "geoms", [chord]) if p.distance(Point(middle)) < 1e-6]
    ends = np.array(max(parts, key=lambda p: p.length).coords)
    return np.stack([0.75 * ends[0] + 0.25 * ends[-1], 0.25 * ends[0] + 0.75 * ends[-1]])


def with_finish(edges: Sequence[SewEdge], finishes: Mapping[str, Finish]) -> list[SewEdge]:
    """Return the edges with the finishes given by their names; the others stay as they are.

    Raises: KitError for a name that no edge has.
    """
    known = {edge.name for edge in edges}
    for name in finishes:
        if name not in known:
            raise KitError(f"No edge is named {name!r}; the edges are {', '.join(sorted(known))}")
    return [SewEdge(e.name, e.line, finishes.get(e.name, e.finish), e.corner) for e in edges]
