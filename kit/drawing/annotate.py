"""Notes drawn at a scale: dimensions, angles, leaders, arrows and words as marks.

In the manner of ISO 129-1 (from memory): closed filled arrowheads, words above the dimension line and along
it, read from below or from the right.
"""

from math import atan2, cos, pi, sin, tau

from kit.drawing.layers import Layer
from kit.drawing.marks import Anchor, Curve, Label, Mark, Solid, Stroke, direction, heading, text_width
from kit.drawing.primitives import (
    PLACES,
    TEXT,
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
HEAD = 2.5  # arrowhead of a dimension
HEAD_HALF = 0.42  # half its width: a closed angle of 19°, within the standard's 15° to 30°
FORCE_HEAD = 3.6
FORCE_HALF = 0.95
GAP = 0.8  # between outline and extension line
OVERSHOOT = 2.0  # of the extension line beyond the dimension line: 8 line widths
LIFT = 0.9  # of the words above the dimension line
TAIL = 2 * HEAD  # of an arrow put outside because the dimension is short
STEEP = 0.35  # cosine below which a dimension counts as upright
LANDING = 3.0  # horizontal end of a leader


def notes(note: Note, scale: float) -> list[Mark]:
    """Return the marks of one note at `scale` paper mm per model mm."""
    if isinstance(note, Dimension):
        return _dimension(note, scale)
    if isinstance(note, Text):
        return [
            words_at(
                (note.at[0] * scale, note.at[1] * scale),
                note.text,
                note.place,
                note.gap,
                note.angle,
                note.height,
            )
        ]
    if isinstance(note, AngleDimension):
        return _angle(note, scale)
    if isinstance(note, Leader):
        return _leader(note, scale)
    if isinstance(note, Arrow):
        return _arrow(note, scale)
    return _moment(note, scale)


def _head(layer: Layer, tip: Point, toward: float, length: float = HEAD, half: float = HEAD_HALF) -> Solid:
    c, s = cos(toward), sin(toward)
    x, y = tip[0] - length * c, tip[1] - length * s
    return Solid(layer, (tip, (x - half * s, y + half * c), (x + half * s, y - half * c)))


def _move(p: Point, vector: Point, distance: float) -> Point:
    return (p[0] + vector[0] * distance, p[1] + vector[1] * distance)


def words_at(at: Point, text: str, place: Place, gap: float, angle: float = 0.0, height: float = TEXT) -> Label:
    """Return words on the side `place` of a point on paper, `gap` mm off, turned by `angle` (rad)."""
    across, up = PLACES[place]
    anchor: Anchor = ("middle", "start", "end")[across]
    dx, dy = across * gap, (up - 1) * height / 2 + up * gap
    c, s = cos(angle), sin(angle)
    return Label((at[0] + dx * c - dy * s, at[1] + dx * s + dy * c), text, anchor, angle, height)


def beyond(at: Point, toward: float, text: str, gap: float) -> Label:
    """Return level words `gap` mm past the point `at` on paper, seen in direction `toward` (rad)."""
    c, s = cos(toward), sin(toward)
    anchor: Anchor = "middle" if abs(c) < 0.4 else "start" if c > 0 else "end"
    return Label((at[0] + gap * c, at[1] + gap * s + (s - 1) * TEXT / 2), text, anchor)


def _ends(dim: Dimension, p: Point, q: Point) -> tuple[Point, Point]:
    """Return the ends of the dimension line for the measured points on paper."""
    if dim.along == "aligned":
        _, along = direction(p, q)
        return _move(p, (-along[1], along[0]), dim.offset), _move(q, (-along[1], along[0]), dim.offset)
    level = 1 if dim.along == "horizontal" else 0
    reach = (max if dim.offset >= 0 else min)(p[level], q[level]) + dim.offset
    return ((p[0], reach), (q[0], reach)) if level else ((reach, p[1]), (reach, q[1]))


def _dimension(dim: Dimension, scale: float) -> list[Mark]:
    layer = Layer.DIMENSION
    p = (dim.p[0] * scale, dim.p[1] * scale)
    q = (dim.q[0] * scale, dim.q[1] * scale)
    a, b = _ends(dim, p, q)
    to_right = a[0] + b[0] >= p[0] + q[0]
    marks: list[Mark] = []
    for foot, end in ((p, a), (q, b)):
        reach, out = direction(foot, end)
        if reach > GAP:
            marks.append(Stroke(layer, (_move(foot, out, GAP), _move(end, out, OVERSHOOT))))

    overflow_at_b = dim.overflow == "q"
    length, along = direction(a, b)
    if length == 0 and dim.along == "vertical":
        along = (0.0, 1.0)
    # Words read from below or from the right: the line runs left to right, or upward where it is vertical.
    if along[0] < -1e-9 or (abs(along[0]) <= 1e-9 and along[1] < 0):
        a, b, along, overflow_at_b = b, a, (-along[0], -along[1]), not overflow_at_b
    turn = heading(along)
    width = text_width(dim.text, TEXT)
    inside = length >= 2 * HEAD + 1.0
    start = a if inside else _move(a, along, -TAIL)
    end = b if inside else _move(b, along, TAIL)
    center = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    words = Label(_move(center, (-along[1], along[0]), LIFT), dim.text, "middle", turn)
    if length < width + 1.0:
        room = width + 1.0 + (OVERSHOOT if inside else TAIL)
        if abs(along[0]) < STEEP:
            # Level words beside a short upright dimension take less room than words along it.
            words = words_at(center, dim.text, "right" if to_right else "left", OVERSHOOT + 0.8)
        elif overflow_at_b:
            end = _move(b, along, room)
            words = words._replace(at=_move(words.at, along, length / 2 + room - width / 2))
        else:
            start = _move(a, along, -room)
            words = words._replace(at=_move(words.at, along, width / 2 - room - length / 2))
    marks.append(Stroke(layer, (start, end)))
    marks.append(_head(layer, a, turn + pi if inside else turn))
    marks.append(_head(layer, b, turn if inside else turn + pi))
    if dim.text:
        marks.append(words)
    return marks


def _angle(dim: AngleDimension, scale: float) -> list[Mark]:
    layer = Layer.DIMENSION
    center = (dim.center[0] * scale, dim.center[1] * scale)
    radius = dim.radius
    reach_p, out_p = direction(dim.center, dim.p)
    reach_q, out_q = direction(dim.center, dim.q)
    start = heading(out_p)
    sweep = (heading(out_q) - start) % tau
    marks: list[Mark] = []
    for reach, out in ((reach_p * scale, out_p), (reach_q * scale, out_q)):
        if radius > reach:
            marks.append(Stroke(layer, (_move(center, out, reach + GAP), _move(center, out, radius + OVERSHOOT))))
    inside = radius * sweep >= 2 * HEAD + 1.0
    over = 0.0 if inside else TAIL / radius
    marks.append(Curve(layer, center, radius, start - over, sweep + 2 * over))
    lean = HEAD / radius / 2  # the head lies along the chord of its own length
    for at, sense in ((start, 1.0), (start + sweep, -1.0)):
        tip = (center[0] + radius * cos(at), center[1] + radius * sin(at))
        outward = sense if inside else -sense
        marks.append(_head(layer, tip, at - outward * (pi / 2 - lean)))
    middle = start + sweep / 2
    # In a narrow wedge the words stand past the extension lines.
    narrow = radius * sweep < text_width(dim.text, TEXT)
    edge = (center[0] + radius * cos(middle), center[1] + radius * sin(middle))
    if dim.text:
        marks.append(beyond(edge, middle, dim.text, OVERSHOOT + 1.0 if narrow else 1.2))
    return marks


def _leader(leader: Leader, scale: float) -> list[Mark]:
    layer = Layer.DIMENSION
    tip = (leader.tip[0] * scale, leader.tip[1] * scale)
    elbow = _move(tip, leader.shift, 1.0)
    side = 1.0 if leader.shift[0] >= 0 else -1.0
    landing = (elbow[0] + side * LANDING, elbow[1])
    marks: list[Mark] = [Stroke(layer, (tip, elbow, landing))]
    if leader.end == "arrow":
        marks.append(_head(layer, tip, atan2(-leader.shift[1], -leader.shift[0])))
    else:
        ring = tuple((tip[0] + 0.5 * cos(k * pi / 6), tip[1] + 0.5 * sin(k * pi / 6)) for k in range(12))
        marks.append(Solid(layer, ring))
    marks.append(words_at(landing, leader.text, "right" if side > 0 else "left", 1.0))
    return marks


def _arrow(arrow: Arrow, scale: float) -> list[Mark]:
    at = (arrow.at[0] * scale, arrow.at[1] * scale)
    along = (cos(arrow.angle), sin(arrow.angle))
    back = {"tip": 1.0, "tail": 0.0, "middle": 0.5}[arrow.grip] * arrow.length
    tail = _move(at, along, -back)
    tip = _move(tail, along, arrow.length)
    big = arrow.layer is Layer.FORCE
    size = (FORCE_HEAD, FORCE_HALF) if big else (HEAD, HEAD_HALF)
    # The shaft stops inside the head so that its blunt end does not spoil the tip.
    shaft = (_move(tail, along, size[0] / 2 if arrow.both else 0.0), _move(tip, along, -size[0] / 2))
    marks: list[Mark] = [Stroke(arrow.layer, shaft), _head(arrow.layer, tip, arrow.angle, *size)]
    if arrow.both:
        marks.append(_head(arrow.layer, tail, arrow.angle + pi, *size))
    if arrow.text and arrow.grip == "middle":
        up = (-along[1], along[0]) if along[0] >= 0 else (along[1], -along[0])
        marks.append(beyond(_move(tail, along, arrow.length / 2), heading(up), arrow.text, 1.2))
    elif arrow.text:
        end, toward = (tail, arrow.angle + pi) if arrow.grip == "tip" else (tip, arrow.angle)
        marks.append(beyond(end, toward, arrow.text, 1.2))
    return marks


def _moment(moment: Moment, scale: float) -> list[Mark]:
    center = (moment.center[0] * scale, moment.center[1] * scale)
    radius = moment.radius
    sense = 1.0 if moment.sweep >= 0 else -1.0
    end = moment.start + moment.sweep
    lean = FORCE_HEAD / radius / 2
    tip = (center[0] + radius * cos(end), center[1] + radius * sin(end))
    marks: list[Mark] = [
        Curve(moment.layer, center, radius, moment.start, moment.sweep - sense * lean),
        _head(moment.layer, tip, end + sense * (pi / 2 - lean), FORCE_HEAD, FORCE_HALF),
    ]
    if moment.text:
        middle = moment.start + moment.sweep / 2
        edge = (center[0] + radius * cos(middle), center[1] + radius * sin(middle))
        marks.append(beyond(edge, middle, moment.text, 1.2))
    return marks
