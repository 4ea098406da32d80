"""Pads for feet: a plate under the foot's outline with a lip on two sides, as regions and as a solid to print."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np
import shapely
from numpy.typing import ArrayLike
from shapely import MultiPolygon, Polygon
from shapely.affinity import translate

from kit.core.errors import KitError
from kit.geometry.mesh.clean import piece_numbers
from kit.geometry.mesh.mesh import Scan, welded
from kit.geometry.outline.rounded import region
from kit.geometry.solids.closed import Mesh, closed, raised, union

ARC = 32  # pieces of a quarter circle in a widened corner
SQUARE = 1.5  # mitre limit that keeps square corners (1.414) and blunts sharper ones
GRID = 1e-4  # mm, to which corners are rounded: closer ones would run together in a file of single precision
RIGHT, FAR = (1.0, 0.0), (0.0, 1.0)
ORIENTATION = "as it lies under the foot: plate down, lip up; no face hangs over, so no support is needed"


@dataclass(frozen=True)
class Pad:
    """A pad as it should come out, mm: regions in plan, and heights.

    foot: the outline it was made for. free: foot and clearance. plate: all that lies below. lip: what
    stands on the plate.
    """

    foot: Polygon
    free: Polygon
    plate: Polygon
    lip: MultiPolygon
    height: float
    lip_height: float

    @property
    def volume(self) -> float:
        """Volume as it should come out, mm³."""
        return float(self.plate.area * self.height + self.lip.area * self.lip_height)

    def mass(self, density: float, solid: float = 1.0) -> float:
        """Return the mass in grams of a `density` in g/cm³, of which the share `solid` is filled."""
        return self.volume * density * solid / 1000


@dataclass(frozen=True)
class Process:
    """What a print does to a model.

    It shrinks by shares `shrink` (plan) and `shrink_up` (height) as it cools, and its first layer, `layer` mm high,
    spreads outward by `spread` mm on each side.

    Raises: KitError for a share outside 0 to 0.2, or a layer or spread below zero.
    """

    shrink: float = 0.0
    shrink_up: float = 0.0
    layer: float = 0.2
    spread: float = 0.0

    def __post_init__(self) -> None:
        for name, share in (("plan", self.shrink), ("height", self.shrink_up)):
            if not 0 <= share <= 0.2:
                raise KitError(f"a print shrinks in {name} by {100 * share:g} %; this holds for 0 % to 20 %")
        if not (self.layer >= 0 and self.spread >= 0):
            raise KitError(
                f"the first layer is {self.layer:g} mm high and spreads by {self.spread:g} mm; both must be 0 or more"
            )


def make_pad(
    outline: ArrayLike,
    *,
    height: float,
    lip_width: float,
    lip_height: float,
    clearance: float,
    sides: Sequence[tuple[float, float]] = (RIGHT, FAR),
    least_wall: float = 0.8,
) -> Pad:
    """Return the pad for a foot's outline : (n, 2), mm.

    The lip is what the outline, widened by the clearance, sweeps over as it moves by the lip's width in each of the
    directions `sides` (unit vectors); so the foot can always be slid out the other way. Parts thinner than
    `least_wall` are left out, but for the corners of the cuts.
    Raises: KitError for a size that is not above zero, a clearance below zero, a lip too thin to keep, or an outline
    that crosses itself.
    """
    foot = region(outline, "the foot's outline")
    for name, size in (("height", height), ("lip's width", lip_width), ("lip's height", lip_height)):
        if not (np.isfinite(size) and size > 0):
            raise KitError(f"the {name} is {size:g} mm; it must be above 0 mm")
    if not (np.isfinite(clearance) and clearance >= 0):
        raise KitError(f"the clearance is {clearance:g} mm; a foot fits its lip only with 0 mm or more")
    free = foot.buffer(clearance, quad_segs=ARC) if clearance else foot
    swept = reduce(_swept, [tuple(lip_width * np.asarray(side)) for side in sides], free)
    free, swept = (shapely.set_precision(shape, GRID) for shape in (free, swept))
    lip = swept.difference(free)
    if least_wall > 0:  # shrunk and grown again, what is thinner is gone; grown a little more, all else keeps its edge
        thick = lip.buffer(-least_wall / 2, join_style="mitre").buffer(
            0.55 * least_wall, join_style="mitre", mitre_limit=SQUARE
        )
        lip = shapely.set_precision(lip.intersection(thick), GRID)
    parts = [part for part in shapely.get_parts(lip) if part.geom_type == "Polygon" and part.area > 1e-6]
    if not parts:
        raise KitError(f"a lip {lip_width:g} mm wide is thinner than a wall of {least_wall:g} mm; make it wider")
    whole = shapely.union_all([free, *parts])
    if whole.geom_type != "Polygon":
        raise KitError("the outline and its lip fall apart; give one outline without holes and a wider lip")
    return Pad(foot, free, Polygon(whole.exterior), MultiPolygon(parts), height, lip_height)


def _swept(shape: Polygon, way: tuple[float, float]) -> Polygon:
    """Return all that a region without holes passes over as it moves by `way`."""
    ring = np.asarray(shape.exterior.coords)
    strips = np.stack([ring[:-1], ring[1:], ring[1:] + way, ring[:-1] + way], axis=1)
    quads = [strip for strip in shapely.polygons(strips) if strip.area > 0]
    return shapely.union_all([shape, translate(shape, *way), *map(shapely.normalize, quads)])


def model(pad: Pad, process: Process | None = None) -> Mesh:
    """Return the solid to print, mm: larger by what the print will shrink, its first layer smaller by what it spreads.

    It stands on z = 0, plate down, and is one closed body.
    Raises: KitError where the first layer would vanish or the solid does not close.
    """
    process = process or Process()
    first = min(process.layer, pad.height) if process.spread else 0.0
    bodies = [_prism(part, first, pad.height + pad.lip_height) for part in pad.lip.geoms]
    if first < pad.height:
        bodies.append(_prism(pad.plate, first, pad.height))
    if first:
        base = shapely.set_precision(pad.plate.buffer(-process.spread, join_style="mitre"), GRID)
        if base.geom_type != "Polygon" or base.is_empty:
            raise KitError(
                f"a first layer smaller by {process.spread:g} mm on each side falls apart; make the pad wider"
            )
        bodies.append(_prism(base, 0.0, pad.height))
    solid = union(bodies)
    grown = solid.vertices * [*[1 / (1 - process.shrink)] * 2, 1 / (1 - process.shrink_up)]
    filed = _as_filed(Mesh(grown, solid.faces))
    if not closed(filed) or piece_numbers(Scan(*filed)).any():
        raise KitError("the pad's solid does not close into one body; simplify the outline or make the lip wider")
    return filed


def _as_filed(solid: Mesh) -> Mesh:
    """Return the solid as a file of single precision gives it back: corners that run together there are one.

    Faces that lose an area by that, and faces that come to lie back to back, are left out.
    """
    vertices, faces = welded(np.asarray(solid.vertices, dtype=np.float32), solid.faces)
    faces = faces[(faces != np.roll(faces, 1, axis=1)).all(axis=1)]
    _, which, times = np.unique(np.sort(faces, axis=1), axis=0, return_inverse=True, return_counts=True)
    return Mesh(vertices, faces[times[which.reshape(-1)] == 1])


def bodies(pad: Pad) -> tuple[Mesh, list[Mesh]]:
    """Return plate and lips as they should come out, mm, each a body of its own: to look at, not to print."""
    top = pad.height + pad.lip_height
    return _prism(pad.plate, 0.0, pad.height), [_prism(part, pad.height, top) for part in pad.lip.geoms]


def _prism(base: Polygon, low: float, high: float) -> Mesh:
    body = raised(base, high - low)
    return Mesh(body.vertices + np.array([0.0, 0.0, low]), body.faces)
