"""The bodies of a part with what the job states of them: boxes where its page knows no shape, mass, center."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from math import prod

from kit.core.errors import KitError
from kit.core.lists import Body, Shape
from kit.core.place import Point
from kit.job.job import Job
from kit.job.place import OwnBody

_CORNERS = tuple(product((0, 1), repeat=3))
_FACES = (
    *((0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5), (0, 4, 5), (0, 5, 1)),
    *((2, 3, 7), (2, 7, 6), (0, 2, 6), (0, 6, 4), (1, 5, 7), (1, 7, 3)),
)


def own_bodies(job: Job, id: str, brought: tuple[Body, ...], own: OwnBody | None) -> tuple[Body, ...]:
    """Return what a part brings, with what the job states of its body.

    Boxes are added as one body, of the stated mass; without them that mass is of all that the page does not weigh. A
    stated center is that of the body with that mass, or of what has none; else all is taken as of one stuff.

    Raises:
        KitError: what its mass is linked to cannot be computed, or its page says what it weighs.
    """
    if own is None:
        return brought
    name = job.parts[id].title or id
    mass = job.case(own.mass[0]).base[own.mass[1]] if isinstance(own.mass, tuple) else own.mass
    if own.boxes:
        return (*brought, Body(name, mass, own.center or boxes_center(own.boxes), boxes_shape(name, own.boxes)))
    if mass is None:
        return tuple(body if body.center else replace(body, center=own.center) for body in brought)
    unknown = [body for body in brought if body.mass is None]
    if brought and not unknown:
        raise KitError("its page says what it weighs; take the mass out of its body")
    whole = sum(body.share for body in unknown)
    if own.center is None and whole > 0.0:
        rate = mass / whole
        return tuple(replace(body, mass=rate * body.share) if body.mass is None else body for body in brought)
    seen = [replace(body, mass=0.0, center=own.center) if body.mass is None else body for body in brought]
    return (*seen, Body(name, mass, own.center))


def boxes_shape(name: str, boxes: Sequence[tuple[Point, Point]], fill: str = "bench") -> Shape:
    """Return boxes by their low and high corners (mm) as one shape."""
    points = [
        tuple(pair[end] for end, pair in zip(corner, zip(low, high, strict=True), strict=True))
        for low, high in boxes
        for corner in _CORNERS
    ]
    faces = [tuple(k + len(_CORNERS) * number for k in face) for number in range(len(boxes)) for face in _FACES]
    return Shape(name, tuple(points), tuple(faces), fill)  # type: ignore[arg-type]


def boxes_center(boxes: Sequence[tuple[Point, Point]]) -> Point:
    """Return the center (mm) of boxes of one stuff."""
    sizes = [prod(top - bottom for bottom, top in zip(low, high, strict=True)) for low, high in boxes]
    whole = sum(sizes)
    x, y, z = (
        sum(size * (low[k] + high[k]) / 2.0 for size, (low, high) in zip(sizes, boxes, strict=True)) / whole
        for k in range(3)
    )
    return x, y, z
