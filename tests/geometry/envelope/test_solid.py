"""Solid runs that go on by their skin alone: the next joint misses nothing of what the skin encloses."""

import math

import numpy as np
import pytest

from kit.geometry.envelope.runs import Balls, Runs, pieces, spread
from kit.geometry.envelope.solid import PIECE, Solid, carried, filling, holds, skin
from kit.geometry.motion import Joint, apply

SIZE = 4.0
SLIDE = Joint("slide", "slide", (0.0, 0.0, 0.0), (0.3, 1.0, 0.1), -40.0, 30.0)
ROUND = Joint("round", "turn", (5.0, 0.0, 20.0), (1.0, 0.2, 0.0), -math.pi, math.pi)
PLUNGE = Joint("plunge", "turn", (0.0, 60.0, 80.0), (-1.0, 0.0, 0.1), 0.0, 0.7)
CORNER = Joint("corner", "turn", (-30.0, 20.0, 0.0), (0.0, 0.0, 1.0), -2.0, 2.0)
UPRIGHT = Joint("swing", "turn", (3.0, -2.0, 0.0), (0.0, 0.0, 1.0), 0.0, 0.0)
ASIDE = Joint("aside", "slide", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.0, 0.0)
ALONG = Joint("along", "slide", (0.0, 0.0, 0.0), (0.2, 0.0, 1.0), 50.0, 51.0)
ABOUT = Joint("about", "turn", (0.0, 10.0, 0.0), (0.1, 0.0, 1.0), 1.0, 1.01)
TURNED = Joint("turned", "turn", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), 2.0, 2.0)


def crust(seed: int) -> Balls:
    """Balls on a bent sheet that the joints make a body of, here and there with a hole."""
    u, v = np.random.default_rng(seed).uniform(-1.0, 1.0, (2, 6000))
    places = np.column_stack([40.0 * u, 10.0 * np.sin(3.0 * u * v), 35.0 * v + 30.0])
    return Balls(places[np.hypot(u - 0.3, v) > 0.35], np.full(int((np.hypot(u - 0.3, v) > 0.35).sum()), 1.6), 0.0)


def drawn(runs: Runs, count: int) -> np.ndarray:
    """Return points (count, 3) within the runs, drawn by seed."""
    rng = np.random.default_rng(7)
    at = rng.integers(len(runs.first), size=count)
    column = tuple((number[at] + rng.uniform(size=count)) * runs.size for number in (runs.first, runs.second))
    along = runs.begin[at] + rng.uniform(size=count) * (runs.end - runs.begin)[at]
    return runs.frame.outside((column[0], column[1]), along)


@pytest.mark.parametrize("last", [UPRIGHT, ASIDE, PLUNGE, SLIDE, ALONG, ABOUT])
@pytest.mark.parametrize("first", [SLIDE, ROUND, PLUNGE, CORNER])
def test_what_the_skin_encloses_is_found_by_the_next_joint(first: Joint, last: Joint) -> None:
    """40,000 points of the body, at its joint's limits and between, lie in what the next joint makes of its skin."""
    runs = spread(crust(1), first, SIZE / 2.0, first.low, first.high)
    outer = skin(runs)
    balls = pieces(outer, PIECE * SIZE)
    assert len(balls.radius) < len(pieces(runs, PIECE * SIZE).radius)
    full = filling(Solid(balls, runs), last, SIZE, last.low, last.high)
    bare = spread(balls, last, SIZE, last.low, last.high)
    points = drawn(runs, 40_000)
    for value in np.linspace(last.low, last.high, 3):
        assert holds(full, apply(last.moves(np.array([value]))[0], points)).all()
    if last.low == last.high:
        assert not holds(bare, points).all(), "the body is hollow without it"
    assert full.reach == max(bare.reach, runs.reach)


@pytest.mark.parametrize("last", [UPRIGHT, ASIDE])
def test_nothing_is_filled_that_is_not_enclosed(last: Joint) -> None:
    """A point that is filled lies in the body, or as near to a ball of its skin as a column is wide."""
    from scipy.spatial import cKDTree

    runs = spread(crust(2), CORNER, SIZE / 2.0, CORNER.low, CORNER.high)
    balls = pieces(skin(runs), PIECE * SIZE)
    points = drawn(filling(Solid(balls, runs), last, SIZE, 0.0, 0.0), 40_000)
    far = cKDTree(balls.center).query(points)[0]
    wide = 2.0 * (balls.radius.max() + SIZE)
    assert (holds(runs, points) | (far <= wide)).all()
    assert (far > wide).any()


def test_columns_round_the_axis_without_any_skin_are_filled() -> None:
    """A body of 60 mm about the axis of the next joint: its inner columns hold nothing of the skin at any azimuth."""
    spots = np.stack(np.meshgrid(*[np.arange(-60.0, 61.0, 2.0)] * 2), axis=-1).reshape(-1, 2)
    plate = Balls(np.column_stack([spots, np.zeros(len(spots))]), np.full(len(spots), 1.6), 0.0)
    up = Joint("up", "slide", (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), 0.0, 80.0)
    solid = carried(plate, (up,), SIZE)
    full = filling(solid, UPRIGHT, SIZE, 0.0, 0.0)
    inner = (full.second == 0) & (full.first > 3) & (full.first < 17)
    assert inner.any()
    np.testing.assert_allclose((full.end - full.begin)[inner], 2.0 * math.pi)
    bare = spread(solid.balls, UPRIGHT, SIZE, 0.0, 0.0)
    assert not ((bare.second == 0) & (bare.first > 3) & (bare.first < 17)).any()


def test_a_joint_that_stands_moves_the_body_with_its_skin() -> None:
    here, there = (carried(crust(3), joints, SIZE) for joints in ((PLUNGE,), (TURNED, PLUNGE)))
    points = drawn(here.runs, 5000)  # type: ignore[arg-type]
    moved = apply(TURNED.moves(np.array([2.0]))[0], points)
    assert holds(filling(there, UPRIGHT, SIZE, 0.0, 0.0), moved).all()
    assert holds(there.runs, moved).all()  # type: ignore[arg-type]
    assert not holds(there.runs, moved + 200.0).any()  # type: ignore[arg-type]
