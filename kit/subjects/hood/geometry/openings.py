"""Openings in a hood's boards, sawn square through the face: the brow, round and rectangular holes, notches."""

from collections.abc import Mapping
from math import acos, atan, ceil, pi, sin, sqrt

import numpy as np
import shapely

from kit.core.errors import KitError, near_misses
from kit.geometry.remembered import remembered
from kit.geometry.solids.closed import Mesh, difference, raised
from kit.geometry.solids.convex import Array, Index
from kit.subjects.hood.geometry.boards import INSIDE, OUTSIDE, Board
from kit.subjects.hood.geometry.form import Brow, Chute, HoodDimensions, Notch

CHORD = 0.05  # [mm] by how much an arc's chords stand into its opening at most: wood is never left out


def brow_outline(brow: Brow, slope: float, chord: float = CHORD) -> Array:
    """Return the front opening (n, 2) [mm] on the face's axes, counterclockwise, its foot a little below the bench."""
    half, spring = brow.width / 2.0, brow.height / sin(slope)
    below = -spring
    if brow.rise <= 0.0:
        return np.array([[-half, below], [half, below], [half, spring], [-half, spring]])
    reach = 2.0 * atan(brow.rise / half)  # from the middle of the arc to its end
    radius = half / sin(reach)
    count = max(2, ceil(reach / sqrt(2.0 * chord / radius)))
    angle = np.linspace(-reach, reach, 2 * count + 1)
    middle = spring + brow.rise - radius
    arc = np.stack([-radius * np.sin(angle), middle + radius * np.cos(angle)], axis=1)
    feet = np.array([[-half, below], [half, below]])
    return np.asarray(np.concatenate([feet, arc]))


def chute_outline(chute: Chute, slope: float, chord: float = CHORD) -> Array:
    """Return a hole (n, 2) [mm] on the face's axes, counterclockwise."""
    middle = np.array([chute.along, chute.height / sin(slope)])
    if chute.up is not None:
        square = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])
        return np.asarray(middle + square * [chute.width / 2.0, chute.up / 2.0])
    radius = chute.width / 2.0
    count = max(12, ceil(pi / acos(max(0.0, 1.0 - chord / radius))))
    angle = 2.0 * pi * np.arange(count) / count
    ring = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    return np.asarray(middle + radius * ring)


def notch_outline(notch: Notch, slope: float) -> Array:
    """Return a notch at the foot (n, 2) [mm] on the face's axes, counterclockwise."""
    top = notch.height / sin(slope)
    return np.array([[notch.begin, -top], [notch.end, -top], [notch.end, top], [notch.begin, top]])


def outlines(form: HoodDimensions, chord: float = CHORD) -> dict[str, dict[str, Array]]:
    """Return by face the openings by name, each (n, 2) [mm] on the face's axes.

    Raises:
        KitError: an opening without size, or in a face that the hood does not have.
    """
    slopes = {face.name: face.slope for face in form.faces()}
    found: dict[str, dict[str, Array]] = {}
    for name, part in (
        [("brow", form.brow)] * (form.brow is not None)
        + [(f"hole {k}", chute) for k, chute in enumerate(form.chutes, 1)]
        + [(f"notch {k}", notch) for k, notch in enumerate(form.notches, 1)]
    ):
        face = "front" if isinstance(part, Brow) else part.face  # type: ignore[union-attr]
        if face not in slopes:
            raise KitError(
                f"The opening {name!r} is in the face {face!r}{near_misses(face, list(slopes))}; the hood has "
                f"{', '.join(slopes)}."
            )
        outline = _outline(part, slopes[face], chord)
        if shapely.Polygon(outline).area <= 0.0:
            raise KitError(f"The opening {name!r} in the {face} has no area; make it wider and higher than 0 mm.")
        found.setdefault(face, {})[name] = outline
    return found


def _outline(part: Brow | Chute | Notch | None, slope: float, chord: float) -> Array:
    match part:
        case Brow():
            return brow_outline(part, slope, chord)
        case Chute():
            return chute_outline(part, slope, chord)
        case Notch():
            return notch_outline(part, slope)
    raise AssertionError(part)


def region(board: Board, openings: Mapping[str, Array], side: str = OUTSIDE) -> shapely.Geometry:
    """Return what of a board's outside or inside is wood, on the face's axes [mm]."""
    whole = shapely.Polygon(board.outline(side))
    return whole.difference(shapely.union_all([shapely.Polygon(ring) for ring in openings.values()]))


def wood_left(board: Board, outline: Array) -> float:
    """Return the least width of wood [mm] between an opening and the board's edges, below 0 if it reaches over one.

    Looked at outside and inside of the board, whichever is less; the edge on the bench does not count.
    """
    least = np.inf
    for side, depth in ((OUTSIDE, 0.0), (INSIDE, board.face.thickness)):
        for edge in board.edges:
            cut = board.solid.side(edge.meets)
            if edge.meets == "bench" or cut is None:
                continue
            normal = board.face.axes @ cut.plane.normal
            flat = np.concatenate([outline, np.full((len(outline), 1), -depth)], axis=1)
            inner = float(np.hypot(normal[0], normal[1]))
            if inner > 1e-9 and board.solid.side(side) is not None:
                least = min(least, float(cut.plane.depth(board.face.raised(flat)).min()) / inner)
    return least


@remembered(most=128)
def pierced(board: Board, openings: Mapping[str, Array]) -> tuple[Array, Index]:
    """Return vertices (n, 3) [mm] and triangles (m, 3) of the board with its openings, closed.

    Raises:
        KitError: nothing is left of the board.
    """
    if not openings:
        return board.solid.mesh
    left = difference(Mesh(*board.solid.mesh), [prism(board, outline) for outline in openings.values()])
    if len(left.faces) == 0:
        raise KitError(f"The openings leave nothing of the {board.name} board; make them smaller.")
    return left


def prism(board: Board, outline: Array) -> Mesh:
    """Return what an opening takes away: its outline (n, 2) [mm], square through the board and a little beyond."""
    t = board.face.thickness
    body = raised(shapely.Polygon(outline), 1.2 * t)
    return Mesh(board.face.raised(body.vertices - [0.0, 0.0, 1.1 * t]), body.faces)
