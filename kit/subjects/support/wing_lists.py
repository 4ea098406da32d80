"""What a wing beside the machine brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Piece


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the wing, or its ribs side by side; the axes begin at the held end, front, upper face."""
    v = inputs.base
    long, wide, high = v["length"], v["width"], v["height"]
    return Lists(
        (Body("wing", long * wide * high * v["density"], (long / 2, wide / 2, -high / 2)),),
        (Piece("wing, or its ribs together", 1, (long, wide, high)),),
    )
