"""Flat patterns as drawings: what is on a piece is on the drawing, on its layer, and reads back from the files."""

from io import StringIO
from itertools import combinations
from math import pi, sqrt

import ezdxf
import numpy as np
import pytest
from shapely import Polygon

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.dxf import dxf
from kit.drawing.layers import Layer
from kit.drawing.primitives import Polyline, Text
from kit.geometry.development.develop import develop
from kit.geometry.development.primitives import circle, rectangle
from kit.subjects.cloth.geometry.assembly import Assembly, Making, pattern_of_parts
from kit.subjects.cloth.geometry.pattern import Finish, Pattern
from kit.subjects.cloth.geometry.seams import part_at
from kit.subjects.cloth.geometry.sewing import sewing_order
from kit.subjects.cloth.pattern_drawing import pattern_scene, side_by_side

MM = Display()


def chute(frame: Finish, hose: Finish) -> Assembly:
    d = develop(rectangle(300, 220, name="frame"), circle(60, (30, 10, 260), name="hose"))
    return pattern_of_parts("chute", part_at(d.strip, [5, 50]), Making({"frame": frame, "hose": hose}))


@pytest.fixture(scope="module")
def made() -> Assembly:
    return chute(Finish("staple", 25.0, line=12.0), Finish("hem", 8.0))


def cone(seam: Finish) -> Assembly:
    """Half a right cone frustum, radii 100 and 50, 120 high: its flat piece is the sector of a ring."""
    d = develop(circle(100, name="wide"), circle(50, (0, 0, 120), name="narrow"))
    half = len(d.strip.a) // 2
    return pattern_of_parts("cone", part_at(d.strip, [0, half]), Making({}, seam=seam))


def test_pieces_do_not_lie_on_each_other(made: Assembly) -> None:
    scene = pattern_scene(made.pattern, MM)
    cuts = [item for item in scene.items if isinstance(item, Polyline) and item.layer is Layer.OUTLINE]
    outlines = [Polygon(item.points) for item in cuts if item.closed]
    assert len(outlines) == len(made.pattern.pieces) == 2
    for one, other in combinations(outlines, 2):
        assert one.distance(other) >= 19.9
    areas = sorted(outline.area for outline in outlines)
    assert areas == pytest.approx(sorted(Polygon(piece.cut).area for piece in made.pattern.pieces), rel=1e-6)


def test_boxes_side_by_side_never_overlap() -> None:
    rng = np.random.default_rng(3)
    boxes = [
        (low, low + size) for low, size in zip(rng.normal(0, 50, (30, 2)), rng.uniform(1, 400, (30, 2)), strict=True)
    ]
    shifts = side_by_side(boxes, 7.0)
    laid = [(low + shift, high + shift) for (low, high), shift in zip(boxes, shifts, strict=True)]
    for one, other in combinations(laid, 2):
        apart = np.maximum(other[0] - one[1], one[0] - other[1])
        assert apart.max() >= 7.0 - 1e-9


def test_each_kind_of_line_is_on_its_layer(made: Assembly) -> None:
    doc = ezdxf.read(StringIO(dxf(pattern_scene(made.pattern, MM, highlight="frame")).decode()))
    layers = {entity.dxf.layer for entity in doc.modelspace()}
    assert {"OUTLINE", "SEAM", "FOLD", "STAPLE", "MARK", "GRAIN", "CHOSEN", "WORDS"} <= layers
    marks = doc.modelspace().query('*[layer=="MARK"]')
    assert len(marks) == 2 * 2 * 3  # two seams, each on two edges, three marks on each
    for mark in marks:  # 10 mm of allowance
        assert mark.dxf.start.distance(mark.dxf.end) == pytest.approx(10.0, abs=0.01)


def test_words_say_what_to_do(made: Assembly) -> None:
    scene = pattern_scene(made.pattern, MM, order=sewing_order(made.seams))
    told = [item.text for item in scene.items if isinstance(item, Text)]
    assert told.count("right side up") == told.count("cut 1 ×") == 2
    assert {"chute 1", "chute 2", "1.1", "2.3"} <= set(told)
    assert "frame: stapled, 25.0 mm beyond the rail’s edge" in told
    assert "seam 1: seam, 10.0 mm allowance; step 1, lay toward chute 1" in told


def test_staple_line_runs_all_along_a_straight_edge_with_a_point_in_it(made: Assembly) -> None:
    for piece in made.pattern.pieces:
        (line,) = (line for name, line in piece.staples if name == "frame")
        length = float(np.hypot(*np.diff(line, axis=0).T).sum())
        assert length >= 0.95 * piece.edge("frame").length


def test_a_cone_is_cut_along_true_arcs_that_read_back_from_dxf() -> None:
    """Sector of a ring: slant heights 120 sqrt(1 + (50/120)²) and twice that, angle 2π · 50/130 for the whole cone."""
    slant = sqrt(50**2 + 120**2)
    piece = cone(Finish()).pattern.pieces[0]
    doc = ezdxf.read(StringIO(dxf(pattern_scene(Pattern("cone", (piece,)), MM)).decode()))
    (outline,) = doc.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
    assert outline.closed
    bulges = [bulge for *_, bulge in outline.get_points("xyseb") if bulge]
    turn = pi * 50 / slant
    assert sum(4 * np.arctan(abs(bulge)) for bulge in bulges) == pytest.approx(2 * turn, abs=2e-3)
    assert len(outline) < 12
    points = np.array(outline.get_points("xy"))
    radii = []
    for k, (x, y, *_, bulge) in enumerate(outline.get_points("xyseb")):
        if bulge:
            chord = float(np.hypot(*(points[(k + 1) % len(points)] - [x, y])))
            radii.append(chord * (1 + bulge**2) / (4 * abs(bulge)))
    assert min(radii) == pytest.approx(slant, abs=0.05)
    assert max(radii) == pytest.approx(2 * slant, abs=0.1)


def test_an_edge_that_no_piece_has_is_refused(made: Assembly) -> None:
    with pytest.raises(KitError, match="No piece has an edge 'hoze' to point out; the edges are frame"):
        pattern_scene(made.pattern, MM, highlight="hoze")
    with pytest.raises(KitError, match="The pattern nothing has no pieces"):
        pattern_scene(Pattern("nothing"), MM)


def test_rows_are_kept_to_a_width() -> None:
    boxes = [(np.zeros(2), np.array([300.0, 100.0]))] * 7
    shifts = side_by_side(boxes, 10.0, wide=650.0)
    right = max(shift[0] + 300.0 for shift in shifts)
    assert right == 610.0
    alone = side_by_side(boxes[:2], 10.0, wide=200.0)
    assert [shift[0] for shift in alone] == [0.0, 0.0]
