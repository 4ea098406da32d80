"""What is asked about a scanned machine and its positions before it is shown."""

from kit.core.model.input_lists import Rows, Steps
from kit.core.question import SAME, Bench, Option, Question, named, near, same


def size_of_scan(bench: Bench) -> Question:
    """Ask where the size of a scan comes from."""
    recipe = bench.case.model.inputs["recipe"]
    assert isinstance(recipe, Steps)
    asked = {each.name for each in recipe.kinds["scale"]}
    lengths = next(each for each in recipe.kinds["scale"] if isinstance(each, Rows))
    measured = {"from", "to", "length"} <= {column.name for column in lengths.columns}
    return Question(
        "the scanning app gives no unit. What gives you the size of the machine?",
        (
            Option("the app's guess of a meter", "unit" in asked, "a guess: it may be off by a tenth and nobody knows"),
            Option("a length measured on the machine", measured, "it needs two points that are found on the scan"),
            Option("the size of the picture", "picture" in asked, "near things look large; a picture knows no length"),
        ),
        "Only a length between two points that can be found on the scan again. Two or more lengths also tell how "
        "far to "
        "trust it: they must agree.",
    )


def axis_off(bench: Bench) -> Question:
    """Ask what a shifted axis does to a point that swings."""
    turned = bench.case.with_(swing_left="30 deg", swing_right="30 deg", poses_swing=1)
    near_axis, far = (turned.with_(arm_swing=arm) for arm in ("20 mm", "40 mm"))
    off, twice = (each.base["chord_swing"] / each.base["arm_swing"] for each in (near_axis, far))
    alike = same(twice / off)
    return Question(
        "the axis is taken 1 mm off its true place, and the head swings by 30°. How far off is a point of the head "
        "then?",
        (
            Option(
                f"{off:.1f} mm", alike and not same(off), "what the shift becomes does not depend on where the point is"
            ),
            Option("1 mm, wherever it is", alike and same(off), "the shift is turned, too, and only the rest is left"),
            Option("the more, the farther out it is", not alike, "so it is with a wrong direction of the axis"),
        ),
        f"The shift is turned away from itself by 30°: a chord of 30° on a radius of 1 mm, {off:.2f} mm for every "
        "point, "
        "near or far. Only a wrong direction of the axis grows with the distance.",
    )


def scanned_reach(bench: Bench) -> Question:
    """Ask how far the whole machine reaches beside the point of it that was measured."""
    handle, scanned = bench.beside("sweep.point"), bench.build().number("reach")
    more = scanned.base - handle.base["reach_most"]
    return Question(
        f"by the measures the handle's tip reaches {bench.show('reach_most', handle)}. What will the scan say for "
        "the whole "
        "machine?",
        (
            Option("the same: the handle sticks out most", abs(more) < 0.5, "something else swings out farther"),
            Option("less", more <= -0.5, "the handle is a part of the machine, so the whole reaches at least as far"),
            Option("more", more >= 0.5, "nothing swings out farther than the handle here"),
        ),
        f"{scanned.show(bench.display)}: the back of the tilt's bearing swings along behind the axis, and nobody "
        "thought of "
        "it. That is what a scan is for.",
    )


def twice_positions(bench: Bench) -> Question:
    """Ask how the sagitta falls with the step."""
    finer = bench.case.with_(poses_swing=2 * round(bench.case.base["poses_swing"]))
    left = finer.base["sagitta"] / bench.case.base["sagitta"]
    return Question(
        "you take twice as many positions. The chord is halved. And the sagitta?",
        (
            Option("halved too", near(left, 1 / 2), "it falls faster than the chord: an arc is flat where it is short"),
            Option("a quarter is left", near(left, 1 / 4), "it does not fall as fast as that"),
            Option("it stays", same(left), "the arc between two positions gets shorter, and so flatter"),
        ),
        f"It goes with the square of the step: {bench.show('sagitta')} becomes {bench.show('sagitta', finer)}. So the "
        "greatest reach is soon right; but a corner of the hood beside the arc feels the chord, not the sagitta.",
    )


def larger_cells(bench: Bench) -> Question:
    """Ask on which side coarse cells err."""
    wider = bench.case.with_(cell=2 * bench.case["cell"].value)
    more = wider.base["cell_part"] / bench.case.base["cell_part"]
    return Question(
        "cells twice as large. Is the room shown less safe?",
        (
            Option("yes, it may miss something", more < SAME[0], "a cell that is touched anywhere counts as full"),
            Option("no, but it may be larger than needed", more > SAME[1], "a larger cell sticks out farther"),
            Option("no, it is the same room", same(more), "each cell that is touched is now twice as large"),
        ),
        f"A cell counts as full as soon as it is touched: {bench.show('cell_part', wider)} may be excess instead of "
        f"{bench.show('cell_part')}, but nothing is missed.",
    )


QUESTIONS = named(size_of_scan, axis_off, scanned_reach, twice_positions, larger_cells)
