"""What a printed pad brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Need


def lists(_inputs: BuildInput, built: Built) -> Lists:
    """Return the pad's mass, and as much filament."""
    build = built()
    mass = build.number("mass").base
    return Lists((Body("pad", mass),), needs=(Need("filament", mass, "g"),))
