"""How many pieces fit, as whole numbers of an optimizer; what parts take, as plane shapes."""

from collections.abc import Mapping

import numpy as np
import shapely
from scipy.optimize import LinearConstraint, milp

Values = Mapping[str, float]


def _most(room: float, piece: float, kerf: float) -> int:
    """Return the greatest whole number of pieces, and of kerfs between them, that a length takes."""
    pieces, kerfs = [piece, kerf], [1, -1]
    found = milp([-1, 0], integrality=[1, 1], constraints=LinearConstraint([pieces, kerfs], [0, 0], [room, 1]))
    return round(-found.fun)


def pieces_of_a_sheet(v: Values) -> dict[str, float]:
    """Rows and columns of pieces, with a kerf between each two."""
    along = _most(v["length"], v["piece_length"], v["kerf"]) * _most(v["width"], v["piece_width"], v["kerf"])
    turned = _most(v["length"], v["piece_width"], v["kerf"]) * _most(v["width"], v["piece_length"], v["kerf"])
    return {"along": along, "turned": turned}


def densest_circles(v: Values) -> dict[str, float]:
    """The room that a circle has among its six neighbors, by the cells about a lattice of equilateral triangles."""
    radius = v["outline"] / v["parts"] / (2 * np.pi)
    rows = [(2 * radius * (i + j / 2), 2 * radius * j * np.sqrt(0.75)) for i in range(-3, 4) for j in range(-3, 4)]
    cells = shapely.voronoi_polygons(shapely.MultiPoint(rows)).geoms
    (cell,) = (c for c in cells if c.contains(shapely.Point(0, 0)))
    return {"roll_length": v["parts"] * cell.area / v["width"]}


def grown_circles(v: Values) -> dict[str, float]:
    """Each part with half a kerf about it."""
    radius = v["outline"] / v["parts"] / (2 * np.pi)
    part = shapely.Point(0, 0).buffer(radius, quad_segs=20_000).buffer(v["kerf"] / 2, quad_segs=20_000)
    return {"with_kerf": v["parts"] * part.area}
