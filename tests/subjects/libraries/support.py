"""A shelf by a frame library, its section by a section library."""

from collections.abc import Mapping

from Pynite import FEModel3D
from sectionproperties.analysis import Section
from sectionproperties.pre.library import rectangular_section
from sympy import symbols
from sympy.physics.continuum_mechanics.beam import Beam

Values = Mapping[str, float]
FREE_FALL = 9806.65  # mm/s^2, ISO 80000-3


def _shelf(v: Values, fast: bool) -> dict[str, float]:
    """Return sag in the middle and greatest moment of two members, loaded along them and at the node between."""
    frame = FEModel3D()
    stiff = v["panel_modulus"] * v["depth"] * v["thickness"] ** 3 / 12
    frame.add_material("wood", 1, 1, 0, 0)
    frame.add_section("shelf", stiff, stiff, stiff, stiff)
    for number, name in enumerate(("left", "middle", "right")):
        frame.add_node(name, number * v["span"] / 2, 0, 0)
    even = v["load"] * FREE_FALL / v["span"]
    for name, one, other in (("a", "left", "middle"), ("b", "middle", "right")):
        frame.add_member(name, one, other, "wood", "shelf")
        frame.add_member_dist_load(name, "FY", -even, -even)
    frame.add_node_load("middle", "FY", -v.get("point_load", 0) * FREE_FALL)
    frame.def_support("left", True, True, True, True, fast, fast)
    frame.def_support("right", fast, True, True, fast, fast, fast)
    frame.analyze()
    sag = -float(frame.nodes["middle"].DY["Combo 1"])
    moments = [abs(frame.members[m].moment("Mz", at)) for m in "ab" for at in (0, v["span"] / 2)]
    return {"first_sag": sag, "even_sag": sag, "middle_sag": sag, "moment": float(max(moments))}


def shelf_on_supports(v: Values) -> dict[str, float]:
    """Both ends free to turn."""
    return _shelf(v, fast=False)


def shelf_held_fast(v: Values) -> dict[str, float]:
    """Both ends held against turning."""
    return _shelf(v, fast=True)


def shelf_with_lip(v: Values) -> dict[str, float]:
    """Board and lip below it as one meshed section of one wood."""
    board = rectangular_section(d=v["thickness"], b=v["depth"])
    lip = rectangular_section(d=v["lip_height"], b=v["lip_thickness"]).shift_section(0, -v["lip_height"])
    both = board + lip
    both.create_mesh([v["depth"] * v["thickness"] / 100])
    section = Section(both)
    section.calculate_geometric_properties()
    return {"stiffness": v["wood_modulus"] * section.get_ic()[0]}


def tipping_bench(v: Values) -> dict[str, float]:
    """The bench as a beam on its feet, the push as a moment at the front ones: what the back ones carry."""
    back, front = symbols("back front")
    far = 4000
    beam = Beam(2 * far, 1, 1)
    weights = {
        far - v["bench_place"]: v["bench"],
        far + v["machine_place"]: v["machine"],
        far + v["work_place"]: v["work"],
    }
    for place, mass in weights.items():
        beam.apply_load(-mass * FREE_FALL, place, -1)
    beam.apply_load(back, far - v["feet"], -1)
    beam.apply_load(front, far, -1)
    beam.apply_load(v["push"] * v["push_height"], far, -2)  # clockwise, which the library counts as positive
    beam.solve_for_reaction_loads(back, front)
    return {"back_load": float(beam.reaction_loads[back])}


def wing(v: Values) -> dict[str, float]:
    """A member fixed at one end, free or propped at the other, and where it has sunk farthest or in the middle."""
    frame = FEModel3D()
    L, propped = v["length"], round(v["end"]) == 1
    stiff = v["modulus"] * v["width"] * v["height"] ** 3 / 12
    frame.add_material("wood", 1, 1, 0, 0)
    frame.add_section("wing", stiff, stiff, stiff, stiff)
    for number, name in enumerate(("bench", "middle", "end")):
        frame.add_node(name, number * L / 2, 0, 0)
    spread = (v["density"] * v["width"] * v["height"] + v["work"] / L) * FREE_FALL
    for name, one, other in (("a", "bench", "middle"), ("b", "middle", "end")):
        frame.add_member(name, one, other, "wood", "wing")
        frame.add_member_dist_load(name, "FY", -spread, -spread)
    frame.add_node_load("end", "FY", -v["lean"])
    frame.def_support("bench", True, True, True, True, True, True)
    if propped:
        frame.def_support("end", False, True, False, False, False, False)
    frame.analyze()
    leg = float(frame.nodes["end"].RxnFY["Combo 1"]) if propped else 0.0
    return {"sag": -float(frame.nodes["middle" if propped else "end"].DY["Combo 1"]), "leg": leg}
