"""Developments against closed forms: cones, cylinders, a mitered cylinder, prisms, a square-to-round.

Sources: cone sector angle 360 r / s (Dr. Math archive, 61472); lateral area of a frustum 2 π l (r1 + r2) / 2 (calculus
text); true length of a triangulation line (plan length against height, shop rule of triangulation); the sine curve of
a mitered cylinder and the area integrals are worked out beside the tests.
"""

import numpy as np
import pytest
from scipy.integrate import quad

from kit.geometry.development.curves import Curve
from kit.geometry.development.develop import develop, total_turn
from kit.geometry.development.primitives import apex, arc, circle, ellipse, line, polyline, rectangle
from kit.geometry.development.ruled_strip import through
from kit.geometry.development.segments import Arc
from kit.geometry.development.unroll import kept, unroll

FINE = 1e-4  # mm, chord error; the errors below follow from it


@pytest.mark.parametrize("tip", [True, False])
def test_a_right_cone_opens_to_a_sector_of_angle_360_r_over_s(tip: bool) -> None:
    radius, height, share = 90.0, 120.0, 1.0 if tip else 0.6
    slant = float(np.hypot(radius, height))  # 150 mm
    top = apex((0, 0, height)) if tip else circle(radius * (1 - share), (0, 0, height * share))
    d = develop(circle(radius), top, chord=FINE)
    assert np.degrees(abs(total_turn(d.flat))) == pytest.approx(360 * radius / slant, rel=1e-5)
    area = np.pi * (slant * share) * (radius + radius * (1 - share))
    assert d.flat.area == pytest.approx(area, rel=1e-5)
    arm = np.linalg.norm(d.flat.b - d.flat.a, axis=1)
    assert arm == pytest.approx(np.full(len(arm), slant * share), rel=1e-12)


def test_a_cylinder_opens_to_a_rectangle() -> None:
    d = develop(circle(50), circle(50, (0, 0, 80)), chord=FINE)
    assert d.flat.a[-1] == pytest.approx([2 * np.pi * 50, 0.0], rel=1e-5, abs=1e-8)
    assert d.flat.area == pytest.approx(2 * np.pi * 50 * 80, rel=1e-5)


def test_an_oblique_cylinder_has_the_area_of_its_right_section_times_its_length() -> None:
    lean = np.array([60.0, 0.0, 80.0])
    d = develop(circle(50), circle(50, tuple(lean)), chord=FINE)
    # The section square to the axis is an ellipse with half axes 50 and 50 · 80/100.
    around, _ = quad(lambda p: np.hypot(50 * np.sin(p), 40 * np.cos(p)), 0, 2 * np.pi)
    assert d.flat.area == pytest.approx(around * 100, rel=1e-5)


def test_an_oblique_cone_has_the_area_of_its_integral() -> None:
    tip = np.array([70.0, 30.0, 120.0])
    d = develop(circle(60), apex(tuple(tip)), chord=FINE)

    def half_cross(p: float) -> float:
        rim = np.array([60 * np.cos(p), 60 * np.sin(p), 0.0])
        step = np.array([-60 * np.sin(p), 60 * np.cos(p), 0.0])
        return float(np.linalg.norm(np.cross(step, tip - rim))) / 2

    assert d.flat.area == pytest.approx(quad(half_cross, 0, 2 * np.pi)[0], rel=1e-5)
    arm = np.linalg.norm(d.flat.a - d.flat.b, axis=1)
    assert arm.max() == pytest.approx(np.hypot(np.hypot(70, 30) + 60, 120), abs=1e-3)
    assert arm.min() == pytest.approx(np.hypot(np.hypot(70, 30) - 60, 120), abs=1e-3)


@pytest.mark.parametrize("miter", [15.0, 45.0])
def test_a_mitered_cylinder_unrolls_to_a_sine_curve(miter: float) -> None:
    radius, slope = 40.0, np.tan(np.radians(miter))
    base = circle(radius)
    # The plane z = 100 + x tan(miter) cuts the cylinder in an ellipse above the circle.
    cut = base.moved(np.array([[1.0, 0, 0], [0, 1, 0], [slope, 0, 0]]), np.array([0.0, 0, 100.0]))
    d = develop(base, cut, chord=1e-3, method="equal")
    along = d.flat.b[:, 0]
    height = 100 + radius * slope * np.cos(along / radius)
    # The rim shortens by a part of (chord angle)²/24, at most 2 e-5 here.
    assert d.flat.b[:, 1] == pytest.approx(height, abs=5e-3)
    assert d.flat.a[-1, 0] == pytest.approx(2 * np.pi * radius, rel=2e-5)
    hull = develop(base, cut, chord=1e-3)
    assert hull.flat.area == pytest.approx(d.flat.area, rel=1e-5)


def test_prisms_and_pyramids_are_exact() -> None:
    box = develop(rectangle(300, 200), rectangle(300, 200, (0, 0, 100)))
    assert box.flat.area == pytest.approx(2 * (300 + 200) * 100, rel=1e-12)
    frustum = develop(rectangle(300, 300), rectangle(100, 100, (0, 0, 150)))
    face = np.hypot(150, 100)
    assert frustum.flat.area == pytest.approx(4 * face * (300 + 100) / 2, rel=1e-12)
    hexagon = [(60 * np.cos(k * np.pi / 3), 60 * np.sin(k * np.pi / 3), 0.0) for k in range(6)]
    pyramid = develop(polyline(hexagon, closed=True), apex((0, 0, 80)))
    apothem = np.hypot(80, 60 * np.cos(np.pi / 6))
    assert pyramid.flat.area == pytest.approx(6 * 60 * apothem / 2, rel=1e-12)


def test_a_square_to_round_keeps_the_true_lengths_of_triangulation() -> None:
    """Square 200, circle radius 50, height 150 mm: inputs of a public question; lengths by the triangulation rule."""
    d = develop(rectangle(200, 200), circle(50, (0, 0, 150)), chord=FINE)
    corner = d.strip.crease | (np.abs(np.abs(d.strip.a[:, :2]) - 100).max(axis=1) < 1e-9)
    arm = np.linalg.norm(d.flat.a - d.flat.b, axis=1)[corner]
    assert arm.min() == pytest.approx(175.664, abs=5e-4)  # sqrt(2 (100 - 35.3553)² + 150²)
    assert arm.max() == pytest.approx(187.083, abs=5e-4)  # sqrt(50² + 100² + 150²)
    top = np.linalg.norm(np.diff(d.flat.b, axis=0), axis=1).sum()
    assert top == pytest.approx(100 * np.pi, rel=1e-5)

    # Four flat triangles of base 200 and height sqrt(50² + 150²) = 158.114, and four parts of oblique cones.
    def half_cross(p: float) -> float:
        rim = np.array([50 * np.cos(p), 50 * np.sin(p), 150.0])
        step = np.array([-50 * np.sin(p), 50 * np.cos(p), 0.0])
        return float(np.linalg.norm(np.cross(step, np.array([100.0, 100, 0]) - rim))) / 2

    area = 4 * 200 * 158.11388 / 2 + 4 * quad(half_cross, 0, np.pi / 2)[0]
    assert d.flat.area == pytest.approx(area, rel=1e-6)


def test_a_gore_between_two_meridians_is_a_piece_of_an_elliptic_cylinder() -> None:
    """Both ribs meet at the poles; by symmetry the rulings join equal heights, square to the plane between the ribs.

    Across a meridian plane 0.2 rad off, at latitude p, the gore is 2 R cos p sin 0.2 wide, and it is as long as the
    ellipse (R cos p cos 0.2, R sin p).
    """
    radius, half = 100.0, 0.2
    ribs = [
        arc(
            (0, 0, -radius),
            (radius * np.cos(k * half), radius * np.sin(k * half), 0),
            (0, 0, radius),
            f"rib {k}",
        )
        for k in (-1, 1)
    ]
    d = develop(ribs[0], ribs[1], chord=1e-4)

    def speed(p: float) -> float:
        return float(radius * np.hypot(np.sin(p) * np.cos(half), np.cos(p)))

    long = quad(speed, -np.pi / 2, np.pi / 2)[0]
    area = quad(lambda p: 2 * radius * np.cos(p) * np.sin(half) * speed(p), -np.pi / 2, np.pi / 2)[0]
    assert d.twist < 1e-9
    assert d.flat.area == pytest.approx(area, rel=1e-5)
    assert np.linalg.norm(d.flat.a[-1] - d.flat.a[0]) == pytest.approx(long, rel=1e-5)
    assert np.linalg.norm(d.flat.b - d.flat.a, axis=1).max() == pytest.approx(2 * radius * np.sin(half), rel=1e-5)


def test_the_hull_encloses_the_volume_of_a_square_to_round() -> None:
    """(H/3)(S² + S D + (π/4) D²): T. R. Smith, volume of a square-to-round transition."""
    side, diameter, height = 200.0, 100.0, 150.0
    d = develop(rectangle(side, side), circle(diameter / 2, (0, 0, height)), chord=FINE)
    p, q, r = d.strip.triangles.swapaxes(0, 1)
    skin = np.einsum("ij,ij->i", p, np.cross(q, r)).sum() / 6
    lid = height * np.pi * (diameter / 2) ** 2 / 3  # the floor lies in the plane of the origin
    volume = height / 3 * (side**2 + side * diameter + np.pi / 4 * diameter**2)
    assert skin + lid == pytest.approx(volume, rel=1e-6)


def test_facets_converge_to_the_closed_form_with_the_square_of_the_step() -> None:
    exact = 2 * np.pi * 75 * np.hypot(50, 200)
    errors = [
        exact - develop(circle(100), circle(50, (0, 0, 200)), chord=chord).flat.area for chord in (0.4, 0.1, 0.025)
    ]
    assert min(errors) > 0
    # A quarter of the chord error is half the step and a quarter of the area's error.
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.15)
    assert errors[1] / errors[2] == pytest.approx(4, rel=0.15)


def test_the_chord_bound_holds_for_the_true_surface() -> None:
    """Points of a true cone frustum are no farther from the facets than the bound says, and not much nearer."""
    d = develop(circle(100), circle(50, (0, 0, 200)), chord=0.2)
    normal = np.cross(*(d.strip.triangles[:, k] - d.strip.triangles[:, 0] for k in (1, 2)))
    normal /= np.linalg.norm(normal, axis=1)[:, None]
    angle = np.linspace(0, 2 * np.pi, 2001)
    rim = 100 * np.column_stack([np.cos(angle), np.sin(angle), 0 * angle])
    inside = ((rim[:, None] - d.strip.triangles[None, :, 0]) * normal).sum(axis=2)
    farthest = inside.min(axis=1) if inside.mean() > 0 else (-inside).min(axis=1)
    assert -farthest.min() <= d.chord_bound <= 0.2
    assert -farthest.min() > 0.2 * d.chord_bound


def test_lengths_area_and_angles_are_conserved() -> None:
    a, b = rectangle(300, 200, radius=30), circle(60, (40, 20, 200), tilt=0.3, azimuth=1.0)
    d = develop(a, b)
    found = kept(d.strip, d.flat)
    assert max(found.edges, found.rulings) < 1e-9
    assert found.area < 1e-9 * d.flat.area
    # Inner angles at a vertex of the edge add up to the same in space and on the table.
    ia, ib = d.strip.zigzag
    assert len(ia) - 1 == len(d.strip.triangles)
    flat_turn = total_turn(d.flat)
    ruling = d.strip.b[ib] - d.strip.a[ia]
    step = np.arccos(
        np.clip(
            np.einsum("ij,ij->i", ruling[1:], ruling[:-1])
            / np.linalg.norm(ruling[1:], axis=1)
            / np.linalg.norm(ruling[:-1], axis=1),
            -1,
            1,
        )
    )
    on_a = np.diff(ia) * np.linalg.norm(np.diff(d.strip.a[ia], axis=0), axis=1) > 0
    assert flat_turn == pytest.approx(np.where(on_a, step, -step).sum(), abs=1e-5)


def test_folding_a_flat_piece_back_gives_the_start() -> None:
    """An independent way back: each flat triangle put on the space triangle beside it by its three distances."""
    d = develop(circle(80), circle(40, (20, 0, 100)))
    for k in range(0, len(d.strip.a) - 1, 7):
        space = np.stack([d.strip.a[k], d.strip.a[k + 1], d.strip.b[k], d.strip.b[k + 1]])
        flat = np.stack([d.flat.a[k], d.flat.a[k + 1], d.flat.b[k], d.flat.b[k + 1]])
        apart = [np.linalg.norm(p[:, None] - p[None], axis=2) for p in (space, flat)]
        assert apart[1] == pytest.approx(apart[0], abs=1e-3)  # both diagonals: the quad is as good as plane


@pytest.mark.parametrize("distance", [-2.0, 2.0])
def test_the_neutral_surface_of_a_cylinder_is_a_cylinder(distance: float) -> None:
    d = develop(circle(50), circle(50, (0, 0, 80)), chord=1e-3, offset=distance)
    assert d.flat.area == pytest.approx(2 * np.pi * (50 + distance) * 80, rel=1e-4)


def test_the_neutral_surface_of_a_box_is_a_box() -> None:
    d = develop(rectangle(300, 200), rectangle(300, 200, (0, 0, 100)), offset=1.5)
    assert d.flat.area == pytest.approx(2 * (303 + 203) * 100, rel=1e-12)


def test_a_plane_strip_stays_as_it_is() -> None:
    a = np.array([[0, 0, 0], [10, 0, 0], [20, 5, 0]], dtype=float)
    b = np.array([[0, 8, 0], [9, 8, 0], [18, 12, 0]], dtype=float)
    flat = unroll(through(a, b))
    assert flat.a == pytest.approx(a[:, :2] - a[0, :2])
    assert flat.b == pytest.approx(b[:, :2] - a[0, :2])


def test_lengths_of_curves() -> None:
    assert circle(50).lengths.sum() == pytest.approx(2 * np.pi * 50, rel=1e-12)
    assert rectangle(300, 200, radius=40).lengths.sum() == pytest.approx(2 * 500 - 8 * 40 + 2 * np.pi * 40)
    # An ellipse with half axes 1 and 2 has the circumference 9.68844822054768 (Abramowitz & Stegun 17.3, from memory).
    assert ellipse(1, 2).lengths.sum() == pytest.approx(9.68844822054768, rel=1e-10)
    assert line((0, 0, 0), (3, 4, 12)).lengths.sum() == pytest.approx(13)
    half = Curve((Arc(np.zeros(3), np.array([2.0, 0, 0]), np.array([0, 2.0, 0]), 0.0, np.pi),), False)
    assert half.lengths.sum() == pytest.approx(2 * np.pi)
