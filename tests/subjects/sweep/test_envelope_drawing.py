"""The swept envelope drawn: sizes known in closed form stand at its views, and every view is told in words."""

import math

import numpy as np
import pytest
import trimesh

from kit.core.quantity import Display
from kit.drawing.primitives import Dimension, Leader, Line, Polyline
from kit.drawing.scene import Layer, Scene
from kit.geometry.clearance import Body
from kit.geometry.envelope.envelope import Envelope, envelope
from kit.geometry.motion import Chain, Joint
from kit.subjects.sweep.envelope_drawing import VIEWS, draw_heights, draw_outlines, draw_section, silhouettes


@pytest.fixture(scope="module")
def room() -> Envelope:
    """A ball of 30 mm at 200 mm before the axis and 100 mm up, swung by a quarter turn to each side."""
    ball = trimesh.creation.icosphere(subdivisions=4, radius=30.0).apply_translation((0.0, -200.0, 100.0))
    swing = Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -math.pi / 2, math.pi / 2)
    return envelope(Body.of(ball.vertices, ball.faces), Chain((swing,)), 2.0)


def dimensions(scene: Scene, view: int) -> list[float]:
    return [
        math.dist(item.p, item.q) if item.along == "aligned" else abs(item.p[k] - item.q[k])
        for item in scene.views[view].items
        if isinstance(item, Dimension)
        for k in [0 if item.along == "horizontal" else 1]
    ]


def test_outlines_have_the_sizes_of_the_sweep(room: Envelope) -> None:
    """A half ring from 170 to 230 mm with half disks at both ends: 460 mm wide, 230 + 30 mm deep, 130 mm high."""
    scene = draw_outlines(room, ([], [], []), Display())
    assert [view.caption for view in scene.views] == list(VIEWS)
    for number, sizes in enumerate([(460, 260), (460, 130), (260, 130)]):
        for size, drawn in zip(sizes, dimensions(scene, number), strict=True):
            assert size <= drawn <= size + 2 * room.slack


def test_what_stands_is_drawn_as_it_is_seen_from_each_side() -> None:
    """A grid of points over a box of 100 × 60 × 40 mm; squares of 10 mm may add one on each side."""
    grid = np.stack(np.meshgrid(np.arange(0, 101, 5), np.arange(-30, 31, 5), np.arange(0, 41, 5)), -1)
    seen = silhouettes(grid.reshape(-1, 3).astype(float))
    for rings, (wide, high) in zip(seen, [(100, 60), (100, 40), (60, 40)], strict=True):
        assert len(rings) == 1
        size = np.ptp(rings[0], axis=0)
        assert (np.array([wide, high]) <= size).all()
        assert (size <= np.array([wide, high]) + 20.0).all()


@pytest.mark.parametrize("system", ["mm", "in"])
def test_heights_are_round_and_written_at_their_lines(room: Envelope, system: str) -> None:
    scene = draw_heights(room, Display(system=system))  # type: ignore[arg-type]
    words = [item.text for item in scene.items if isinstance(item, Leader)]
    assert len(words) == 5
    assert words[0] == ("above 25.0 mm" if system == "mm" else "above 1 in")
    assert "highest" in scene.alt


def test_a_section_shows_what_the_plane_cuts(room: Envelope) -> None:
    """Cut at the ball's middle height: the ring of 60 mm, and the cut through the scanned ball beside it."""
    point, normal = np.array([0.0, 0.0, 100.0]), np.array([0.0, 0.0, 1.0])
    segments = np.array([[[0.0, -170.0, 100.0], [10.0, -172.0, 100.0]]])
    scene = draw_section(room, point, normal, [(segments, Layer.CONSTRUCTION)], Display())
    assert sum(isinstance(item, Line) and item.layer is Layer.CONSTRUCTION for item in scene.items) == 1
    outline = next(item for item in scene.items if isinstance(item, Polyline))
    assert np.hypot(*np.array(outline.points).T).max() >= 230.0
