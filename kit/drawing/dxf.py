"""A scene as DXF for a cutter or a drawing program: R2010, in millimeters, one layer per line kind.

The file is always full size, lower left corner of the drawing's margin at the origin. Words stand on a layer of
their own, dimensions on theirs, both as plain lines and text, so that a cutter switches them off. Fill tones are
for the eye and left out. What stands round layers and entities in any such file is in `frame.dxf`, an empty drawing
as ezdxf writes it, in which a name between two @ is a place to fill.
"""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import count, groupby
from math import degrees, tau
from pathlib import Path

from kit.drawing.contours import Chain, Corner, chains
from kit.drawing.layers import Layer
from kit.drawing.marks import Curve, Label, Mark, Solid, Stroke, pieces
from kit.drawing.page import lay_out
from kit.drawing.primitives import Point
from kit.drawing.remarks import remarks
from kit.drawing.scene import Scene
from kit.drawing.tiles import drawn_box

WORDS = "WORDS"
"""The layer of all text."""
REMARK = 2.5
"""Height of a remark's text, mm."""
_FIRST = 0x32  # the first handle that the frame leaves free
_LINE_KINDS, _LAYERS, _SPACE = 2, 1, 0x17  # handles of what owns line kinds, layers and entities
_ANCHORS = {"start": 0, "middle": 1, "end": 2}


def dxf(scene: Scene) -> bytes:
    """Return a scene as a DXF file, full size; the same scene gives the same bytes.

    Raises:
        KitError: nothing is drawn.
    """
    page = lay_out(scene, 0.0, 0.0, legend=False, scale=1.0)
    drawn_box(page.marks)
    handles = count(_FIRST)
    kinds: list[str] = []
    layers: list[str] = []
    entities: list[str] = []
    for layer, marks in groupby(_sorted(page.marks), key=_layer):
        if layer is None:
            entities += (_words(next(handles), mark) for mark in marks if isinstance(mark, Label))
            continue
        if layer.value.pattern:
            kinds.append(_line_kind(next(handles), layer))
        layers.append(_layer_record(next(handles), layer))
        entities += (_entity(next(handles), layer, *shape) for shape in _shapes(list(marks)))
    told = [" ".join(remark.splitlines()) for remark in remarks()]
    for row, remark in enumerate(told, start=1):  # below the drawing
        entities.append(_words(next(handles), Label((0.0, -2 * REMARK * row), remark, height=REMARK)))
    first = next(handles)
    filled = {
        "width": page.width,
        "height": page.height,
        "middle x": page.width / 2,
        "middle y": page.height / 2,
        "shown": page.height * 1.05,
        "line kinds": len(kinds) + 3,
        "layers": len(layers) + 3,
        **{f"handle {number}": f"{first + number - 1:X}" for number in (1, 2, 3)},
        "seed": f"{first + 3:X}",
        "line kind records": "".join(kinds),
        "layer records": "".join(layers),
        "entities": "".join(entities),
        "remarks": "".join(
            _tags((9, "$CUSTOMPROPERTYTAG"), (1, "Remark"), (9, "$CUSTOMPROPERTY"), (1, remark)) for remark in told
        ),
    }
    return re.sub(r"@([a-z\d ]+)@", lambda place: str(filled[place[1]]), _frame()).encode("utf-8")


@cache
def _frame() -> str:
    return Path(__file__).with_name("frame.dxf").read_text(encoding="utf-8")


def _layer(mark: Mark) -> Layer | None:
    return None if isinstance(mark, Label) else mark.layer


def _sorted(marks: list[Mark]) -> list[Mark]:
    order: list[Layer | None] = [*Layer, None]
    return sorted(marks, key=lambda mark: order.index(_layer(mark)))


Tag = tuple[int, object]


def _tags(*tags: Tag) -> str:
    return "".join([f"{code:>3}\n{value}\n" for code, value in tags])


def _at(point: Point, number: int = 0) -> list[Tag]:
    """Return the tags of a point in the plane; `number` tells a figure's points apart."""
    x, y = point
    return [(10 + number, float(x)), (20 + number, float(y)), (30 + number, 0.0)]


def _record(name: str, handle: int, owner: int, kind: str) -> list[Tag]:
    return [(0, name), (5, f"{handle:X}"), (330, f"{owner:X}"), (100, "AcDbSymbolTableRecord"), (100, kind)]


def _line_kind(handle: int, layer: Layer) -> str:
    kind = layer.value
    # Dashes count up, gaps down; the length of the whole period comes first.
    signed = [float(dash * (1 - 2 * (index % 2))) for index, dash in enumerate(kind.dashes)]
    return _tags(
        *_record("LTYPE", handle, _LINE_KINDS, "AcDbLinetypeTableRecord"),
        *((2, layer.name), (70, 0), (3, f"ISO 128 {kind.iso}, {kind.label}"), (72, 65), (73, len(signed))),
        (40, float(sum(kind.dashes))),
        *(tag for dash in signed for tag in ((49, dash), (74, 0))),
    )


def _layer_record(handle: int, layer: Layer) -> str:
    linetype = layer.name if layer.value.pattern else "CONTINUOUS"
    return _tags(
        *_record("LAYER", handle, _LAYERS, "AcDbLayerTableRecord"),
        *((2, layer.name), (70, 0), (62, 7), (6, linetype), (370, round(100 * layer.value.width))),
        *((390, "13"), (347, "21")),  # the frame's plot style and material
    )


def _entity(handle: int, layer: Layer, name: str, tags: list[Tag]) -> str:
    return _tags(*_head(name, handle, layer.name), *tags)


def _head(name: str, handle: int, layer: str) -> list[Tag]:
    return [(0, name), (5, f"{handle:X}"), (330, f"{_SPACE:X}"), (100, "AcDbEntity"), (8, layer)]


def _shapes(marks: list[Mark]) -> Iterator[tuple[str, list[Tag]]]:
    """Yield name and tags of each figure of a layer: its lines and arcs in chains, then what is filled."""
    for chain in chains(mark for mark in marks if isinstance(mark, Stroke | Curve)):
        yield _chain(chain)
    for mark in marks:
        if isinstance(mark, Solid) and len(mark.points) == 3:
            corners = (*mark.points, mark.points[-1])
            yield "SOLID", [(100, "AcDbTrace"), *(tag for k, point in enumerate(corners) for tag in _at(point, k))]
        elif isinstance(mark, Solid):
            yield _polyline([(x, y, 0.0) for x, y in mark.points], closed=True)


def _chain(chain: Chain) -> tuple[str, list[Tag]]:
    single = chain.single
    if isinstance(single, Curve):
        circle: list[Tag] = [(100, "AcDbCircle"), *_at(single.center), (40, float(single.radius))]
        if abs(single.sweep) >= tau:
            return "CIRCLE", circle
        low, high = sorted((single.start, single.start + single.sweep))  # DXF arcs run counterclockwise
        return "ARC", [*circle, (100, "AcDbArc"), (50, degrees(low)), (51, degrees(high))]
    if single and len(single.points) == 2 and not single.closed:
        return "LINE", [(100, "AcDbLine"), *_at(single.points[0]), *_at(single.points[1], 1)]
    return _polyline(chain.corners, closed=chain.closed)


def _polyline(corners: Sequence[Corner], *, closed: bool) -> tuple[str, list[Tag]]:
    """Return a line through corners, each with the bulge of the arc that follows it."""
    tags: list[Tag] = [(100, "AcDbPolyline"), (90, len(corners)), (70, int(closed))]
    for x, y, bulge in corners:
        tags += [(10, float(x)), (20, float(y)), *([(42, float(bulge))] if bulge else [])]
    return "LWPOLYLINE", tags


def _words(handle: int, label: Label) -> str:
    """Return a line of words; it has no subscripts: F_{s} is written F_s."""
    anchor = _ANCHORS[label.anchor]
    return _tags(
        *_head("TEXT", handle, WORDS),
        *((100, "AcDbText"), *_at(label.at), (40, float(label.height))),
        (1, "".join(f"_{words}" if lowered else words for words, lowered in pieces(label.text))),
        *([(50, degrees(label.angle))] if label.angle else []),
        *((7, WORDS), *([(72, anchor)] if anchor else []), *_at(label.at, 1), (100, "AcDbText")),
    )
