"""What keeps a machine on its bench, for the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the bolts or screws that hold it down, if any."""
    count = inputs.base["bolts"]
    return Lists(needs=(Need("hold-down bolt or screw", count),) if count else ())
