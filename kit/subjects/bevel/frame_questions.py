"""What is asked about a frame of leaning boards before it is shown."""

from kit.core.question import Bench, Option, Question, named


def upright(bench: Bench) -> Question:
    """Ask for the miter of an upright box."""
    box = bench.case.with_(slope="90 deg")
    miter, half = box.base["miter"], box.base["half_turn"]
    return Question(
        "the same boards stand upright, an ordinary box of as many sides. What does the miter gauge say?",
        (
            Option("square cut", abs(miter) < 1e-9, "it is not square as soon as the boards lean"),
            Option(
                "half the corner's turn", abs(miter - half) < 1e-9, "this is what the blade's tilt is, not the gauge"
            ),
            Option("the corner's whole turn", abs(miter - 2 * half) < 1e-9, "each of the two boards takes half of it"),
        ),
        f"Upright, the miter is {bench.show('miter', box)} and the tilt {bench.show('tilt', box)}, half the turn.",
    )


def flatter(bench: Bench) -> Question:
    """Ask what miter and tilt do when the boards lean more."""
    leaning = bench.case.with_(slope="45 deg")
    miter, tilt = (leaning.base[name] - bench.case.base[name] for name in ("miter", "tilt"))
    return Question(
        "set the slope to 45 deg. What happens to miter and tilt?",
        (
            Option("both grow", miter > 0 and tilt > 0, "the flatter the boards, the less the blade has to tilt"),
            Option("the miter grows, the tilt shrinks", miter > 0 > tilt, "the boards do not lean more than before"),
            Option("the miter shrinks, the tilt grows", miter < 0 < tilt, "so it is when the boards are set steeper"),
        ),
        f"The miter goes from {bench.show('miter')} to {bench.show('miter', leaning)}, the tilt from "
        f"{bench.show('tilt')} to {bench.show('tilt', leaning)}.",
    )


def other_width(bench: Bench) -> Question:
    """Ask which settings the width of the boards changes."""
    wide = bench.case.with_(width="100 mm")
    miter, tilt = (abs(wide.base[name] - bench.case.base[name]) > 1e-9 for name in ("miter", "tilt"))
    return Question(
        "set the width of the boards to 100 mm. Which settings of the saw change?",
        (
            Option("miter and tilt", miter and tilt, "neither formula contains a length"),
            Option("only the miter", miter and not tilt, "the miter follows from slope and number of sides alone"),
            Option("none", not miter and not tilt, "an angle would have to depend on a length"),
        ),
        f"Angles know no size: the tilt stays {bench.show('tilt', wide)}. Only the top edge changes, from "
        f"{bench.show('short_edge')} to {bench.show('short_edge', wide)}.",
    )


QUESTIONS = named(upright, flatter, other_width)
