"""Paper models: nets of known solids, seams that cannot stay together, tabs that lie on nothing."""

import numpy as np
import pytest
from shapely import Polygon, unary_union

from kit.core.errors import KitError
from kit.drawing.paper import PaperPlan
from kit.geometry.development.develop import develop
from kit.geometry.development.primitives import circle, rectangle
from kit.subjects.cloth.geometry.assembly import Assembly, Making, pattern_of_parts
from kit.subjects.cloth.geometry.edge_finish import finished
from kit.subjects.cloth.geometry.paper_net import PaperModel, paper_model
from kit.subjects.cloth.geometry.pattern import Pattern, SewEdge
from kit.subjects.cloth.geometry.seams import part_at
from kit.subjects.cloth.geometry.sewing import Seam
from kit.subjects.cloth.paper_model_drawing import lay_out_model, model_scene

SQUARES = {"bottom": "abcd", "front": "aefb", "right": "bfgc", "back": "cghd", "left": "dhea", "top": "ehgf"}


def cube(side: float = 100.0) -> Assembly:
    """Six squares that share twelve edges, named by their corners."""
    square = side * np.array([[0, 0], [1, 0], [1, 1], [0, 1.0]])
    pieces, owners = [], dict[str, list[str]]()
    for name, corners in SQUARES.items():
        edges = []
        for k in range(4):
            edge = "".join(sorted(corners[k] + corners[(k + 1) % 4]))
            owners.setdefault(edge, []).append(name)
            edges.append(SewEdge(edge, np.stack([square[k], square[(k + 1) % 4]])))
        pieces.append(finished(name, edges))
    seams = tuple(Seam(edge, here[0], here[1], side) for edge, here in owners.items())
    return Assembly(Pattern("cube", tuple(pieces)), seams)


def chute(seams: list[int]) -> Assembly:
    d = develop(rectangle(300, 220, name="frame"), circle(60, (30, 10, 260), name="hose"))
    return pattern_of_parts("chute", part_at(d.strip, seams), Making({}))


def shapes(model: PaperModel) -> list[Polygon]:
    tabs = [Polygon(tab) for glued in model.glued for tab in glued.tabs]
    return [*(Polygon(piece.outline) for net in model.nets for piece in net.pieces), *tabs]


def test_a_cube_is_one_net_of_five_folds_and_seven_glued_edges() -> None:
    """A net of a cube is a tree of its 6 faces: 5 of 12 edges are folds, 7 are glued (counting)."""
    made = cube()
    model = paper_model(made.pattern.pieces, made.seams, 15.0)
    (net,) = model.nets
    assert (len(net.pieces), len(net.folds), len(model.glued)) == (6, 5, 7)
    assert net.overlap == pytest.approx(0.0, abs=1e-6)
    assert all(glued.tabs for glued in model.glued)
    all_of_it = shapes(model)
    assert unary_union(all_of_it).area == pytest.approx(sum(each.area for each in all_of_it), rel=2e-3)
    assert sorted(glued.number for glued in model.glued) == list(range(1, 8))


def test_a_parted_cone_becomes_one_net_again() -> None:
    """Parts of a strip joined at all but one seam are the strip laid flat whole."""
    made = chute([5, 25, 50])
    model = paper_model(made.pattern.pieces, made.seams, 20.0)
    (net,) = model.nets
    assert (len(net.folds), len(model.glued)) == (2, 1)
    whole = unary_union([Polygon(piece.outline) for piece in net.pieces]).area
    assert whole == pytest.approx(sum(Polygon(piece.outline).area for piece in made.pattern.pieces), rel=1e-6)


def test_edges_of_different_flat_shape_are_glued_with_short_tabs() -> None:
    arc = np.linspace(0, np.pi, 60)
    disk = np.column_stack([50 * np.cos(arc), 50 * np.sin(arc)])
    half = finished("half disk", [SewEdge("round", disk), SewEdge("straight", np.array([[-50, 0], [50, 0.0]]))])
    long = 50 * np.pi
    box = np.array([[0, 0], [long, 0], [long, 80], [0, 80.0]])
    side = finished(
        "side",
        [SewEdge(n, np.stack([box[k], box[(k + 1) % 4]])) for k, n in enumerate(("round", "b", "c", "d"))],
    )
    model = paper_model([half, side], [Seam("round", "half disk", "side", long)], 8.0)
    assert len(model.nets) == 2
    (glued,) = model.glued
    assert len(glued.tabs) >= 1
    covered = sum(float(np.hypot(*(tab[-3] - tab[0]))) for tab in glued.tabs)
    assert covered == pytest.approx(long, rel=0.02)


def test_a_tube_of_one_piece_is_glued_to_itself() -> None:
    made = chute([5])
    model = paper_model(made.pattern.pieces, made.seams, 20.0)
    (glued,) = model.glued
    assert (len(model.nets), glued.on, glued.to) == (1, 0, 0)
    assert glued.tabs


def test_the_scale_is_the_wished_one_or_the_next_that_fits() -> None:
    small = lay_out_model(cube(100.0), PaperPlan())
    assert small.plan.scale == 0.2
    assert small.words == "one net on one sheet of A4 at 1:5"
    large = lay_out_model(cube(400.0), PaperPlan())
    assert large.plan.scale < 0.2
    assert large.words.startswith("1:5 does not fit one sheet of A4; 1:")
    window = large.plan.sheets()[0].window
    for number, (turn, shift) in enumerate(zip(large.turns, large.shifts, strict=True)):
        outline = np.array(large.model.shape(number).exterior.coords) @ turn.T + shift
        assert (np.ptp(outline, axis=0) * large.plan.scale <= window).all()


def test_equal_numbers_stand_on_tab_and_edge() -> None:
    sheet = lay_out_model(cube(100.0), PaperPlan())
    told = [item.text for item in model_scene(sheet, "cube").items if hasattr(item, "text")]
    for number in range(1, 8):
        assert told.count(str(number)) == 2
    assert set(SQUARES) <= set(told)


def test_nothing_to_fold_is_refused() -> None:
    made = cube()
    with pytest.raises(KitError, match="needs one piece at least"):
        paper_model([], [], 8.0)
    with pytest.raises(KitError, match="tabs of the paper model are 0 mm deep"):
        paper_model(made.pattern.pieces, made.seams, 0.0)
