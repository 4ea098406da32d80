"""Five cuts of a board by a library of plane geometry; a bowed fence by a library that fits curves."""

from collections.abc import Mapping
from math import atan2, cos, hypot, pi, sin, sqrt

from scipy.optimize import brentq, least_squares
from shapely import LineString, Polygon, box
from shapely.affinity import rotate, translate

Values = Mapping[str, float]
FAR = 1e5


def _kept(eps: float) -> Polygon:
    """What stands left of the cut, which leaves the fence, y = 0, at the origin: the board above lies within."""
    top = (FAR * sin(eps), FAR * cos(eps))
    return Polygon([(0, -1), (0, 0), top, (-FAR, FAR), (-FAR, -1)])


def _taper(eps: float, length: float, width: float) -> float:
    """Cut a board four times, each new edge turned to the fence, and once more; return the strip's taper."""
    board = box(-2 * length, 0, 1, 1.5 * length)
    for _ in range(4):
        board = board.intersection(_kept(eps))
        turned = rotate(board, -(pi / 2 - eps), origin=(0, 0), use_radians=True)
        along = turned.intersection(LineString([(-FAR, 0), (FAR, 0)]).buffer(1e-9))
        board = translate(turned, 5 - along.bounds[2])  # the next cut takes 5 mm off at the fence
    board = translate(board, width - 5)
    strip = board.difference(_kept(eps))
    ends = [strip.intersection(LineString([(-FAR, y), (FAR, y)])).length for y in (1e-6, length)]
    return ends[0] - ends[1]


def five_cuts(v: Values) -> dict[str, float]:
    """Look for the error that leaves a strip of this taper."""
    wanted = v["fence_end"] - v["free_end"]
    found = brentq(lambda eps: _taper(eps, v["length"], v["fence_end"]) - wanted, -0.01, 0.01, xtol=1e-14)
    return {"out_of_square": found}


def bowed(v: Values) -> dict[str, float]:
    """Fit an arc of a circle to the three gaps, and lay a part on it as a chord."""
    L = v["length"]

    def arc(h: float, x: float) -> float:
        radius = (L * L / 4 + h * h) / (2 * h)
        return sqrt(radius * radius - x * x) - (radius - h)

    gaps = {-L / 4: v["gap_first"], 0.0: v["gap_middle"], L / 4: v["gap_last"]}
    fit = least_squares(lambda h: [arc(h[0], x) - gap for x, gap in gaps.items()], [v["gap_middle"]], xtol=1e-14)
    h, x, half = float(fit.x[0]), v["place"], v["part"] / 2
    near, far = arc(h, x - half), arc(h, x + half)
    turn = -atan2(far - near, 2 * half)
    middle = arc(h, x) - (near + far) / 2
    return {"bow": h, "turn": turn, "under": middle * 2 * half / hypot(2 * half, far - near)}


def leaning(v: Values) -> dict[str, float]:
    """Turn a flat plate that leans by so much and see how far its rim goes to the sides."""
    lean = atan2(v["dial"] / 2, v["dial_radius"])
    plate = LineString([(-v["radius"], 0), (v["radius"], 0)])
    ends = [rotate(plate, side * lean, origin=(0, 0), use_radians=True).coords[1][1] / cos(lean) for side in (1, -1)]
    return {"wobble": ends[0] - ends[1]}


def turned_edge(v: Values) -> dict[str, float]:
    """Turn an edge about its thin end until it stands over the whole face."""
    edge = rotate(LineString([(0, 0), (2 * v["face"], 0)]), v["turn"], origin=(0, 0), use_radians=True)
    return {"rise": edge.intersection(LineString([(v["face"], -FAR), (v["face"], FAR)])).y}
