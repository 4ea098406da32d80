"""What is asked about the strain of a bend before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def twice_as_thick(bench: Bench) -> Question:
    """Ask what size does to strain."""
    case = bench.case
    thick = case.with_(thickness=2 * case["thickness"].value, inside_radius=2 * case["inside_radius"].value)
    times = thick.base["outer_strain"] / case.base["outer_strain"]
    return Question(
        f"the sheet is {bench.show('thickness', thick).split(' ±')[0]} thick and the radius twice the job's as well. "
        "How does the strain change?",
        (
            Option("it doubles", near(times, 2), "it would double if only the thickness did"),
            Option("it stays", same(times), "thickness and radius would have to change by different factors"),
            Option("it halves", near(times, 1 / 2), "it would halve if only the radius were doubled"),
        ),
        f"Both circles grow alike: {bench.show('outer_strain')} before, {bench.show('outer_strain', thick)} after.",
    )


QUESTIONS = named(twice_as_thick)
