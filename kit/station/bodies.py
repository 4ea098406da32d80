"""The bodies of a part with what the job states of them: boxes where its page knows no shape, mass, center."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from kit.core.errors import KitError
from kit.core.lists import Body
from kit.core.place import Point
from kit.geometry.mesh import box, joined
from kit.job.job import Job
from kit.job.place import OwnBody
from kit.subjects.bodies import solid_body


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
        boxes = _boxes(name, own.boxes)
        return (*brought, replace(boxes, mass=mass, center=own.center or boxes.center))
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


def _boxes(name: str, boxes: Sequence[tuple[Point, Point]]) -> Body:
    """Return boxes by their low and high corners (mm) as one body of one stuff."""
    solid = joined([box(low, high) for low, high in boxes])
    return solid_body(name, solid.vertices, solid.faces, None, "bench")
