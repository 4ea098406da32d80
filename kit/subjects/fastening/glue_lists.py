"""What a glued miter brings to the lists: its glue, and the clamps that press it."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need, glue
from kit.core.quantity import show


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the glue of the miter and of the spline in both boards, and clamps by their force and reach."""
    v = inputs.base
    force = show(v["clamp"], "N", inputs.display, resolution=10.0)
    reach = show(v["spread"], "mm", inputs.display, resolution=1.0)
    clamps = Need(f"clamp that gives {force}, one every {reach} of joint", v["clamps"], tool=True)
    return Lists(needs=(*glue(v["area"] + 2 * v["spline_area"]), clamps))
