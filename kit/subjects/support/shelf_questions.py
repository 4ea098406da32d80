"""What is asked about a shelf before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def lip_or_board(bench: Bench) -> Question:
    """Ask what stiffens a shelf more, a thicker board or a lip."""
    bare = bench.case.with_(lip_height="0 mm")
    thick = bare.with_(thickness="25 mm")
    ratio = bench.case.base["sag"] / thick.base["sag"]
    return Question(
        "the bare board sags too far. What helps more: a board 25 mm thick, or a lip of "
        f"{bench.show('lip_height').split(' ±')[0]} under its edge?",
        (
            Option("the thicker board", ratio > 1 and not same(ratio), "the lip is deeper than any board is thick"),
            Option("the lip", ratio < 1 and not same(ratio), "the lip would have to be hardly higher than the board"),
            Option("both alike", same(ratio), "stiffness goes with the cube of the height, and heights differ"),
        ),
        f"Bare it sags {bench.show('sag', bare)}, 25 mm thick {bench.show('sag', thick)}, with the lip "
        f"{bench.show('sag')}.",
    )


def held_fast(bench: Bench) -> Question:
    """Ask what ends held fast leave of the sag."""
    held = bench.case.with_(ends="held fast")
    left = held.base["even_sag"] / bench.case.base["even_sag"]
    return Question(
        "both ends are held fast instead of lying on brackets. How much of the sag from the spread load is left?",
        (
            Option("a half", near(left, 1 / 2), "ends that cannot turn do more than that"),
            Option("a fifth", near(left, 1 / 5), "ends would have to turn a little"),
            Option("all of it", same(left), "the ends turn on brackets, and held fast they do not"),
        ),
        f"{bench.show('even_sag')} become {bench.show('even_sag', held)}. But only if the joint is as stiff as the "
        "shelf; no "
        "screw in an end grain is.",
    )


def third_bracket(bench: Bench) -> Question:
    """Ask what a bracket in the middle brings."""
    once = bench.case.with_(lip_height="0 mm", point_load="0 kg")
    third = once.with_(span=0.5 * once["span"].value, load=0.5 * once["load"].value)
    left = third.base["sag"] / once.base["sag"]
    return Question(
        "a third bracket in the middle: the bare board becomes two of half the span, each with half of the load. "
        "What does "
        "the sag become?",
        (
            Option("a half", near(left, 1 / 2), "the load is halved, but the span counts far more"),
            Option(
                "an eighth", near(left, 1 / 8, 0.3), "that is the span's part alone; each half also has half the load"
            ),
            Option("a sixteenth, or less", left < 0.07, "load and span would have to count for less"),
        ),
        f"Half the load and half the span cubed: {bench.show('sag', once)} become {bench.show('sag', third)}. A "
        "board that "
        "runs through over the bracket is held by its other half as well.",
    )


QUESTIONS = named(lip_or_board, held_fast, third_bracket)
