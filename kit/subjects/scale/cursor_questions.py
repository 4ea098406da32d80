"""What is asked about a cursor's line before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def on_top(bench: Bench) -> Question:
    """Ask what a line on top of the window costs."""
    window = bench.case.with_(line="top of window")
    times = window.base["parallax"] / bench.case.base["parallax"]
    return Question(
        "the line was scratched on top of the window instead of its underside. How much more does a reading shift?",
        (
            Option(
                "not at all, the window is clear", same(times), "clear or not, the line lies farther from the scale"
            ),
            Option("a little", 1.02 < times < 2, "the window is as thick as the gap below it, or thicker"),
            Option("several times as much", times >= 2, "the window would have to be thinner than the gap below it"),
        ),
        f"The window's thickness now lies between line and scale: {bench.show('parallax', window)} instead of "
        f"{bench.show('parallax')}.",
    )


QUESTIONS = named(on_top)
