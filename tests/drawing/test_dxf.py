"""DXF read back with ezdxf: units, layers, true arcs, lengths. Lengths expected are in closed form."""

import os
import subprocess
import sys
from collections import Counter
from io import StringIO
from itertools import pairwise
from math import dist, pi, sqrt, tan

import ezdxf
import pytest
from ezdxf.document import Drawing
from ezdxf.math import bulge_to_arc

from kit.core.errors import KitError
from kit.drawing.contours import chains
from kit.drawing.dxf import dxf
from kit.drawing.marks import Curve, Stroke
from kit.drawing.scene import Layer, Scene
from tests import ROOT
from tests.drawing.demo import beam, corner, typical
from tests.drawing.pattern import pattern


def read(scene: Scene) -> Drawing:
    return ezdxf.read(StringIO(dxf(scene).decode("utf-8")))


def length(entity: ezdxf.entities.LWPolyline) -> float:
    """The length of a polyline with bulges: a bulge is the tangent of a quarter of the arc (DXF reference)."""
    corners = list(entity.get_points("xyb"))
    if entity.closed:
        corners.append(corners[0])
    total = 0.0
    for (x0, y0, bulge), (x1, y1, _) in pairwise(corners):
        if bulge:
            _, start, end, radius = bulge_to_arc((x0, y0), (x1, y1), bulge)
            total += radius * ((end - start) % (2 * pi))
        else:
            total += dist((x0, y0), (x1, y1))
    return total


def test_units_are_millimeters_and_the_file_is_clean() -> None:
    for scene in (pattern(), beam(), corner(), typical()):
        doc = read(scene)
        assert doc.dxfversion == "AC1024"  # R2010
        assert doc.header["$INSUNITS"] == 4
        assert doc.header["$MEASUREMENT"] == 1
        audit = doc.audit()
        assert not audit.errors
        assert not audit.fixes


def test_one_layer_for_each_line_kind_with_its_line_type() -> None:
    doc = read(pattern())
    layers = {layer.dxf.name: layer for layer in doc.layers}
    assert set(layers) == {
        "0", "Defpoints", "OUTLINE", "FOLD", "SEAM", "CENTER", "HIDDEN", "CUT", "GRAIN", "HATCH", "DIMENSION", "WORDS",
    }  # fmt: skip
    assert {entity.dxf.layer for entity in doc.modelspace()} == set(layers) - {"0", "Defpoints"}
    assert layers["OUTLINE"].dxf.linetype.upper() == "CONTINUOUS"
    assert layers["OUTLINE"].dxf.lineweight == 50  # hundredths of a millimeter
    assert layers["HIDDEN"].dxf.lineweight == 25
    # ISO 128-2, from memory: dash of 12, gap of 3 line widths of 0.25 mm.
    pattern_tags = doc.linetypes.get(layers["HIDDEN"].dxf.linetype).pattern_tags.tags
    assert [tag.value for tag in pattern_tags if tag.code in (40, 49)] == [3.75, 3.0, -0.75]


def test_lines_and_arcs_that_meet_become_one_closed_outline_of_the_true_length() -> None:
    doc = read(pattern())
    (outline,) = doc.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
    assert outline.closed
    # Width 900, height 700, two corners rounded with 60: each saves 2 × 60 and costs a quarter turn.
    assert length(outline) == pytest.approx(2 * (900 + 700) - 4 * 60 + pi * 60, abs=1e-9)
    assert sorted(b for *_, b in outline.get_points("xyb"))[-2:] == pytest.approx([tan(pi / 8)] * 2)


def test_circles_arcs_and_lines_alone_stay_what_they_are() -> None:
    scene = Scene("Alone", "A circle, two arcs and a line that do not meet.")
    scene.circle((0, 0), 40)
    scene.arc((0, 0), 60, pi / 6, pi / 2)
    scene.arc((0, 0), 80, pi, pi / 3)  # clockwise
    scene.line((100, 0), (100, 70), Layer.CUT)
    space = read(scene).modelspace()
    assert Counter(entity.dxftype() for entity in space) == {"CIRCLE": 1, "ARC": 2, "LINE": 1}
    (circle,) = space.query("CIRCLE")
    assert circle.dxf.radius == 40
    center = circle.dxf.center
    first, second = space.query("ARC")
    assert (first.dxf.radius, first.dxf.start_angle, first.dxf.end_angle) == pytest.approx((60, 30, 90))
    assert (second.dxf.radius, second.dxf.start_angle, second.dxf.end_angle) == pytest.approx((80, 60, 180))
    assert first.dxf.center.isclose(center)
    (line,) = space.query("LINE")
    assert (line.dxf.end - line.dxf.start).isclose((0, 70))
    assert (line.dxf.start - center).isclose((100, 0))


def test_polylines_keep_their_length_and_closure() -> None:
    scene = Scene("Lines", "An open and a closed polyline.")
    scene.polyline([(0, 0), (30, 40), (30, 140)])
    scene.polyline([(200, 0), (300, 0), (300, 100)], Layer.FOLD, closed=True, fill="light")
    read_back = read(scene).modelspace().query("LWPOLYLINE")
    assert {entity.closed: length(entity) for entity in read_back} == pytest.approx(
        {False: 150.0, True: 200 + 100 * sqrt(2)}
    )


def test_words_and_dimensions_are_plain_entities_on_layers_of_their_own() -> None:
    space = read(pattern()).modelspace()
    assert not space.query("DIMENSION MTEXT LEADER INSERT HATCH")
    texts = {text.dxf.text: text for text in space.query("TEXT")}
    assert {text.dxf.layer for text in texts.values()} == {"WORDS"}
    assert "α = 87.8°" in texts
    assert "4 × ⌀32, μ_s = 0.3, Δ ≤ 2′" in texts
    assert texts["Right side up"].dxf.height == 8
    assert texts["640 mm"].dxf.rotation == pytest.approx(90)
    on = Counter((e.dxftype(), e.dxf.layer) for e in space if e.dxf.layer == "DIMENSION")
    assert on[("SOLID", "DIMENSION")] == 7, "two arrowheads for each of three dimensions, one for the leader"
    # The dimension line of the lower edge is as long as the edge.
    assert any(
        e.dxf.start.distance(e.dxf.end) == pytest.approx(900, abs=1e-9) for e in space.query('LINE[layer=="DIMENSION"]')
    )


def test_everything_lies_in_the_positive_quadrant_inside_the_stated_extent() -> None:
    doc = read(pattern())
    (outline,) = doc.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
    xs, ys = zip(*outline.get_points("xy"), strict=True)
    low, high = doc.header["$EXTMIN"], doc.header["$EXTMAX"]
    assert low == (0, 0, 0)
    assert 0 < min(xs) < max(xs) < high[0]
    assert 0 < min(ys) < max(ys) < high[1]


def test_the_same_scene_gives_the_same_bytes() -> None:
    kept = ezdxf.options.write_fixed_meta_data_for_testing
    assert dxf(pattern()) == dxf(pattern())
    assert ezdxf.options.write_fixed_meta_data_for_testing == kept, "the library's setting is put back"


def test_another_process_gives_the_same_bytes() -> None:
    script = "import sys; from tests.drawing.pattern import pattern; from kit.drawing.dxf import dxf; "
    script += "sys.stdout.buffer.write(dxf(pattern()))"
    found = {
        subprocess.run(
            [sys.executable, "-c", script],
            cwd=ROOT,
            env=os.environ | {"PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(found) == 1


def test_an_empty_scene_is_refused() -> None:
    with pytest.raises(KitError, match="no extent"):
        dxf(Scene("", ""))


# Joining.


def stroke(*points: tuple[float, float], layer: Layer = Layer.CUT) -> Stroke:
    return Stroke(layer, points)


def test_pieces_join_whichever_way_each_was_drawn() -> None:
    # A slot: two sides 40 long, two half circles of radius 5, each piece drawn in some other sense.
    slot = [
        stroke((40, 5), (0, 5)),
        Curve(Layer.CUT, (0, 0), 5, pi * 3 / 2, -pi),
        stroke((40, -5), (0, -5)),
        Curve(Layer.CUT, (40, 0), 5, -pi / 2, pi),
    ]
    for pieces in (slot, slot[1:] + slot[:1], slot[::-1]):
        (joined,) = chains(pieces)
        assert joined.closed
        assert len(joined.corners) == 4
        # Both half circles bulge outward: their sign is that of the sense in which the slot is run through.
        bulges = [bulge for *_, bulge in joined.corners if bulge]
        assert abs(sum(bulges)) == pytest.approx(2)


def test_pieces_of_another_layer_or_out_of_reach_do_not_join() -> None:
    pieces = [
        stroke((0, 0), (10, 0)),
        stroke((10, 0), (20, 0), layer=Layer.FOLD),
        stroke((20, 1e-3), (30, 0)),
    ]
    assert [chain.single for chain in chains(pieces)] == pieces


def test_more_than_half_a_turn_is_cut_so_that_bulges_stay_small() -> None:
    (joined,) = chains([stroke((-20, 0), (0, 0)), Curve(Layer.CUT, (0, 10), 10, -pi / 2, 1.9 * pi)])
    assert [bulge for *_, bulge in joined.corners] == pytest.approx([0, tan(0.2375 * pi), tan(0.2375 * pi), 0])
