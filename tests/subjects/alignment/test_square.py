"""Which way the fence is turned: as the figure draws it, and so that the next cut is square."""

import math

import pytest

from kit.core.quantity import Display
from kit.drawing.primitives import Line
from kit.drawing.scene import Layer
from kit.subjects import model, subject


@pytest.mark.parametrize("fence_end", ["30.4 mm", "29.7 mm"])
def test_the_move_makes_the_next_cut_square(fence_end: str) -> None:
    """From above: the fence runs left from its pivot, the kept board lies on it, the blade cuts upward at its right.

    The corner of the board is what lies between the fence and the cut; plane trigonometry.
    """
    case = model("alignment.square").at(fence_end=fence_end, free_end="30 mm", arm="500 mm")
    corner, move = case.base["corner"], case.base["move"]
    fence = math.pi - math.atan2(move, case.base["arm"])  # its kept side, toward the board by the move
    cut = math.pi - corner
    assert fence - cut == pytest.approx(math.pi / 2, abs=1e-9)


@pytest.mark.parametrize(("fence_end", "toward"), [("30.4 mm", True), ("29.7 mm", False)])
def test_the_figure_turns_the_fence_the_same_way(fence_end: str, toward: bool) -> None:
    case = model("alignment.square").at(fence_end=fence_end, free_end="30 mm")
    turned = subject("alignment.square").draw(case.base, Display()).views[1]
    (fence,) = (each for each in turned.items if isinstance(each, Line) and each.layer is Layer.DEFLECTED)
    x, y = fence.q
    assert x < 0, "the board lies at the left of the cut in the view above"
    assert (y > 0) is toward
    assert (case.base["move"] > 0) is toward
