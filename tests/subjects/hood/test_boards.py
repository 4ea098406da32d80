"""Boards as solids: closure against polyhedra of known dihedral angle, booleans of an independent solid library."""

from itertools import combinations
from math import atan, cos, degrees, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.subjects.hood.geometry.boards import Face, boards, room
from kit.subjects.hood.geometry.form import FLOOR
from kit.subjects.hood.geometry.solid import joined
from tests.subjects.hood.forms import dodecahedron, form, meshes, platonic, ring, volume

CUBE = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]
TETRAHEDRON = [(1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1)]
OCTAHEDRON = [(a, b, c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)]
# Dihedral angles as printed in tables of the Platonic solids (read); area and volume of the unit-edge solids follow.
SOLIDS = [
    ("tetrahedron", TETRAHEDRON, 70.53, 3),
    ("cube", CUBE, 90.0, 4),
    ("octahedron", OCTAHEDRON, 109.47, 3),
    ("dodecahedron", dodecahedron(), 116.57, 5),
]


@pytest.mark.parametrize(("name", "normals", "dihedral", "sides"), SOLIDS)
def test_boards_close_round_a_platonic_solid(name: str, normals, dihedral: float, sides: int) -> None:  # type: ignore[no-untyped-def]
    """Every edge has the known dihedral and half of it on each board; outside and inside scale with the radius."""
    faces = platonic(normals)
    made = boards(faces)
    assert len(made) == len(normals)
    outer, inner = room(faces).volume, room(faces, inside=True).volume
    assert inner / outer == pytest.approx(0.9**3, rel=1e-9)  # similar solids, inradii 100 and 90
    for board in made:
        assert len(board.edges) == sides
        for edge in board.edges:
            assert degrees(edge.dihedral or 0.0) == pytest.approx(dihedral, abs=0.005)
            assert degrees(edge.tilt) == pytest.approx(90.0 - dihedral / 2.0, abs=0.005)
            assert edge.inside / edge.outside == pytest.approx(0.9, rel=1e-9)
    _close(meshes(made), outer - inner)


def test_the_dodecahedron_has_the_edge_that_its_inradius_asks_for() -> None:
    """Inradius = edge · 1.113516 (handbook, from memory)."""
    for board in boards(platonic(dodecahedron())):
        for edge in board.edges:
            assert edge.outside == pytest.approx(100.0 / 1.113516, rel=1e-6)


def _close(solids: list[trimesh.Trimesh], shell: float) -> None:
    """The independent library finds closed solids that fill the shell, and nothing that two of them share."""
    assert all(solid.is_watertight for solid in solids)
    assert sum(solid.volume for solid in solids) == pytest.approx(shell, rel=1e-9)
    joined = trimesh.boolean.union(solids, engine="manifold")
    assert joined.is_watertight
    assert joined.volume == pytest.approx(shell, rel=1e-6)
    for one, two in combinations(solids, 2):
        shared = trimesh.boolean.intersection([one, two], engine="manifold")
        assert abs(volume(shared)) <= 1e-6 * shell


@pytest.mark.parametrize(
    "changed",
    [
        {},
        {"chamfer": 0.0},
        {"slope_front": radians(97)},
        {"slope_rear": radians(60), "chamfer": 260.0},
        {"thickness": 40.0},
        {"slope_right": radians(50)},  # the right face meets the left part of the top in a short edge
    ],
)
def test_a_hood_closes_without_overlap_or_gap(changed: dict[str, float]) -> None:
    hood = form(**changed)
    faces = hood.faces()
    shell = room(faces, FLOOR).volume - room(faces, FLOOR, inside=True).volume
    _close(meshes(boards(faces, FLOOR)), shell)


def test_boards_that_overlap_or_leave_a_gap_are_found_by_booleans() -> None:
    """The check itself: a board too many shares its own volume, a board left out is missing."""
    made = boards(platonic(CUBE))
    shell = 200.0**3 - 180.0**3
    assert max(joined(made, shell)) < 1e-6
    assert joined([*made, made[0]], shell)[1] == pytest.approx(made[0].solid.volume / shell, rel=1e-6)
    assert joined(made[1:], shell)[0] == pytest.approx(1.0 / 6.0, rel=1e-6)


def test_openings_only_take_away_their_own_prisms() -> None:
    """Brow, hole and notches by their areas on upright boards."""
    hood = form(slope_front=pi / 2, slope_back=pi / 2, slope_left=pi / 2, slope_right=pi / 2, slope_rear=pi / 2)
    made = boards(hood.faces(), FLOOR)
    whole, cut = meshes(made), meshes(made, hood)
    lost = {board.name: a.volume - b.volume for board, a, b in zip(made, whole, cut, strict=True)}
    assert all(solid.is_watertight for solid in cut)
    half, rise = 205.0, 45.0
    radius, angle = (half**2 + rise**2) / (2 * rise), 2.0 * atan(rise / half)
    segment = radius**2 * (angle - sin(angle) * cos(angle))
    assert lost["front"] == pytest.approx(12.0 * (410.0 * 470.0 + segment), rel=1e-4)
    assert lost["back"] == pytest.approx(12.0 * pi * 50.0**2, rel=3e-3)
    assert lost["right"] == pytest.approx(12.0 * 150.0 * 150.0, rel=1e-6)
    assert lost["left"] == pytest.approx(12.0 * 150.0 * 150.0, rel=1e-6)
    assert lost["top"] == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("count", "slope"), [(3, 60.0), (4, 72.0), (6, 70.0), (8, 45.0), (12, 85.0)])
def test_a_regular_frame_has_the_handbook_bevels(count: int, slope: float) -> None:
    """tan(miter) = cos(slope) tan(180°/N), sin(tilt) = sin(slope) sin(180°/N): handbooks of joinery, from memory."""
    s, half = radians(slope), pi / count
    top = Face.of("top", (0, 0, 1), 40.0, 10.0)
    for board in boards([*ring(count, s, 300.0, 10.0), top], FLOOR):
        if board.name == "top":
            continue
        by_name = {edge.meets: edge for edge in board.edges}
        for name, edge in by_name.items():
            if name.startswith("board"):
                assert tan(edge.miter) == pytest.approx(cos(s) * tan(half), rel=1e-9)
                assert sin(edge.tilt) == pytest.approx(sin(s) * sin(half), rel=1e-9)
        assert by_name["bench"].tilt == pytest.approx(pi / 2 - s, abs=1e-9)
        assert by_name["bench"].outside == pytest.approx(600.0 * tan(half), rel=1e-9)
        assert by_name["top"].tilt == pytest.approx(s / 2, abs=1e-9)  # half of what 180° less the slope lacks of 180°


def test_unlike_thicknesses_meet_from_corner_to_corner() -> None:
    """A square box of 10 and 20 mm boards: the miter leans by atan(1/2), and the corner is filled."""
    faces = [
        Face.of("a", (1, 0, 0), 100.0, 10.0), Face.of("b", (0, 1, 0), 100.0, 20.0),
        Face.of("c", (-1, 0, 0), 100.0, 10.0), Face.of("d", (0, -1, 0), 100.0, 20.0),
        Face.of("top", (0, 0, 1), 50.0, 10.0),
    ]  # fmt: skip
    made = {board.name: board for board in boards(faces, FLOOR)}
    at_b = next(edge for edge in made["a"].edges if edge.meets == "b")
    at_a = next(edge for edge in made["b"].edges if edge.meets == "a")
    assert degrees(at_b.tilt) == pytest.approx(degrees(atan(2.0)), abs=1e-9)
    assert degrees(at_a.tilt) == pytest.approx(degrees(atan(0.5)), abs=1e-9)
    _close(meshes(made.values()), 200.0 * 200.0 * 50.0 - 180.0 * 160.0 * 40.0)


def test_lengths_of_a_box_are_its_sides() -> None:
    made = {board.name: board for board in boards(platonic(CUBE, 10.0), ())}
    assert made["face 0"].size == pytest.approx((200.0, 200.0))
    assert {round(edge.inside, 6) for edge in made["face 0"].edges} == {180.0}


def test_the_faces_axes_are_right_handed_and_seen_from_outside() -> None:
    for face in form().faces():
        u, v, n = face.axes
        assert np.allclose(np.cross(u, v), n)
        assert u[2] == pytest.approx(0.0)
        assert v[2] >= 0.0
        assert np.allclose(face.raised(face.flat([[1.0, 2.0, 3.0]])), [[1.0, 2.0, 3.0]])


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"slope_left": 0.0}, "slope of the left is 0°"),
        ({"front": -400.0}, "leaves no room"),
        ({"height": 10.0}, "leaves no room"),
        ({"chamfer": 900.0}, "rear corners are cut off by 900 mm"),
        ({"thickness": 0.0}, "leaves no room"),
    ],
)
def test_measures_without_a_hood_get_a_sentence(changed: dict[str, float], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        form(**changed).faces()


def test_faces_that_do_not_close_get_a_sentence() -> None:
    with pytest.raises(KitError, match="do not close"):
        boards(ring(4, radians(70), 100.0, 10.0)[:3], FLOOR)
    with pytest.raises(KitError, match="called 'a'"):
        boards([Face.of("a", (1, 0, 0), 1.0, 0.1), Face.of("a", (0, 1, 0), 1.0, 0.1)])
    with pytest.raises(KitError, match="thick"):
        Face.of("a", (1, 0, 0), 1.0, 0.0)
    with pytest.raises(KitError, match="no direction"):
        Face.of("a", (0, 0, 0), 1.0, 1.0)


def test_a_pyramid_without_top_has_the_octahedron_dihedral() -> None:
    """Equal edges: half an octahedron; walls meet at 109.47° (read), the board ends in a tip."""
    slope = atan(sqrt(2.0))
    for board in boards(ring(4, slope, 100.0, 5.0), FLOOR):
        walls = [edge for edge in board.edges if edge.meets != "bench"]
        assert len(walls) == 2
        for edge in walls:
            assert degrees(edge.dihedral or 0.0) == pytest.approx(109.47, abs=0.005)
            assert edge.outside == pytest.approx(200.0, rel=1e-9)
            assert degrees(edge.miter) == pytest.approx(30.0, abs=1e-9)
