"""Beams by a frame library, feet and planes by weights in a triangle, chances by a library of statistics."""

from collections.abc import Mapping
from itertools import pairwise

import numpy as np
import trimesh
from Pynite import FEModel3D
from scipy import linalg, stats
from shapely import LineString, Point, Polygon, box
from uncertainties import ufloat

Values = Mapping[str, float]
FREE_FALL = 9806.65  # mm/s^2, ISO 80000-3


def one_card(_: Values) -> dict[str, float]:
    """The standard deviation of a reading known to a step of 1 mm."""
    return {"u_card": float(stats.uniform(0, 1).std())}


def student(v: Values) -> dict[str, float]:
    """The factor for an interval of 95 percent."""
    return {"student": float(stats.t.ppf(0.975, v["readings"] - 1))}


def straightedge(v: Values) -> dict[str, float]:
    """A bar on two supports, its ends overhanging: sag at the place, under its weight and under a hand there."""
    high, wide = v["edge_height"], v["edge_width"]
    frame = FEModel3D()
    frame.add_material("steel", v["modulus"], v["modulus"] / 2.6, 0.3, 0)
    bent = wide * high**3 / 12
    frame.add_section("bar", wide * high, bent, bent, bent)
    places = {0 - v["overhang"], 0.0, v["place"], v["supports"], v["supports"] + v["overhang"]}
    nodes = [f"{x:g}" for x in sorted(places)]
    for name, x in zip(nodes, sorted(places), strict=True):
        frame.add_node(name, x, 0, 0)
    weight = -v["density"] * FREE_FALL * wide * high
    for one, other in pairwise(nodes):
        frame.add_member(one, one, other, "steel", "bar")
        frame.add_member_dist_load(one, "FY", weight, weight, case="weight")
    frame.add_node_load(f"{v['place']:g}", "FY", -v["hand"], case="hand")
    frame.def_support("0", True, True, True, True, False, False)
    frame.def_support(f"{v['supports']:g}", False, True, True, False, False, False)
    for case in ("weight", "hand"):
        frame.add_load_combo(case, {case: 1})
    frame.analyze()
    sag = frame.nodes[f"{v['place']:g}"].DY
    return {f"sag_{case}": -float(sag[case]) for case in ("weight", "hand")}


def machine_on_four_feet(v: Values) -> dict[str, float]:
    """A stiff cross of members from the center of mass to four springs."""
    frame = FEModel3D()
    frame.add_material("stiff", 1e9, 1e9, 0.3, 0)
    frame.add_section("arm", 1e4, 1e4, 1e4, 1e4)
    frame.add_node("center", v["center_x"], v["center_y"], 0)
    frame.def_support("center", True, True, False, False, False, True)
    for i, (x, y) in enumerate([(-1, -1), (1, -1), (1, 1), (-1, 1)], start=1):
        frame.add_node(f"{i}", x * v["length"] / 2, y * v["depth"] / 2, 0)
        frame.add_member(f"{i}", "center", f"{i}", "stiff", "arm")
        frame.def_support_spring(f"{i}", "DZ", v["stiffness"])
    frame.add_node_load("center", "FZ", -v["mass"] * FREE_FALL)
    frame.analyze()
    sink = [-float(frame.nodes[f"{i}"].DZ["Combo 1"]) for i in range(1, 5)]
    along = (sink[1] + sink[2] - sink[0] - sink[3]) / (2 * v["length"])
    across = (sink[2] + sink[3] - sink[0] - sink[1]) / (2 * v["depth"])
    forces = {f"force_{i}": v["stiffness"] * s for i, s in enumerate(sink, start=1)}
    sinks = {f"sink_{i}": s for i, s in enumerate(sink, start=1)}
    return {**forces, **sinks, "sink": float(np.mean(sink)), "lean": float(np.hypot(along, across))}


def _shares(v: Values, x: str, y: str) -> np.ndarray:
    """Return the part of a weight at a place that each corner of the triangle carries."""
    corners = [[v[f"x_{i}"], v[f"y_{i}"], 0] for i in (1, 2, 3)]
    return np.asarray(trimesh.triangles.points_to_barycentric([corners], [[v[x], v[y], 0]])[0])


def machine_on_three_feet(v: Values) -> dict[str, float]:
    """Each foot's part of the weight; a push tips it about a side by the distance of the center from that side."""
    weight = v["mass"] * FREE_FALL
    found = {f"force_{i}": weight * part for i, part in enumerate(_shares(v, "center_x", "center_y"), start=1)}
    if "push_height" in v:
        side = LineString([(v["x_1"], v["y_1"]), (v["x_2"], v["y_2"])])
        found["tip_3"] = weight * Point(v["center_x"], v["center_y"]).distance(side) / v["push_height"]
        found["sink_3"] = found["force_3"] / v["stiffness"]
    return found


def plane_of_gaps(v: Values) -> dict[str, float]:
    """The plane through three gaps, solved, and its depth at a foot with what the gaps' errors make there."""
    rows = [[1, v[f"x_{i}"], v[f"y_{i}"]] for i in (1, 2, 3)]
    _, along, across = linalg.solve(rows, [v[f"gap_{i}"] for i in (1, 2, 3)])
    shares = _shares(v, "foot_x", "foot_y")
    depth = sum(part * ufloat(v[f"gap_{i}"], v[f"u_{i}"]) for i, part in enumerate(shares, start=1))
    found = {"slope_x": along, "slope_y": across, "depth": depth.nominal_value, "u": depth.std_dev}
    return {name: float(value) for name, value in found.items()} | {"share_1": float(shares[0])}


def pad_in_its_band(v: Values) -> dict[str, float]:
    """The normal distribution about the aim, within the band and below it."""
    bell = stats.norm(v["aim"], v["u_depth"])
    return {"chance": float(bell.cdf(v["band"]) - bell.cdf(0)), "chance_low": float(bell.cdf(0))}


def foot_in_its_lips(v: Values) -> dict[str, float]:
    """The standard deviation of a place anywhere in the clearance."""
    return {"u_foot": float(stats.uniform(0, v["clearance"]).std())}


def _outline(v: Values) -> Polygon:
    inner = box(0, 0, v["length"], v["width"]).buffer(-v["radius"], join_style="mitre")
    whole = inner if not inner.is_empty else Point(v["length"] / 2, v["width"] / 2)
    return whole.buffer(v["radius"], quad_segs=20_000) if v["radius"] else whole


def round_foot(v: Values) -> dict[str, float]:
    """A foot's outline, and the same with its clearance about it."""
    foot = _outline(v)
    free = foot.buffer(v["clearance"], quad_segs=20_000)
    return {"foot_area": foot.area, "girth": foot.length, "free_area": free.area}


def printed_pad(v: Values) -> dict[str, float]:
    """A plate and an L of lips on it, as solids."""
    wide = v["lip_width"]
    foot = box(0, 0, v["length"], v["width"])
    plate = box(0, 0, v["length"] + wide, v["width"] + wide)
    solids = [
        trimesh.creation.extrude_polygon(plate, v["height"]),
        trimesh.creation.extrude_polygon(plate.difference(foot), v["lip_height"]),
    ]
    volume = float(sum(solid.volume for solid in solids))
    return {"volume": volume, "mass": volume * v["density"]}
