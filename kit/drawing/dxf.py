"""A scene as DXF for a cutter or a drawing program: R2010, in millimeters, one layer per line kind.

The file is always full size, lower left corner of the drawing's margin at the origin. Words stand on a layer of
their own, dimensions on theirs, both as plain lines and text, so that a cutter switches them off. Fill tones are
for the eye and left out. ezdxf is loaded when the first file is made.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from io import StringIO
from itertools import groupby
from math import degrees, tau
from typing import TYPE_CHECKING, Any

from kit.drawing.contours import Chain, chains
from kit.drawing.layers import Layer
from kit.drawing.marks import Curve, Label, Mark, Solid, Stroke, pieces
from kit.drawing.page import lay_out
from kit.drawing.remarks import remarks
from kit.drawing.scene import Scene
from kit.drawing.tiles import drawn_box

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import Modelspace

WORDS = "WORDS"
"""The layer of all text."""
REMARK = 2.5
"""Height of a remark's text, mm."""
MILLIMETERS, METRIC = 4, 1  # $INSUNITS and $MEASUREMENT


def dxf(scene: Scene) -> bytes:
    """Return a scene as a DXF file, full size; the same scene gives the same bytes.

    Raises:
        KitError: nothing is drawn.
    """
    page = lay_out(scene, 0.0, 0.0, legend=False, scale=1.0)
    drawn_box(page.marks)
    stream = StringIO()
    with _fixed_identity():
        doc = _new(page.width, page.height)
        space = doc.modelspace()
        for layer, marks in groupby(_sorted(page.marks), key=_layer):
            if layer is None:
                _add_words(space, [mark for mark in marks if isinstance(mark, Label)])
            else:
                _add_layer(doc, layer)
                _add_lines(space, layer, list(marks))
        for row, remark in enumerate(remarks(), start=1):
            text = space.add_text(remark, height=REMARK, dxfattribs={"layer": WORDS, "style": WORDS})
            text.set_placement((0.0, -2 * REMARK * row))  # below the drawing
            doc.header.custom_vars.append("Remark", remark)
        # a set, which ezdxf would walk in an order that differs from process to process
        for name in sorted(doc.entitydb.dxf_types_in_use()):
            doc.classes.add_class(name)
        doc.write(stream)
    return stream.getvalue().encode("utf-8")


def _layer(mark: Mark) -> Layer | None:
    return None if isinstance(mark, Label) else mark.layer


def _sorted(marks: list[Mark]) -> list[Mark]:
    order: list[Layer | None] = [*Layer, None]
    return sorted(marks, key=lambda mark: order.index(_layer(mark)))


def _new(width: float, height: float) -> "Drawing":
    import ezdxf

    doc = ezdxf.new("R2010", units=MILLIMETERS)
    doc.header["$INSUNITS"] = MILLIMETERS
    doc.header["$MEASUREMENT"] = METRIC
    doc.header["$LTSCALE"] = 1.0
    # ezdxf copies the extent from the model space into the header, unless a corner is at the origin.
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = corners = ((0.0, 0.0, 0.0), (width, height, 0.0))
    doc.modelspace().reset_extents(*corners)
    doc.set_modelspace_vport(height=height * 1.05, center=(width / 2, height / 2))
    doc.styles.add(WORDS, font="DejaVuSans.ttf")
    doc.layers.add(WORDS)
    return doc


def _add_layer(doc: "Drawing", layer: Layer) -> None:
    name, kind = layer.name, layer.value
    linetype = "CONTINUOUS"
    if kind.pattern:
        linetype = name
        # Dashes count up, gaps down; the length of the whole period comes first.
        signed = [dash * (1 - 2 * (index % 2)) for index, dash in enumerate(kind.dashes)]
        doc.linetypes.add(name, [sum(kind.dashes), *signed], description=f"ISO 128 {kind.iso}, {kind.label}")
    doc.layers.add(name, linetype=linetype, lineweight=round(100 * kind.width))


def _add_lines(space: "Modelspace", layer: Layer, marks: list[Mark]) -> None:
    on = {"layer": layer.name}
    for chain in chains(mark for mark in marks if isinstance(mark, Stroke | Curve)):
        _add_chain(space, chain, on)
    for mark in marks:
        if isinstance(mark, Solid):
            if len(mark.points) == 3:
                space.add_solid([*mark.points, mark.points[-1]], dxfattribs=on)
            else:
                space.add_lwpolyline(mark.points, close=True, dxfattribs=on)


def _add_chain(space: "Modelspace", chain: Chain, on: dict[str, Any]) -> None:
    single = chain.single
    if isinstance(single, Curve) and abs(single.sweep) >= tau:
        space.add_circle(single.center, single.radius, dxfattribs=on)
    elif isinstance(single, Curve):
        ends = sorted((single.start, single.start + single.sweep))  # DXF arcs run counterclockwise
        space.add_arc(single.center, single.radius, degrees(ends[0]), degrees(ends[1]), dxfattribs=on)
    elif single and len(single.points) == 2 and not single.closed:
        space.add_line(*single.points, dxfattribs=on)
    else:
        space.add_lwpolyline(chain.corners, format="xyb", close=chain.closed, dxfattribs=on)


def _add_words(space: "Modelspace", labels: Iterable[Label]) -> None:
    from ezdxf.enums import TextEntityAlignment as Align

    places = {"start": Align.LEFT, "middle": Align.CENTER, "end": Align.RIGHT}
    for label in labels:
        # One line of text has no subscripts: F_{s} is written F_s.
        text = "".join(f"_{words}" if lowered else words for words, lowered in pieces(label.text))
        entity = space.add_text(
            text,
            height=label.height,
            rotation=degrees(label.angle),
            dxfattribs={"layer": WORDS, "style": WORDS},
        )
        entity.set_placement(label.at, align=places[label.anchor])


@contextmanager
def _fixed_identity() -> Iterator[None]:
    """Keep time stamps and random identifiers out, which would differ from file to file."""
    import ezdxf

    kept = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = kept
