"""What a pattern must keep, checked by a route of its own: triangles in space against triangles on the table.

Nothing of the unrolling, the offset, the strain or the allowances is used: only the points that a cutter and a sewer
get, the edge curves that were asked for, and a general-purpose geometry library.
"""

from dataclasses import dataclass, field

import numpy as np
from shapely import LineString, Polygon, distance, points

from kit.geometry.development.curves import Curve
from kit.geometry.development.ruled_strip import Strip
from kit.geometry.development.unroll import Flat
from kit.subjects.cloth.geometry.assembly import Assembly
from kit.subjects.cloth.geometry.covering import CoveredPanel, CoverSettings, FlatPiece
from kit.subjects.cloth.geometry.pattern import Piece, SewEdge
from tests.subjects.cloth.geometry.panel_families import Drawn

Floats = np.ndarray
SEAM = 0.1  # mm, by which two edges that are sewn together may differ without a word
HORN = 0.05  # of the allowance, by which the cut line may lie beyond it
MITER = 3.0  # allowances, to which a corner of the cut line may reach


@dataclass
class Found:
    """What was found wrong with a pattern, in words, and its figures."""

    faults: list[str] = field(default_factory=list)
    strain: float = 0.0
    fold: float = 0.0

    def check(self, holds: bool, words: str) -> None:
        if not holds:
            self.faults.append(words)


def sides(corners: Floats) -> Floats:
    """The three side lengths of triangles (m, 3, k), shape (m, 3)."""
    return np.linalg.norm(np.roll(corners, -1, axis=1) - corners, axis=2)


def heron(three: Floats) -> Floats:
    """The areas of triangles by their side lengths (m, 3)."""
    a, b, c = np.sort(three, axis=1).T[::-1]
    return np.sqrt(np.maximum((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c)), 0)) / 4


def strained(piece: FlatPiece) -> tuple[Floats, Floats]:
    """The strain of each triangle along warp and weft, from where threads drawn on the table run in space."""
    flat, space = piece.flat[piece.triangles], piece.space[piece.triangles]
    found = []
    for angle in (piece.grain, piece.grain + np.pi / 2):
        thread = np.array([np.cos(angle), np.sin(angle)])
        long = []
        for (p, q, r), (x, y, z) in zip(flat, space, strict=True):
            u, v = np.linalg.solve(np.column_stack([q - p, r - p]), thread)
            long.append(np.linalg.norm(u * (y - x) + v * (z - x)) - 1)
        found.append(np.array(long))
    return found[0], found[1]


def away(at: Floats, curve: Curve) -> Floats:
    """How far points (n, 3) lie from a curve, by 2000 chords of it."""
    t = np.linspace(0, curve.end, 2001)
    line = curve.at(t)
    way = np.diff(line, axis=0)
    square = (way**2).sum(axis=1)
    share = np.clip(np.einsum("nmk,mk->nm", at[:, None] - line[:-1], way) / square, 0, 1)
    near = line[:-1] + share[..., None] * way
    return np.linalg.norm(at[:, None] - near, axis=2).min(axis=1)


def check_shape(drawn: Drawn, panel: CoveredPanel, settings: CoverSettings, found: Found) -> None:
    """The panel in space runs along its edge curves, off by half the cloth, and is laid flat without a change of size
    but for the strain that is told."""
    for name, line in panel.lines.items():
        curve = drawn.curves.get(name.rstrip("′"))
        if curve is not None:
            far = float(away(line, curve).max())
            found.check(far <= 3 * settings.offset + 0.01, f"the edge {name} lies {far:.2f} mm from its curve")
    for piece in panel.pieces:
        flat, space = sides(piece.flat[piece.triangles]), sides(piece.space[piece.triangles])
        real = heron(space) > 1e-6
        areas = [float(heron(each).sum()) for each in (flat, space)]
        outline = Polygon(np.vstack([edge.line[:-1] for edge in piece.edges])).area
        apart = abs(areas[0] - outline)
        found.check(apart < 1e-6 * outline + 1e-3, f"{piece.name}: triangles and outline differ by {apart:.2g} mm²")
        if panel.development is not None:
            # A fold of angle θ round a radius r is shorter than its two tangents by r (2 tan(θ/2) - θ).
            less = [settings.crease_radius * (2 * np.tan(a / 2) - a) for _, a, _ in panel.creases]
            wide = [float(np.linalg.norm(line[1] - line[0])) for line, _, _ in panel.creases]
            off = float(np.abs(flat - space)[real].max())
            found.check(off < 1e-6 + 1.01 * sum(less), f"{piece.name}: a side of a triangle is off by {off:.3g} mm")
            lost = areas[1] - areas[0] - float(np.dot(less, wide))
            allowed = 1e-6 * areas[1] + sum(less) * max(wide, default=0.0)
            found.check(abs(lost) < allowed, f"{piece.name}: {lost:.3g} mm² are lost")
        else:
            told, own = (piece.warp, piece.weft), strained(piece)
            apart = max(float(np.abs(a - b).max()) for a, b in zip(told, own, strict=True))
            found.check(apart < 1e-6, f"{piece.name}: its strain is {apart:.2g} off what is told")
        found.strain = max(found.strain, float(np.abs([piece.warp, piece.weft]).max()))


def check_twist(drawn: Drawn, panel: CoveredPanel, found: Found) -> None:
    """The strain of a ruled panel is what its rulings' ends ask for: the gap of near rulings half way along them."""
    if panel.development is None:
        return
    strip = panel.development.strip
    names = strip.names
    low, high = (drawn.curves[name] for name in names)
    if np.linalg.norm(high.at(np.zeros(1)) - strip.b[0]) > np.linalg.norm(high.at(np.array([high.end])) - strip.b[0]):
        high = high.reversed()
    told = float(strip.strain.max())
    worst, h = 0.0, 1e-5
    for t, s in zip(strip.t, strip.s, strict=True):
        if not (h < t < low.end - h and h < s < high.end - h):
            continue
        along = (high.at(np.array([s])) - low.at(np.array([t])))[0]
        along /= np.linalg.norm(along)
        steps = [c.at(np.array([x + h])) - c.at(np.array([x - h])) for c, x in ((low, t), (high, s))]
        square = [(step - (step @ along)[:, None] * along)[0] for step in steps]
        one, other = (each / np.linalg.norm(each) for each in square)
        worst = max(worst, 1 - float(np.linalg.norm(one + other)) / 2)
    found.check(
        abs(worst - told) < 1e-6 + 0.02 * told,
        f"{panel.asked.name}: twist strain {worst:.2g}, told {told:.2g}",
    )


def check_piece(piece: Piece, found: Found) -> None:
    """The outlines do not cross, and the cut line keeps to its allowance but at corners of the piece."""
    sew, cut = Polygon(piece.outline), Polygon(piece.cut)
    found.check(sew.is_valid and cut.is_valid, f"{piece.name}: an outline crosses itself")
    least = min(edge.finish.allowance for edge in piece.edges)
    close = float(distance(points(piece.cut), sew.exterior).min())
    found.check(close > 0.5 * least, f"{piece.name}: the cut line comes to {close:.2f} mm of the sew line")
    corners = np.array([edge.line[0] for edge in piece.edges])
    reach = np.array([reach_at(piece.edges[k - 1], edge) for k, edge in enumerate(piece.edges)])
    for at in piece.cut:
        far = [(LineString(edge.line).distance(points(at)), edge) for edge in piece.edges]
        near, edge = min(far, key=lambda each: each[0])
        holds = any(gap <= each.finish.allowance * (1 + HORN) + 1e-3 for gap, each in far)
        holds |= bool((np.linalg.norm(corners - at, axis=1) <= reach * (1 + HORN)).any())
        found.check(holds, f"{piece.name}: cut {near:.1f} mm off {edge.name}")


def reach_at(before: SewEdge, after: SewEdge) -> float:
    """How far from a corner the cut lines of two edges meet, at most MITER times the larger allowance."""
    u, v = before.line[-1] - before.line[-2], after.line[1] - after.line[0]
    out = [np.array([w[1], -w[0]]) / np.linalg.norm(w) for w in (u, v)]
    deep = before.finish.allowance, after.finish.allowance
    if abs(np.linalg.det(out)) < 1e-6:
        return max(deep)
    return float(min(np.linalg.norm(np.linalg.solve(out, deep)), MITER * max(deep)))


def check_seams(made: Assembly, found: Found) -> None:
    """Edges that are sewn together are equally long, or their marks say by how much one is eased; darts are equal."""
    pieces = {piece.name: piece for piece in made.pattern.pieces}
    sewn: set[tuple[str, str]] = set()
    for seam in made.seams:
        one, other = pieces[seam.piece], pieces[seam.other or seam.piece]
        mate = f"{seam.name}'" if one is other else seam.name
        lengths = one.edge(seam.name).length, other.edge(mate).length
        apart = abs(lengths[0] - lengths[1])
        longer = (one, seam.name) if lengths[0] > lengths[1] else (other, mate)
        told = max((mark.ease for mark in longer[0].marks if mark.edge == longer[1]), default=0.0)
        share = max(lengths) / min(lengths) - 1
        if apart > SEAM:
            found.check(abs(told - share) < 1e-4, f"{seam.name}: {apart:.2f} mm longer, eased {told:.2%}")
        if one is other:
            found.check(apart <= SEAM, f"the sides of {seam.name} differ by {apart:.2f} mm")
        sewn |= {(one.name, seam.name), (other.name, mate)}
    for piece in made.pattern.pieces:
        for edge in piece.edges:
            if " dart " in edge.name or " seam " in edge.name:
                found.check((piece.name, edge.name) in sewn, f"{edge.name} of {piece.name} has no mate")


def check_by_library(piece: FlatPiece, found: Found) -> None:
    """A general-purpose flattening library (least squares conformal maps) lays the same triangles flat alike.

    It applies where a surface can be laid flat as it is: then angles and lengths are kept at once.
    """
    import igl

    _, first, number = np.unique(np.round(piece.space, 9), axis=0, return_index=True, return_inverse=True)
    triangles = number.ravel()[piece.triangles]
    triangles = triangles[[len(set(corners)) == 3 for corners in triangles.tolist()]]
    goal, space = piece.flat[first], piece.space[first]
    one = int(np.linalg.norm(goal - goal.mean(axis=0), axis=1).argmax())
    other = int(np.linalg.norm(goal - goal[one], axis=1).argmax())
    ends = np.array([one, other])
    laid, _ = igl.lscm(space, triangles, ends, goal[ends])
    apart = float(np.linalg.norm(laid - goal, axis=1).max())
    found.check(apart < 0.05, f"{piece.name}: the library lays it flat {apart:.3f} mm off")


def check_strip(name: str, strip: Strip, flat: Flat, found: Found) -> None:
    """All distances between the ends of neighboring rulings that a flat facet keeps are those in space."""
    for one, other, p, q in (
        ("a", "a", 0, 1),
        ("b", "b", 0, 1),
        ("a", "b", 0, 0),
    ):
        here, there = (
            np.linalg.norm(getattr(each, other)[q:] - getattr(each, one)[: len(strip.a) - q + p], axis=1)
            for each in (strip, flat)
        )
        off = float(np.abs(here - there).max())
        found.check(off < 1e-6, f"{name}: lengths {one} to {other} are off by {off:.2g} mm")
