"""Pads for all feet of a machine, from the plane of its bed: heights, how likely each comes right, and the twist.

Every foot is computed by the model's own relations; four pads are rounded to steps so that the machine does not rock.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.verdict import Check, compare
from kit.subjects.level.plane_build import Bed
from kit.subjects.level.plane_fit import balance, stepped

if TYPE_CHECKING:
    from kit.drawing.scene import Scene

TAKES = {"plane": "bed plane"}
FLAT = "The pads stand in one plane; so must the feet: try the bare machine for rocking on a flat top first."
WANT = ("height", "proud", "chance_low", "chance_high", "chance")


@dataclass(frozen=True)
class Foot:
    """A foot by name and place, mm."""

    name: str
    at: tuple[float, float]


def build(inputs: BuildInput) -> Build:
    """Return the pads for the feet that the job states; nothing without them.

    Raises:
        KitError: no plane is taken, or more feet are stated than can be computed.
    """
    feet = [Foot(row["name"], (row["x"].base, row["y"].base)) for row in inputs.stated["feet"]]
    if not feet:
        return Build()
    if "plane" not in inputs.takes:
        raise KitError("the feet lie on no plane; link the part that fitted the gaps as the plane")
    bed: Bed = inputs.takes["plane"].data
    at = [foot.at for foot in feet]
    depths, us = bed.plane.depth(at), bed.plane.u(at)
    weights = balance(at) if len(feet) == 4 else None
    v = inputs.base
    wanted = _worked(inputs, depths, us, ("height_wanted",))["height_wanted"]
    heights = stepped(wanted, v["step"], weights)
    found = _worked(inputs, depths, us, WANT, aim=heights - depths - v["sink"])
    twist = float(weights @ heights) if weights is not None else 0.0
    rows = _table(inputs, feet, depths, us, found | {"wanted": wanted})
    likely = Number(
        "likely",
        "likelihood of the foot that comes right least often",
        float(found["chance"].min()),
        "%",
        resolution=0.001,
    )
    pictures = _pictures(bed, feet, heights)
    if weights is None:
        return Build((likely,), (_chance(inputs, feet, found),), pictures=pictures, tables=(rows,))
    u_twist = v["made_error"] / sqrt(3) * float(np.linalg.norm(weights))
    numbers = (
        likely,
        Number("twist", "twist that the pads' steps leave", abs(twist), resolution=0.01),
        Number("u_twist", "standard uncertainty of the twist, from making the pads", u_twist, resolution=0.01),
    )
    checks = (_chance(inputs, feet, found), _rocks(inputs, twist))
    return Build(numbers, checks, (FLAT,), pictures=pictures, tables=(rows,))


def _worked(inputs: BuildInput, depths: Any, us: Any, want: tuple[str, ...], **more: Any) -> dict[str, Any]:
    """Return the model's own results for every foot; `aim` is given where the height is chosen otherwise."""
    {name: entry.base for name, entry in inputs.case.entries.items()}
    return inputs.case.compute({"depth": depths, "u_depth": us} | more, want)


def _table(inputs: BuildInput, feet: list[Foot], depths: Any, us: Any, found: dict[str, Any]) -> Table:
    d = inputs.display
    rows = []
    for i, foot in enumerate(feet):
        lengths = (depths[i], us[i], found["wanted"][i], found["height"][i], found["proud"][i])
        shares = (found[name][i] for name in ("chance_low", "chance_high", "chance"))
        rows.append(
            (
                foot.name,
                *(show(float(length), "mm", d, resolution=0.01) for length in lengths),
                *(f"{100 * share:.1f} %" for share in shares),
            )
        )
    heads = (
        "Foot",
        "Depth",
        "Standard uncertainty",
        "Height wanted",
        "Pad",
        "Proud",
        "Lies low",
        "Too proud",
        "Right",
    )
    return Table("Pads", heads, tuple(rows))


def _chance(inputs: BuildInput, feet: list[Foot], found: dict[str, Any]) -> Check:
    worst = int(np.argmin(found["chance"]))
    return compare(
        "likely",
        f"at the {feet[worst].name} foot the bed comes in line or within the band with",
        float(found["chance"][worst]),
        inputs.base["wanted"],
        unit="%",
        sense=">=",
        resolution=0.001,
        mend="measure more gaps near that foot, make the pads in finer steps, or aim at half the band",
    )


def _rocks(inputs: BuildInput, twist: float) -> Check:
    return compare(
        "rocks",
        "the pads are out of one plane by",
        abs(twist),
        inputs.base["step"],
        resolution=0.01,
        mend="make the pads in finer steps, or lay a card on the lower pair",
    )


def _pictures(bed: Bed, feet: list[Foot], heights: Any) -> tuple[Picture, ...]:
    from kit.subjects.level.bed_drawing import Spot, draw_bed

    def plan(d: Display) -> Scene:
        places = [Spot((gap.x, gap.y), "") for gap in bed.gaps]
        pads = [
            Spot(foot.at, f"{foot.name}: {show(float(height), 'mm', d, resolution=0.01)}")
            for foot, height in zip(feet, heights, strict=True)
        ]
        return draw_bed(bed.plane, places, pads, d)

    return (Picture("plan", "The pads from above", "feet with the height of their pads over the measured gaps", plan),)
