"""The cut line outside a sew line: allowances along each edge, joined, mitered or notched at the corners.

Each facet of the sew line carries a rectangle as deep as its allowance, each convex corner the kite between two
rectangles; the cut line is the outline of their union with the piece. So it cannot cross itself, on convex, concave
and tiny edges alike; what it cannot keep is which point belongs to which: marks find that by a ray (see marks).
"""

from collections.abc import Sequence

import numpy as np
from shapely import LineString, MultiPolygon, Polygon, polygons, unary_union
from shapely.geometry.base import BaseGeometry

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, norm, unit_rows
from kit.subjects.cloth.geometry.pattern import SewEdge

CRACK = 1e-8  # mm, the grid onto which strips are rounded, wider than the cracks between them
MITER = 3.0  # longest reach of a corner of the cut line, in allowances


def normals(line: Floats) -> Floats:
    """Return the outward unit normal of each facet of a counterclockwise line (n, 2), shape (n - 1, 2)."""
    along = unit_rows(np.diff(line, axis=0))
    return np.column_stack([along[:, 1], -along[:, 0]])


def sew_polygon(name: str, edges: Sequence[SewEdge]) -> Polygon:
    """Return the piece inside the sew lines.

    Raises: KitError when edges do not meet, run clockwise, or cross, naming the edges.
    """
    for edge, after in zip(edges, [*edges[1:], edges[0]], strict=True):
        gap = float(np.linalg.norm(edge.line[-1] - after.line[0]))
        if gap > 1e-6:
            raise KitError(
                f"On the {name} the edge {edge.name} ends {gap:.3g} mm from where {after.name} begins; join them"
            )
    polygon = Polygon(np.vstack([edge.line[:-1] for edge in edges]))
    if not polygon.is_valid:
        raise KitError(f"On the {name} {_crossing(edges)}; move one of them, or part the piece by a seam")
    if not polygon.exterior.is_ccw:
        raise KitError(f"The edges of the {name} run clockwise; name them counterclockwise, right side up")
    return polygon


def _crossing(edges: Sequence[SewEdge]) -> str:
    """Say which edges cross."""
    lines = [LineString(edge.line) for edge in edges]
    for i, one in enumerate(lines):
        if not one.is_simple:
            return f"the edge {edges[i].name} crosses itself"
        for j in range(i + 1, len(lines)):
            if one.crosses(lines[j]):
                return f"the edges {edges[i].name} and {edges[j].name} cross"
    return "two edges touch"


def cut_polygon(name: str, edges: Sequence[SewEdge], clear: float) -> Polygon:
    """Return the piece with its allowances.

    clear: least distance (mm) of a corner cut from the sew corner.
    Raises: KitError when allowances close over a gap of the outline, naming the edge.
    """
    piece = sew_polygon(name, edges)
    strips: list[BaseGeometry] = [piece]
    for k, edge in enumerate(edges):
        before = edges[k - 1]
        depth, other = (side.finish.allowance * (side.finish.allowance > CRACK) for side in (edge, before))
        corner = _kite(before.line[-2:], edge.line[:2], other, depth)
        band = unary_union([*_band(edge.line, depth)])
        wedges = [_wedge(before.line[-2:], edge.line[:2], edge.corner, clear, before, edge)]
        after = edges[(k + 1) % len(edges)]
        wedges.append(_wedge(edge.line[-2:], after.line[:2], after.corner, clear, edge, after))
        strips.append(band.difference(unary_union(wedges)))
        strips.append(corner.difference(wedges[0]))
    # Rounding leaves cracks between strips that touch: they are closed, or they would be cut from the edge inward.
    whole = unary_union(strips, grid_size=CRACK).buffer(0)
    if isinstance(whole, MultiPolygon):
        whole = max(whole.geoms, key=lambda part: part.area)
    gaps = [hole for hole in whole.interiors if Polygon(hole).area > 1e-3]
    if gaps:
        near = min(edges, key=lambda edge: LineString(edge.line).distance(gaps[0]))
        raise KitError(
            f"On the {name} the allowances run into each other near the edge {near.name}; make them narrower there, "
            "or part the piece by a seam"
        )
    return Polygon(whole.exterior).simplify(1e-7)


def _band(line: Floats, depth: float) -> list[BaseGeometry]:
    """Return the rectangle of each facet and the kite at each convex vertex between them."""
    if depth <= 0:
        return []
    normal = normals(line)
    shift = depth * normal
    boxes = np.stack([line[:-1], line[1:], line[1:] + shift, line[:-1] + shift], axis=1)
    corner, n1, n2 = line[1:-1], normal[:-1], normal[1:]
    turn, along = n1[:, 0] * n2[:, 1] - n1[:, 1] * n2[:, 0], (n1 * n2).sum(axis=1)
    # Both cut lines meet at depth √(2 / (1 + n1·n2)) from the vertex; within the miter limit the kite is whole.
    is_gentle = (turn > 1e-12) & (MITER**2 * (1 + along) >= 2)
    reach = depth / np.where(is_gentle, 1 + along, 1.0)
    meet = corner + reach[:, None] * (n1 + n2)
    kites = np.stack([corner, corner + depth * n1, meet, corner + depth * n2], axis=1)[is_gentle]
    band = np.concatenate([polygons(boxes[norm(np.diff(line, axis=0)) > 0]), polygons(kites)])
    sharp = np.flatnonzero((turn > 1e-12) & ~is_gentle)
    cut = [_kite(line[k : k + 2], line[k + 1 : k + 3], depth, depth) for k in sharp.tolist()]
    return [part for part in [*band, *cut] if part.area > 0]


def _kite(arrives: Floats, leaves: Floats, before: float, after: float) -> Polygon:
    """Return the kite outside a corner, up to where both cut lines meet; a sharp one is cut off at the miter limit."""
    corner = leaves[0]
    n1, n2 = normals(arrives)[0], normals(leaves)[0]
    turn = float(n1[0] * n2[1] - n1[1] * n2[0])
    if turn <= 1e-12 or max(before, after) <= 0:
        return Polygon()
    one, two = corner + before * n1, corner + after * n2
    meet = corner + np.linalg.solve(np.stack([n1, n2]), np.array([before, after]))
    reach = MITER * max(before, after)
    far = float(np.linalg.norm(meet - corner))
    if far <= reach:
        return Polygon([corner, one, meet, two]).convex_hull
    share = reach / far
    tip = [one + share * (meet - one), two + share * (meet - two)]
    return Polygon([corner, one, *tip, two]).convex_hull


def _wedge(arrives: Floats, leaves: Floats, kind: str, clear: float, before: SewEdge, after: SewEdge) -> Polygon:
    """Return what is cut away outside a convex corner.

    Mitered: a hem is folded over its edge, so it must end on the mirror image of the corner's bisector, and both hems
    meet on the bisector when folded. Notched: both allowances end square to their edges.
    """
    t1, t2 = (unit_rows(side[1:] - side[:1])[0] for side in (arrives, leaves))
    turn = float(t1[0] * t2[1] - t1[1] * t2[0])
    if kind == "extended" or turn <= 1e-9:
        return Polygon()
    outward = unit_rows((t1 - t2)[None])[0]
    if kind == "notched":
        sides = normals(arrives)[0], normals(leaves)[0]
    else:
        inward = -outward
        sides = (2 * (inward @ t1) * t1 - inward, 2 * (inward @ t2) * t2 - inward)
    apex = leaves[0] + clear * outward
    far = 4 * (before.finish.allowance + after.finish.allowance) + clear
    middle = np.arctan2(outward[1], outward[0])
    half = float(np.arccos(np.clip(outward @ sides[0], -1, 1)))
    angle = middle + np.linspace(-half, half, 9)
    return Polygon([apex, *(apex + far * np.column_stack([np.cos(angle), np.sin(angle)]))])


def parallel(edge: SewEdge, distance: float) -> Floats:
    """Return the line (n, 2) outside an edge at a distance (mm) from its sew line: a fold or staple line.

    Raises: KitError when the edge bends inward so tightly that no such line is left.
    """
    line = edge.line
    if distance == 0:
        return line
    # A point in the middle of a straight stretch would part the line there.
    bare = LineString(line).simplify(1e-9)
    found = bare.offset_curve(-distance, join_style="mitre", mitre_limit=MITER)
    if found.is_empty:
        raise KitError(
            f"The edge {edge.name} bends inward too tightly for a line {distance:.1f} mm outside it; "
            "lay that line nearer to the edge, or part the edge there"
        )
    if found.geom_type != "LineString":
        found = max(found.geoms, key=lambda part: part.length)
    points = np.array(found.coords)
    forward = norm(points[0] - line[0]) <= norm(points[-1] - line[0])
    return points if forward else points[::-1]
