"""Cuts are decided by the shape: not by rounding where two places are strained alike, nor by a vector's sign."""

import numpy as np
import pytest

from kit.geometry.development.mesh import Panel
from kit.subjects.cloth.geometry.darts import Relieved, relieve
from tests.subjects.cloth.geometry.test_pieces import grid_triangles, panel_of


def dome(width: float, length: float) -> Panel:
    """A patch of a ball of 500 mm, symmetric about both middles, so that its four corners are strained alike."""
    x, y = np.meshgrid(np.linspace(-width, width, 13) / 2, np.linspace(-length, length, 13) / 2)
    corners = np.column_stack([x.ravel(), y.ravel(), np.sqrt(500**2 - x**2 - y**2).ravel()])
    return panel_of(corners, grid_triangles(12, 12))


def cuts(found: Relieved) -> list[tuple[str, list[int]]]:
    return [(cut.kind, cut.vertices.tolist()) for cut in found.cuts]


LIMIT = (0.006, 0.006)
LONG = relieve(dome(300, 400), LIMIT)


def test_no_cut_depends_on_the_sign_of_a_vector(turned_round: None) -> None:
    found = relieve(dome(300, 400), LIMIT)
    assert cuts(found) == cuts(LONG) != []
    for one, other in zip(found.pieces, LONG.pieces, strict=True):
        assert one.flat == pytest.approx(other.flat, abs=1e-6)


@pytest.mark.parametrize("size", [(300, 400), (300, 300)])
def test_no_cut_depends_on_rounding(size: tuple[float, float]) -> None:
    """Corners off by a few units of the last place, as another processor's sums leave them."""
    panel, rng = dome(*size), np.random.default_rng(7)
    first = relieve(panel, LIMIT)
    for _ in range(3):
        noisy = panel.vertices + rng.uniform(-1e-12, 1e-12, panel.vertices.shape)
        assert cuts(relieve(panel_of(noisy, panel.triangles), LIMIT)) == cuts(first) != []
