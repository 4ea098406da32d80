"""What is asked about the plies of a knob before it is shown."""

from kit.core.question import Bench, Option, Question, named


def thicker_plies(bench: Bench) -> Question:
    """Ask what thicker plies worsen."""
    thick = bench.case.with_(ply="9 mm")
    lifts = thick.base["lift"] > bench.case.base["lift"]
    wider = thick.base["well"] > bench.case.base["well"]
    return Question(
        "plies of 9 mm, so that there are fewer to drill. What gets worse?",
        (
            Option("the nut can lift farther in its well", lifts, "the well would have to come out just as deep"),
            Option(
                "the well gets too wide", wider and not lifts, "the drill is the same: only the depth goes by plies"
            ),
            Option("nothing", not lifts and not wider, "plies come whole, and the well is now deeper than the nut"),
        ),
        f"Plies come whole: the well is {bench.show('counterbore', thick)} deep instead of "
        f"{bench.show('counterbore')}, and "
        f"the nut can lift by {bench.show('lift', thick)} instead of {bench.show('lift')}.",
    )


QUESTIONS = named(thicker_plies)
