"""What a view in space consists of: projections against hand-computed numbers, and what is refused."""

from math import sqrt

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.drawing.space import PAINTS, STANDARD, Camera, Line, Mark, Solid, View
from tests.drawing.space_demo import BOX_FACES, box

POINT = (1.0, 2.0, 3.0)


@pytest.mark.parametrize(
    ("name", "right", "up", "near"),
    [  # read off a drawing of the axes: x to the right, y away, z up, seen from the front
        ("front", 1, 3, -2),
        ("back", -1, 3, 2),
        ("left", -2, 3, -1),
        ("right", 2, 3, 1),
        ("top", 1, 2, 3),
    ],
)
def test_the_standard_views_are_those_of_a_drawing(name: str, right: float, up: float, near: float) -> None:
    assert STANDARD[name].project(POINT) == pytest.approx([right, up, near], abs=1e-12)


def test_the_corner_view_against_a_table_of_sines() -> None:
    """35° around, 25° up; sin 35° = 0.5736, cos 35° = 0.8192, sin 25° = 0.4226, cos 25° = 0.9063 (school table)."""
    axes = STANDARD["corner"].axes
    assert axes[0] == pytest.approx([0.8192, 0.5736, 0], abs=5e-5)
    assert axes[1] == pytest.approx([-0.5736 * 0.4226, 0.8192 * 0.4226, 0.9063], abs=1e-4)
    assert axes[2] == pytest.approx([0.5736 * 0.9063, -0.8192 * 0.9063, 0.4226], abs=1e-4)


def test_the_isometric_view_shortens_all_axes_alike() -> None:
    """The cube's diagonal toward the eye: every axis is drawn sqrt(2/3) = 0.816 long (ISO 5456-3, from memory)."""
    camera = Camera(45, float(np.degrees(np.arctan(1 / sqrt(2)))))
    lengths = np.linalg.norm(camera.project(np.eye(3))[:, :2], axis=1)
    assert lengths == pytest.approx([0.8164966] * 3, abs=1e-7)


def test_a_camera_turns_without_stretching() -> None:
    axes = Camera(123.4, -56.7).axes
    assert axes @ axes.T == pytest.approx(np.eye(3), abs=1e-14)
    assert np.linalg.det(axes) == pytest.approx(1)


def test_a_box_has_eight_corners_twelve_sharp_edges_and_an_inside() -> None:
    for faces in (BOX_FACES, BOX_FACES[:, ::-1]):  # given outward and inward
        corners = np.asarray(box("b", (0, 0, 0), (1, 2, 3)).vertices)
        soup = corners[faces].reshape(-1, 3)  # every face with corners of its own, as in an STL file
        shape = Solid("b", soup, np.arange(36).reshape(-1, 3)).shape
        assert len(shape.corners) == 8
        assert shape.closed
        assert int(shape.sharp.sum()) == 12
        outward = np.einsum("ij,ij->i", shape.corners[shape.faces[:, 0]] - (0.5, 1, 1.5), shape.normals)
        assert (outward > 0).all()


def test_an_open_sheet_has_a_border_and_no_inside() -> None:
    shape = Solid("sheet", [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)], [(0, 1, 2), (0, 2, 3)]).shape
    assert not shape.closed
    assert int(shape.sharp.sum()) == 4


def test_faces_without_area_do_no_harm() -> None:
    shape = Solid("sheet", [(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 0)], [(0, 1, 2), (0, 1, 3)]).shape
    assert len(shape.faces) == 1


def test_the_box_around_everything_leaves_out_unused_corners() -> None:
    triangle = Solid("t", [(0, 0, 0), (1, 0, 0), (0, 1, 0), (1e6, 0, 0)], [(0, 1, 2)])
    low, high = View([triangle], [Line("l", [(0, 0, 0), (0, 0, 5)])], [Mark("m", (-2, 0, 0))]).box
    assert low == pytest.approx([-2, 0, 0])
    assert high == pytest.approx([1, 1, 5])


TRIANGLE = [(0, 0, 0), (1, 0, 0), (0, 1, 0)]


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda: Solid("a", [(0, 0)], [(0, 0, 0)]), "rows of x, y, z"),
        (lambda: Solid("a", [(0, 0, float("nan"))], [(0, 0, 0)]), "not within"),
        (lambda: Solid("a", [(0, 0, 1e9)], [(0, 0, 0)]), "check its unit"),
        (lambda: Solid("a", TRIANGLE, [(0, 1, 3)]), "it has 3"),
        (lambda: Solid("a", TRIANGLE, [(0, 1, -1)]), "it has 3"),
        (lambda: Solid("a", TRIANGLE, [(0.0, 1.0, 2.0)]), "three numbers of vertices"),
        (lambda: Solid("a", TRIANGLE, [(0, 1, 2)], fill="wod"), "did you mean 'wood'"),
        (lambda: Solid("a", TRIANGLE, [(0, 1, 2)], opacity=0), "opacity"),
        (lambda: Line("a", [(0, 0, 0)]), "two or more"),
        (lambda: Line("a", TRIANGLE, "blu"), "did you mean 'blue'"),
        (lambda: Line("a", TRIANGLE, width_mm=0), "mm wide"),
        (lambda: Mark("a", (0, 0)), "x, y, z"),
        (lambda: View([]), "nothing to show"),
        (lambda: View([Solid("a", TRIANGLE, np.tile([(0, 1, 2)], (200_001, 1)))]), "at most 200000"),
        (lambda: Camera(0, 91), "between -90° and 90°"),
        (lambda: Camera(float("nan"), 0), "turned nan"),
    ],
)
def test_wrong_input_is_refused_in_a_sentence(make: object, told: str) -> None:
    with pytest.raises(KitError, match=told):
        make()  # type: ignore[operator]


def test_paints_differ_in_lightness_where_they_are_solids_side_by_side() -> None:
    """For color-blind readers and gray printers: boards, their neighbors, the saw and the cloth (Rec. 709 luma)."""
    luma = {
        name: sum(part * share for part, share in zip(bytes.fromhex(hexa[1:]), (0.2126, 0.7152, 0.0722), strict=True))
        for name, hexa in PAINTS.items()
    }
    assert luma["wood"] - luma["dark wood"] > 40
    assert abs(luma["wood"] - luma["machine"]) > 20
