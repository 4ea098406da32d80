"""A network as SVG: boxes with words, and lines that say what comes after what; legible on paper and without color."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise

from kit.drawing.layered import Layered, Node, Place, layered, placed
from kit.drawing.marks import CAPITALS, text_width

WIDE, TALL = 180.0, 235.0
"""mm of paper that one picture takes at most: what is taller goes on in another one."""
MOST = 4
"""Boxes side by side: each then has room for a line of some twenty letters."""
BOX = 58.0
"""mm, width of a box at most."""
GAP, PASS, CHANNEL = 4.0, 4.0, 9.0
"""mm between boxes, for a line that passes a row, and between rows."""
CAPS, LINE, ROOM = 2.2, 4.0, 1.6
"""mm: height of capitals, from line to line, and from words to the edge of their box."""
THIN, THICK = 0.3, 0.9


@dataclass(frozen=True)
class Box:
    """A box: its head, which is wrapped, a note in one or more lines below it, and what it comes after."""

    name: str
    head: str
    note: str
    after: tuple[str, ...]


def network_svg(boxes: Sequence[Box], strong: Collection[str], *, title: str, words: str, ids: str) -> str:
    """Return pictures of a network, one below the other, each no taller than a sheet of paper.

    `boxes` come in a possible order; those that are `strong`, and the lines between those that follow each other there,
    are drawn heavy. `words` tell the picture to who does not see it.
    """
    if not boxes:
        return ""
    found = layered({box.name: box.after for box in boxes}, most=MOST)
    by_name = {box.name: box for box in boxes}
    across, texts = _across(found, by_name)
    tops, bottoms = _down(found, texts)
    pieces: list[tuple[float, float, str]] = []  # from, to, what is drawn there
    way = [name for name in by_name if name in strong]
    heavy = set(pairwise(way))
    for pair, nodes in found.ways.items():
        points = _line(nodes, found, across, tops, bottoms)
        pieces.append((points[0][1], points[-1][1], _drawn(points, THICK if pair in heavy else THIN)))
    for row, nodes in enumerate(found.rows):
        for node in nodes:
            if isinstance(node, str):
                drawn = _box(across[node], tops[row], bottoms[row], texts[node], heavy=node in strong)
                pieces.append((tops[row], bottoms[row], drawn))
    return "".join(_pictures(pieces, _sheets(tops, bottoms), title, words, ids))


def _across(found: Layered, boxes: Mapping[str, Box]) -> tuple[dict[Node, Place], dict[Node, list[str]]]:
    """Return where each node stands across the page, and the lines of words of each box."""
    across: dict[Node, Place] = {}
    texts: dict[Node, list[str]] = {}
    before: dict[Node, list[Node]] = {}
    for way in found.ways.values():
        for one, other in pairwise(way):
            before.setdefault(other, []).append(one)
    for row in found.rows:
        named = [node for node in row if isinstance(node, str)]
        passing = len(row) - len(named)
        room = (WIDE - passing * PASS) / max(len(named), 1)
        half = {node: (min(room, BOX + GAP) if isinstance(node, str) else PASS) / 2 for node in row}
        even = WIDE / (len(row) + 1)
        wish = {
            node: sum(across[each][0] for each in before[node]) / len(before[node]) if node in before else even * k
            for k, node in enumerate(row, 1)
        }
        across |= placed(row, half, wish, WIDE)
        for node in named:
            inside = 2 * half[node] - GAP - 2 * ROOM
            head = _wrapped(boxes[node].head, inside, bold=True)
            texts[node] = [*(f"*{each}" for each in head), *_wrapped(boxes[node].note, inside)]
    return across, texts


def _down(found: Layered, texts: Mapping[Node, Sequence[str]]) -> tuple[list[float], list[float]]:
    tops, bottoms, at = [], [], CHANNEL / 2
    for row in found.rows:
        tall = max(len(texts.get(node, ())) for node in row) * LINE + 2 * ROOM
        tops.append(at)
        bottoms.append(at + tall)
        at += tall + CHANNEL
    return tops, bottoms


def _wrapped(words: str, wide: float, *, bold: bool = False) -> list[str]:
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, CAPS, bold) <= wide or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _line(
    nodes: Sequence[Node],
    found: Layered,
    across: Mapping[Node, Place],
    tops: Sequence[float],
    bottoms: Sequence[float],
) -> list[Place]:
    """Return the corners of a line from a box, straight through the rows that it passes, to another box."""
    row = {node: k for k, nodes in enumerate(found.rows) for node in nodes}
    first, *passing, last = nodes
    points = [(_port(across[first], across[(*passing, last)[0]]), bottoms[row[first]])]
    for node in passing:
        points += [(across[node][0], tops[row[node]]), (across[node][0], bottoms[row[node]])]
    return [*points, (_port(across[last], across[(first, *passing)[-1]]), tops[row[last]])]


def _port(box: Place, other: Place) -> float:
    """Return where a line leaves a box or meets it: toward where it comes from, well inside the corners."""
    (middle, half), reach = box, 0.6 * (box[1] - GAP / 2)
    return max(middle - reach, min(middle + reach, middle + (other[0] - middle) * half / WIDE))


def _drawn(points: Sequence[Place], width: float) -> str:
    (x, y), (near_x, near_y) = points[-1], points[-2]
    long = max(((x - near_x) ** 2 + (y - near_y) ** 2) ** 0.5, 1e-9)
    along, size = ((x - near_x) / long, (y - near_y) / long), 1.6 + width
    root = (x - along[0] * size, y - along[1] * size)
    side = (-along[1] * size * 0.4, along[0] * size * 0.4)
    shaft, head = [*points[:-1], root], [(x, y), *((root[0] + k * side[0], root[1] + k * side[1]) for k in (1, -1))]
    return (
        f'<polyline points="{_pairs(shaft)}" fill="none" stroke="currentColor" stroke-width="{width}"/>'
        f'<polygon points="{_pairs(head)}" fill="currentColor"/>'
    )


def _pairs(points: Sequence[Place]) -> str:
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in points)


def _box(place: Place, top: float, bottom: float, lines: Sequence[str], *, heavy: bool) -> str:
    middle, half = place
    left, wide = middle - half + GAP / 2, 2 * half - GAP
    drawn = [
        f'<rect x="{left:.2f}" y="{top:.2f}" width="{wide:.2f}" height="{bottom - top:.2f}" rx="1" fill="none" '
        f'stroke="currentColor" stroke-width="{THICK if heavy else THIN}"/>'
    ]
    for number, line in enumerate(lines):
        bold = ' font-weight="bold"' if line.startswith("*") else ""
        at = top + ROOM + number * LINE + (LINE + CAPS) / 2
        drawn.append(f'<text x="{left + ROOM:.2f}" y="{at:.2f}"{bold}>{escape(line.removeprefix("*"))}</text>')
    return "".join(drawn)


def _sheets(tops: Sequence[float], bottoms: Sequence[float]) -> list[tuple[float, float]]:
    """Return from where to where each picture goes: it ends between two rows, before it is too tall."""
    sheets, begin = [], 0.0
    for row, bottom in enumerate(bottoms):
        if bottom + CHANNEL / 2 - begin > TALL and tops[row] > begin + CHANNEL:
            sheets.append((begin, tops[row] - CHANNEL / 2))
            begin = tops[row] - CHANNEL / 2
    return [*sheets, (begin, bottoms[-1] + CHANNEL / 2)]


def _pictures(
    pieces: Sequence[tuple[float, float, str]], sheets: Sequence[tuple[float, float]], title: str, words: str, ids: str
) -> list[str]:
    made = []
    for number, (top, bottom) in enumerate(sheets, 1):
        name = f"{ids}-{number}"
        of = f", {number} of {len(sheets)}" if len(sheets) > 1 else ""
        shown = "".join(drawn for begin, end, drawn in pieces if begin < bottom and end > top)
        made.append(
            f'<svg class="fw-network" viewBox="0 {top:.2f} {WIDE:g} {bottom - top:.2f}" role="img" '
            f'aria-labelledby="{name}-title {name}-desc" font-size="{CAPS / CAPITALS:.2f}">'
            f'<title id="{name}-title">{escape(title + of)}</title><desc id="{name}-desc">{escape(words)}</desc>'
            f"{shown}</svg>"
        )
    return made
