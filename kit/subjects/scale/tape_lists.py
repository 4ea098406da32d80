"""What a tape along the fence brings to the lists."""

from __future__ import annotations

import numpy as np

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need
from kit.subjects.bodies import sheet_body, strip


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return as much tape as is read on it, with its width; its axes begin on its face, at the front of its zero."""
    v = inputs.base
    ends = [np.array([(0.0, y, 0.0), (v["reading"], y, 0.0)]) for y in (0.0, v["tape_width"])]
    face = sheet_body("tape", *strip(ends[0], ends[1], 2), None, "accent")
    need = Need(f"tape, {inputs.case.picks['accuracy']}", v["reading"], "m", (v["tape_width"],))
    return Lists((face,), needs=(need,))
