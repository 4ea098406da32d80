"""Whether the machine is under the hood: nothing of it may be outside but what reaches out through an opening.

The machine is taken apart into the pieces in which its surface hangs together. A piece that reaches into the room and
touches no board can be outside only through an opening. A piece that does not is outside, unless it touches, as it was
scanned, a piece that does: the grip of an arm, entered as a box of its own. What is largest of all that moves must be
in the room for the most part: the middle of its surface never leaves it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from time import process_time

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from kit.geometry.clearance.distance import frames, triangle_distance
from kit.geometry.motion import Chain, apply
from kit.geometry.solids.convex import Array, Index
from kit.subjects.hood.geometry.boards import Face
from kit.subjects.hood.geometry.form import FLOOR
from kit.subjects.hood.geometry.gaps import Swept

AT_ONCE = 1 << 20  # pairs of a point and a pose that are looked at at once
MOST_BOXES = 20_000  # of joint values, into which the proof for one piece is split
PAIRS = 1 << 14  # pairs of triangles that are measured at once


@dataclass(frozen=True)
class Outside:
    """A piece of a part that is wholly outside the room at one position of the joints, `away` [mm] from it or more.

    Or, where not `wholly`, a part that is outside for the most part: the middle of its surface is there.
    """

    part: int
    joints: Array | None  # the joint values, where the parts' chains are known
    pose: int | None  # which of the sampled poses, where that is what was looked at
    here: Array  # (3,) [mm] the point of the piece that is nearest to the room
    away: float
    wholly: bool = True


class Room:
    """The room that the insides of the boards and the bench leave, openings or not."""

    def __init__(self, faces: Sequence[Face], below: float = 0.0) -> None:
        """Take the faces of the hood; what is no more than `below` [mm] under the bench still counts as in the room."""
        planes = [(face.plane.normal, face.plane.offset - face.thickness) for face in faces]
        planes += [(plane.normal, plane.offset + below) for plane in FLOOR]
        self.normals = np.array([normal for normal, _ in planes])
        self.offsets = np.array([offset for _, offset in planes])

    def depth(self, points: Array) -> Array:
        """Return how deep `points` (n, 3) lie in the room [mm], below 0 outside."""
        return np.asarray((self.offsets[:, None] - self.normals @ points.T).min(axis=0))  # rows lie together

    def holds(self, points: Array) -> bool:
        """Return whether all of `points` (n, 3) lie in the room."""
        return bool(((self.normals @ points.T).max(axis=1) < self.offsets).all())

    def met(self, triangles: Array) -> bool:
        """Return whether any of `triangles` (n, 3, 3) reaches into the room, if only with its middle."""
        ahead = self.offsets - triangles @ self.normals.T
        for triangle in triangles[(ahead > 0.0).any(axis=1).all(axis=1)]:
            left = triangle
            for normal, offset in zip(self.normals, self.offsets, strict=True):
                left = _clipped(left, offset - left @ normal)
                if len(left) == 0:
                    break
            if len(left):
                return True
        return False


def _clipped(polygon: Array, depth: Array) -> Array:
    """Return what of a polygon (n, 3) lies where its corners' depth (n,) is above 0."""
    kept = []
    for number in range(len(polygon)):
        here, there = depth[number - 1], depth[number]
        if (here > 0.0) != (there > 0.0):
            kept.append(polygon[number - 1] + here / (here - there) * (polygon[number] - polygon[number - 1]))
        if there > 0.0:
            kept.append(polygon[number])
    return np.array(kept).reshape(-1, 3)


def outside(parts: Sequence[Swept], still: Swept | None, room: Room, joined: float) -> Outside | None:
    """Return a piece that is outside at one of the sampled poses, the one that is farthest out, or None.

    Pieces no farther from each other than `joined` [mm], as scanned, hold each other; so do they hold what stands.
    """
    found = []
    for number, part in enumerate(parts):
        for piece, pose in _lost(part, room).items():
            here, depth = _nearest(_corners(part, piece), part.poses[pose], room)
            found.append((piece, Outside(number, None, pose, here, -depth)))
    out = _unheld(found, parts, still, room, joined)
    if out is not None:
        return out
    number, middle = _largest(parts)
    places = apply(parts[number].poses, middle[None])[:, 0]
    depth_of = room.depth(places)
    pose = int(np.argmin(depth_of))
    if depth_of[pose] > 0.0:
        return None
    return Outside(number, None, pose, places[pose], -float(depth_of[pose]), wholly=False)


def proven_outside(
    parts: Sequence[Swept],
    chains: Sequence[Chain],
    still: Swept | None,
    room: Room,
    joined: float,
    end: float,
) -> tuple[Outside | None, bool]:
    """Return a piece that is outside at any position of the joints, or None, and whether that is proven.

    Not proven: the time `end`, in seconds as `time.process_time` counts it, was over, or a piece only grazes the room.
    """
    found, proven = [], True
    for number, (part, chain) in enumerate(zip(parts, chains, strict=True)):
        for piece in range(int(part.body.piece.max()) + 1):
            answer = _watched(_corners(part, piece), chain, room, end)
            if isinstance(answer, bool):
                proven &= answer
                continue
            here, depth = _nearest(_corners(part, piece), chain.poses(answer[None])[0], room)
            found.append((piece, Outside(number, answer, None, here, -depth)))
    out = _unheld(found, parts, still, room, joined)
    number, middle = _largest(parts)
    answer = _watched(np.tile(middle, (3, 1)), chains[number], room, end)
    if out is None and not isinstance(answer, bool):
        here, depth = _nearest(middle[None], chains[number].poses(answer[None])[0], room)
        out = Outside(number, answer, None, here, -depth, wholly=False)
    return out, proven and answer is not False


def _largest(parts: Sequence[Swept]) -> tuple[int, Array]:
    """Return which part has the most surface, and the middle (3,) of that."""
    sizes, middles = [], []
    for part in parts:
        a, b, c = np.moveaxis(part.body.triangles, 1, 0)
        area = np.linalg.norm(np.cross(b - a, c - a), axis=1)
        sizes.append(float(area.sum()))
        middles.append(area @ (a + b + c) / 3.0 / max(sizes[-1], 1e-300))
    largest = int(np.argmax(sizes))
    return largest, np.asarray(middles[largest])


def _corners(part: Swept, piece: int) -> Array:
    return np.asarray(part.body.triangles[part.body.piece == piece].reshape(-1, 3))


def _nearest(points: Array, pose: Array, room: Room) -> tuple[Array, float]:
    """Return the point (3,) of a piece at a pose that lies deepest in the room, or nearest to it, and its depth."""
    places = apply(pose, points)
    depth = room.depth(places)
    at = int(np.argmax(depth))
    return places[at], float(depth[at])


def _lost(part: Swept, room: Room) -> dict[int, int]:
    """Return the pieces that are outside at a pose, and at which; where several, the middle one of them."""
    if room.holds(part.corners):
        return {}
    piece, count = part.body.piece, int(part.body.piece.max()) + 1
    depth = room.depth(apply(part.poses[len(part.poses) // 2], part.body.triangles.reshape(-1, 3))).reshape(-1, 3)
    order = np.lexsort((depth.max(axis=1), piece))
    ends = order[np.searchsorted(piece[order], np.arange(count), side="right") - 1]
    witness = part.body.triangles[ends, np.argmax(depth[ends], axis=1)]
    lost = {}
    for number, row in enumerate(_seen(witness, part.poses, room)):
        pose = None if row.all() else _lost_at(_corners(part, number), part.poses, room, row)
        if pose is not None:
            lost[number] = pose
    return lost


def _seen(points: Array, poses: Array, room: Room) -> NDArray[np.bool_]:
    """Return which of `points` (n, 3) are in the room at which of the poses (n, poses)."""
    step = max(1, AT_ONCE // len(points))
    rows = [
        room.depth(apply(poses[first : first + step], points).reshape(-1, 3)).reshape(-1, len(points)) > 0.0
        for first in range(0, len(poses), step)
    ]
    return np.asarray(np.concatenate(rows).T)


def _lost_at(points: Array, poses: Array, room: Room, seen: NDArray[np.bool_]) -> int | None:
    """Return a pose at which nothing of a piece is in the room, or None; where `seen` something is known to be."""
    left = np.flatnonzero(~seen)
    while len(left):
        pose = int(left[len(left) // 2])
        places = apply(poses[pose], points)
        depth = room.depth(places)
        if depth.max() > 0.0:
            seen = _seen(points[[np.argmax(depth)]], poses[left], room)[0]
            left = left[~seen & (left != pose)]
        elif room.met(places.reshape(-1, 3, 3)):
            left = left[left != pose]
        else:
            return pose
    return None


def _watched(points: Array, chain: Chain, room: Room, end: float) -> Array | bool:
    """Return joint values at which nothing of a piece is in the room; True if proven that there are none.

    In a box of joint values a point stays in the room if it is deeper in it, at the middle, than it can go.
    """
    boxes = [((chain.low + chain.high) / 2.0, (chain.high - chain.low) / 2.0)]
    for _ in range(MOST_BOXES):
        if not boxes:
            return True
        if process_time() > end:
            return False
        center, half = boxes.pop()
        places = apply(chain.poses(center[None])[0], points)
        depth = room.depth(places)
        at = int(np.argmax(depth))
        if depth[at] <= 0.0 and not room.met(places.reshape(-1, 3, 3)):
            return center
        way = chain.ways(points[[at]], center, half)[1][0]
        if depth[at] <= way.sum():
            if not way.any():
                continue  # it does not move, and its middle reaches into the room
            joint = int(np.argmax(way))
            half = np.where(np.arange(len(half)) == joint, half / 2.0, half)
            step = np.where(np.arange(len(half)) == joint, half, 0.0)
            boxes += [(center - step, half), (center + step, half)]
    return False


def _unheld(
    found: list[tuple[int, Outside]], parts: Sequence[Swept], still: Swept | None, room: Room, joined: float
) -> Outside | None:
    """Return of the pieces found outside the one farthest out that no piece in the room holds, directly or not."""
    if not found:
        return None
    left = list(found)
    held = [
        part.body.triangles[~np.isin(part.body.piece, [piece for piece, each in left if each.part == number])]
        for number, part in enumerate(parts)
    ]
    if still is not None and reaches(still, room):
        held.append(still.body.triangles)
    while left:
        pieces = [_corners(parts[each.part], piece).reshape(-1, 3, 3) for piece, each in left]
        now = touching(pieces, np.concatenate(held), joined)
        held = [triangles for triangles, holds in zip(pieces, now, strict=True) if holds]
        if not held:
            break
        left = [each for each, holds in zip(left, now, strict=True) if not holds]
    return max((each for _, each in left), key=lambda each: each.away, default=None)


def farthest_out(parts: Sequence[Swept], faces: Sequence[Face]) -> tuple[float, str]:
    """Return how far the parts reach behind a board's inside at the sampled poses [mm], and the board's name."""
    room = Room(faces)
    ahead = [room.offsets - part.corners @ room.normals.T for part in parts]
    far = -np.concatenate(ahead).min(axis=0)[: len(faces)]
    return float(far.max()), faces[int(np.argmax(far))].name


def reaches(part: Swept, room: Room) -> bool:
    """Return whether anything of a part that stands is in the room."""
    if (room.depth(part.corners) > 0.0).any():
        return True
    places = apply(part.poses[0], part.body.triangles.reshape(-1, 3))
    return bool((room.depth(places) > 0.0).any()) or room.met(places.reshape(-1, 3, 3))


def touching(pieces: Sequence[Array], those: Array, within: float) -> NDArray[np.bool_]:
    """Return which of the pieces, triangles (n, 3, 3) each, are within `within` [mm] of one of `those` (m, 3, 3)."""
    touched = np.zeros(len(pieces), dtype=bool)
    if len(pieces) == 0 or len(those) == 0:
        return touched
    these, owner = np.concatenate(pieces), np.repeat(np.arange(len(pieces)), [len(each) for each in pieces])
    (here, reach), (there, other) = _balls(these), _balls(those)
    first, second = _pairs(here, reach, there, other, within)
    for begin in range(0, len(first), PAIRS):
        one, two = first[begin : begin + PAIRS], second[begin : begin + PAIRS]
        new = ~touched[owner[one]]
        one, two = one[new], two[new]
        near = triangle_distance(these[one], those[two], frames(those[two])).distance <= within
        touched[owner[one[near]]] = True
    return touched


def _balls(triangles: Array) -> tuple[Array, Array]:
    low, high = triangles.min(axis=1), triangles.max(axis=1)
    return (low + high) / 2.0, np.linalg.norm(high - low, axis=1) / 2.0


def _pairs(here: Array, reach: Array, there: Array, other: Array, within: float) -> tuple[Index, Index]:
    """Return the pairs of balls that are no farther than `within` from each other, the nearest middles first."""
    near = cKDTree(there).query_ball_point(here, reach + other.max() + within)
    first = np.repeat(np.arange(len(here)), [len(each) for each in near])
    second = np.array([number for each in near for number in each], dtype=np.int64)
    if len(first) == 0:
        return first, second
    apart = np.linalg.norm(here[first] - there[second], axis=1)
    close = np.flatnonzero(apart <= reach[first] + other[second] + within)
    close = close[np.argsort(apart[close], kind="stable")]
    return first[close], second[close]
