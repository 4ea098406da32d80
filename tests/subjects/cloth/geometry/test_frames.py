"""Frames on which panels once came out with micro-facets, horns, crossing edges or needless refusals."""

from collections.abc import Sequence

import numpy as np
import pytest
from shapely import Polygon, distance, points

from kit.core.errors import KitError
from kit.geometry.development.curves import Curve
from kit.geometry.development.primitives import arc, line
from kit.subjects.cloth.geometry.assembly import Assembly, Making, skin_pattern
from kit.subjects.cloth.geometry.covering import Asked, CoveredPanel, CoverSettings, cover
from kit.subjects.cloth.geometry.pattern import Finish

SETTINGS = CoverSettings(chord=0.2, offset=0.25, limit=(0.006, 0.012), crease_radius=3.25)
STAPLED = Finish("staple", 40.0, line=20.0)
SHALLOW = (
    arc((-202.65, 19.9, 0), (0, 8.4, 0), (202.65, 19.9, 0), "sill"),
    arc((-202.65, 0, 149), (0, -20, 155.3), (202.65, 0, 149), "rail"),
)
DEEP = (
    arc((-80.1, -54.3, 0), (0, -103.2, 0), (80.1, -54.3, 0), "sill"),
    arc((-80.1, 0, 239.7), (0, -63.6, 248.8), (80.1, 0, 239.7), "rail"),
)


def twisted(degrees: float) -> tuple[Curve, Curve]:
    """Straight rails of 300 mm, 400 mm apart, turned against each other."""
    x, y = 150 * np.cos(np.radians(degrees)), 150 * np.sin(np.radians(degrees))
    return line((-150, 0, 0), (150, 0, 0), "sill"), line((-x, -y, 400), (x, y, 400), "rail")


def made(edges: Sequence[Curve], sill: Finish = STAPLED) -> tuple[CoveredPanel, Assembly]:
    (panel,) = cover({curve.name: curve for curve in edges}, (Asked("p", ("sill", "rail")),), SETTINGS)
    names = [edge.name for edge in panel.pieces[0].edges]
    return panel, skin_pattern("skin", (panel,), Making({**dict.fromkeys(names, STAPLED), "sill": sill}))


def turns(outline: np.ndarray) -> np.ndarray:
    """The angles by which an open line turns at its inner points, rad."""
    step = np.diff(outline, axis=0)
    heading = np.unwrap(np.arctan2(step[:, 1], step[:, 0]))
    return np.abs(np.diff(heading))


@pytest.mark.parametrize("edges", [SHALLOW, DEEP], ids=["shallow", "deep"])
def test_an_arched_panel_has_smooth_edges_without_tiny_facets(edges: Sequence[Curve]) -> None:
    panel, _ = made(edges)
    for edge in panel.pieces[0].edges:
        step = np.linalg.norm(np.diff(edge.line, axis=0), axis=1)
        assert turns(edge.line).max(initial=0.0) < np.radians(8)
        assert (turns(edge.line) / (step[1:] + step[:-1])).max(initial=0.0) < 2 / 57  # of the tightest edge, 2 / R
    assert panel.development is not None
    assert panel.development.strip.largest_fold < np.radians(6)


def test_a_hem_along_a_shallow_arc_needs_no_cut() -> None:
    """The sill's arc has a radius of 1,791 mm; flat the edge is flatter still."""
    _, skin = made(SHALLOW, sill=Finish("hem", 20.0))
    assert skin.pattern.pieces[0].reliefs == ()


@pytest.mark.parametrize("degrees", [5, 30, 60, 90, 120])
def test_twisted_rails_give_two_faces_without_horns(degrees: float) -> None:
    panel, skin = made(twisted(degrees))
    piece = skin.pattern.pieces[0]
    beyond = distance(points(piece.cut), Polygon(piece.outline).exterior)
    sharp = max(np.pi - angle for angle in inner_angles(piece.outline))
    assert beyond.max() <= 40 / np.cos(sharp / 2) + 1e-6
    ((_, angle, free),) = panel.creases
    assert free
    assert angle == pytest.approx(fold_of_two_triangles(degrees), abs=1e-2)


def inner_angles(corners: np.ndarray) -> np.ndarray:
    ahead, back = np.roll(corners, -1, axis=0) - corners, np.roll(corners, 1, axis=0) - corners
    cosine = (ahead * back).sum(axis=1) / np.linalg.norm(ahead, axis=1) / np.linalg.norm(back, axis=1)
    return np.arccos(np.clip(cosine, -1, 1))


def fold_of_two_triangles(degrees: float) -> float:
    """The angle between the two triangles on either diagonal of the four corners: the flatter of the two.

    Beyond a right angle the rail's ends lie nearer to the other ends of the sill, and are joined to those.
    """
    degrees -= 180 * (degrees > 90)
    x, y = 150 * np.cos(np.radians(degrees)), 150 * np.sin(np.radians(degrees))
    a, b, c, d = (np.array(p, float) for p in ((-150, 0, 0), (150, 0, 0), (x, y, 400), (-x, -y, 400)))
    folds = []
    for p, q, r, s in ((a, c, b, d), (b, d, a, c)):
        one, other = np.cross(q - p, r - p), np.cross(s - p, q - p)
        folds.append(np.arccos(one @ other / np.linalg.norm(one) / np.linalg.norm(other)))
    return float(min(folds))


@pytest.mark.parametrize("warp", [0.01, 0.1, 0.5, 1.0, 2.0, 5.0, 20.0])
def test_a_little_warp_is_no_reason_to_refuse(warp: float) -> None:
    panel, _ = made((line((0, 0, 0), (500, 0, 0), "sill"), line((0, 0, 300), (500, warp, 300), "rail")))
    lengths = {edge.name: edge.length for edge in panel.pieces[0].edges}
    assert lengths["sill"] == pytest.approx(500, abs=0.1)
    assert panel.missed <= SETTINGS.chord


def test_a_face_that_its_bends_would_use_up_is_refused() -> None:
    with pytest.raises(KitError, match=r"twist too much|bends take"):
        made((line((0, 0, 0), (500, 0, 300), "sill"), line((0, 5, 300), (500, 5, 0), "rail")))


def test_edges_of_a_frame_of_four_may_run_either_way() -> None:
    corners = [np.array(p, float) for p in ((0, 0, 0), (300, 0, 0), (300, 200, 40), (0, 200, 40))]
    a, b, c, d = corners
    edges = {"below": line(a, b, "below"), "above": line(d, c, "above"), "left": line(a, d, "left")}
    edges["right"] = line(b, c, "right")
    asked = (Asked("p", ("below", "above", "left", "right")),)
    areas = []
    for turned in ((), ("right",), ("above", "left"), ("below", "above", "left", "right")):
        given = {name: curve.reversed() if name in turned else curve for name, curve in edges.items()}
        (panel,) = cover(given, asked, SETTINGS)
        areas.append(Polygon(np.vstack([edge.line[:-1] for edge in panel.pieces[0].edges])).area)
    assert areas == pytest.approx([300 * np.hypot(200, 40)] * 4, rel=1e-3)
