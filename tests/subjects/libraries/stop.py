"""Bars by a frame library, sections by a section library, layers by least squares of their strains."""

from collections.abc import Mapping

import numpy as np
from Pynite import FEModel3D
from scipy.optimize import lsq_linear
from sectionproperties.analysis import Section
from sectionproperties.pre.library import rectangular_section

Values = Mapping[str, float]


def _block_and_rib(v: Values) -> Section:
    """Return the meshed section: the block with its face at x = 0, the rib behind it in the middle of its height."""
    block = rectangular_section(d=v["block_height"], b=v["block_width"])
    rib = rectangular_section(d=v["rib_width"], b=v["rib_height"])
    up = (v["block_height"] - v["rib_width"]) / 2
    section = block + rib.shift_section(v["block_width"], up)
    section.create_mesh([v["block_height"] * v["block_width"] / 200])
    return Section(section)


def one_rectangle_or_tee(v: Values) -> dict[str, float]:
    """Area, centroid and second moment of block and rib together."""
    section = _block_and_rib(v)
    section.calculate_geometric_properties()
    return {
        "area": section.get_area(),
        "centroid": section.get_c()[0],
        "second_moment": section.get_ic()[1],
    }


def bow_shared(v: Values) -> dict[str, float]:
    """Of the block's bow the part stays that its own stiffness has in the whole."""
    whole = one_rectangle_or_tee(v)["second_moment"]
    own = rectangular_section(d=v["block_height"], b=v["block_width"])
    own.create_mesh([v["block_height"] * v["block_width"] / 200])
    alone = Section(own)
    alone.calculate_geometric_properties()
    part = alone.get_ic()[1] / whole
    return {"part_left": part, "bow_left": part * v["bow"]}


def _bar(length: float, stiffness: float, fast: bool) -> FEModel3D:
    """Return a bar of two members, held fast at its left end or on supports at both, to be loaded."""
    frame = FEModel3D()
    frame.add_material("wood", 1, 1, 0, 0)
    frame.add_section("bar", stiffness, stiffness, stiffness, stiffness)
    for name, x in (("left", 0), ("middle", length / 2), ("right", length)):
        frame.add_node(name, x, 0, 0)
    frame.add_member("a", "left", "middle", "wood", "bar")
    frame.add_member("b", "middle", "right", "wood", "bar")
    frame.def_support("left", True, True, True, True, fast, fast)
    if not fast:
        frame.def_support("right", False, True, True, False, False, False)
    return frame


def pressed_flat(v: Values) -> dict[str, float]:
    """A bar on both ends: the force in its middle that bends it by its bow."""
    frame = _bar(v["length"], v["block_modulus"] * v["block_height"] * v["block_width"] ** 3 / 12, fast=False)
    frame.add_node_load("middle", "FY", -1)
    frame.analyze()
    return {"press": v["bow"] / -float(frame.nodes["middle"].DY["Combo 1"])}


def pushed_tip(v: Values) -> dict[str, float]:
    """A bar held fast at one end and pushed at the other."""
    frame = _bar(v["long_reach"], v["block_modulus"] * v["block_height"] * v["block_width"] ** 3 / 12, fast=True)
    frame.add_node_load("right", "FY", -v["push"])
    frame.analyze()
    return {"bending_tip": -float(frame.nodes["right"].DY["Combo 1"])}


def sheared_tip(v: Values) -> dict[str, float]:
    """A short block by its shear area, from the stresses of a twist-free shear without Poisson's ratio."""
    block = rectangular_section(d=v["block_height"], b=v["block_width"])
    block.create_mesh([v["block_height"] * v["block_width"] / 100])
    section = Section(block)
    section.calculate_geometric_properties()
    section.calculate_warping_properties()
    area = section.get_as()[0]
    return {"shear_tip": v["push"] * v["long_reach"] / (v["block_shear_ratio"] * v["block_modulus"] * area)}


def two_layers(v: Values) -> dict[str, float]:
    """Fibers that want to be of different lengths settle where they store least energy; a percent of 30 counts."""
    parts = 4000
    back, front = v["back_thickness"], v["front_thickness"]
    strain = v["shrinkage_along"] / 0.30
    rows, wanted = [], []
    for start, thick, modulus, moist in (
        (0, back, v["back_modulus"], v["back_moisture"]),
        (back, front, v["front_modulus"], v["front_moisture"]),
    ):
        y = start + (np.arange(parts) + 0.5) * thick / parts
        weight = np.sqrt(modulus * thick / parts)
        rows.append(weight * np.column_stack([np.ones(parts), y / back]))
        wanted.append(np.full(parts, weight * strain * moist))
    curvature = lsq_linear(np.vstack(rows), np.concatenate(wanted), tol=1e-14).x[1] / back
    return {"curvature": curvature, "bow": curvature * v.get("length", 0) ** 2 / 8}
