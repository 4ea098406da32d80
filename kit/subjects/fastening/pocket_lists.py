"""What a joint with pocket screws brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need
from kit.core.quantity import show


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return its screws, with length and diameter."""
    v = inputs.base
    wide = show(v["diameter"], "mm", inputs.display, resolution=0.1)
    return Lists(needs=(Need(f"pocket screw, {wide} over its thread", v["count"], "", (v["length"],)),))
