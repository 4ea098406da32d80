"""Relief cuts against the geometry they are derived from, done apart: rotated arcs, folded flaps, closing notches."""

import numpy as np
import pytest
import sympy as sp
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from kit.subjects.cloth.geometry.edge_finish import finished
from kit.subjects.cloth.geometry.hems import Tolerance, bends, reliefs
from kit.subjects.cloth.geometry.pattern import Finish, SewEdge
from kit.subjects.cloth.geometry.relief_cuts import (
    cut_spacing,
    free_depth,
    notch_angle,
    strain_of_fold,
    turn_per_cut,
    turns_along,
)
from tests.subjects.cloth.geometry.test_pieces import arc_edge, polygon_edges


@pytest.mark.parametrize("concave", [True, False])
def test_the_strain_of_a_fold_is_that_of_an_arc_mirrored_over_a_circle(concave: bool) -> None:
    """Lengths of arcs by summing chords of points at R ∓ y and at R ± y."""
    radius, distance, turn = 120.0, 9.0, 0.7
    angle = np.linspace(0, turn, 20001)
    ray = np.column_stack([np.cos(angle), np.sin(angle)])
    side = -1 if concave else 1
    lies, comes = (np.linalg.norm(np.diff((radius + k * distance) * ray, axis=0), axis=1).sum() for k in (side, -side))
    assert strain_of_fold(distance, radius, concave) == pytest.approx(abs(comes / lies - 1), rel=1e-9)


@pytest.mark.parametrize("concave", [True, False])
def test_the_free_depth_solves_the_strain_for_the_distance(concave: bool) -> None:
    y, R, e = sp.symbols("y R epsilon", positive=True)
    strain = 2 * y / (R - y if concave else R + y)
    (solution,) = sp.solve(sp.Eq(strain, e), y)
    numbers = {R: 87.0, e: 0.08}
    assert free_depth(87.0, 0.08, concave) == pytest.approx(float(solution.subs(numbers)))
    assert strain_of_fold(free_depth(87.0, 0.08, concave), 87.0, concave) == pytest.approx(0.08)


@given(st.floats(10, 1e4), st.floats(0.005, 0.5), st.booleans())
def test_spacing_depth_and_turn_belong_together(radius: float, strain: float, concave: bool) -> None:
    spacing = cut_spacing(radius, strain, concave)
    assert strain_of_fold(spacing / 2, radius, concave) == pytest.approx(strain)
    assert turn_per_cut(strain, concave) == pytest.approx(spacing / radius)


def test_a_notch_closes_when_the_hem_is_folded() -> None:
    """Fold the flap beside a notch over its chord: the notch's side comes to lie on the line of symmetry."""
    for turn in (0.02, 0.12, 0.3):
        half = notch_angle(turn, 0.0) / 2
        side = np.array([np.sin(half), -np.cos(half)])  # the hem lies below, the notch's line of symmetry upright
        chord = np.array([np.cos(turn / 2), np.sin(turn / 2)])  # rises by half of what one notch relieves
        mirrored = 2 * (side @ chord) * chord - side
        assert mirrored[1] > 0
        # Upright but for φ - atan φ, of third order: the sides are straight where exact ones would be curved.
        assert -mirrored[0] == pytest.approx(turn - np.arctan(turn), rel=0.01)


@pytest.mark.parametrize(("radius", "depth", "turn"), [(60.0, 50.0, 75.0), (160.0, 18.0, 75.0), (90.0, 40.0, 30.0)])
def test_a_notched_hem_is_strained_no_more_than_tolerated_up_to_its_own_edge(
    radius: float, depth: float, turn: float
) -> None:
    """Arcs by their chords: what a notch leaves of the hem at any distance, and the arc on which it comes to lie."""
    tolerated = 0.1
    count = np.ceil(np.radians(turn) / turn_per_cut(tolerated, False))
    share = np.radians(turn) / count
    free = free_depth(radius, tolerated, False)
    angle = np.linspace(0, share, 2001)
    ray = np.column_stack([np.cos(angle), np.sin(angle)])
    for y in np.linspace(free, depth, 5):
        lies, comes = (np.linalg.norm(np.diff((radius + k * y) * ray, axis=0), axis=1).sum() for k in (1, -1))
        notch = 2 * (y - free) * np.tan(notch_angle(share, tolerated) / 2)
        assert 1 - comes / (lies - notch) == pytest.approx(tolerated, abs=1e-6)


@pytest.mark.parametrize(("concave", "kind"), [(True, "slit"), (False, "notch")])
def test_cuts_are_spaced_and_deep_as_computed(concave: bool, kind: str) -> None:
    radius, turn, depth, tolerance = 150.0, 1.2, 20.0, Tolerance(0.1, 3.0)
    edges = {e.name: e for e in arc_edge(radius, turn, Finish("hem", depth), concave=concave, steps=80)}
    edge = edges["inner" if concave else "outer"]
    cuts = reliefs(edge, tolerance)
    assert {cut.kind for cut in cuts} == {kind}
    free = free_depth(radius, tolerance.strain, concave)
    roots = np.array([cut.points[1] for cut in cuts])
    out = -1 if concave else 1
    assert np.hypot(*roots.T) == pytest.approx(np.full(len(cuts), radius + out * free), rel=2e-3)
    angle = np.sort(np.arctan2(roots[:, 1], roots[:, 0]))
    assert np.diff(angle).max() <= turn_per_cut(tolerance.strain, concave) * 1.001
    # One cut less would not do.
    assert turn / (len(cuts) - 1) > turn_per_cut(tolerance.strain, concave) * 0.97
    if kind == "notch":
        mouth, root, other = cuts[len(cuts) // 2].points
        opening = np.arccos((mouth - root) @ (other - root) / np.hypot(*(mouth - root)) / np.hypot(*(other - root)))
        assert opening == pytest.approx(notch_angle(turn / len(cuts), tolerance.strain), rel=0.03)


def test_no_cut_comes_nearer_to_the_fold_line_than_stated() -> None:
    for concave in (True, False):
        piece = finished("ring", arc_edge(100, 1.4, Finish("hem", 18), concave=concave), tolerance=Tolerance(0.12, 4.0))
        assert piece.reliefs
        fold = LineString(piece.folds[0][1])
        for cut in piece.reliefs:
            assert fold.distance(LineString(cut.points)) >= 4.0


def test_a_flat_or_shallow_hem_needs_no_cut() -> None:
    assert all(not reliefs(edge, Tolerance()) for edge in polygon_edges([(0, 0), (9, 0), (9, 9)], Finish("hem", 3)))
    gentle = arc_edge(2000, 0.2, Finish("hem", 12), concave=False)
    assert all(not reliefs(edge, Tolerance(0.1)) for edge in gentle)


def test_a_wavy_edge_is_slit_inward_and_notched_outward() -> None:
    x = np.linspace(0, 400, 401)
    wave = SewEdge("wave", np.column_stack([x, 15 * np.sin(x / 400 * 4 * np.pi)]), Finish("hem", 14))
    cuts = reliefs(wave, Tolerance(0.1, 1.0))
    for cut in cuts:
        # Counterclockwise, the cloth lies above; a trough (y < 0) is convex, a crest concave.
        on_line = np.interp(cut.points[:, 0].mean(), *wave.line.T)
        assert cut.kind == ("notch" if on_line < 0 else "slit")
    assert {cut.kind for cut in cuts} == {"slit", "notch"}


def test_the_running_turn_of_facets_is_that_of_the_arc() -> None:
    angle = np.linspace(0, 2.0, 31)
    along, turned = turns_along(50 * np.column_stack([np.cos(angle), np.sin(angle)]))
    inside = slice(1, -1)
    middle = along[inside] / 50
    assert turned[inside] - turned[1] == pytest.approx(middle - middle[0], rel=1e-3)
    assert along[-1] == pytest.approx(100.0, rel=1e-3)


def test_tiny_facets_tell_of_no_tighter_bend() -> None:
    """A quarter circle of radius 80 between straight parts, sampled with a tiny facet beside every large one."""
    angle = np.sort(np.concatenate([np.linspace(0, np.pi / 2, 40), np.linspace(0, np.pi / 2, 40)[1:-1] + 2e-4]))
    bend = 80 * np.column_stack([np.sin(angle), 1 - np.cos(angle)])
    line = np.vstack([[-150, 0], bend, bend[-1] + np.array([0, 120])])
    (found,) = bends(line)
    assert found.radius == pytest.approx(80, rel=0.02)
    assert found.turn == pytest.approx(np.pi / 2, rel=1e-3)
    assert not found.concave


def test_an_edge_flatter_than_ten_meters_is_straight() -> None:
    angle = np.linspace(0, 0.02, 30)
    assert bends(20_000 * np.column_stack([np.sin(angle), 1 - np.cos(angle)])) == []
    assert len(bends(5_000 * np.column_stack([np.sin(angle), 1 - np.cos(angle)]))) == 1
