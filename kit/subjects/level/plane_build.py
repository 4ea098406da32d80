"""The bed's plane through more than three gaps, weighted by how surely each is known.

A gap is weighted by its own standard uncertainty; one typed with ± is taken as 95 %.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING, Any

from scipy.special import chdtrc

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.quantity.digits import signed
from kit.core.verdict import Check, Shown, compare, fact
from kit.subjects.level.plane_fit import Plane, fit_plane

if TYPE_CHECKING:
    from kit.drawing.scene import Scene
    from kit.drawing.space import View

LEFT_OUT = "Of the three gaps among the givens {} were not measured but are examples; the plane leaves them out."
CHANCE = 0.05  # a misfit that chance alone brings less often tells of a bed that is not flat


@dataclass(frozen=True)
class Gap:
    """A depth of the bed, below the line of the supports, at a place, with its standard uncertainty; mm."""

    x: float
    y: float
    depth: float
    u: float


@dataclass(frozen=True)
class Bed:
    """The plane through all gaps; what pads take. `common` is the standard uncertainty that all gaps share, mm."""

    plane: Plane
    gaps: tuple[Gap, ...]
    foot: tuple[float, float]
    common: float


def build(inputs: BuildInput) -> Build:
    """Return the weighted plane through all gaps, and how well they agree with it.

    Raises:
        KitError: a further gap that cannot be read.
    """
    v = inputs.base
    gaps, left_out = _gaps(inputs)
    plane = fit_plane([(g.x, g.y) for g in gaps], [g.depth for g in gaps], [g.u for g in gaps])
    bed = Bed(plane, gaps, (v["foot_x"], v["foot_y"]), v["u_edge"])
    depth, u = float(plane.depth(bed.foot)), hypot(float(plane.u(bed.foot)), v["u_edge"])
    by_chance = float(chdtrc(plane.free, plane.misfit)) if plane.free else 1.0
    numbers = [
        Number("gaps", "gaps in all", len(gaps), "", resolution=1),
        Number("depth", "depth of the bed at the foot, by all gaps", depth, resolution=0.001),
        Number("u", "its standard uncertainty", u, resolution=0.001),
        *(
            Number(f"slope_{axis}", f"how much deeper the bed gets along {axis}", float(slope), "mm/m", resolution=1e-5)
            for axis, slope in zip("xy", plane.slopes, strict=True)
        ),
        *(
            (
                Number("misfit", "weighted sum of squares that the plane leaves", plane.misfit, "", resolution=0.1),
                Number("chance", "how often chance alone leaves as much or more", by_chance, "%", resolution=0.01),
            )
            if plane.free
            else ()
        ),
    ]
    return Build(
        tuple(numbers),
        _limits(inputs, bed, u, by_chance),
        cautions=(LEFT_OUT.format(left_out),) if left_out else (),
        pictures=_pictures(bed),
        tables=(_table(bed, inputs.display),),
        data=bed,
    )


def _gaps(inputs: BuildInput) -> tuple[tuple[Gap, ...], int]:
    """Return the gaps that lie in the plane, and how many of the page's three are left out as mere examples.

    An example stands in for what was not measured only as long as fewer than three gaps were.
    """
    more = _more(inputs)
    page = {i: Gap(*(inputs.base[f"{name}_{i}"] for name in ("x", "y", "gap", "u"))) for i in (1, 2, 3)}
    own = [gap for i, gap in page.items() if inputs.entry(f"gap_{i}").text is not None]
    if not more or len(own) + len(more) < 3:
        return (*page.values(), *more), 0
    return (*own, *more), len(page) - len(own)


def _more(inputs: BuildInput) -> tuple[Gap, ...]:
    return tuple(_gap(row, number) for number, row in enumerate(inputs.stated["gaps"], start=4))


def _gap(row: Mapping[str, Any], number: int) -> Gap:
    depth = row["depth"]
    if row["u"] is not None:
        u = row["u"].base
    elif depth.half_base:
        u = depth.half_base / 2
    else:
        raise KitError(f'gap {number} has no uncertainty; add u = "0.07 mm", or write its depth with ±')
    return Gap(row["x"].base, row["y"].base, depth.base, u)


def _limits(inputs: BuildInput, bed: Bed, u: float, by_chance: float) -> tuple[Check, ...]:
    sure = compare(
        "sure_of_all",
        "by all gaps the depth at the foot is known to",
        u,
        inputs.base["allowed"],
        resolution=0.001,
        mend="measure nearer to the foot, or at more places",
    )
    if not bed.plane.free:
        return (*_measured(inputs), sure)
    worst = max(abs(float(left)) for left in bed.plane.residuals)
    flat = compare(
        "flat",
        "the gaps leave one plane by up to {}; chance alone leaves as much with a likelihood of",
        by_chance,
        CHANCE,
        unit="%",
        sense=">=",
        resolution=0.01,
        says=(Shown(worst, resolution=0.001),),
        mend="measure the gap that is farthest off again; if it stays, the bed is not flat there",
    )
    return (*_measured(inputs), sure, flat)


def _measured(inputs: BuildInput) -> tuple[Check, ...]:
    """Return the sentence for two gaps only: the model would fill in a third that nobody measured."""
    stated = [i for i in (1, 2, 3) if inputs.entry(f"gap_{i}").text is not None]
    if len(stated) != 2:
        return ()
    (missing,) = {1, 2, 3} - {*stated}
    label = f"gaps are stated at places {stated[0]} and {stated[1]} only, about whose line the bed may lean as it likes"
    return (
        fact(
            "three",
            False,
            label,
            f"state x_{missing}, y_{missing} and gap_{missing}, measured well beside that line",
        ),
    )


def _table(bed: Bed, d: Display) -> Table:
    rows = []
    for number, (gap, left) in enumerate(zip(bed.gaps, bed.plane.residuals, strict=True), start=1):
        lengths = (gap.depth, gap.depth - float(left), float(left), gap.u)
        rows.append(
            (
                str(number),
                show(gap.x, "mm", d),
                show(gap.y, "mm", d),
                *(show(length, "mm", d, resolution=0.001) for length in lengths),
                signed(left / gap.u, 1),
            )
        )
    heads = (
        "Gap",
        "x",
        "y",
        "Measured",
        "Plane",
        "Difference",
        "Standard uncertainty",
        "In these",
    )
    return Table("Gaps and the plane", heads, tuple(rows))


def _pictures(bed: Bed) -> tuple[Picture, ...]:
    from kit.subjects.level.bed_drawing import Spot, bed_in_space, draw_bed

    places = [Spot((gap.x, gap.y), str(number), gap.depth) for number, gap in enumerate(bed.gaps, start=1)]
    feet = [Spot(bed.foot, "foot")]

    def plan(d: Display) -> Scene:
        label = [Spot(place.at, f"{place.words}: {show(place.depth, 'mm', d, resolution=0.01)}") for place in places]
        at = show(float(bed.plane.depth(bed.foot)), "mm", d, resolution=0.01)
        return draw_bed(bed.plane, label, [Spot(bed.foot, f"foot: {at}")], d)

    def space(_d: Display) -> View:
        return bed_in_space(bed.plane, places, feet)

    return (
        Picture("plan", "The gaps from above", "places, the foot, and lines of equal depth", plan),
        Picture("space", "The bed in space", "the plane far too steep, and each measured gap above it", space),
    )
