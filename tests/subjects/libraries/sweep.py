"""A point carried round by a library of rotations."""

from collections.abc import Mapping

import numpy as np
from scipy.optimize import minimize_scalar
from scipy.spatial.transform import Rotation

Values = Mapping[str, float]


def _carried(v: Values, tilt: float, slide: float, swing: float) -> np.ndarray:
    """Return the place of a point on an arm: tilted about its axis, slid, swung about the upright one."""
    arm = Rotation.from_euler("y", -(v["arm_low"] + tilt)).apply([v["arm"], 0, 0])
    out = arm + np.array([v["axis_out"] + slide, v["aside"], v.get("axis_height", 0)])
    return np.asarray(Rotation.from_euler("z", swing).apply(out))


def point_on_an_arm(v: Values) -> dict[str, float]:
    """Where the joints take the point, and how its reach changes as it tilts."""
    place = _carried(v, v["tilt"], v["slide"], v.get("swing", 0))
    ahead, behind = (_carried(v, v["tilt"] + step, v["slide"], 0) for step in (1e-6, -1e-6))
    return {
        "place_out": float(place[0]),
        "place_aside": float(place[1]),
        "height": float(place[2]),
        "reach": float(np.hypot(place[0], place[1])),
        "reach_rate": float(np.hypot(*ahead[:2]) - np.hypot(*behind[:2])) / 2e-6,
    }


def farthest_and_highest(v: Values) -> dict[str, float]:
    """The greatest reach and height over the tilt, searched."""

    def most(of: int) -> float:
        ends = (0, v["tilt_most"])
        found = minimize_scalar(lambda t: -_carried(v, t, 0, 0)[of], bounds=ends, method="bounded")
        return float(max(-found.fun, *(_carried(v, t, 0, 0)[of] for t in ends)))

    return {"reach_most": most(0), "height_most": most(2)}


def steps_of_a_swing(v: Values) -> dict[str, float]:
    """From the nearest position a point is carried by half a step: how far, and how much less it reached there."""
    half = (v["swing_left"] + v["swing_right"]) / round(v["poses_swing"]) / 2
    start = np.array([v["arm_swing"], 0, 0])
    carried = Rotation.from_euler("z", half).apply(start)
    return {
        "half_swing": half,
        "chord_swing": float(np.linalg.norm(carried - start)),
        "sagitta": float(start[0] - carried[0]),
    }
