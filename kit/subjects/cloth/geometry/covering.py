"""Skins of panels over a frame's edge curves, straight rulings or doubly bent, laid flat and made a pattern.

A panel between two edge curves is ruled and unrolled exactly; a panel in a frame of four is bent both ways and laid
flat with the least strain, with darts and seams where the threads cannot take it. Both end as flat pieces with named
edges, the strain of each triangle along both threads, and the same surface in space.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise, product

import numpy as np

from kit.core.errors import KitError, near_misses
from kit.geometry.development.arrays import CLOSE, Floats, Ints, cross, unit_rows
from kit.geometry.development.curves import Curve
from kit.geometry.development.develop import Development, develop
from kit.geometry.development.fold_loss import drawn_together
from kit.geometry.development.mesh import Panel, grid_triangles, patch
from kit.geometry.development.ruled_strip import Strip
from kit.geometry.development.strain import thread_strain
from kit.geometry.development.unroll import Flat, unroll
from kit.subjects.cloth.geometry.darts import Cut, relieve
from kit.subjects.cloth.geometry.edge_finish import edges_of_panel, edges_of_strip
from kit.subjects.cloth.geometry.pattern import SewEdge
from kit.subjects.cloth.geometry.seams import part_at

FEWEST, MOST = 10, 40  # steps along an edge of a doubly bent panel: more would not answer at once
ROUNDING = 1e-9  # a strain below which there is none
COARSE = 8  # steps along the edges of a panel that tell its inside from its outside


@dataclass(frozen=True)
class Asked:
    """A panel that is asked for: its name and the names of its two edge curves, or four: below, above, left, right.

    seams: numbers of rulings at which a ruled panel is parted, of its strip as `facing` puts its edges.
    """

    name: str
    edges: tuple[str, ...]
    seams: tuple[int, ...] = ()


@dataclass(frozen=True)
class FlatPiece:
    """A piece laid flat: vertices (n, 2), mm, triangles (m, 3), the strain of each along warp and weft, and the grain.

    Positive strain: the thread is longer on the shape than on the table. creases: lines (2, 2) along which the shape
    turns sharply. space (n, 3): the vertices on the shape, mm.
    """

    name: str
    flat: Floats
    triangles: Ints
    warp: Floats
    weft: Floats
    grain: float
    edges: tuple[SewEdge, ...]
    creases: tuple[Floats, ...] = ()
    space: Floats = field(default_factory=lambda: np.zeros((0, 3)))


@dataclass(frozen=True)
class CoveredPanel:
    """A panel in space (vertices (n, 3), mm; triangles (m, 3), counterclockwise from outside) and its flat pieces.

    lines: its edges in space by name, (k, 3) each. development: of a ruled panel. cuts: darts and seams proposed.
    missed: a bound, mm, of what its facets miss: of the surface if it is ruled, else of its edges.
    """

    asked: Asked
    vertices: Floats
    triangles: Ints
    lines: Mapping[str, Floats]
    pieces: tuple[FlatPiece, ...]
    development: Development | None
    cuts: tuple[Cut, ...]
    missed: float = 0.0

    @property
    def largest(self) -> tuple[float, float]:
        """The largest strain in size along warp and along weft."""
        warp, weft = (
            max(float(np.abs(each).max()) for each in strains)
            for strains in zip(*((piece.warp, piece.weft) for piece in self.pieces), strict=True)
        )
        return (warp if warp > ROUNDING else 0.0), (weft if weft > ROUNDING else 0.0)

    @property
    def creases(self) -> list[tuple[Floats, float, bool]]:
        """The creases of a ruled panel: both ends (2, 3), mm, the angle of the fold, rad, and why.

        The last says whether no corner of its edges asks for the crease, but only their twist.
        """
        if self.development is None:
            return []
        strip = self.development.strip
        found = zip(*(each.tolist() for each in strip.creases), strict=True)
        return [(np.stack([strip.a[k], strip.b[k]]), angle, free) for k, angle, free in found]


@dataclass(frozen=True)
class CoverSettings:
    """How a skin is laid out.

    Chord error and way of the middle of the cloth off the frame (mm), the strains that warp and weft take, whether the
    warp runs along the edges (else across them), and the radius (mm) of the middle of the cloth round a crease of the
    frame.
    """

    chord: float = 0.2
    offset: float = 0.0
    limit: tuple[float, float] = (0.01, 0.01)
    warp_along: bool = True
    crease_radius: float = 0.0


def cover(curves: Mapping[str, Curve], panels: Sequence[Asked], settings: CoverSettings) -> tuple[CoveredPanel, ...]:
    """Lay all panels of a skin flat; outside is away from the middle of all their edges.

    Raises: as `middle_of` and `cover_panel`.
    """
    middle = middle_of(curves, panels)
    return tuple(cover_panel(curves, panel, settings, middle) for panel in panels)


def middle_of(curves: Mapping[str, Curve], panels: Sequence[Asked]) -> Floats:
    """Return the middle (3,) of all edges of the panels, which are checked to be there.

    Raises: KitError for a panel without two or four edges, an edge that is not there, two panels of one name, or none.
    """
    names = [panel.name for panel in panels]
    for panel in panels:
        if names.count(panel.name) > 1:
            raise KitError(f"Two panels are named {panel.name!r}; give each its own name")
        if len(panel.edges) not in (2, 4):
            raise KitError(
                f"The panel {panel.name} has {len(panel.edges)} edges; a ruled one has two edge curves, a doubly bent "
                "one four: below, above, left, right"
            )
        for edge in panel.edges:
            if edge not in curves:
                raise KitError(f"The panel {panel.name} has no edge {edge!r}{near_misses(edge, list(curves))}")
    if not panels:
        raise KitError("The skin has no panels; name the edges of one at least")
    used = {edge for panel in panels for edge in panel.edges}
    return np.asarray(np.mean([_middle(curve) for name, curve in curves.items() if name in used], axis=0))


Developer = Callable[[Curve, Curve, float], Development]


def cover_panel(
    curves: Mapping[str, Curve],
    panel: Asked,
    settings: CoverSettings,
    middle: Floats,
    developer: Developer | None = None,
) -> CoveredPanel:
    """Lay one panel flat; `middle` (3,) is inside.

    developer: how two edges are developed to a chord error, mm; one that remembers saves time where only cloth changes.

    Raises: what developing and flattening refuse.
    """
    if len(panel.edges) == 2:
        return _ruled(panel, curves, settings, middle, developer or _develop)
    return _doubly_bent(panel, curves, settings, middle)


def _develop(low: Curve, high: Curve, chord: float) -> Development:
    return develop(low, high, chord=chord)


def _middle(curve: Curve) -> Floats:
    return np.asarray(curve.at(curve.even_grid(16)).mean(axis=0))


def _faces_in(vertices: Floats, triangles: Ints, middle: Floats) -> bool:
    """Whether a surface shows its inside: its area's normals point toward the middle of the skin."""
    p, q, r = (vertices[triangles[:, k]] for k in range(3))
    normal = cross(q - p, r - p)
    away = (p + q + r) / 3 - middle
    return bool(np.einsum("ij,ij->", normal, away) < -1e-9 * np.abs(normal).sum())


def facing(curves: Mapping[str, Curve], panel: Asked, middle: Floats) -> tuple[str, str]:
    """Return the two edges of a ruled panel so that its flat side shows the outside, away from `middle` (3,), mm."""
    low, high = panel.edges
    share = np.linspace(0, 1, COARSE + 1)
    rough = np.vstack([curves[edge].at(share * curves[edge].end) for edge in panel.edges])
    return (high, low) if _faces_in(rough, grid_triangles(COARSE, 1), middle) else (low, high)


def _ruled(
    panel: Asked, curves: Mapping[str, Curve], settings: CoverSettings, middle: Floats, developer: Developer
) -> CoveredPanel:
    names = facing(curves, panel, middle)
    made = developer(curves[names[0]], curves[names[1]], settings.chord)
    if settings.offset:
        moved = made.strip.offset(settings.offset)
        made = replace(made, strip=moved, flat=unroll(moved))
    vertices, triangles = _strip_mesh(made.strip)
    parted = part_at(made.strip, panel.seams) if panel.seams else None
    parts = list(zip(parted.panels, parted.flats, strict=True)) if parted else [(made.strip, made.flat)]
    last, lines, pieces = len(parts) - 1, dict[str, Floats](), list[FlatPiece]()
    for k, (strip, flat) in enumerate(parts):
        # Counterclockwise, the upper edge runs back: its parts are counted from the other end.
        sides = {
            names[0] + "′" * k: strip.a,
            f"{panel.name} seam {k + 1}" if k < last else f"{panel.name} end": np.stack([strip.a[-1], strip.b[-1]]),
            names[1] + "′" * (last - k): strip.b[::-1],
            f"{panel.name} seam {k}" if k else f"{panel.name} begin": np.stack([strip.b[0], strip.a[0]]),
        }
        name = f"{panel.name} {k + 1}" if last else panel.name
        pieces.append(_flat_strip(name, strip, flat, tuple(sides), settings))
        lines.update(sides)
    known = {edge.name for piece in pieces for edge in piece.edges}
    lines = {name: line for name, line in lines.items() if name in known}
    return CoveredPanel(panel, vertices, triangles, lines, tuple(pieces), made, (), made.chord_bound)


def _flat_strip(name: str, strip: Strip, flat: Flat, sides: tuple[str, ...], settings: CoverSettings) -> FlatPiece:
    """Return an unrolled strip as a piece, with the strain that its twist asks of both threads."""
    first, second, third, fourth = sides
    flat = drawn_together(strip, flat, settings.crease_radius)
    edges = edges_of_strip(flat, (first, second, third, fourth))
    _, triangles = _strip_mesh(strip)
    ahead = flat.a[-1] - flat.a[0] + flat.b[-1] - flat.b[0]
    along = float(np.arctan2(ahead[1], ahead[0]))
    grain = along if settings.warp_along else along + np.pi / 2
    ruling = unit_rows(flat.b - flat.a)
    count = len(flat.a)
    of_triangle = np.where(triangles >= count, triangles - count, triangles).min(axis=1)
    # The twist of a ruling asks for strain square to it; each thread takes its share by the square of the cosine.
    across = np.column_stack([ruling[of_triangle, 1], -ruling[of_triangle, 0]])
    strain = strip.strain[of_triangle]
    warp, weft = (strain * (across @ _heading(angle)) ** 2 for angle in (grain, grain + np.pi / 2))
    inner = [k for k in np.flatnonzero(strip.crease) if 0 < k < count - 1]
    creases = tuple(np.stack([flat.a[k], flat.b[k]]) for k in inner)
    return FlatPiece(
        name,
        np.vstack([flat.a, flat.b]),
        triangles,
        warp,
        weft,
        grain,
        tuple(edges),
        creases,
        np.vstack([strip.a, strip.b]),
    )


def _heading(angle: float) -> Floats:
    return np.array([np.cos(angle), np.sin(angle)])


def _strip_mesh(strip: Strip) -> tuple[Floats, Ints]:
    """Return vertices (a, then b) and triangles of a strip."""
    ia, ib = strip.zigzag
    count = len(strip.a)
    on_a = np.abs(strip.a[ia[1:]] - strip.a[ia[:-1]]).sum(axis=1) > 0
    third = np.where(on_a, ia[1:], count + ib[1:])
    return np.vstack([strip.a, strip.b]), np.column_stack([ia[:-1], third, count + ib[:-1]])


def _doubly_bent(panel: Asked, curves: Mapping[str, Curve], settings: CoverSettings, middle: Floats) -> CoveredPanel:
    below, above, left, right = round_frame(*(curves[edge] for edge in panel.edges))
    names = dict(zip(("below", "right", "above", "left"), (panel.edges[k] for k in (0, 3, 1, 2)), strict=True))
    (columns, wide), (rows, tall) = _cells(below, above, settings.chord), _cells(left, right, settings.chord)
    mesh = patch(below, above, left, right, (columns, rows))
    if _faces_in(mesh.vertices, mesh.triangles, middle):
        below, above, left, right = below.reversed(), above.reversed(), right, left
        names["left"], names["right"] = names["right"], names["left"]
        mesh = patch(below, above, left, right, (columns, rows))
    if settings.offset:
        mesh = Panel(mesh.vertices + settings.offset * _normals(mesh), mesh.triangles, mesh.origin)
    last = (columns + 1) * (rows + 1) - 1
    ring = {
        "below": np.arange(columns + 1),
        "right": columns + (columns + 1) * np.arange(rows + 1),
        "above": last - np.arange(columns + 1),
        "left": last - columns - (columns + 1) * np.arange(rows + 1),
    }
    grain = 0.0 if settings.warp_along else np.pi / 2
    found = relieve(mesh, settings.limit, grain=grain)
    ends = {int(end) for cut in found.cuts for end in (cut.vertices[0], cut.vertices[-1])}
    sides, lines = dict[frozenset[int], str](), dict[str, Floats]()
    for side, vertices in ring.items():
        for name, part in _parted(names[side], vertices, ends):
            lines[name] = mesh.vertices[part]
            sides.update({frozenset(pair): name for pair in pairwise(part.tolist())})
    pieces = []
    for number, flattened in enumerate(found.pieces, 1):
        strain = thread_strain(flattened, grain)
        name = panel.name if len(found.pieces) == 1 else f"{panel.name} {number}"
        edges = edges_of_panel(flattened, sides, found.cuts, f"{panel.name} ")
        pieces.append(
            FlatPiece(
                name,
                flattened.flat,
                flattened.panel.triangles,
                strain.warp,
                strain.weft,
                grain,
                tuple(edges),
                space=flattened.panel.vertices,
            )
        )
    missed = max(wide, tall)
    return CoveredPanel(panel, mesh.vertices, mesh.triangles, lines, tuple(pieces), None, found.cuts, missed)


def round_frame(below: Curve, above: Curve, left: Curve, right: Curve) -> tuple[Curve, Curve, Curve, Curve]:
    """Return four edge curves so that below and above run from left to right, left and right from below to above.

    A frame's edges may be stated in either direction; that in which their ends meet best is taken.
    """
    curves, least = (below, above, left, right), np.inf
    best: tuple[bool, ...] = (False,) * 4
    ends = [curve.at(np.array([0.0, float(curve.end)])) for curve in curves]
    for turned in product((False, True), repeat=4):
        gaps = ((0, 0, 2, 0), (0, 1, 3, 0), (1, 0, 2, 1), (1, 1, 3, 1))
        pairs = ((ends[i][k ^ turned[i]], ends[j][m ^ turned[j]]) for i, k, j, m in gaps)
        apart = max(float(np.linalg.norm(one - other)) for one, other in pairs)
        if apart < least - CLOSE:
            best, least = turned, apart
    one, two, three, four = (curve.reversed() if turn else curve for curve, turn in zip(curves, best, strict=True))
    return one, two, three, four


def _cells(one: Curve, other: Curve, chord: float) -> tuple[int, float]:
    """Return in how many equal steps two edges facing each other are parted, and what these miss at most, mm."""
    count = FEWEST
    while True:
        share = np.linspace(0, 1, count + 1)
        bound = max(float(curve.chord_errors(share * curve.end).max()) for curve in (one, other))
        if bound <= chord or count >= MOST:
            return count, bound
        count = min(MOST, count + 2)


def _parted(name: str, vertices: Ints, ends: set[int]) -> list[tuple[str, Ints]]:
    """Part an edge where darts and seams end on it, and name the parts edge, edge′, edge″ … in order."""
    at = [k for k in range(1, len(vertices) - 1) if int(vertices[k]) in ends]
    bounds = pairwise([0, *at, len(vertices) - 1])
    return [(name + "′" * number, vertices[first : end + 1]) for number, (first, end) in enumerate(bounds)]


def _normals(mesh: Panel) -> Floats:
    """Return the outward unit normal at each vertex, the mean of its triangles' by area."""
    p, q, r = (mesh.vertices[mesh.triangles[:, k]] for k in range(3))
    normal = cross(q - p, r - p)
    total = np.zeros_like(mesh.vertices)
    for k in range(3):
        np.add.at(total, mesh.triangles[:, k], normal)
    return unit_rows(total)
