"""What coats of a finish bring to the lists."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return what is in the cans that are bought."""
    v = inputs.base
    return Lists(needs=(Need("finish", v["cans"] * v["can"], "L"),))
