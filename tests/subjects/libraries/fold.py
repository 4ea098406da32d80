"""Bends and wraps as outlines that a library of plane shapes offsets and measures."""

from collections.abc import Mapping

from shapely import Point, box

Values = Mapping[str, float]
FINE = 20_000  # parts of a quarter circle


def bent_faces(v: Values) -> dict[str, float]:
    """Inside, middle and outside of a ring as thick as the sheet, the middle as long as the flat sheet."""
    ring = Point(0, 0).buffer(v["inside_radius"], quad_segs=FINE)
    middle, outside = (ring.buffer(part * v["thickness"], quad_segs=FINE).length for part in (0.5, 1))
    return {"outer_strain": outside / middle - 1, "inner_strain": ring.length / middle - 1}


def plies_round_a_rail(v: Values) -> dict[str, float]:
    """A closed loop round a rounded rail, its middle half a thickness out; the next ply a thickness farther out."""
    rail = box(0, 0, v["rail_width"], v["rail_thickness"])
    rounded = rail.buffer(-v["edge_radius"], join_style="mitre").buffer(v["edge_radius"], quad_segs=FINE)
    inner, outer = (rounded.buffer(out * v["cloth_thickness"], quad_segs=FINE).length for out in (0.5, 1.5))
    return {"step": outer - inner, "inner_cloth": inner - v["rail_width"] + v["tail"]}


def folded_back(v: Values) -> dict[str, float]:
    """A fold by half a turn: both outsides to its crown, less half a ring about the middle of the cloth."""
    crease, thick = v["crease_radius"], v["cloth_thickness"]
    ring = Point(0, 0).buffer(crease + thick / 2, quad_segs=FINE)
    return {"crease_deduction": 2 * (crease + thick) - ring.length / 2}
