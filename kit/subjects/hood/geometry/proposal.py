"""A hood proposed from the machine's swept envelope: each face's plane pushed out until the margin is kept."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, pi, sqrt

import numpy as np

from kit.core.errors import KitError
from kit.geometry.envelope.envelope import Envelope
from kit.geometry.solids.convex import Array
from kit.geometry.ties import first_least
from kit.subjects.hood.geometry.form import normal
from kit.subjects.hood.geometry.gaps import Swept


@dataclass(frozen=True)
class Proposal:
    """Measures of a hood [mm], as in `HoodDimensions`, and the width that the front opening needs."""

    front: float
    back: float
    left: float
    right: float
    chamfer: float
    height: float
    opening: float


def cell_corners(envelope: Envelope) -> Array:
    """Return points (n, 3) [mm] whose convex hull holds every filled cell: the corners of the outermost cells.

    The arc of a cell's outer side is held by the corners moved out to where its tangents meet.
    """
    around, out, _ = envelope.cells.shape
    azimuth, height = np.nonzero(envelope.cells.any(axis=1))
    column = np.moveaxis(envelope.cells, 1, 2)[azimuth, height]
    low = np.argmax(column, axis=1) * envelope.size
    high = (out - np.argmax(column[:, ::-1], axis=1)) * envelope.size / cos(pi / around)
    points = []
    for edge in (0, 1):
        angle = (azimuth + edge) * 2.0 * pi / around
        for radius in (low, high):
            for level in (0, 1):
                points.append(
                    np.stack(
                        [
                            envelope.axis[0] + radius * np.cos(angle),
                            envelope.axis[1] + radius * np.sin(angle),
                            envelope.floor + (height + level) * envelope.size,
                        ],
                        axis=1,
                    )
                )
    return np.concatenate(points)


def nearest_slopes(
    reached: Array, brow_height: float, margin: float, choices: Array, still: Swept | None = None
) -> dict[str, float]:
    """Return for each face the slope [rad] among `choices` whose plane stands nearest at half the height reached.

    The rear corners share one slope, the one that is best for both together. What is kept clear is as in `propose`.
    """
    whole, above = _kept_clear(reached, still, brow_height - margin)
    half = float(whole[:, 2].max()) / 2.0
    plans = {
        "front": (-pi / 2.0,),
        "back": (pi / 2.0,),
        "left": (pi,),
        "right": (0.0,),
        "rear": (pi / 4.0, 3.0 * pi / 4.0),
    }
    found = {}
    for face, ways in plans.items():
        points = above if face == "front" and len(above) else whole
        away = np.zeros(len(choices))
        for plan in ways:
            out = np.array([normal(plan, slope) for slope in choices])
            away += ((points @ out.T).max(axis=0) - half * out[:, 2]) / np.sin(choices)
        found[face] = float(choices[first_least(away)])
    return found


def propose(
    reached: Array,
    margin: float,
    thickness: float,
    slopes: Mapping[str, float],
    brow_height: float,
    still: Swept | None = None,
) -> Proposal:
    """Return the least hood with these slopes that keeps `margin` [mm] from the points `reached` (n, 3) [mm].

    `slopes` [rad] name front, back, left, right and rear (the rear corners). The front keeps clear of what rises
    above the brow less the margin; below it the machine may come out through the opening, which is as wide as what
    passes the front board needs. `still` is what does not move but stands under the hood as well.

    Raises:
        KitError: no point, a margin below 0, or nothing that rises above the brow.
    """
    if len(reached) == 0 or margin < 0.0:
        raise KitError(
            f"A hood is proposed round the machine's travel and a margin of 0 mm or more; {len(reached)} points and "
            f"{margin:g} mm are given."
        )
    whole, above = _kept_clear(reached, still, brow_height - margin)
    if not (reached[:, 2] > brow_height - margin).any():
        raise KitError(
            f"Nothing of the machine rises above a brow at {brow_height:g} mm; lower the brow below "
            f"{reached[:, 2].max():.0f} mm."
        )
    away = {}
    for name, plan, points in (
        ("front", -pi / 2.0, above),
        ("back", pi / 2.0, whole),
        ("left", pi, whole),
        ("right", 0.0, whole),
        ("rear left", 3.0 * pi / 4.0, whole),
        ("rear right", pi / 4.0, whole),
    ):
        slope = slopes["rear" if name.startswith("rear") else name]
        out = np.array(normal(plan, slope))
        away[name] = (float((points @ out).max()) + margin + thickness) / float(np.sin(slope))
    chamfer = min(away[side] + away["back"] - sqrt(2.0) * away[f"rear {side}"] for side in ("left", "right"))
    front = np.array(normal(-pi / 2.0, slopes["front"]))
    surface = reached if still is None else np.concatenate([reached, still.body.triangles.reshape(-1, 3)])
    ahead = surface @ front - away["front"] * float(np.sin(slopes["front"]))
    passing = surface[ahead > -thickness - margin]
    passing = passing[passing[:, 2] <= brow_height]
    opening = 2.0 * (float(np.abs(passing[:, 0]).max()) + margin) if len(passing) else 0.0
    return Proposal(
        away["front"],
        away["back"],
        away["left"],
        away["right"],
        max(0.0, chamfer),
        float(whole[:, 2].max()) + margin + thickness,
        opening,
    )


def _kept_clear(reached: Array, still: Swept | None, level: float) -> tuple[Array, Array]:
    """Return points whose hull holds all that is kept clear, and points whose hull holds what of it is above `level`.

    An edge of what stands counts from where it passes the level.
    """
    above = reached[reached[:, 2] > level]
    if still is None:
        return reached, above
    triangles = still.body.triangles
    rising = triangles[triangles[:, :, 2].max(axis=1) > level]
    begin, end = rising.reshape(-1, 3), np.roll(rising, -1, axis=1).reshape(-1, 3)
    passes = (begin[:, 2] > level) != (end[:, 2] > level)
    begin, end, high = begin[passes], end[passes], begin[begin[:, 2] > level]
    share = (level - begin[:, 2]) / (end[:, 2] - begin[:, 2])
    return (
        np.concatenate([reached, still.corners]),
        np.concatenate([above, high, begin + share[:, None] * (end - begin)]),
    )
