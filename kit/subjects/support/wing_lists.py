"""What a wing beside the machine brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Piece
from kit.subjects.bodies import box_body


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the wing, or its ribs side by side; the axes begin at the held end, front, upper face."""
    v = inputs.base
    long, wide, high = v["length"], v["width"], v["height"]
    return Lists(
        (box_body("wing", (0.0, 0.0, -high), (long, wide, 0.0), v["density"]),),
        (Piece("wing, or its ribs together", 1, (long, wide, high)),),
    )
