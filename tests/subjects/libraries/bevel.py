"""Corners of boards by a mesh library, rings of boards by a library of rotations."""

from collections.abc import Mapping
from itertools import permutations, product

import numpy as np
from ezdxf.math import ConstructionCircle, arc_chord_length
from scipy.spatial.transform import Rotation

from tests.subjects.libraries._boards import corner, dihedral, hull, ring

Values = Mapping[str, float]
SIGNS = list(product((-1, 1), repeat=3))


def cuboctahedron(_: Values) -> dict[str, float]:
    """Between a square and a triangle, by the solid's corners."""
    solid = hull([p for p in product((-1, 0, 1), repeat=3) if sum(map(abs, p)) == 2])
    return {"dihedral": float(np.pi - solid.face_adjacency_angles.max())}


def rhombicuboctahedron(_: Values) -> dict[str, float]:
    """Between a square and a triangle, the widest of its corners that is one."""
    places = {place for a, b, c in SIGNS for place in permutations((a, b, c * (1 + np.sqrt(2))))}
    bent = hull(sorted(places)).face_adjacency_angles
    return {"dihedral": float(np.pi - bent[bent > 0.01].min())}


def rhombic_dodecahedron(_: Values) -> dict[str, float]:
    """All of its corners are alike."""
    points = [*SIGNS, *(tuple(2 * s * np.eye(3)[i]) for i in range(3) for s in (-1, 1))]
    between = float(np.pi - hull(points).face_adjacency_angles.max())
    return {"dihedral": between, "tilt_1": (np.pi - between) / 2}


def equal_boards(v: Values) -> dict[str, float]:
    """A square ring of boards that lean alike."""
    found = ring(4, v["slope_1"])
    return {f"{name}_{i}": found[name] for name in ("miter", "tilt") for i in (1, 2)}


def splayed_ring(v: Values) -> dict[str, float]:
    """A ring of boards that lean alike; its corner line for the width given, if one is."""
    found = ring(round(v["sides"]), v["slope"])
    return {**found, "seam": found["seam"] * v.get("width", 0)}


def ring_left_open(v: Values) -> dict[str, float]:
    """Board after board is turned onto the one before it, with settings that are off; where does the last one end?"""
    sides, side = round(v["sides"]), v["side"]
    right = ring(sides, v["slope"])
    miter, tilt = right["miter"] + v["miter_error"], right["tilt"] + v["tilt_error"]
    seam = np.array([-np.sin(miter), np.cos(miter), 0])
    step = Rotation.from_rotvec(-2 * tilt * seam) * Rotation.from_rotvec([0, 0, 2 * miter])
    place, turned = np.zeros(3), Rotation.identity()
    for _ in range(sides):
        place = place + turned.apply([side, 0, 0])
        turned = turned * step
    return {"gap_last": float(np.linalg.norm(place)), "closing_error": sides * step.magnitude() - 2 * np.pi}


def miter_of_a_box(v: Values) -> dict[str, float]:
    """The outer ends of two cuts through the thickness, each turned by a tenth of a degree about the inner one."""
    cut = np.array([v["thickness"], v["thickness"], 0])  # of a square corner, both boards upright
    ends = [Rotation.from_euler("z", turn, degrees=True).apply(cut) for turn in (-0.1, 0.1)]
    return {"gap_tilt_tenth": float(np.linalg.norm(ends[1] - ends[0]))}


def tapered_hood(v: Values) -> dict[str, float]:
    """A frustum by its corners: what stands at each of its corner lines."""
    base = np.array([v["base_x"], v["base_y"]]) / 2
    top, off = np.array([v["top_x"], v["top_y"]]) / 2, np.array([v["offset_x"], v["offset_y"]])
    corners = {("right", "back"): (1, 1), ("back", "left"): (-1, 1), ("left", "front"): (-1, -1)}
    corners["front", "right"] = (1, -1)
    foot = {pair: np.array([*(base * sign), 0]) for pair, sign in corners.items()}
    head = {pair: np.array([*(top * sign + off), v["height"]]) for pair, sign in corners.items()}
    solid = hull([*foot.values(), *head.values()])
    found: dict[str, float] = {}
    for pair in corners:
        between = dihedral(solid, foot[pair], head[pair])
        found["dihedral_" + "_".join(pair)] = between
        found["seam_" + "_".join(pair)] = float(np.linalg.norm(head[pair] - foot[pair]))
        for board, other in (pair, pair[::-1]):
            (along,) = (foot[next_] for next_ in corners if board in next_ and next_ != pair)
            found[f"miter_{board}_{other}"] = np.pi / 2 - corner(foot[pair], along, head[pair])
            found[f"tilt_{board}_{other}"] = (np.pi - between) / 2
    return found


def circle_of_a_segment(v: Values) -> dict[str, float]:
    """The circle through both ends of the chord and the top of the arc."""
    half = v["chord"] / 2
    circle = ConstructionCircle.from_3p((-half, 0), (0, v["rise"]), (half, 0))
    assert abs(arc_chord_length(circle.radius, v["rise"]) - v["chord"]) < 1e-9 * v["chord"]
    return {"radius": circle.radius}


def board_on_a_round_wall(v: Values) -> dict[str, float]:
    """At the station, board and wall are two faces of a tetrahedron; the bevel is what lacks to a square."""
    half = v["chord"] / 2
    turn = v["station"] / ConstructionCircle.from_3p((-half, 0), (0, v["rise"]), (half, 0)).radius
    up = np.array([0, -np.sin(v["lean"]), np.cos(v["lean"])])  # the board, square to its edge in the middle
    edge = np.cos(turn) * np.array([1, 0, 0]) - np.sin(turn) * up
    return {"bevel": np.pi / 2 - dihedral(hull([np.zeros(3), edge, up, np.array([0, 0, 1])]), np.zeros(3), edge)}
