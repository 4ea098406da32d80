"""What a scanned or boxed machine brings to the picture of the station: itself, and the room that it needs."""

from __future__ import annotations

from functools import lru_cache

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists
from kit.geometry.envelope.surface import surface
from kit.geometry.mesh import Scan, thin
from kit.subjects.bodies import shape_of
from kit.subjects.sweep.step_build import build
from kit.subjects.sweep.swept import Sweep

SHOWN = 70.0  # mm, to which a scan is thinned where the whole station is seen
GHOST = 90.0  # mm, facets of the swept envelope there


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return what moves and what stands, whose masses no scan knows, and the swept envelope as room."""
    sweep = build(inputs).data
    if not isinstance(sweep, Sweep):
        return Lists()
    bodies = [_body("moving parts", sweep.moving, "machine")]
    if sweep.standing:
        bodies.append(_body("base and fence", sweep.standing, "metal"))
    return Lists(tuple(bodies), room=(shape_of("room that it sweeps", *surface(sweep.envelope, GHOST), "ghost", 0.35),))


def _body(name: str, scan: Scan, fill: str) -> Body:
    less = _shown(scan)
    return Body(name, None, shape=shape_of(name, less.vertices, less.faces, fill))


@lru_cache(maxsize=8)
def _shown(scan: Scan) -> Scan:
    return thin(scan, SHOWN)[0]
