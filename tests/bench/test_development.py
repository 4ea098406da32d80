"""Unrolling against a general-purpose flattening library on the same strip: time, length error, growth."""

from collections.abc import Callable
from time import perf_counter

import numpy as np
import pytest

from kit.geometry.development.ruled_strip import Strip, through
from kit.geometry.development.unroll import Flat, kept, unroll

pytestmark = pytest.mark.bench


def wave(triangles: int) -> Strip:
    """A wavy cylinder strip 100 mm high whose rulings lean to and fro, so that it is bent and curved when flat."""
    t = np.arange(triangles // 2 + 1) / (triangles // 2)
    around = np.column_stack([400 * np.cos(5 * t), 300 * np.sin(5 * t), 20 * np.sin(20 * t)])
    above = np.column_stack([250 * np.cos(5 * t + 0.1), 200 * np.sin(5 * t + 0.1), 100 + 10 * np.cos(15 * t)])
    return through(around, above)


def seconds(work: Callable[[], object], runs: int = 3) -> float:
    best = np.inf
    for _ in range(runs):
        begin = perf_counter()
        work()
        best = min(best, perf_counter() - begin)
    return best


def flattened(strip: Strip) -> Flat:
    """The same strip by least squares conformal maps, scaled to its length: the library's fastest way."""
    import igl

    ia, ib = strip.zigzag
    n = len(strip.a)
    vertices = np.vstack([strip.a, strip.b])
    third = np.where(np.diff(ia) > 0, ia[1:], n + ib[1:])
    faces = np.column_stack([ia[:-1], third, n + ib[:-1]])
    ends = np.array([0, n])
    height = np.linalg.norm(strip.b[0] - strip.a[0])
    found = igl.lscm(vertices, faces, ends, np.array([[0.0, 0.0], [0.0, height]]))
    flat = found[0] if isinstance(found, tuple) else found
    return Flat(flat[:n], flat[n:])


def worst(strip: Strip, flat: Flat) -> float:
    found = kept(strip, flat)
    return max(found.edges, found.rulings)


def test_a_strip_is_unrolled_faster_and_more_exactly_than_by_general_flattening() -> None:
    strip = wave(100_000)
    own = seconds(lambda: unroll(wave(100_000)))
    general = seconds(lambda: flattened(strip), runs=1)
    own_error, general_error = worst(strip, unroll(strip)), worst(strip, flattened(strip))
    print(
        f"\n100,000 triangles: own {own:.3f} s, {own_error:.1e} mm; general {general:.2f} s, {general_error:.1e} mm; "
        f"{general / own:.1f} times faster, {general_error / own_error:.0f} times smaller error"
    )
    assert own_error * 1000 < general_error
    assert own_error < 1e-9


def test_time_grows_with_the_number_of_triangles() -> None:
    little, much = np.inf, np.inf
    for _ in range(3):  # turn by turn, so that a busy moment meets both
        small, large = wave(100_000), wave(1_000_000)
        little, much = (min(best, seconds(lambda s=s: unroll(s), 1)) for best, s in ((little, small), (much, large)))  # type: ignore[misc]
    error = worst(large, unroll(large))
    print(
        f"\n1,000,000 triangles: {much:.2f} s on this machine now (2 s is the target), {error:.1e} mm; "
        f"{much / little:.1f} times the time of 100,000"
    )
    assert error < 1e-9
