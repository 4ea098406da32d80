"""What a router leaves, as outlines that a library of plane shapes sweeps; an error known by its limits."""

from collections.abc import Mapping

import numpy as np
from scipy import interpolate, stats
from shapely import LineString, Point, box, union_all

Values = Mapping[str, float]
FINE = 1000  # parts of a quarter circle
FAR = 10_000.0  # mm


def guided_passes(v: Values) -> dict[str, float]:
    """The base slides along its guide; the bit sweeps a strip; the last pass ends at the groove's far edge."""
    center = LineString([(-FAR, v["base"] / 2), (FAR, v["base"] / 2)])
    first = center.buffer(v["bit"] / 2, cap_style="flat")
    guide = LineString([(-FAR, 0), (FAR, 0)])
    near, far = guide.distance(first), first.bounds[1] + v["width"]
    last = LineString([(-FAR, far - v["bit"] / 2), (FAR, far - v["bit"] / 2)])
    swept = union_all([line.buffer(v["base"] / 2, cap_style="flat") for line in (center, last)])
    return {"offset": near, "spacing": swept.bounds[3] - swept.bounds[1]}


def crest_of_two_passes(v: Values) -> dict[str, float]:
    """Two cuts of the bit, a step apart, meet short of its radius; tilted, the floor rises by that."""
    step = (v["width"] - v["bit"]) / round((v["width"] - v["bit"]) / 6)
    one, other = (Point(x, 0).buffer(v["bit"] / 2, quad_segs=20 * FINE) for x in (0, step))
    met = one.boundary.intersection(other.boundary).bounds[3]
    return {"crest": np.tan(v["tilt"]) * (v["bit"] / 2 - met), "ridge": np.tan(v["tilt"]) * step}


def recess(v: Values) -> dict[str, float]:
    """The bit's center keeps half a bit inside the recess, the template half a bush outside of that."""
    work = box(0, 0, v["length"], v["width"])
    path = work.buffer(-v["bit"] / 2, join_style="mitre")
    template = path.buffer(v["running"] / 2, join_style="mitre")
    x_0, y_0, x_1, y_1 = template.bounds
    return {"template_length": x_1 - x_0, "template_width": y_1 - y_0, "offset": -x_0}


def half_width(v: Values) -> dict[str, float]:
    """The standard deviation of an error that lies anywhere between its limits."""
    return {"depth_u": float(stats.uniform(-v["touch_limit"], 2 * v["touch_limit"]).std())}


def pressed_pile(v: Values) -> dict[str, float]:
    """Between two readings a pile gives way evenly on a logarithmic scale of pressure."""
    pressed = v["rod_force"] / Point(0, 0).buffer(v["rod"] / 2, quad_segs=20 * FINE).area
    known = np.log([v["pressure_light"], v["pressure_firm"]])
    given = interpolate.make_interp_spline(known, [v["pile_light"], v["pile_firm"]], k=1)
    return {"pile": float(given(np.log(pressed)))}
