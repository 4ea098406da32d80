"""A knob's outline as plane shapes; what holds it by a frame library and by integrating a bump."""

from collections.abc import Mapping

import numpy as np
from Pynite import FEModel3D
from scipy.integrate import solve_ivp
from shapely import Point, Polygon, union_all

Values = Mapping[str, float]
FINE = 4000  # parts of a quarter circle


def lobes_and_hollows(v: Values) -> dict[str, float]:
    """Discs for the lobes; a disc rolled round them fills what it cannot reach, and so leaves hollows of its radius."""
    turn = 2 * np.pi * np.arange(round(v["lobes"])) / v["lobes"]
    centers = (v["outer_radius"] - v["lobe_radius"]) * np.column_stack([np.cos(turn), np.sin(turn)])
    body = union_all([Polygon(centers), *(Point(c).buffer(v["lobe_radius"], quad_segs=FINE) for c in centers)])
    hollow = v["lobe_radius"]  # as large as a lobe, where lobes touch each other
    rolled = body.buffer(hollow, quad_segs=FINE).buffer(-hollow, quad_segs=FINE)
    return {"perimeter": rolled.length, "waist": rolled.boundary.distance(Point(0, 0)), "area": rolled.area}


def bump(v: Values) -> dict[str, float]:
    """A mass runs against a spring: how far it gives, and its force at the turn."""
    mass, stiff = v["mass"], v["stiffness"]

    def motion(_: float, y: np.ndarray) -> list[float]:
        return [y[1], -stiff * y[0] / mass]

    def turned(_: float, y: np.ndarray) -> float:
        return float(y[1])

    turned.terminal = True  # type: ignore[attr-defined]
    way = solve_ivp(motion, (0, 10), [0, v["speed"]], events=turned, rtol=1e-11, atol=1e-11, first_step=1e-6)
    give = float(way.y_events[0][0][0])
    return {"give": give, "bump": stiff * give}


def lip_of_a_groove(v: Values) -> dict[str, float]:
    """One of two lips as a cantilever of the width that bears, loaded at its end until it yields."""
    wide, long, thick = v["head"] + 2 * v["overhang"], v["overhang"], v["lip"]
    frame = FEModel3D()
    frame.add_material("lip", v["modulus"], v["modulus"], v["poisson"], 0)
    bent = wide * thick**3 / 12
    frame.add_section("lip", wide * thick, bent, bent, bent)
    frame.add_node("root", 0, 0, 0)
    frame.add_node("end", long, 0, 0)
    frame.add_member("lip", "root", "end", "lip", "lip")
    frame.def_support("root", *[True] * 6)
    frame.add_node_load("end", "FY", -1)
    frame.analyze()
    moment = frame.members["lip"].max_moment("Mz") - frame.members["lip"].min_moment("Mz")
    force = v["yield_strength"] * bent / (thick / 2) / moment
    lifted = v["torque"] / v["arm_low"] / 2  # on each lip
    return {"lip_force": 2 * force, "lip_rise": -frame.nodes["end"].DY["Combo 1"] * lifted}
