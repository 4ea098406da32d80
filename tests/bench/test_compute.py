"""How fast the kit computes: ratios against the same work done by hand, measured in one run and printed.

Run with ``python -m pytest -m bench -s tests/bench``. Values are compared exactly; times are printed for
reading, since a shared machine is no stopwatch.
"""

import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import pytest

from kit.core.model.compiled import functions_of
from kit.core.quantity import registry
from kit.subjects import model

pytestmark = pytest.mark.bench

STOP = model("stop.deflection")
DESIGNS = 1_000_000
ANSWERS = ("play_tip", "bending_tip", "shear_tip", "slip_tip", "tip_error")
# Given as arrays: every measure, force and modulus that the answers rest on. The two choices stay fixed: long end,
# rib on the back. Clamp force, friction and the allowed error do not enter the answers.
VARIED = (
    "long_reach", "push", "key_play", "key_length", "clamp_stiffness", "block_width", "block_height",
    "rib_height", "rib_width", "block_modulus", "block_shear_ratio", "rib_modulus", "rib_shear_ratio",
)  # fmt: skip


def chain(g: Mapping[str, Any]) -> dict[str, Any]:
    """The formulas of the stop block with a rib on its back, written out by hand; arrays, floats or quantities."""
    b, h, t, s = g["block_width"], g["block_height"], g["rib_height"], g["rib_width"]
    E, a, F = g["block_modulus"], g["long_reach"], g["push"]
    n = g["rib_modulus"] / E
    rib = n * s * t
    y_rib = b + t / 2
    centroid = (b * b * h / 2 + rib * y_rib) / (b * h + rib)
    in_block, in_rib = centroid - b / 2, y_rib - centroid
    second = h * b * b * b / 12 + b * h * in_block * in_block + rib * (t * t / 12 + in_rib * in_rib)
    far = y_rib + t / 2 - centroid
    flow_block = h * b * b * b * (centroid * centroid / 3 - centroid * b / 4 + b * b / 20)
    flow_rib = s * t * t * t * (far * far / 3 - far * t / 4 + t * t / 20)
    soft = flow_block / (g["block_shear_ratio"] * E) + n * n * flow_rib / (g["rib_shear_ratio"] * g["rib_modulus"])
    play = g["key_play"] / g["key_length"] * a
    bending = F * a * a * a / (3 * (E * second))
    shear = F * a * soft / (second * second)
    slip = F / g["clamp_stiffness"]
    return {
        "play_tip": play,
        "bending_tip": bending,
        "shear_tip": shear,
        "slip_tip": slip,
        "tip_error": play + bending + shear + slip,
    }


def designs(count: int) -> dict[str, np.ndarray]:
    rng = np.random.default_rng(11)
    return {name: rng.uniform(*STOP.givens[name].span, count) for name in VARIED}


def best(work: Callable[[], object], other: Callable[[], object], rounds: int) -> tuple[float, float]:
    """Return the shortest times of two works done in turn, so that both meet the same weather."""
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(rounds):
        for one, kept in zip((work, other), times, strict=True):
            start = time.perf_counter()
            one()
            kept.append(time.perf_counter() - start)
    return min(times[0]), min(times[1])


def test_compiled_against_by_hand() -> None:
    """Goal: at most 1.15 times the time of plain NumPy written by hand; aim: below it."""
    given = designs(DESIGNS)
    ours = STOP.compute(given, ANSWERS)  # also compiles
    theirs = chain(given)
    for name in ANSWERS:
        np.testing.assert_allclose(ours[name], theirs[name], rtol=1e-9)
    kit, hand = best(lambda: STOP.compute(given, ANSWERS), lambda: chain(given), 7)
    print(f"\n{DESIGNS:,} designs, {len(VARIED)} arrays in, {len(ANSWERS)} out: kit {kit:.3f} s, by hand {hand:.3f} s, "
          f"ratio {kit / hand:.2f}")  # fmt: skip


def test_one_point_against_pint() -> None:
    """Goal: at least 50 times faster than the same chain through pint quantities."""
    shared = registry()
    case = STOP.at()
    base = {name: entry.base for name, entry in case.entries.items()}
    units = {name: STOP.givens[name].unit for name in VARIED}
    given = {name: shared.Quantity(units[name].from_base(base[name]), units[name].pint) for name in VARIED}
    through_pint = chain(given)
    values = functions_of(STOP).values(base)
    for name in ANSWERS:
        assert values[name] == pytest.approx(through_pint[name].to("millimeter").magnitude, rel=1e-9)

    def often() -> None:
        for _ in range(200):
            functions_of(STOP).values(base)

    kit, pint = best(often, lambda: chain(given), 15)
    kit /= 200
    print(f"\none point, all {len(STOP.relations)} relations: kit {kit * 1e6:.1f} µs, five answers through pint "
          f"{pint * 1e6:.0f} µs, {pint / kit:.0f} times faster")  # fmt: skip


def test_import() -> None:
    """Goal: below 0.15 s more than Python alone, in fresh processes."""

    def fresh(code: str) -> Callable[[], object]:
        return lambda: subprocess.run([sys.executable, "-c", code], check=True)

    kit, bare = best(fresh("import kit"), fresh("pass"), 7)
    print(f"\nimport kit: {kit:.3f} s, Python alone {bare:.3f} s, {kit - bare:.3f} s more")
