"""What a fold takes, against paths measured step by step, and against the bend deduction of sheet metal."""

import numpy as np
import pytest

from kit.geometry.development.develop import develop
from kit.geometry.development.fold_loss import drawn_together, saved
from kit.geometry.development.primitives import polyline
from kit.subjects import model
from kit.subjects.cloth.geometry.covering import Asked, CoverSettings, cover

RADIUS = 8.0


@pytest.mark.parametrize("angle", [15, 60, 90])
def test_it_is_the_bend_deduction_less_what_the_outside_faces_are_longer(angle: int) -> None:
    """DIN 6935 counts to the corner of the outside faces, which lie outside of the middle by (1 - K) T."""
    case = model("fold.bend").at(bend_angle=f"{angle} deg", thickness="2 mm", inside_radius="3 mm", shop_factor="0.4")
    outside = 2 * (1 - 0.4) * 2.0 * np.tan(np.radians(angle) / 2)
    assert saved(np.radians(angle), 3 + 0.4 * 2) == pytest.approx(case.base["deduction"] - outside, abs=1e-12)


def path_length(turns: list[float], legs: list[float], radius: float) -> float:
    """The length of a level path of straight legs whose corners are rounded, walked in a million small steps."""
    back = [radius * np.tan(np.radians(turn) / 2) for turn in turns]
    straight = sum(legs) - 2 * sum(back)
    arcs = 0.0
    for turn in turns:
        t = np.linspace(0, np.radians(turn), 100_001)
        arcs += float(np.linalg.norm(np.diff(radius * np.column_stack([np.cos(t), np.sin(t)]), axis=0), axis=1).sum())
    return straight + arcs


def walls(turns: list[float], legs: list[float], lean: float = 0.0) -> tuple[np.ndarray, np.ndarray]:
    """Lower and upper edge of upright walls of those lengths, or of walls whose top is shifted."""
    corners, heading = [np.zeros(3)], 0.0
    for leg, turn in zip(legs, [*turns, 0.0], strict=True):
        corners.append(corners[-1] + leg * np.array([np.cos(heading), np.sin(heading), 0.0]))
        heading += np.radians(turn)
    low = np.array(corners)
    return low, low + np.array([lean, 0.0, 300.0])


@pytest.mark.parametrize("turns", [[90.0], [60.0, 45.0], [30.0, 30.0, 30.0]])
def test_walls_folded_round_posts_are_as_long_as_the_rounded_path(turns: list[float]) -> None:
    legs = [200.0 + 30 * k for k in range(len(turns) + 1)]
    low, high = walls(turns, legs)
    made = develop(polyline(low, name="low"), polyline(high, name="high"))
    flat = drawn_together(made.strip, made.flat, RADIUS)
    told = path_length(turns, legs, RADIUS)
    for edge in (flat.a, flat.b):
        assert np.linalg.norm(edge[-1] - edge[0]) == pytest.approx(told, abs=1e-5)
    assert flat.area == pytest.approx(300.0 * told, rel=1e-7)


def test_leaning_folds_are_drawn_together_square_to_themselves() -> None:
    """Strips of the saved width along the folds are gone; the corners, moved square to folds that the edges do not
    meet at right angles, take
    slivers with them, as long as the last facet before the corner: less than a fiftieth in all."""
    turns, legs = [50.0, 40.0], [200.0, 180.0, 220.0]
    low, high = walls(turns, legs, lean=40.0)
    made = develop(polyline(low, name="low"), polyline(high, name="high"))
    flat = drawn_together(made.strip, made.flat, RADIUS)
    inner = np.flatnonzero(made.strip.crease[1:-1]) + 1
    fold = np.linalg.norm(made.flat.b[inner] - made.flat.a[inner], axis=1)
    facing = made.strip.normals
    angle = np.arccos(np.clip(np.sum(facing[inner - 1] * facing[inner], axis=1), -1, 1))
    gone = float((saved(angle, RADIUS) * fold).sum())
    assert made.flat.area - flat.area == pytest.approx(gone, rel=2e-2)
    strip = made.strip
    corner = [np.isin(np.round(t, 9), np.round(t[inner], 9)) for t in (strip.t, strip.s)]
    long = [np.linalg.norm(each.b - each.a, axis=1) for each in (flat, made.flat)]
    whole = corner[0] == corner[1]  # a ruling that meets a crease at one end only gives a little
    assert long[0][whole] == pytest.approx(long[1][whole], rel=1e-9)
    assert np.abs(long[0] - long[1]).max() < saved(angle.max(), RADIUS)


def test_a_skin_over_posts_is_cut_shorter_by_its_folds() -> None:
    low, high = walls([90.0], [200.0, 200.0])
    curves = {"low": polyline(low, name="low"), "high": polyline(high, name="high")}
    plain, rounded = (
        cover(curves, (Asked("wall", ("low", "high")),), CoverSettings(crease_radius=radius))[0].pieces[0]
        for radius in (0.0, RADIUS)
    )
    lengths = [{edge.name: edge.length for edge in piece.edges} for piece in (plain, rounded)]
    assert lengths[0]["low"] - lengths[1]["low"] == pytest.approx(RADIUS * (2 - np.pi / 2), abs=1e-9)
    assert len(rounded.creases) == 1
