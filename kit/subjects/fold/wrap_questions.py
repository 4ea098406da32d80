"""What is asked about cloth wrapped round edges before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def rounder_edge(bench: Bench) -> Question:
    """Ask what the radius does to the step between plies."""
    ratio = bench.case.with_(edge_radius="6 mm").base["step"] / bench.case.base["step"]
    return Question(
        "you round the edges to 6 mm. How does the step between the cut edges of the plies change?",
        (
            Option("it grows", ratio > SAME[1], "both plies go round the larger arc, and their distance is the same"),
            Option("it stays", same(ratio), "the plies would have to lie farther apart, or turn farther"),
            Option("it shrinks", ratio < SAME[0], "a gentler edge does not bring the plies nearer to each other"),
        ),
        "A parallel curve is longer by its distance times the angle turned, whatever the radius: "
        f"{bench.show('step')} before and after.",
    )


QUESTIONS = named(rounder_edge)
