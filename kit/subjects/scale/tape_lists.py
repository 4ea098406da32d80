"""What a tape along the fence brings to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return as much tape as is read on it, with its width."""
    v = inputs.base
    return Lists(needs=(Need(f"tape, {inputs.case.picks['accuracy']}", v["reading"], "m", (v["tape_width"],)),))
