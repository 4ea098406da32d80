"""What a printed pad brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need
from kit.subjects.bodies import solid_body
from kit.subjects.level.pad_solid import bodies


def lists(_inputs: BuildInput, built: Built) -> Lists:
    """Return the pad, its plate on z = 0 and its foot's outline as drawn, and as much filament as it weighs."""
    build = built()
    mass, pad = build.number("mass").base, build.data
    plate, lips = bodies(pad)
    solids = [("plate", plate), *(("lip", lip) for lip in lips)]
    parts = tuple(solid_body(name, each.vertices, each.faces, mass / pad.volume, "accent") for name, each in solids)
    return Lists(parts, needs=(Need("filament", mass, "g"),))
