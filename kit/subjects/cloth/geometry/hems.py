"""Relief cuts placed along a curved hem, and the refusal of a hem that its edge is too tightly curved for."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely import LineString, unary_union

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats
from kit.subjects.cloth.geometry.match_marks import frame_at
from kit.subjects.cloth.geometry.pattern import Relief, SewEdge
from kit.subjects.cloth.geometry.relief_cuts import free_depth, notch_angle, turn_per_cut, turns_along
from kit.subjects.cloth.geometry.seam_allowance import normals


class HemError(KitError):
    """A hem that cannot be folded so on its edge; without it the piece can still be shown."""


LEAST_TURN = 1e-3  # rad, below which a bend is taken for straight
STRAIGHT = 1e4  # mm, radius above which an edge is straight: no hem is so deep that it needs cuts there
LEAST_CORNER = 0.1  # rad, below which two edges meet without an inward corner


@dataclass(frozen=True)
class Tolerance:
    """The tolerated strain of a folded hem, and how near (mm) a cut may come to a fold line or a sew corner."""

    strain: float = 0.1
    clear: float = 3.0


@dataclass(frozen=True)
class Bend:
    """A stretch of an edge that turns one way: arc lengths (mm), turn (rad, positive), tightest radius (mm)."""

    begin: float
    end: float
    turn: float
    radius: float
    concave: bool


def bends(line: Floats) -> list[Bend]:
    """Return the stretches of a counterclockwise sew line (n, 2) that turn one way, straight ones left out.

    A turn to the left is convex: the cloth lies inside the arc.
    """
    along, turned = turns_along(line)
    turn_here = np.diff(turned)
    change = np.sign(np.where(np.abs(turn_here) < np.diff(along) / STRAIGHT + 1e-12, 0.0, turn_here))
    found = []
    k = 0
    while k < len(change):
        last = k
        while last + 1 < len(change) and change[last + 1] == change[k]:
            last += 1
        turn = float(turned[last + 1] - turned[k])
        if change[k] != 0 and abs(turn) > LEAST_TURN:
            begin, end = float(along[k]), float(along[last + 1])
            found.append(Bend(begin, end, abs(turn), _tightest(along, turned, begin, end), turn < 0))
        k = last + 1
    return found


def _tightest(along: Floats, turned: Floats, begin: float, end: float) -> float:
    """Return the tightest radius (mm) of a bend, its turn taken over an eighth of it at a time.

    Single facets that happen to be tiny would tell of bends that are not there.
    """
    window = (end - begin) / 8
    at = np.linspace(begin, end - window, 57)
    turn = np.abs(np.interp(at + window, along, turned) - np.interp(at, along, turned))
    return window / float(turn.max())


def reliefs(edge: SewEdge, tolerance: Tolerance) -> tuple[Relief, ...]:
    """Return the slits and notches that the hem of an edge needs, in order along it; none for other finishes.

    Raises: HemError for a hem wider than its edge's radius, or one bent so tightly that cuts would have to come
    nearer to the fold line than is allowed.
    """
    depth = edge.finish.allowance
    if edge.finish.kind != "hem" or depth <= 0:
        return ()
    found: list[Relief] = []
    along, turned = turns_along(edge.line)
    for bend in bends(edge.line):
        free = free_depth(bend.radius, tolerance.strain, bend.concave)
        if depth <= free:
            continue
        if depth >= bend.radius:
            raise HemError(
                f"The hem of the edge {edge.name} is {depth:.1f} mm deep where the edge bends at a radius of "
                f"{bend.radius:.1f} mm; make it narrower than the radius, or finish this edge with a facing"
            )
        if free < tolerance.clear:
            raise HemError(
                f"The edge {edge.name} bends at a radius of {bend.radius:.1f} mm: cuts would have to come within "
                f"{free:.1f} mm of the fold line, nearer than the {tolerance.clear:.1f} mm that are allowed; "
                "finish it with a facing, or allow more strain"
            )
        count = int(np.ceil(bend.turn / turn_per_cut(tolerance.strain, bend.concave)))
        begin = float(np.interp(bend.begin, along, turned))
        goals = begin + (np.arange(count) + 0.5) / count * bend.turn * (-1 if bend.concave else 1)
        rising = -1 if bend.concave else 1
        inside = (along >= bend.begin) & (along <= bend.end)
        places = np.interp(rising * goals, rising * turned[inside], along[inside])
        half = notch_angle(bend.turn / count, tolerance.strain) / 2
        for place in places:
            found.append(_cut(edge, float(place), depth, free, 0.0 if bend.concave else half))
    return tuple(found)


def corner_slits(edges: Sequence[SewEdge], clear: float) -> tuple[Relief, ...]:
    """Return a slit toward each inward corner at which a hem ends, so that both sides can be folded.

    It runs from where the cut lines meet toward the corner, and ends at a distance `clear` (mm) from the fold lines.
    """
    found = []
    for k, edge in enumerate(edges):
        before = edges[k - 1]
        depths = before.finish.allowance, edge.finish.allowance
        n1, n2 = normals(before.line[-2:])[0], normals(edge.line[:2])[0]
        turn = float(n1[0] * n2[1] - n1[1] * n2[0])
        if turn > -np.sin(LEAST_CORNER) or "hem" not in (before.finish.kind, edge.finish.kind):
            continue
        corner = edge.line[0]
        meet = np.linalg.solve(np.stack([n1, n2]), np.array(depths))
        # Along the slit the distance from each edge grows evenly, to that edge's allowance where the cut lines meet.
        share = clear / min(side.finish.allowance for side in (before, edge) if side.finish.kind == "hem")
        if share < 1:
            found.append(Relief(edge.name, "slit", np.stack([corner + meet, corner + share * meet])))
    return tuple(found)


def kept_clear(cuts: Sequence[Relief], edges: Sequence[SewEdge], clear: float) -> tuple[Relief, ...]:
    """Return the cuts no nearer than `clear` (mm) to the fold line of any hem: a slit is shortened, as far as need be.

    Raises: HemError for a notch that comes too near to another fold line: shortened it would not close.
    """
    folds = {edge.name: LineString(edge.line) for edge in edges if edge.finish.kind == "hem"}
    if not folds:
        return tuple(cuts)
    near = unary_union(list(folds.values())).buffer(clear)
    found = []
    for cut in cuts:
        line = LineString(cut.points)
        close = min(folds, key=lambda name: folds[name].distance(line))
        if folds[close].distance(line) >= clear - 1e-6:
            found.append(cut)
        elif cut.kind == "notch":
            raise HemError(
                f"A notch in the hem of the edge {cut.edge} comes within {folds[close].distance(line):.1f} mm of the "
                f"fold line of {close}, {clear:.1f} mm are asked for; make the hems there narrower, or notch the corner"
            )
        else:
            left = line.difference(near)
            parts = [np.array(part.coords) for part in getattr(left, "geoms", [left]) if part.length > 0]
            outer = [part for part in parts if np.allclose(part[0], cut.points[0])]
            found += [Relief(cut.edge, "slit", part) for part in outer]
    return tuple(found)


def _cut(edge: SewEdge, place: float, depth: float, free: float, half: float) -> Relief:
    """Return the cut at an arc length, from the cut line to the free depth; a V with a half angle (rad), or a slit."""
    at, normal = frame_at(edge.line, place)
    root = at + free * normal
    if half == 0:
        return Relief(edge.name, "slit", np.stack([at + depth * normal, root]))
    side = (depth - free) * np.tan(half) * np.array([-normal[1], normal[0]])
    mouth = at + depth * normal
    return Relief(edge.name, "notch", np.stack([mouth - side, root, mouth + side]))
