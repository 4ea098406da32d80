"""Of equally good ones the first counts, whatever rounding, the sign of a vector or a sort make of it."""

import numpy as np
import pytest

from kit.geometry import ties
from kit.geometry.mesh.levelling import fit_plane
from kit.geometry.motion.axis import circle_axis, turn_axis
from kit.geometry.motion.rigid import turn
from kit.geometry.ties import first_largest, first_least, first_least_each, least_few, rough, signed

NOISE = 1e-14
RNG = np.random.default_rng(5)


def test_the_first_of_equals_counts_whatever_noise_lies_on_them() -> None:
    values = np.array([3.0, 1.0, 2.0, 1.0, 1.0, np.inf])
    for _ in range(50):
        noisy = values + RNG.uniform(-NOISE, NOISE, len(values))
        assert first_least(noisy) == 1
        assert first_largest(-noisy) == 1
        assert first_least_each(np.stack([noisy, noisy[::-1]]).T).tolist() == [1, 1]


def test_equals_keep_their_order_whatever_noise_lies_on_them() -> None:
    sides = ["front", "right", "back", "left"]
    for _ in range(50):
        cost = dict(zip(sides, np.array([2.0, 1 / 3, 2.0, 1 / 3]) + RNG.uniform(-NOISE, NOISE, 4), strict=True))
        assert sorted(sides, key=lambda side: rough(cost[side])) == ["right", "left", "front", "back"]
    assert rough(1.0) < rough(1.0 + 1e-6)


def test_what_differs_is_told_apart() -> None:
    assert first_least([1.0, 1.0 - 1e-6]) == 1
    assert first_largest([1.0, 1.0 + 1e-6]) == 1
    assert first_least([1.0, 1.0 - 1e-6], tied=1e-5) == 0
    assert first_least([np.inf, np.inf]) == 0
    assert first_least_each(np.array([[np.inf, 2.0], [np.inf, 1.0]])).tolist() == [0, 1]


def test_a_vector_and_its_negative_become_the_same() -> None:
    for _ in range(50):
        vector = RNG.normal(size=3)
        assert signed(vector).tolist() == signed(-vector).tolist()
        equal = np.array([-1.0, 1.0, -1.0]) + RNG.uniform(-NOISE, NOISE, 3)
        assert signed(equal)[0] > 0.0
        assert signed(-equal)[0] > 0.0


def test_of_equal_ones_the_first_are_the_few() -> None:
    values = np.array([2.0, 1.0, 2.0, 0.0, 2.0])
    assert least_few(values, 3).tolist() == [True, True, False, True, False]
    many = RNG.integers(0, 5, 200).astype(float)
    for count in (1, 17, 199, 200):
        assert np.flatnonzero(least_few(many, count)).tolist() == sorted(
            np.argsort(many, kind="stable")[:count].tolist()
        )


CLOUD = np.column_stack([RNG.uniform(-300, 300, (200, 2)), RNG.normal(0, 0.01, 200)])
ARC = np.array([[300 * np.cos(a), 300 * np.sin(a), 0.1 * a] for a in (0.1, 0.5, 0.9, 1.4)])
TURNS = turn(np.array([0.2, 0.5, 0.8]), np.array([1.0, 2.0, 3.0]), np.array([-0.2, -0.9, 0.3]))

SIGNED = {
    "bed plane": lambda: fit_plane(CLOUD, 0.1).normal,
    "circle axis": lambda: np.r_[circle_axis(ARC)[0].point, circle_axis(ARC)[0].direction],
    "turn axis": lambda: np.r_[turn_axis(TURNS, CLOUD).axis.direction, turn_axis(TURNS, CLOUD).values],
}
BEFORE = {name: work() for name, work in SIGNED.items()}


@pytest.mark.parametrize("name", SIGNED)
def test_no_result_depends_on_the_sign_of_a_vector(turned_round: None, name: str) -> None:
    assert SIGNED[name]() == pytest.approx(BEFORE[name], abs=1e-9)


def test_the_rule_is_written_once() -> None:
    """An unstable sort or partition leaves equal numbers in an order of the processor's own."""
    from pathlib import Path

    import kit

    root = Path(kit.__file__).parent
    faults = []
    for path in sorted(root.rglob("*.py")):
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            unstable = ("argsort(" in line and 'kind="stable"' not in line) or "argpartition(" in line
            if unstable and path != Path(ties.__file__):
                faults.append(f"{path.relative_to(root)}:{number}: {line.strip()}")
    assert faults == []
