"""What a track in its groove brings to the lists: track by its length."""

from __future__ import annotations

import numpy as np

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need
from kit.subjects.bodies import sheet_body, strip


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the track, with its width; its axes begin on its face, at its left end in its middle."""
    v = inputs.base
    half = v["track"] / 2
    ends = [np.array([(0.0, y, 0.0), (v["length"], y, 0.0)]) for y in (-half, half)]
    face = sheet_body("track", *strip(ends[0], ends[1], 2), None, "strong")
    return Lists((face,), needs=(Need(f"track, {inputs.case.picks['metal']}", v["length"], "m", (v["track"],)),))
