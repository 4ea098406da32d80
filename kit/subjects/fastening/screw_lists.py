"""What a joint with screws brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return its screws, with their length."""
    v = inputs.base
    return Lists(needs=(Need(f"wood screw {inputs.case.picks['screw']}", v["count"], "", (v["length"],)),))
