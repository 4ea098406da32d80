"""A bench of plane shapes: blade, fence's face, block and part, with the distances between them."""

from collections.abc import Mapping

from scipy.optimize import LinearConstraint, brentq, linprog, milp
from shapely import LineString, Point, Polygon, affinity, box

Values = Mapping[str, float]
BLADE = LineString([(0, -1000), (0, 1000)])


def over_the_block(v: Values) -> dict[str, float]:
    """The stop stands at its reading, the block before it; it is moved until the part just fits."""

    def block(reading: float) -> Polygon:
        return box(reading - v["block"], 0, reading, 100)

    reading = brentq(lambda at: BLADE.distance(block(at)) - v["target"], v["block"], 10 * v["block"], xtol=1e-13)
    hand = Point(block(reading).bounds[2] - v["knob"], 50)
    return {"reading": reading, "hand": BLADE.distance(hand)}


def leaning_face(v: Values) -> dict[str, float]:
    """The block's face, turned about its foot: how far its end comes in."""
    face = LineString([(0, 0), (0, v["face_depth"])])
    turned = affinity.rotate(face, v["lean"], origin=(0, 0), use_radians=True)
    in_by = float(turned.bounds[0] if turned.bounds[0] < -1e-12 else -turned.bounds[2])
    return {"face_error": in_by, "part_error": in_by}


def dust_in_the_corner(v: Values) -> dict[str, float]:
    """A part's square corner slides along the fence until the dust before it fills chamfer and toe."""
    room = Polygon([(0, 0), (v["chamfer"], 0), (0, v["chamfer"])]).area

    def left(toe: float) -> float:
        return Polygon([(0, 0), (toe, 0), (0, toe)]).area + room - v["cuts"] * v["dust"]

    toe = brentq(left, 1e-6, 1000, xtol=1e-12)
    return {"toe": toe, "part_error": -toe}


def strips(v: Values) -> dict[str, float]:
    """The longest part of which so many fit with a kerf between each two."""
    parts = round(v["wanted"])
    found = linprog([-1], A_ub=[[parts]], b_ub=[v["stock"] - (parts - 1) * v["kerf"]])
    return {"longest": float(found.x[0])}


def pieces(v: Values) -> dict[str, float]:
    """The greatest whole number of parts from a board, a kerf after each, and what is left."""
    rule = LinearConstraint([[v["part"] + v["kerf"]]], [0], [v["stock"]])
    parts = round(-milp([-1], integrality=[1], constraints=rule).fun)
    return {"parts": parts, "offcut": v["stock"] - parts * (v["part"] + v["kerf"])}
