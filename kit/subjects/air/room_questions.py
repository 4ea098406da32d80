"""What is asked about the air of the room before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def half_open(bench: Bench) -> Question:
    """Ask what half of the openings does to the suction of the room."""
    shut = bench.case.with_(openings=0.5 * bench.case["openings"].value)
    times = shut.base["suction"] / bench.case.base["suction"] if bench.case.base["suction"] > 0 else 1.0
    return Question(
        "half of the openings are shut. How much harder does the collector pull at the room?",
        (
            Option("twice as hard", near(times, 2), "the air comes twice as fast, and pressure goes with the square"),
            Option("four times as hard", near(times, 4), "the air would have to come no faster"),
            Option("no harder", near(times, 1), "the same air has to come through less"),
        ),
        f"Twice the speed, four times the pressure: {bench.show('suction')} become {bench.show('suction', shut)}.",
    )


QUESTIONS = named(half_open)
