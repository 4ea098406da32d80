"""What a cloth cone brings to the picture of the station: how it hangs."""

from __future__ import annotations

import numpy as np

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists
from kit.subjects.bodies import sheet_body, strip

RULINGS = 49


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the cone, its axis upright and the wide end at the bottom; seams and hems are not in it, nor its mass."""
    v = inputs.base
    angle = np.linspace(0.0, 2.0 * np.pi, RULINGS)
    round_ = np.column_stack([np.cos(angle), np.sin(angle), np.zeros(RULINGS)])
    wide, narrow = round_ * v["wide"] / 2, round_ * v["narrow"] / 2 + (0.0, 0.0, v["height"])
    return Lists((sheet_body("cone", *strip(wide, narrow, RULINGS), None),))
