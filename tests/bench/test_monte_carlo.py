"""Drawing a million chains from scale to cut part: the kit against the same draw written by hand in NumPy."""

import numpy as np
import pytest

from kit.core.uncertainty import monte_carlo
from kit.subjects import model
from tests.bench.test_compute import best

pytestmark = pytest.mark.bench

DRAWS = 1_000_000
CASE = model("accuracy.chain").at()


def by_hand(seed: int) -> np.ndarray:
    """Every contributor's error drawn evenly within its half-width, and added up."""
    rng = np.random.default_rng(seed)
    v = CASE.base
    slope = 4 * v["fence_bow"] / v["fence_length"]
    error = v["bias"] + rng.uniform(-v["tape"], v["tape"], DRAWS)
    error += rng.uniform(-v["zero"], v["zero"], DRAWS)
    error += rng.uniform(-v["reading"], v["reading"], DRAWS)
    error += rng.uniform(-v["block"], v["block"], DRAWS)
    error += rng.uniform(-v["play"], v["play"], DRAWS)
    error += v["face_distance"] * rng.uniform(-slope, slope, DRAWS)
    error += v["target"] * v["expansion"] * rng.uniform(-v["warmth"], v["warmth"], DRAWS)
    dry, wet = (CASE.entries[name].spread.half for name in ("shrinkage_along", "fiber_saturation"))
    swelling = v["wood"] * (v["shrinkage_along"] + rng.uniform(-dry, dry, DRAWS))
    swelling /= v["fiber_saturation"] + rng.uniform(-wet, wet, DRAWS)
    error += swelling * rng.uniform(-v["moisture"], v["moisture"], DRAWS)
    error += rng.uniform(-v["push"], v["push"], DRAWS) / v["tip_stiffness"]
    error += rng.uniform(-v["blade"], v["blade"], DRAWS)
    error += v["face_distance"] * np.tan(v["squareness"]) * rng.uniform(-1, 1, DRAWS)
    error += rng.uniform(-v["seating"], v["seating"], DRAWS)
    return error


def test_monte_carlo_against_by_hand() -> None:
    """Goal: at most 1.2 times the time of plain NumPy written by hand, draws included."""
    ours = monte_carlo(CASE, ("part_error",), draws=DRAWS)["part_error"]  # also compiles
    theirs = by_hand(1)
    assert ours.u == pytest.approx(theirs.std(), rel=0.005)
    assert ours.interval() == pytest.approx(tuple(np.quantile(theirs, [0.025, 0.975])), abs=0.002)
    kit, hand = best(lambda: monte_carlo(CASE, ("part_error",), draws=DRAWS), lambda: by_hand(1), 7)
    print(f"\n{DRAWS:,} draws of 14 uncertain givens: kit {kit:.3f} s, by hand {hand:.3f} s, ratio {kit / hand:.2f}")
