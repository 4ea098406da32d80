"""What a tapered hood of four boards brings to the picture of the station: its outside."""

from __future__ import annotations

import numpy as np

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists
from kit.subjects.bodies import sheet_body, strip


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return its outside, of no known thickness; the axes begin in the middle of its bottom."""
    v = inputs.base
    corners = np.array([(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5), (-0.5, -0.5)])
    low = np.column_stack([corners * (v["base_x"], v["base_y"]), np.zeros(5)])
    over = corners * (v["top_x"], v["top_y"]) + (v["offset_x"], v["offset_y"])
    high = np.column_stack([over, np.full(5, v["height"])])
    return Lists((sheet_body("boards", *strip(low, high, 5), None, "wood"),))
