"""What is asked about a knob's outline before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named


def large_hollow(bench: Bench) -> Question:
    """Ask what a hollow does that is asked for too large."""
    touching = bench.case.with_(hollow_wish="40 mm")
    flank = touching.base["flank"]
    return Question(
        "you ask for a hollow far larger than fits. What do the flanks become?",
        (
            Option(
                "longer",
                flank > max(1e-6, bench.case.base["flank"] * SAME[1]),
                "a larger hollow takes from the flanks on both sides",
            ),
            Option("nothing: hollow and lobe then touch each other", flank < 1e-6, "the hollow asked for still fits"),
            Option("curved", False, "a flank is the straight line that touches hollow and lobe"),
        ),
        f"The largest hollow has {bench.show('hollow_largest', touching)}: with it the flank is "
        f"{bench.show('flank', touching)} long.",
    )


QUESTIONS = named(large_hollow)
