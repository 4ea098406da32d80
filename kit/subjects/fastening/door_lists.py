"""What a door brings to the lists: what it weighs."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the door with all that hangs on it; where it hangs is no matter of its page."""
    return Lists((Body("door", inputs.base["mass"]),))
