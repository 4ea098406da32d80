"""The swept envelope: nothing reaches out of it, and it is no larger than it says. Sweeps known in closed form."""

import math

import numpy as np
import pytest
import shapely
import trimesh

from kit.core.errors import KitError
from kit.geometry.clearance import Body
from kit.geometry.envelope import runs as runs_module
from kit.geometry.envelope.envelope import Envelope, envelope, envelope_of, unswung
from kit.geometry.motion import Chain, Joint, apply

SWING = Joint("swing", "turn", (20.0, -10.0, 0.0), (0.0, 0.0, 1.0), math.radians(-50), math.radians(50))
LITTLE = Joint("swing", "turn", (20.0, -10.0, 0.0), (0.0, 0.0, 1.0), 0.0, math.radians(1))
TILT = Joint("tilt", "turn", (0.0, 0.0, 60.0), (0.0, 1.0, 0.0), 0.0, math.radians(45))
SLIDE = Joint("slide", "slide", (0.0, 0.0, 0.0), (0.0, 1.0, 0.0), -50.0, 50.0)


def fine_box(low: tuple[float, float, float], high: tuple[float, float, float], edge: float = 8.0) -> trimesh.Trimesh:
    whole = trimesh.creation.box(bounds=[low, high])
    points, faces = trimesh.remesh.subdivide_to_size(whole.vertices, whole.faces, edge)
    return trimesh.Trimesh(points, faces, process=False)


def of(mesh: trimesh.Trimesh, chain: Chain, size: float) -> Envelope:
    return envelope(Body.of(mesh.vertices, mesh.faces), chain, size)


@pytest.mark.parametrize(
    "joints", [(SWING,), (SWING, TILT), (SLIDE, TILT), (SWING, TILT, SLIDE), (LITTLE, TILT), (LITTLE, SLIDE, TILT)]
)
def test_nothing_reaches_out_of_the_envelope(joints: tuple[Joint, ...]) -> None:
    """300 random positions of all joints: cells, heights, outlines and a section hold every point of the part."""
    chain, part = Chain(joints), fine_box((-40, 80, 10), (60, 170, 70), 30.0)
    shape = of(part, chain, 10.0)
    values = np.random.default_rng(1).uniform(chain.low, chain.high, (300, len(joints)))
    points = np.concatenate([apply(pose, part.vertices) for pose in chain.poses(values)])
    assert shape.contains(points).all()
    for outline, seen in (
        (shape.plan(), points[:, :2]),
        (shape.front(), np.c_[points[:, 0] - shape.axis[0], points[:, 2]]),
        (shape.side(), np.c_[shape.axis[1] - points[:, 1], points[:, 2]]),
    ):
        assert shapely.covers(outline.buffer(1e-6), shapely.points(seen)).all()
    near = points[np.abs(points[:, 2] - 40.0) < 1.0] * [1, 1, 0] + [0, 0, 40.0]
    section, frame = shape.section((0, 0, 40), (0, 0, 1))
    near = near[shape.contains(near)]
    assert len(near) > 20
    assert shapely.covers(section.buffer(1e-6), shapely.points(near @ frame.T)).all()


def test_a_swung_box_reaches_as_far_as_its_farthest_corner() -> None:
    """About the axis at (20, -10), the corner (60, 170) lies at radius √(40² + 180²) = 184.39 mm, top at 70 mm."""
    part, radius = fine_box((-40, 80, 10), (60, 170, 70)), math.hypot(40.0, 180.0)
    shape = of(part, Chain((SWING,)), 4.0)
    assert radius <= shape.outer().max() <= radius + shape.slack
    assert 70.0 <= shape.top().max() <= 70.0 + shape.slack
    _, _, right, top = shape.plan().bounds
    assert top == pytest.approx(radius - 10.0, abs=shape.slack)
    # the corner at azimuth 90° - atan(40/180) swings to the right by 50°
    assert right == pytest.approx(20.0 + radius * math.sin(math.atan2(40, 180) + math.radians(50)), abs=shape.slack)


def test_a_ball_on_an_arm_sweeps_a_ring_sector() -> None:
    """A ball of 30 mm at 200 mm, swung through 100°: seen from above 100° of a ring and two half disks."""
    ball = trimesh.creation.icosphere(subdivisions=4, radius=30.0)
    ball.apply_translation((0.0, 200.0, 50.0))
    swing = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, -1), math.radians(-50), math.radians(50)),))
    exact = math.radians(100) / 2.0 * (230.0**2 - 170.0**2) + math.pi * 30.0**2
    areas = []
    for size in (8.0, 4.0, 2.0):
        shape = of(ball, swing, size)
        areas.append(shape.plan().area)
        length = math.radians(100) * 400.0 + 2.0 * math.pi * 30.0  # both arcs and both ends
        assert exact <= areas[-1] <= exact + length * shape.slack
    errors = np.array(areas) - exact
    assert (errors[1:] < errors[:-1]).all()


def test_a_full_turn_is_a_ring() -> None:
    part = fine_box((100, -5, 0), (120, 5, 20))
    turn = Chain((Joint("turn", "turn", (0, 0, 0), (0, 0, 1), -math.pi, math.pi),))
    shape = of(part, turn, 4.0)
    assert (shape.outer() > 0).any(axis=1).all()
    assert shape.plan().interiors[0].length > 0
    assert not shape.contains([[0.0, 0.0, 10.0]])[0]


def test_a_part_on_the_axis_does_not_grow() -> None:
    disk = trimesh.creation.cylinder(radius=50.0, height=10.0, sections=64)
    turn = Chain((Joint("turn", "turn", (0, 0, 0), (0, 0, 1), -0.5, 0.5),))
    shape = of(disk, turn, 4.0)
    assert shape.outer().max() <= 50.0 + shape.slack
    assert shape.contains([[0.0, 0.0, 5.0]])[0]


def test_a_section_of_a_still_box_is_its_rectangle() -> None:
    still = Chain((Joint("none", "slide", (0, 0, 0), (0, 0, 1), 0.0, 0.0),))
    part = fine_box((-60, 40, 0), (60, 120, 80), 4.0)
    shape = of(part, still, 2.0)
    section, frame = shape.section((0, 80, 40), (0, 1, 0))
    np.testing.assert_allclose(np.abs(frame), [[1, 0, 0], [0, 0, 1]], atol=1e-12)
    width, height = section.bounds[2] - section.bounds[0], section.bounds[3] - section.bounds[1]
    slack = 2 * (shape.slack + 3 * shape.size)
    assert 120.0 <= width <= 120.0 + slack
    assert 80.0 <= height <= 80.0 + slack


def test_sizes_that_cannot_be_get_a_sentence() -> None:
    part = fine_box((-40, 80, 10), (60, 170, 70), 40.0)
    with pytest.raises(KitError, match="above 0"):
        of(part, Chain((SWING,)), 0.0)
    with pytest.raises(KitError, match="give larger"):
        of(part, Chain((SWING,)), 0.1)
    with pytest.raises(KitError, match="give larger"):
        of(part, Chain((SWING, TILT, SLIDE)), 0.01)
    with pytest.raises(KitError, match="normal of the section"):
        of(part, Chain((SWING,)), 20.0).section((0, 0, 0), (0, 0, 0))


def test_many_balls_are_counted_a_few_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    part, chain = fine_box((-40, 80, 10), (60, 170, 70), 30.0), Chain((SWING, TILT))
    at_once = of(part, chain, 10.0)
    monkeypatch.setattr(runs_module, "AT_ONCE", 100)
    np.testing.assert_array_equal(of(part, chain, 10.0).cells, at_once.cells)


def test_parts_on_one_swing_share_an_envelope() -> None:
    """A post that only swings and an arm that tilts as well: all points of both, and no more than of each alone."""
    post, arm = fine_box((-40, 80, 0), (0, 120, 60), 20.0), fine_box((-40, 80, 60), (60, 170, 90), 20.0)
    swing, both = Chain((SWING,)), Chain((SWING, TILT))
    bodies = [Body.of(mesh.vertices, mesh.faces) for mesh in (post, arm)]
    shape = envelope_of([(bodies[0], swing), (bodies[1], both)], 10.0)
    values = np.random.default_rng(2).uniform(both.low, both.high, (200, 2))
    for mesh, chain in ((post, swing), (arm, both)):
        poses = chain.poses(values[:, : len(chain.joints)])
        assert shape.contains(np.concatenate([apply(pose, mesh.vertices) for pose in poses])).all()
    alone = [envelope(bodies[0], swing, 10.0), envelope(bodies[1], both, 10.0)]
    assert shape.top().max() <= max(each.top().max() for each in alone) + 10.0
    assert shape.plan().area <= 1.1 * shapely.union_all([each.plan() for each in alone]).area
    with pytest.raises(KitError, match="same first joint"):
        envelope_of([(bodies[0], Chain((SLIDE,))), (bodies[1], both)], 10.0)


def test_above_a_height_only_what_comes_so_high_is_left() -> None:
    """A ball of 30 mm about the height 50 mm, swung at 200 mm: above 65 mm the ring is √(30² - 15²) to each side."""
    ball = trimesh.creation.icosphere(subdivisions=4, radius=30.0).apply_translation((0.0, 200.0, 50.0))
    shape = of(ball, Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -0.8, 0.8),)), 2.0)
    half = math.sqrt(30.0**2 - 15.0**2)
    exact = 0.8 * ((200.0 + half) ** 2 - (200.0 - half) ** 2) + math.pi * half**2
    assert exact <= shape.above(65.0).area <= exact + (1.6 * 400.0 + 2.0 * math.pi * half) * shape.slack
    assert shape.above(20.0).equals(shape.plan())
    assert shape.above(81.0 + shape.slack).is_empty


def far_from_arcs(corners: np.ndarray, places: np.ndarray, axis: np.ndarray, low: float, high: float) -> np.ndarray:
    """How far corners (n, 3) are from the nearest of the arcs that places (m, 3) make about a vertical axis.

    Seen along the axis: the nearest point of an arc is the one at the corner's azimuth, or the nearer end.
    """
    (radius, azimuth), (far, at) = (
        (np.hypot(*off), np.arctan2(off[1], off[0])) for off in ((corners[:, :2] - axis).T, (places[:, :2] - axis).T)
    )
    turned = np.mod(azimuth[:, None] - at - (low + high) / 2.0 + math.pi, 2.0 * math.pi) - math.pi
    beyond = np.maximum(np.abs(turned) - (high - low) / 2.0, 0.0)
    flat = radius[:, None] ** 2 + far**2 - 2.0 * radius[:, None] * far * np.cos(beyond)
    return np.asarray(np.sqrt(np.maximum(flat, 0.0) + (corners[:, None, 2] - places[:, 2]) ** 2).min(axis=1))


@pytest.mark.parametrize(("joints", "apart"), [((SWING,), 3.0), ((SWING, TILT), 6.0), ((SWING, TILT, SLIDE), 10.0)])
def test_no_cell_is_farther_from_what_is_reached_than_the_envelope_says(
    joints: tuple[Joint, ...], apart: float
) -> None:
    """All corners of 40 cells, drawn by seed, against exact arcs of points that leave nothing farther than `apart`."""
    chain, part = Chain(joints), fine_box((-20, 100, 10), (20, 130, 40), 5.0)
    shape = of(part, chain, 10.0)
    still = Chain((Joint("swing", "turn", SWING.point, SWING.direction, 0.0, 0.0), *joints[1:]))
    poses = still.poses(still.grid([1, 16, 12][: len(joints)]))
    places = np.concatenate([apply(pose, part.vertices) for pose in poses])
    filled = np.random.default_rng(5).permutation(np.argwhere(shape.cells))[:40]
    corners = (filled[:, None] + np.indices((2, 2, 2)).reshape(3, 8).T).reshape(-1, 3).astype(float)
    turn = corners[:, 0] * 2.0 * math.pi / len(shape.cells)
    out = corners[:, 1] * shape.size
    points = np.column_stack([
        shape.axis[0] + out * np.cos(turn), shape.axis[1] + out * np.sin(turn), shape.floor + corners[:, 2] * shape.size
    ])  # fmt: skip
    off = np.concatenate([
        far_from_arcs(some, places, shape.axis, SWING.low, SWING.high) for some in np.array_split(points, 60)
    ])  # fmt: skip
    assert off.max() <= shape.slack + apart
    assert shape.slack < 4.2 * shape.size * max(1, len(joints) - 1)


def test_an_envelope_swung_later_is_the_one_made_at_once() -> None:
    part, chain = fine_box((-40, 80, 10), (60, 170, 70), 30.0), Chain((SWING, TILT))
    body = Body.of(part.vertices, part.faces)
    ready = unswung([(body, chain)], 10.0)
    for low, high in ((SWING.low, SWING.high), (-0.2, 0.9)):
        first = Joint("swing", "turn", SWING.point, SWING.direction, low, high)
        at_once = envelope(body, Chain((first, TILT)), 10.0)
        np.testing.assert_array_equal(ready.swung(low, high).cells, at_once.cells)


def test_the_outline_from_above_has_no_cracks_between_its_sectors() -> None:
    """Sectors that are all filled from the axis out to 160 mm and more, each to another radius."""
    far = np.random.default_rng(0).integers(40, 100, 360)
    cells = np.arange(120)[None, :, None] < far[:, None, None]
    axis = np.array([1.3, -0.7])
    plan = Envelope(cells=cells, axis=axis, floor=0.0, size=4.0, slack=1.0).plan()
    assert plan.geom_type == "Polygon"
    assert plan.boundary.distance(shapely.Point(*axis)) > 159.0
