"""Orders and stock drawn by seed, for tests and benchmarks: parts like those of garments, offcuts with holes."""

from collections.abc import Callable

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray
from shapely import Polygon, affinity

from kit.geometry.packing.stock import TWO_WAY, CutPart, Sheet

Draw = np.random.Generator
Points = NDArray[np.float64]


def bow(p: ArrayLike, q: ArrayLike, r: ArrayLike, chords: int = 8) -> Points:
    """A parabola from p to r, pulled toward q, without its first point."""
    t = np.linspace(0, 1, chords + 1)[1:, None]
    return np.asarray((1 - t) ** 2 * np.asarray(p) + 2 * t * (1 - t) * np.asarray(q) + t * t * np.asarray(r))


def front(r: Draw) -> Points:
    long, wide = r.uniform(550, 750), r.uniform(230, 320)
    neck, hole = wide * r.uniform(0.35, 0.5), long * r.uniform(0.28, 0.36)
    edge = 0.97 * long - 60
    shoulder = (long - 40, 0.75 * wide)
    return np.vstack(
        [
            [[0, 0], [0.5 * edge, 0], [edge, 0]],
            bow((edge, 0), (0.97 * long - 50, 0.6 * neck), (long, 0.7 * neck)),
            [shoulder],
            bow(shoulder, (long - 0.7 * hole, 0.62 * wide), (long - hole, wide)),
            [[0, wide * r.uniform(0.95, 1.1)]],
        ]
    )


def sleeve(r: Draw) -> Points:
    long, wide = r.uniform(420, 600), r.uniform(320, 440)
    cap, narrow = long * r.uniform(0.22, 0.3), wide * r.uniform(0.2, 0.28)
    a, b, top = (long - cap, 0), (long - cap, wide), (long, wide / 2)
    return np.vstack(
        [
            [[0, 0.6 * narrow]],
            bow((0, 0.6 * narrow), (long - cap, 0.3 * narrow), a, 4),
            bow(a, (long - 0.5 * cap, 0.12 * wide), top),
            bow(top, (long - 0.5 * cap, 0.88 * wide), b),
            bow(b, (long - cap, wide - 0.3 * narrow), (0, wide - 0.6 * narrow), 4),
        ]
    )


def collar(r: Draw) -> Points:
    long, wide, arch = r.uniform(380, 460), r.uniform(60, 95), r.uniform(15, 40)
    return np.vstack(
        [
            [[0, 0]],
            bow((0, 0), (long / 2, 2 * arch), (long, 0)),
            [[long + 15, wide]],
            bow((long + 15, wide), (long / 2, wide + 1.6 * arch), (-15, wide)),
        ]
    )


def cuff(r: Draw) -> Points:
    long, wide = r.uniform(200, 280), r.uniform(60, 100)
    return np.array([[0, 0], [long, 0], [long, 0.8 * wide], [long - 15, wide], [15, wide], [0, 0.8 * wide]])


def pocket(r: Draw) -> Points:
    long, wide = r.uniform(130, 190), r.uniform(110, 160)
    return np.array([[0, 0], [long, 0], [long + 30, wide / 2], [long, wide], [0, wide]])


def skirt(r: Draw) -> Points:
    long, top, foot = r.uniform(450, 700), r.uniform(150, 240), r.uniform(260, 420)
    step = (foot - top) / 2
    return np.vstack(
        [
            [[0, 0], [long, step]],
            bow((long, step), (long - 25, foot / 2), (long, foot - step), 6),
            [[0, foot]],
            bow((0, foot), (-40, foot / 2), (0, 0), 8)[:-1],
        ]
    )


def trouser(r: Draw) -> Points:
    long, wide = r.uniform(800, 1000), r.uniform(240, 330)
    hem = wide * r.uniform(0.62, 0.75)
    return np.vstack(
        [
            [[0, 0.2 * wide], [0.7 * long, 0]],
            bow((0.7 * long, 0), (0.85 * long, 0.05 * wide), (long, 0.18 * wide), 5),
            [[long - 15, 0.75 * wide]],
            bow((long - 15, 0.75 * wide), (0.75 * long, 0.78 * wide), (0.7 * long, wide), 6),
            bow((0.7 * long, wide), (0.4 * long, 1.05 * hem), (0, 0.2 * wide + 0.8 * hem), 6),
        ]
    )


KINDS: tuple[Callable[[Draw], Points], ...] = (front, front, sleeve, collar, cuff, pocket, skirt, trouser)


def garment(seed: int, count: int, *, turns: tuple[float, ...] = TWO_WAY, scale: float = 1.0) -> tuple[CutPart, ...]:
    """An order of `count` pieces, each kind one to three times."""
    draw = np.random.default_rng(seed)
    parts: list[CutPart] = []
    while (missing := count - sum(part.count for part in parts)) > 0:
        kind = KINDS[int(draw.integers(len(KINDS)))]
        copies = min(missing, int(draw.integers(1, 4)))
        outline = affinity.scale(Polygon(kind(draw)), scale, scale, origin=(0, 0))
        parts.append(CutPart(f"{kind.__name__} {len(parts) + 1}", outline, copies, turns))
    return tuple(parts)


def _blob(draw: Draw, size: float, corners: int) -> Polygon:
    turn = 2 * np.pi * (np.arange(corners) + draw.uniform(-0.3, 0.3, corners)) / corners
    return Polygon(size * np.column_stack([draw.uniform(1, 1.6) * np.cos(turn), np.sin(turn)]))


def offcut(draw: Draw) -> Polygon:
    """What is left of a board, about 1.8 by 1: a slanted end, bites out of its edges, one to three holes."""
    long, wide = draw.uniform(1.5, 2.2), draw.uniform(0.9, 1.2)
    whole = Polygon([(0, 0), (long, 0), (long + draw.uniform(-0.25, 0.25) * wide, wide), (0, wide)])
    bites = []
    for _ in range(int(draw.integers(2, 4))):
        bite = _blob(draw, draw.uniform(0.15, 0.28), int(draw.integers(5, 9)))
        at = whole.exterior.interpolate(draw.uniform(0, whole.exterior.length))
        bites.append(affinity.translate(bite, at.x, at.y))
    left = max(shapely.get_parts(whole.difference(shapely.union_all(bites))), key=lambda piece: piece.area)
    for _ in range(int(draw.integers(1, 4))):
        hole = _blob(draw, draw.uniform(0.05, 0.1), 8)
        while True:
            moved = affinity.translate(hole, *draw.uniform((0, 0), (long, wide)))
            if left.buffer(-0.03).contains(moved):
                break
        left = left.difference(moved)
    return left


def offcuts(seed: int, area: float, count: int = 2) -> tuple[Sheet, ...]:
    """Offcuts with holes that have `area` [mm²] together."""
    draw = np.random.default_rng(1000 + seed)
    pieces = [offcut(draw) for _ in range(count)]
    size = (area / sum(piece.area for piece in pieces)) ** 0.5
    return tuple(
        Sheet(f"offcut {k}", affinity.scale(piece, size, size, origin=(0, 0))) for k, piece in enumerate(pieces, 1)
    )
