"""Where the words of notes stand: each where it was asked for if it is free, else at the nearest free place.

Words may not lie on words; of the places that are left those count less in which lines cross them.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import cos, hypot, pi, sin
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from kit.drawing.annotate import beyond, notes, words_at
from kit.drawing.layers import NARROW, Layer
from kit.drawing.marks import (
    Box,
    Curve,
    Label,
    Mark,
    Solid,
    Stroke,
    around,
    label_corners,
    shifted,
)
from kit.drawing.primitives import (
    LEAST_RADIUS,
    PLACES,
    AngleDimension,
    Arrow,
    Dimension,
    Leader,
    Moment,
    Note,
    Place,
    Point,
    Text,
)

# All in paper mm.
APART = 0.3  # between the boxes of two words
STEP = 4.0  # between dimensions that are stacked, angles with one center, and rings of places
FARTHEST = 400.0  # of words from where they were asked for
LEADS = 5.0  # words farther off than this get a line to where they belong
CROSSED = 1.5  # a line through words is as bad as so many places farther down the list
RIGID = (Dimension, AngleDimension, Arrow, Moment, Text, Leader)
"""What gives way last comes first."""
SPREAD = 12  # steps by which words beside rows are spread, down before up: rows are mostly written so
LEVEL = 1  # such steps need no line
TURNS = 16
_AROUND: tuple[Place, ...] = (
    "above", "right", "left", "below", "above right", "above left", "below right", "below left",
)  # fmt: skip
RANKS = 60  # places that are looked at before the nearest free one of all is taken

Segments = NDArray[np.float64]
"""Straight pieces (n, 4): x and y of one end, then of the other."""


class _Words(NamedTuple):
    """The box of one line of words: its corners in turn, and the upright box around them."""

    corners: tuple[Point, Point, Point, Point]
    box: Box


def placed(items: Sequence[Note], scale: float, drawn: Callable[[], Sequence[Mark]]) -> list[Mark]:
    """Return the marks of notes at `scale` (paper mm per model mm), no words on others.

    `drawn` gives what lies below them; it is asked where words must give way.
    """
    made = [notes(item, scale) for item in items]
    boxes = [_words(marks) for marks in made]
    clashing = {
        k for i, one in enumerate(boxes) for j in range(i) if one and (other := boxes[j]) and _meet(one, other)
        for k in (i, j)
    }  # fmt: skip
    if not clashing:
        return [mark for marks in made for mark in marks]
    taken = [box for i, box in enumerate(boxes) if box and i not in clashing]
    lines = [*drawn(), *(mark for marks in made for mark in marks)]
    for i in sorted(clashing, key=lambda i: (RIGID.index(type(items[i])), i)):
        made[i], box = _best(items[i], made[i], scale, taken, _segments(lines, made[i]))
        taken.append(box)
    return [mark for marks in made for mark in marks]


def overlaps(marks: Sequence[Mark]) -> list[tuple[Label, Label]]:
    """Return the words among marks that lie on one another."""
    found = [(mark, _words([mark])) for mark in marks if isinstance(mark, Label)]
    return [
        (other, label)
        for i, (label, box) in enumerate(found)
        for other, before in found[:i]
        if box and before and _meet(box, before, apart=0.0)
    ]


def _best(
    item: Note, marks: list[Mark], scale: float, taken: Sequence[_Words], lines: Segments
) -> tuple[list[Mark], _Words]:
    """Return a note's marks at the best place whose words are free, and the box of these words."""
    best: tuple[float, list[Mark], _Words] | None = None
    for rank, tried in enumerate(_places(item, marks, scale)):
        if best and (rank >= best[0] or rank > RANKS):
            break
        box = _words(tried)
        if box is None or any(_meet(box, other) for other in taken):
            continue
        cost = rank + CROSSED * _crossing(box.box, lines)
        if best is None or cost < best[0]:
            best = cost, tried, box
    assert best is not None  # far enough off all is free
    return best[1], best[2]


def _places(item: Note, marks: list[Mark], scale: float) -> Iterator[list[Mark]]:
    """Yield the marks of a note at one place after another, the liked ones first."""
    yield marks
    if isinstance(item, Dimension):
        yield from _dimensions(item, marks, scale)
    elif isinstance(item, AngleDimension):
        yield from _angles(item, scale)
    elif isinstance(item, Leader):
        yield from _leaders(item, scale)
    elif isinstance(item, Arrow):
        yield from _arrows(item, marks, scale)
    elif isinstance(item, Moment):
        yield from _moments(item, marks, scale)
    elif not item.angle:
        yield from _texts(item, scale)
    yield from _farther(item, marks, scale)


def _dimensions(dim: Dimension, marks: list[Mark], scale: float) -> Iterator[list[Mark]]:
    rest, words = _split(marks)
    line = next(mark for mark in rest[::-1] if isinstance(mark, Stroke))
    (x, y), (u, v) = line.points[0], line.points[-1]
    along = ((u - x) / (hypot(u - x, v - y) or 1.0), (v - y) / (hypot(u - x, v - y) or 1.0))
    for way in (3.0, -3.0, 6.0, -6.0, 9.0, -9.0):
        if abs(way) < hypot(u - x, v - y) / 2:
            yield [*rest, shifted(words, way * along[0], way * along[1])]
    for off in (STEP, 2 * STEP, 3 * STEP, 4 * STEP):
        farther = dim.offset + (off if dim.offset >= 0 else -off)
        for overflow in (dim.overflow, "p" if dim.overflow == "q" else "q"):
            yield notes(replace(dim, offset=farther, overflow=overflow), scale)
    yield notes(replace(dim, overflow="p" if dim.overflow == "q" else "q"), scale)
    yield notes(replace(dim, offset=-dim.offset), scale)


def _angles(dim: AngleDimension, scale: float) -> Iterator[list[Mark]]:
    for more in (STEP, 2 * STEP, -STEP, 3 * STEP, 4 * STEP, 6 * STEP):
        if dim.radius + more >= LEAST_RADIUS:
            yield notes(replace(dim, radius=dim.radius + more), scale)


def _leaders(leader: Leader, scale: float) -> Iterator[list[Mark]]:
    x, y = leader.shift
    for length in (1.0, 1.5, 2.0, 3.0):
        for turn in (0.0, 0.35, -0.35, 0.7, -0.7, pi, pi + 0.5, pi - 0.5):
            c, s = length * cos(turn), length * sin(turn)
            yield notes(replace(leader, shift=(x * c - y * s, x * s + y * c)), scale)


def _arrows(arrow: Arrow, marks: list[Mark], scale: float) -> Iterator[list[Mark]]:
    rest, words = _split(marks)
    back = {"tip": 1.0, "tail": 0.0, "middle": 0.5}[arrow.grip] * arrow.length
    along = (cos(arrow.angle), sin(arrow.angle))
    tail = (arrow.at[0] * scale - back * along[0], arrow.at[1] * scale - back * along[1])
    for part in (0.5, 0.2, 0.8):
        beside = (tail[0] + part * arrow.length * along[0], tail[1] + part * arrow.length * along[1])
        for side in (pi / 2, -pi / 2):
            yield [*rest, beyond(beside, arrow.angle + side, words.text, 1.8)]
    for part, toward in ((0.0, arrow.angle + pi), (1.0, arrow.angle)):
        end = (tail[0] + part * arrow.length * along[0], tail[1] + part * arrow.length * along[1])
        yield [*rest, beyond(end, toward, words.text, 1.2)]


def _moments(moment: Moment, marks: list[Mark], scale: float) -> Iterator[list[Mark]]:
    rest, words = _split(marks)
    x, y = moment.center[0] * scale, moment.center[1] * scale
    for k in range(TURNS):
        at = moment.start + moment.sweep / 2 + (k + 1) // 2 * (-1) ** k * 2 * pi / TURNS
        edge = (x + moment.radius * cos(at), y + moment.radius * sin(at))
        yield [*rest, beyond(edge, at, words.text, 1.2)]


def _texts(item: Text, scale: float) -> Iterator[list[Mark]]:
    """Yield the places around a text's own point: on the other sides, the near ones first."""
    asked = PLACES[item.place]
    near = sorted(_AROUND, key=lambda place: hypot(PLACES[place][0] - asked[0], PLACES[place][1] - asked[1]))
    at = (item.at[0] * scale, item.at[1] * scale)
    if asked[0]:  # words beside rows that are close together are spread up and down
        words = words_at(at, item.text, item.place, item.gap, 0.0, item.height)._replace(bold=item.bold)
        for down in (*range(1, SPREAD), *range(-1, -SPREAD, -1)):
            moved = words._replace(at=(words.at[0], words.at[1] - down * item.height * 0.8))
            yield [*([_lead(at, moved)] if abs(down) > LEVEL else []), moved]
    for gap in (max(item.gap, 1.0), item.gap + 2.5):
        for place in near:
            yield [words_at(at, item.text, place, gap, 0.0, item.height)._replace(bold=item.bold)]


def _farther(item: Note, marks: list[Mark], scale: float) -> Iterator[list[Mark]]:
    """Yield places ever farther off, with a thin line from the words to where they belong."""
    rest, words = _split(marks)
    box = around(label_corners(words))
    assert box is not None
    middle = ((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    home = (item.at[0] * scale, item.at[1] * scale) if isinstance(item, Text) else middle
    far = STEP / 2
    while far < FARTHEST:
        for k in range(TURNS):
            turn = pi / 2 + (k + 1) // 2 * (-1) ** k * 2 * pi / TURNS
            # the words are wide and low: sideways they must go farther to be as free
            moved = shifted(words, far * cos(turn) * (1.0 if words.angle else 2.0), far * sin(turn))
            assert isinstance(moved, Label)
            leads = [_lead(home, moved)] if far > LEADS and not _holds(moved, home) else []
            yield [*rest, *leads, moved]
        far += STEP / 2


def _lead(home: Point, words: Label) -> Stroke:
    box = around(label_corners(words))
    assert box is not None
    near = (min(max(home[0], box.left), box.right), min(max(home[1], box.bottom), box.top))
    return Stroke(Layer.DIMENSION, (home, near))


def _holds(words: Label, point: Point) -> bool:
    box = around(label_corners(words))
    assert box is not None
    return box.left <= point[0] <= box.right and box.bottom <= point[1] <= box.top


def _split(marks: Sequence[Mark]) -> tuple[list[Mark], Label]:
    return (
        [mark for mark in marks if not isinstance(mark, Label)],
        next(mark for mark in marks if isinstance(mark, Label)),
    )


def _words(marks: Sequence[Mark]) -> _Words | None:
    for mark in marks:
        if isinstance(mark, Label) and mark.text:
            corners = label_corners(mark)
            box = around(corners)
            assert box is not None
            if len(corners) == 2:
                left, low, right, high = box
                return _Words(((left, low), (right, low), (right, high), (left, high)), box)
            a, b, c, d = corners
            return _Words((a, c, d, b), box)
    return None


def _meet(one: _Words, other: _Words, apart: float = APART) -> bool:
    """Return whether two boxes of words lie on one another, or nearer than `apart`."""
    a, b = one.box, other.box
    if a.left >= b.right + apart or b.left >= a.right + apart or a.bottom >= b.top + apart or b.bottom >= a.top + apart:
        return False
    for corners in (one.corners, other.corners):
        for p, q in ((corners[0], corners[1]), (corners[1], corners[2])):
            length = hypot(q[0] - p[0], q[1] - p[1]) or 1.0
            x, y = (q[1] - p[1]) / length, (p[0] - q[0]) / length
            mine = [x * u + y * v for u, v in one.corners]
            theirs = [x * u + y * v for u, v in other.corners]
            if min(mine) >= max(theirs) + apart or min(theirs) >= max(mine) + apart:
                return False
    return True


def _segments(marks: Sequence[Mark], but: Sequence[Mark]) -> Segments:
    """Return the ends of the straight pieces of lines, those of hatching left out: words stand on it well."""
    found: list[tuple[float, ...]] = []
    own = {id(mark) for mark in but}
    for mark in marks:
        if id(mark) in own or isinstance(mark, Label | Solid) or mark.layer is Layer.HATCH:
            continue
        points = _chords(mark) if isinstance(mark, Curve) else mark.points
        found += (p + q for p, q in pairwise(points))
        if isinstance(mark, Stroke) and mark.closed:
            found.append(points[-1] + points[0])
    return np.array(found, dtype=float).reshape(-1, 4)


def _chords(curve: Curve) -> tuple[Point, ...]:
    (x, y), r = curve.center, curve.radius
    angles = [curve.start + curve.sweep * k / 12 for k in range(13)]
    return tuple((x + r * cos(a), y + r * sin(a)) for a in angles)


def _crossing(box: Box, lines: Segments) -> int:
    """Return how many straight pieces go through an upright box, a hair smaller than the words."""
    low, high = np.zeros(len(lines)), np.ones(len(lines))
    for start, end, least, most in (
        (lines[:, 0], lines[:, 2], box.left + NARROW, box.right - NARROW),
        (lines[:, 1], lines[:, 3], box.bottom + NARROW, box.top - NARROW),
    ):
        way = end - start
        level = way == 0.0  # along the box's side: beside it all the way, or never
        way[level] = 1.0
        one, other = (least - start) / way, (most - start) / way
        beside = level & ~((least < start) & (start < most))
        low = np.where(level, low, np.maximum(low, np.minimum(one, other)))
        high = np.where(beside, -np.inf, np.where(level, high, np.minimum(high, np.maximum(one, other))))
    return int(np.count_nonzero(low < high))
