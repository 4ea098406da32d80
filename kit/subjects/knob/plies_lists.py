"""What the plies of a knob bring to the lists: the nut in their well."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the nut; the plies are as large as the knob's outline says, on whose list they stand."""
    return Lists(needs=(Need(f"nut {inputs.case.picks['thread']}", 1),))
