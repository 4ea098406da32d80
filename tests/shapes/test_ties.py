"""Of equally good ones the first counts, whatever rounding, the sign of a vector or a sort make of it."""

import numpy as np
import pytest

from kit.shapes import ties
from kit.shapes.development import darts
from kit.shapes.level import balance, stepped
from kit.shapes.motion.axis import circle_axis, turn_axis
from kit.shapes.motion.rigid import turn
from kit.shapes.scan.upright import fit_plane
from kit.shapes.ties import first_largest, first_least, first_least_each, least_few, signed

NOISE = 1e-14
RNG = np.random.default_rng(5)


def test_the_first_of_equals_counts_whatever_noise_lies_on_them() -> None:
    values = np.array([3.0, 1.0, 2.0, 1.0, 1.0, np.inf])
    for _ in range(50):
        noisy = values + RNG.uniform(-NOISE, NOISE, len(values))
        assert first_least(noisy) == 1
        assert first_largest(-noisy) == 1
        assert first_least_each(np.stack([noisy, noisy[::-1]]).T).tolist() == [1, 1]


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


@pytest.fixture
def turned_round(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another linear algebra library: every singular and eigenvector comes with its other sign."""
    svd, eigh = np.linalg.svd, np.linalg.eigh

    def other_svd(matrix, *args, **how):  # type: ignore[no-untyped-def]
        found = svd(matrix, *args, **how)
        return found if isinstance(found, np.ndarray) else (-found[0], found[1], -found[2])

    def other_eigh(matrix):  # type: ignore[no-untyped-def]
        values, vectors = eigh(matrix)
        return values, -vectors

    monkeypatch.setattr(np.linalg, "svd", other_svd)
    monkeypatch.setattr(np.linalg, "eigh", other_eigh)


BENCH = np.array([[0.0, 0.0], [1200.0, 0.0], [1200.0, 700.0], [0.0, 700.0]])
CLOUD = np.column_stack([RNG.uniform(-300, 300, (200, 2)), RNG.normal(0, 0.01, 200)])
ARC = np.array([[300 * np.cos(a), 300 * np.sin(a), 0.1 * a] for a in (0.1, 0.5, 0.9, 1.4)])
TURNS = turn(np.array([0.2, 0.5, 0.8]), np.array([1.0, 2.0, 3.0]), np.array([-0.2, -0.9, 0.3]))
OVAL = np.array([[8 * np.cos(a), 3 * np.sin(a)] for a in np.linspace(0, 2 * np.pi, 40, endpoint=False)])

SIGNED = {
    "balance": lambda: balance(BENCH),
    "bed plane": lambda: fit_plane(CLOUD, 0.1).normal,
    "circle axis": lambda: np.r_[circle_axis(ARC)[0].point, circle_axis(ARC)[0].direction],
    "turn axis": lambda: np.r_[turn_axis(TURNS, CLOUD).axis.direction, turn_axis(TURNS, CLOUD).values],
    "longer side": lambda: darts._longer_side(OVAL),
}
BEFORE = {name: work() for name, work in SIGNED.items()}


@pytest.mark.parametrize("name", SIGNED)
def test_no_result_depends_on_the_sign_of_a_vector(turned_round: None, name: str) -> None:
    assert SIGNED[name]() == pytest.approx(BEFORE[name], abs=1e-9)


def test_the_largest_weight_of_equal_ones_is_the_first() -> None:
    """A rectangle: 1, -1, 1, -1 from whichever corner it begins, as long as the corners are told in turn."""
    for first in range(4):
        for angle in np.linspace(0, 2 * np.pi, 12):
            c, s = np.cos(angle), np.sin(angle)
            at = np.roll(BENCH, first, axis=0) @ np.array([[c, -s], [s, c]]) + RNG.uniform(-900, 900, 2)
            assert balance(at) == pytest.approx([1, -1, 1, -1], abs=1e-9)


def test_weights_follow_the_feet() -> None:
    """Told in another order the same feet have the same weights, but for a common sign and size."""
    feet = np.array([[0.0, 0.0], [1000.0, 30.0], [900.0, 650.0], [-40.0, 500.0]])
    weights = balance(feet)
    for _ in range(20):
        order = RNG.permutation(4)
        again = balance(feet[order])
        assert again / again[0] == pytest.approx(weights[order] / weights[order[0]], rel=1e-9)
        heights = feet @ [0.02, -0.03] + 5.0
        assert float(again @ heights[order]) == pytest.approx(0.0, abs=1e-9)


def test_halves_go_up_whatever_noise_lies_on_them() -> None:
    for noise in (-NOISE, 0.0, NOISE):
        assert stepped([2.5 + noise, -1.5 + noise], 1.0).tolist() == [3.0, -1.0]


def test_a_round_piece_stays_as_it_was_laid() -> None:
    ring = np.array([[np.cos(a), np.sin(a)] for a in np.linspace(0, 2 * np.pi, 24, endpoint=False)])
    for noise in RNG.uniform(-NOISE, NOISE, (10, 24, 2)):
        assert darts._longer_side(ring + noise).tolist() == [1.0, 0.0]


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
