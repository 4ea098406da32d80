"""Match marks: the same places on two edges that are sewn together, carried from the sew line to the cut line."""

from dataclasses import replace

import numpy as np
from shapely import LineString, Polygon

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, at_lengths, lengths_along, unit_rows
from kit.subjects.cloth.geometry.pattern import Mark, Piece

SAME = 0.1  # mm, a difference of two edge lengths that no cutter keeps; above it is said how much is eased


def frame_at(line: Floats, along: float) -> tuple[Floats, Floats]:
    """Return the point at an arc length of a counterclockwise line (n, 2), and the outward normal there, (2,), (2,).

    Between the middles of two facets the direction turns evenly from the one to the other.
    """
    lengths = lengths_along(line)
    direction = unit_rows(np.diff(line, axis=0))
    heading = np.unwrap(np.arctan2(direction[:, 1], direction[:, 0]))
    angle = np.interp(along, (lengths[1:] + lengths[:-1]) / 2, heading)
    return at_lengths(line, np.array([along]))[0], np.array([np.sin(angle), -np.cos(angle)])


def mark(piece: Piece, edge: str, along: float, label: str, ease: float = 0.0) -> Mark:
    """Return a mark at an arc length (mm) on an edge: its sew point, and where the normal there meets the cut line.

    Raises:
        KitError: the arc length is not on the edge.
    """
    found = piece.edge(edge)
    if not -1e-9 <= along <= found.length + 1e-9:
        raise KitError(
            f"A mark at {along:.1f} mm is not on the edge {edge} of the {piece.name}, "
            f"which is {found.length:.1f} mm long"
        )
    at, normal = frame_at(found.line, along)
    depth = found.finish.allowance
    # The cut line is where the ray leaves the cloth; without allowance that is the sew point itself.
    ray = LineString([at, at + (4 * depth + 1e-6) * normal])
    left = ray.intersection(Polygon(piece.cut).boundary)
    points = np.array([p.coords[0] for p in getattr(left, "geoms", [left]) if p.geom_type == "Point"])
    reach = float(((points - at) @ normal).min()) if len(points) else depth
    return Mark(edge, label, along, at, at + reach * normal, ease)


def match(
    one: tuple[Piece, str],
    other: tuple[Piece, str],
    *,
    count: int = 3,
    label: str = "",
    easing: float = 0.02,
    same_way: bool = False,
) -> tuple[Piece, Piece]:
    """Return two pieces with marks at which their edges meet when they are sewn together.

    count: marks between the ends. Edges of the same length are marked at the same arc lengths; if one is longer, by at
    most the share `easing`, it is marked in proportion and says how much it is eased. Two edges of counterclockwise
    outlines run against each other when sewn, unless same_way.
    Raises: KitError for edges that differ by more than may be eased.
    """
    lengths = [piece.edge(edge).length for piece, edge in (one, other)]
    short, long = min(lengths), max(lengths)
    share = long / short - 1
    if share > easing and long - short > SAME:
        longer, shorter = (one, other) if lengths[0] == long else (other, one)
        raise KitError(
            f"The edge {longer[1]} of the {longer[0].name} is {long:.1f} mm long, {share:.1%} longer than "
            f"{shorter[1]} of the {shorter[0].name}; "
            f"at most {easing:.1%} can be eased: make a dart in it, or correct the pattern"
        )
    eased = share if long - short > SAME else 0.0
    places = (np.arange(count) + 1) / (count + 1)
    done = []
    for (piece, edge), length, shares in (
        (one, lengths[0], places),
        (other, lengths[1], places if same_way else 1 - places),
    ):
        ease = eased if length == long else 0.0
        new = tuple(mark(piece, edge, float(p) * length, f"{label}{k + 1}", ease) for k, p in enumerate(shares))
        done.append(replace(piece, marks=(*piece.marks, *new)))
    return done[0], done[1]
