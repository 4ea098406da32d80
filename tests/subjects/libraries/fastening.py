"""A machine held down, by a frame library; a door and a glued miter, by libraries of geometry, optimum and section."""

from collections.abc import Mapping
from math import cos, pi, sin

from Pynite import FEModel3D
from scipy.optimize import minimize_scalar
from sectionproperties.analysis import Section
from sectionproperties.pre.library import rectangular_section
from shapely import LineString, Polygon, box
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


def glued_corner(v: Values) -> dict[str, float]:
    """The miter where two boards drawn as outlines meet, its glued face, and how many spread clamps cover it."""
    half, b, far = v["corner"] / 2, v["width"], 20 * v["width"]
    axis = [(cos(side * half), sin(side * half)) for side in (-1, 1)]
    boards = []
    for (ux, uy), side in zip(axis, (-1, 1), strict=True):
        nx, ny = -side * uy, side * ux  # from the inside of the corner to its outside
        inner = [(far * s * ux, far * s * uy) for s in (-1, 1)]
        boards.append(Polygon([*inner, *((x + b * nx, y + b * ny) for x, y in reversed(inner))]))
    bisector = LineString([(-far, 0), (far, 0)])
    miter = bisector.intersection(boards[0]).intersection(boards[1])
    reach, count = v["pad"] + 2 * v["block"], 0
    covered = LineString()
    while not covered.buffer(1e-6).covers(miter):
        start = miter.bounds[0] + count * reach
        covered = covered.union(LineString([(start, 0), (start + reach, 0)]))
        count += 1
    return {"miter": miter.length, "area": miter.length * (v["thickness"] - v["spline"]), "clamps": count}


def levered_bond(v: Values) -> dict[str, float]:
    """The stress at the worse end of a plain bond, by a meshed rectangle, as a pull over length."""
    c, t = v["width"] / sin(v["corner"] / 2), v["thickness"]
    face = Section(rectangular_section(d=c, b=t).create_mesh(mesh_sizes=[c * t / 20]))
    face.calculate_geometric_properties()
    stress = face.calculate_stress(n=v["pull"], mxx=v["pull"] * v["arm"]).get_stress()[0]["sig_zz"]
    return {"line": float(stress.max()) * t}


def pocket_screw(v: Values) -> dict[str, float]:
    """A screw as a line, turned about the joint and cut by the boards' outlines."""
    flat = LineString([(-v["seat"], 0), (v["length"] - v["seat"], 0)])
    screw = rotate(flat, -v["slant"], origin=(0, 0), use_radians=True)
    t = v["thickness"]
    inside = screw.intersection(box(0, -t / 2, v["main"], t / 2))
    before = screw.intersection(box(-10 * t, -t / 2, 0, t / 2))
    low_x, low_y, high_x, high_y = inside.bounds
    return {
        "penetration": inside.length,
        "deep": high_x - low_x,
        "drift": high_y - low_y,
        "shoulder": -before.bounds[0],
    }
