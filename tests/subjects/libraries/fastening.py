"""A machine held down, by a frame library; a door that swings, by libraries of geometry and optimization."""

from collections.abc import Mapping
from math import pi

from Pynite import FEModel3D
from scipy.optimize import minimize_scalar
from shapely import box
from shapely.affinity import rotate

Values = Mapping[str, float]
FREE_FALL = 9806.65  # mm/s², ISO 80000-3


def held_down(v: Values) -> dict[str, float]:
    """The reaction at the far bolts of a stiff beam that is held there and rests on the tipping edge."""
    frame = FEModel3D()
    frame.add_material("steel", 2e5, 8e4, 0.3, 0)
    frame.add_section("stiff", 1e4, 1e8, 1e8, 1e8)
    for name, x in (("bolts", -v["row"]), ("mass", -v["inside"]), ("edge", 0.0), ("push", v["reach"])):
        frame.add_node(name, x, 0, 0)
    for one, other in (("bolts", "mass"), ("mass", "edge"), ("edge", "push")):
        frame.add_member(one, one, other, "steel", "stiff")
    frame.def_support("bolts", True, True, True, True, False, False)
    frame.def_support("edge", False, True, True, True, False, False)
    frame.add_node_load("mass", "FY", -v["mass"] * FREE_FALL)
    frame.add_node_load("push", "FY", -v["safety"] * v["push"])
    frame.add_node_load("edge", "MZ", -v["safety"] * v["pull"] * v["height"])
    frame.analyze()
    return {"each": -float(frame.nodes["bolts"].RxnFY["Combo 1"]) / v["far"]}


def swinging_door(v: Values) -> dict[str, float]:
    """Turn a door about its hinge and look for the turn at which its edge reaches out farthest."""
    door = box(0, v["axis"], v["width"], v["axis"] + v["thickness"])

    def reach(turn: float) -> float:
        return -rotate(door, -turn, origin=(0, 0), use_radians=True).bounds[2]

    found = minimize_scalar(reach, bounds=(0, pi / 4), method="bounded", options={"xatol": 1e-9})
    return {"gap_needed": -float(found.fun) - v["width"]}
