"""The bevel along a curved edge, against curves and walls built in space and against numerical search."""

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from kit.core.model import Case
from kit.subjects import model

CASES = [
    {},
    {"lean": 30, "chord": 400, "rise": 90, "thickness": 30, "tilt": 55},
    {"lean": 80, "chord": 2500, "rise": 60, "thickness": 9, "tilt": 12},
    {"lean": 62, "chord": 320, "rise": 135, "thickness": 20, "tilt": 20},
]


def edge(case: Case, x: np.ndarray) -> np.ndarray:
    """Points of the outside arris: the arc on the leaning board, in space; the wall is upright (z)."""
    v = case.base
    radius = v["radius"]
    on_board = np.stack([radius * np.sin(x / radius), radius * np.cos(x / radius) - radius], axis=-1)
    up = np.array([0.0, -np.sin(v["lean"]), np.cos(v["lean"])])
    return on_board[..., :1] * np.array([1.0, 0.0, 0.0]) + on_board[..., 1:] * up


def square_to_wall(case: Case, x: float) -> np.ndarray:
    """Unit normal of the wall at a station, pointing to the board's side, by differences along the arris."""
    step = 1e-3
    ahead, behind = edge(case, np.array([x + step, x - step]))
    normal = np.cross(ahead - behind, [0.0, 0.0, -1.0])
    normal /= np.linalg.norm(normal)
    return normal if normal[1] > 0 else -normal


def misfit(case: Case, x: float, tilt: float) -> float:
    """How far the inside arris of the cut lies from the wall; below 0 it would stand inside the wall."""
    v = case.base
    face = np.array([0.0, np.cos(v["lean"]), np.sin(v["lean"])])
    wall = square_to_wall(case, x)
    step = 1e-3
    ahead, behind = edge(case, np.array([x + step, x - step]))
    along = (ahead - behind) / np.linalg.norm(ahead - behind)
    back = np.cross(face, along)
    back = back if back @ wall > 0 else -back  # in the face, square to the edge, away from the wall
    inside = -v["thickness"] * face + v["thickness"] * np.tan(tilt) * back
    return float(inside @ wall)


@pytest.mark.parametrize("givens", CASES)
def test_bevel_and_gap_at_stations(givens: dict[str, float]) -> None:
    wall = model("bevel.wall")
    half = wall.at(**givens).base["half_edge"]
    for share in (0.0, 0.3, 0.7, 1.0):
        case = wall.at(**givens, station=share * half)
        v = case.base
        face = np.array([0.0, np.cos(v["lean"]), np.sin(v["lean"])])
        assert np.arcsin(face @ square_to_wall(case, v["station"])) == pytest.approx(v["bevel"], abs=1e-9)
        assert misfit(case, v["station"], v["tilt"]) == pytest.approx(v["gap"], abs=1e-7)
        assert misfit(case, v["station"], v["bevel"]) == pytest.approx(0, abs=1e-7)
    assert v["bevel"] == pytest.approx(v["bevel_least"], rel=1e-12)


@pytest.mark.parametrize("givens", CASES)
def test_best_tilt_is_the_best(givens: dict[str, float]) -> None:
    """A search over tilts and 201 stations finds the same tilt and the same misfit."""
    case = model("bevel.wall").at(**givens)
    v = case.base
    stations = np.linspace(0, v["half_edge"], 201)

    def worst(tilt: float) -> float:
        return max(abs(misfit(case, x, tilt)) for x in stations)

    found = minimize_scalar(
        worst, bounds=(v["bevel_least"], v["bevel_most"]), method="bounded", options={"xatol": 1e-7}
    )
    assert found.x == pytest.approx(v["best_tilt"], abs=2e-6)
    assert found.fun == pytest.approx(v["best_gap"], rel=1e-4)
    assert worst(v["tilt"]) == pytest.approx(v["gap_worst"], abs=1e-7)
    assert worst(v["bevel_most"]) == pytest.approx(v["undercut_gap"], abs=1e-7)
    assert min(misfit(case, x, v["bevel_most"]) for x in stations) > -1e-7


def test_straight_edge_needs_one_bevel() -> None:
    """With a rise of nothing to speak of the edge is straight and one tilt fits everywhere."""
    v = model("bevel.wall").at(chord="3000 mm", rise="0.001 mm", beyond=("rise",)).base
    assert v["best_gap"] < 1e-9
    assert v["best_tilt"] == pytest.approx(np.pi / 2 - v["lean"], abs=1e-9)
