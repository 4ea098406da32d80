"""What is asked about a bump against a clamped stop before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def faster_or_heavier(bench: Bench) -> Question:
    """Ask which of two boards bumps harder."""
    fast = bench.case.with_(speed=2 * bench.case["speed"].value)
    heavy = bench.case.with_(mass=2 * bench.case["mass"].value)
    ratio = fast.base["bump"] / heavy.base["bump"]
    return Question(
        "which bumps harder: a board twice as fast, or one twice as heavy?",
        (
            Option("twice as fast", ratio > 1 and not same(ratio), "speed would have to count less than mass"),
            Option("twice as heavy", ratio < 1 and not same(ratio), "the push goes only with the root of the mass"),
            Option("both alike", same(ratio), "the energy has the mass once, but the speed squared"),
        ),
        f"The push goes with the speed, but only with the root of the mass: {bench.show('bump')} become "
        f"{bench.show('bump', fast)} or {bench.show('bump', heavy)}.",
    )


QUESTIONS = named(faster_or_heavier)
