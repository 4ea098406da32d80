"""A skin on its frame: the same edge is bold in space and beside the pattern, and every panel is there."""

import numpy as np

from kit.drawing.layers import Layer
from kit.drawing.primitives import Polyline, Text
from kit.drawing.scene import Scene
from kit.drawing.space import STANDARD
from kit.geometry.development.primitives import arc
from kit.subjects.cloth.geometry.covering import Asked, CoveredPanel, CoverSettings, cover
from kit.subjects.cloth.skin_drawing import add_form, skin_view


def panels() -> tuple[CoveredPanel, ...]:
    curves = [
        arc((-260, -60, 0), (0, -110, 0), (260, -60, 0), "sill"),
        arc((-260, 0, 300), (0, -25, 318), (260, 0, 300), "rail"),
        arc((-200, 340, 330), (0, 360, 345), (200, 340, 330), "ridge"),
    ]
    wanted = (Asked("front", ("sill", "rail")), Asked("top", ("rail", "ridge")))
    return cover({curve.name: curve for curve in curves}, wanted, CoverSettings())


def test_the_edge_is_bold_in_space() -> None:
    view = skin_view(panels(), "rail", "Skin")
    assert [solid.name for solid in view.solids] == ["front", "top"]
    bold = [line for line in view.lines if line.width_mm > 1]
    assert {line.name for line in bold} == {"rail"}
    ends = np.asarray(bold[0].points)[[0, -1]]
    assert sorted(ends[:, 0].round(6).tolist()) == [-260.0, 260.0]
    assert {"front", "top", "rail"} == {mark.text for mark in view.marks}


def test_the_same_edge_is_bold_beside_the_pattern() -> None:
    scene = Scene("Skin", "A skin.")
    add_form(scene, panels(), "rail")
    (view,) = scene.views[1:]
    (chosen,) = {item.points for item in view.items if isinstance(item, Polyline) and item.layer is Layer.CHOSEN}
    seen = STANDARD["corner"].project([[-260, 0, 300], [260, 0, 300]])[:, :2]
    assert np.allclose(sorted([chosen[0], chosen[-1]]), sorted(map(tuple, seen)))
    assert {item.text for item in view.items if isinstance(item, Text)} == {"front", "top"}
