"""The surface of a swept envelope: closed, looking outward, around all that moves. Sweeps known in closed form."""

import math

import numpy as np
import pytest
import trimesh

from kit.geometry.clearance import Body
from kit.geometry.envelope.envelope import Envelope, envelope
from kit.geometry.envelope.surface import surface
from kit.geometry.motion import Chain, Joint, apply


def cells(full: list[tuple[int, int, int]], around: int = 24, out: int = 6, up: int = 5) -> Envelope:
    chosen = np.zeros((around, out, up), dtype=bool)
    for each in full:
        chosen[each] = True
    return Envelope(chosen, np.array([10.0, -20.0]), 5.0, 4.0, 0.0)


def volume(vertices: np.ndarray, faces: np.ndarray) -> float:
    """By the divergence theorem: only a closed surface that looks outward gives the sum of its blocks."""
    a, b, c = np.moveaxis(vertices[faces] - vertices.mean(axis=0), 1, 0)
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)


def turns_around(points: np.ndarray, triangles: np.ndarray) -> np.ndarray:
    """How often the surface goes round each point: 1 inside, 0 outside (A. Van Oosterom, J. Strackee, 1983)."""
    a, b, c = np.moveaxis(triangles[None] - points[:, None, None], 2, 0)
    long = [np.linalg.norm(side, axis=2) for side in (a, b, c)]
    over = np.einsum("ijk,ijk->ij", a, np.cross(b, c))
    under = math.prod(long) + sum(
        np.einsum("ijk,ijk->ij", p, q) * r for p, q, r in ((a, b, long[2]), (b, c, long[0]), (c, a, long[1]))
    )
    return np.asarray(2.0 * np.arctan2(over, under).sum(axis=1) / (4.0 * math.pi))


@pytest.mark.parametrize("full", [[(0, 0, 0)], [(3, 2, 1)], [(23, 2, 1), (0, 2, 1)], [(5, 0, 0), (6, 0, 0), (5, 1, 2)]])
def test_the_surface_encloses_its_prisms(full: list[tuple[int, int, int]]) -> None:
    """A sector of the regular 24-gon drawn about the circle: height 4, radii r and r + 4 over cos(180°/24)."""
    exact = sum(4.0 * math.tan(math.pi / 24) * ((4.0 * (r + 1)) ** 2 - (4.0 * r) ** 2) for _, r, _ in full)
    vertices, faces = surface(cells(full), 4.0)
    assert volume(vertices, faces) == pytest.approx(exact, rel=1e-9)
    edges = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1)
    assert (np.unique(edges, axis=0, return_counts=True)[1] % 2 == 0).all()


@pytest.mark.parametrize("edge", [8.0, 20.0])
def test_all_that_moves_lies_within(edge: float) -> None:
    ball = trimesh.creation.icosphere(subdivisions=3, radius=30.0).apply_translation((0.0, 200.0, 50.0))
    chain = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), -0.8, 0.8),))
    shape = envelope(Body.of(ball.vertices, ball.faces), chain, 8.0)
    vertices, faces = surface(shape, edge)
    values = np.random.default_rng(4).uniform(-0.8, 0.8, (20, 1))
    points = np.concatenate([apply(pose, ball.vertices[::40]) for pose in chain.poses(values)])
    assert turns_around(points, vertices[faces]) == pytest.approx(np.ones(len(points)), abs=1e-9)
    assert turns_around(np.array([[0.0, 0.0, 50.0], [0.0, 400.0, 50.0]]), vertices[faces]) == pytest.approx(
        [0, 0], abs=1e-9
    )
    assert volume(vertices, faces) < 3.5 * (math.pi * 30.0**2 * 1.6 * 200.0 + 4.0 / 3.0 * math.pi * 30.0**3)
