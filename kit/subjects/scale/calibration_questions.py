"""What is asked about test cuts of a scale before it is shown."""

from kit.core.question import Bench, Option, Question, named, near

CLOSE = {"reading_1": "800 mm", "part_1": "800.31 mm", "reading_2": "920 mm", "part_2": "920.34 mm"}


def close_cuts(bench: Bench) -> Question:
    """Ask what test cuts close to each other are worth far away."""
    wide = bench.case.with_(target="1400 mm")
    close = wide.changed(CLOSE)
    times = close.base["expanded"] / wide.base["expanded"]
    return Question(
        "both test cuts are made near 860 mm, 120 mm apart. How sure is the scale at 1400 mm?",
        (
            Option("as sure as with cuts far apart", near(times, 1), "a slope from a short base is far less sure"),
            Option("somewhat less", 1.1 < times < 2, "the target lies many times that base away"),
            Option("several times less", times >= 2, "the base would have to be as long as the way to the target"),
        ),
        f"The slope rests on a short base: {bench.show('expanded', close)} instead of {bench.show('expanded', wide)}.",
    )


QUESTIONS = named(close_cuts)
