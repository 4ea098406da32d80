"""The measures of a hood over a machine: a base outline on the bench, a slope for each face, a top, a brow.

The bench is z = 0; the origin lies on the bench below the machine's turning axis; x to the right, y to the back.
Distances are those of the outside bottom edges. Slopes are counted from the horizontal: 90° is upright, less leans
over the machine. The front has an opening below its brow; the rear corners may be cut off by a chamfer.
"""

from dataclasses import dataclass
from math import cos, pi, radians, sin, sqrt

from kit.core.errors import KitError
from kit.geometry.solids.convex import Plane
from kit.subjects.hood.geometry.boards import Face

FLOOR = (Plane.of("bench", (0.0, 0.0, -1.0), 0.0),)
TOP = "top"


@dataclass(frozen=True)
class Brow:
    """The front opening: its width and the height of the brow at its ends above the bench [mm].

    `rise` [mm] is the arch's, measured up the board; 0 for a straight brow.
    """

    width: float
    height: float
    rise: float = 0.0


@dataclass(frozen=True)
class Chute:
    """An opening in a face: its middle's height above the bench and distance along the face from the axis [mm].

    Round with `width` as its diameter, or a rectangle `width` along and `up` up the face.
    """

    face: str
    width: float
    height: float
    along: float = 0.0
    up: float | None = None


@dataclass(frozen=True)
class Notch:
    """A notch at the foot of a face: from `begin` to `end` along the face, seen from outside, and its height [mm]."""

    face: str
    begin: float
    end: float
    height: float


@dataclass(frozen=True)
class HoodDimensions:
    """The measures of a hood [mm, rad]; `chamfer` is what it takes off each side of a rear corner, 0 for none."""

    front: float
    back: float
    left: float
    right: float
    chamfer: float
    height: float
    thickness: float
    slope_front: float
    slope_back: float
    slope_left: float
    slope_right: float
    slope_rear: float
    brow: Brow | None = None
    chutes: tuple[Chute, ...] = ()
    notches: tuple[Notch, ...] = ()

    def faces(self) -> tuple[Face, ...]:
        """Return the faces: the walls counterclockwise from the front, then the top.

        Raises:
            KitError: a slope that is not above 0° and below 180°, or a measure that leaves no room.
        """
        for name, slope in (
            ("front", self.slope_front),
            ("back", self.slope_back),
            ("left", self.slope_left),
            ("right", self.slope_right),
            ("rear corners", self.slope_rear),
        ):
            if not radians(1.0) <= slope <= radians(179.0):
                raise KitError(f"The slope of the {name} is {slope * 180.0 / pi:g}°; it must be between 1° and 179°.")
        deep, wide = self.front + self.back, self.left + self.right
        if not (min(deep, wide) > 2.0 * self.thickness and self.height > self.thickness > 0.0):
            raise KitError(
                f"A hood {wide:g} mm wide, {deep:g} mm deep and {self.height:g} mm high leaves no room between boards "
                f"of {self.thickness:g} mm; make it larger."
            )
        if not 0.0 <= self.chamfer < min(deep, wide / 2.0):
            raise KitError(
                f"The rear corners are cut off by {self.chamfer:g} mm; it may be 0 mm to below "
                f"{min(deep, wide / 2.0):g} mm here."
            )
        walls = {
            "front": (-pi / 2.0, self.slope_front, self.front),
            "right": (0.0, self.slope_right, self.right),
            "rear right": (pi / 4.0, self.slope_rear, (self.right + self.back - self.chamfer) / sqrt(2.0)),
            "back": (pi / 2.0, self.slope_back, self.back),
            "rear left": (
                3.0 * pi / 4.0,
                self.slope_rear,
                (self.left + self.back - self.chamfer) / sqrt(2.0),
            ),
            "left": (pi, self.slope_left, self.left),
        }
        made = [
            wall(name, plan, slope, away, self.thickness)
            for name, (plan, slope, away) in walls.items()
            if self.chamfer > 0.0 or not name.startswith("rear")
        ]
        return (*made, Face.of(TOP, (0.0, 0.0, 1.0), self.height, self.thickness))


def wall(name: str, plan: float, slope: float, away: float, thickness: float) -> Face:
    """Return the face that looks toward `plan` [rad from x], its bottom edge `away` [mm] from the axis."""
    return Face.of(name, normal(plan, slope), away * sin(slope), thickness)


def normal(plan: float, slope: float) -> tuple[float, float, float]:
    """Return the outward unit normal of a face that looks toward `plan` at `slope` from the horizontal [rad]."""
    return (sin(slope) * cos(plan), sin(slope) * sin(plan), cos(slope))
