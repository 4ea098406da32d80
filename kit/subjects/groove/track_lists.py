"""What a track in its groove brings to the lists: track by its length."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the track, with its width."""
    v = inputs.base
    return Lists(needs=(Need(f"track, {inputs.case.picks['metal']}", v["length"], "m", (v["track"],)),))
