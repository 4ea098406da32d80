"""The hood's corners by a mesh library, its opening by a library of plane shapes."""

from collections.abc import Mapping

import numpy as np
from ezdxf.math import ConstructionCircle
from shapely import Point, box

from tests.subjects.libraries._boards import corner, dihedral, hull, ring

Values = Mapping[str, float]


def front_corner(v: Values) -> dict[str, float]:
    """Front and right board meet over a square corner: a tetrahedron of the corner line and both bottom edges."""
    up, slopes = v["height"], (v["slope_front"], v["slope_right"])
    foot, left, back = np.zeros(3), np.array([-1000.0, 0, 0]), np.array([0, 1000.0, 0])
    head = np.array([-up / np.tan(slopes[1]), up / np.tan(slopes[0]), up])
    between = dihedral(hull([foot, left, back, head]), foot, head)
    return {
        "dihedral_front_right": between,
        "tilt_front_right": (np.pi - between) / 2,
        "miter_front_right": np.pi / 2 - corner(foot, left, head),
        "miter_right_front": np.pi / 2 - corner(foot, back, head),
    }


def eight_sided(v: Values) -> dict[str, float]:
    """The rear corners of boards that lean alike are those of a ring of eight."""
    found = ring(8, v["slope_rear"])
    pairs = ("right_rear", "rear_back")
    return {f"{name}_{pair}": found[name] for name in ("miter", "tilt") for pair in pairs}


def arched_opening(v: Values) -> dict[str, float]:
    """What a disc leaves over its chord, cut out of a fine polygon."""
    half, rise = v["brow_width"] / 2, v["brow_rise"]
    radius = ConstructionCircle.from_3p((-half, 0), (0, rise), (half, 0)).radius
    disc = Point(0, rise - radius).buffer(radius, quad_segs=20000)
    return {"segment": disc.intersection(box(-2 * radius, 0, 2 * radius, 2 * radius)).area, "brow_radius": radius}
