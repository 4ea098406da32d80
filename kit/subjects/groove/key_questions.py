"""What is asked about a key in its track before it is shown."""

from kit.core.question import Bench, Option, Question, named

FINE = 7  # the grade to which the key would be planed


def grade(bench: Bench) -> Question:
    """Ask whether a fine fit of wood lasts."""
    lasts = bench.case.base["season_grade"] <= FINE
    return Question(
        "machinists state fits by grades: a smaller number, a finer fit. Is it worth planing this key to grade "
        f"{FINE}?",
        (
            Option("yes, it runs better", lasts, "the season moves the wood by more than that grade allows"),
            Option("no, the next wet week undoes it", not lasts, "the season moves the wood by less than that grade"),
        ),
        f"The season moves the key by {bench.show('width_change')}, as much as the whole tolerance of grade "
        f"{bench.show('season_grade')}. A finer width is lost by the next wet week.",
    )


QUESTIONS = named(grade)
