"""Line kinds: told apart without color, visible on both pages. Patterns after ISO 128-2, from memory."""

from itertools import combinations

import pytest

from kit.drawing.layers import EXTRA, NARROW, WIDE, Layer

COLORED = [layer for layer in Layer if layer.value.color]


def test_no_two_kinds_look_alike_without_color() -> None:
    # Arrows, ticks and hatching have a shape of their own; the rest must differ in dashes or width.
    shaped = {Layer.GRAIN, Layer.HATCH, Layer.MARK, Layer.FORCE, Layer.DIMENSION}
    for a, b in combinations(set(Layer) - shaped, 2):
        assert (a.value.width, a.value.pattern) != (b.value.width, b.value.pattern), f"{a.name} and {b.name}"


def test_widths_are_one_to_two_to_four() -> None:
    assert (NARROW, WIDE, EXTRA) == (0.25, 0.5, 1.0)
    widths = {"1": NARROW, "2": WIDE, "3": EXTRA}
    for layer in Layer:
        assert layer.value.width == widths[layer.value.iso[-1]]


def test_patterns_in_millimeters() -> None:
    # Dash 12 d, long dash 24 d, gap 3 d, short dash 6 d (ISO 128-2, from memory), d the width; our dot is 2 d.
    assert Layer.OUTLINE.value.dashes == ()
    assert Layer.HIDDEN.value.dashes == (3.0, 0.75)
    assert Layer.CENTER.value.dashes == (6.0, 0.75, 0.5, 0.75)
    assert Layer.PHANTOM.value.dashes == (6.0, 0.75, 0.5, 0.75, 0.5, 0.75)
    assert Layer.FOLD.value.dashes == (6.0, 0.75, 1.5, 0.75, 1.5, 0.75)
    assert Layer.DEFLECTED.value.dashes == (6.0, 1.5)


def _luminance(color: str) -> float:
    channels = [int(color[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("layer", COLORED)
@pytest.mark.parametrize(("which", "page"), [(0, "#ffffff"), (1, "#111111")])
def test_colors_stand_out_from_the_page(layer: Layer, which: int, page: str) -> None:
    # WCAG 2.1, 1.4.11 asks 3:1 for graphics; contrast ratio by its definition (L1 + 0.05) / (L2 + 0.05).
    assert layer.value.color is not None
    low, high = sorted((_luminance(layer.value.color[which]), _luminance(page)))
    assert (high + 0.05) / (low + 0.05) >= 4.5
