"""Lines through test cuts by libraries of statistics and of errors; blades and lines of sight as plane shapes."""

from collections.abc import Mapping

from scipy import stats
from shapely import LineString, affinity, box, union_all
from uncertainties import correlation_matrix, ufloat

Values = Mapping[str, float]


def line_of_two_cuts(v: Values) -> dict[str, float]:
    """The straight line through both cuts, and the reading at which it gives the target."""
    line = stats.linregress([v["reading_1"], v["reading_2"]], [v["part_1"], v["part_2"]])
    set_to = (v["target"] - line.intercept) / line.slope
    return {
        "zero": float(line.intercept),
        "scale_error": float(line.slope) - 1,
        "set_to": float(set_to),
        "shift": float(v["target"] - set_to),
    }


def errors_of_two_cuts(v: Values) -> dict[str, float]:
    """The same line through two lengths, each with its uncertainty, which the library carries along."""
    one, other = (ufloat(v[f"part_{i}"], v["cut_u"]) for i in (1, 2))
    slope = (other - one) / (v["reading_2"] - v["reading_1"])
    zero = one - slope * v["reading_1"]
    return {
        "line_u": (zero + slope * v["target"]).std_dev,
        "zero_u": zero.std_dev,
        "scale_u": slope.std_dev,
        "correlation": float(correlation_matrix([zero, slope])[0][1]),
    }


def line_of_sight(v: Values) -> dict[str, float]:
    """Where the sight from the eye through the line meets the scale."""
    aside, up, gap = v["eye_offset"], v["eye_height"], v["gap"]
    sight = affinity.scale(LineString([(aside, up), (0, gap)]), 2, 2, origin=(aside, up))
    return {"parallax": -sight.intersection(LineString([(-1000, 0), (1000, 0)])).x}


def fifth_of_a_division(v: Values) -> dict[str, float]:
    """The standard deviation of a reading anywhere within the part of a division that is estimated."""
    half = v["division"] * v["estimate"]
    return {"u": float(stats.uniform(-half, 2 * half).std())}


def _swept(kerf: float, plate: float, runout: float = 0) -> tuple[float, float, float]:
    """Return the bounds of what the teeth sweep, both ways, and the plate's right face; its left one lies at 0."""
    body = box(0, -100, plate, 0)
    tooth = affinity.translate(box(-kerf / 2, 0, kerf / 2, 1), plate / 2)
    cut = union_all([affinity.translate(tooth, side * runout / 2) for side in (-1, 1)])
    return cut.bounds[0], cut.bounds[2], body.bounds[2]


def blade_beside_its_flange(v: Values) -> dict[str, float]:
    """Plate and teeth as boxes, the flange at the plate's left face and the stop to the left."""
    left, right, _ = _swept(v["kerf"], v["plate"], v["runout"])
    still, _, _ = _swept(v["kerf"], v["plate"])
    found = {"overhang": -still, "kerf_cut": right - left, "cut_mark": v["datum"] + left - v["cursor"]}
    return {**found, "zero_place": left - v["cursor"]}


def another_blade(v: Values) -> dict[str, float]:
    """Both blades with their right face at the flange: how far the teeth reach to the right of it."""
    reach = [_swept(v[n + "kerf"], v[n + "plate"])[1] - v[n + "plate"] for n in ("", "new_")]
    return {"drift": reach[1] - reach[0], "part_change": reach[0] - reach[1]}


def another_blade_other_side(v: Values) -> dict[str, float]:
    """Both blades with their left face at the flange: how far the teeth reach to the right of it."""
    reach = [_swept(v[n + "kerf"], v[n + "plate"])[1] for n in ("", "new_")]
    return {"drift": reach[1] - reach[0]}
