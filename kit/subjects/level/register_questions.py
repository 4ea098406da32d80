"""What is asked about putting a machine back before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def dropped_in(bench: Bench) -> Question:
    """Ask what pushing home brings."""
    dropped = bench.case.with_(way="dropped in")
    left = bench.case.base["shift"] / dropped.base["shift"]
    return Question(
        "two ways to put the saw back: drop it anywhere between its lips, or push it home against them. What is "
        "gained?",
        (
            Option("nothing, the lips are the same", same(left), "dropped in, the whole clearance counts"),
            Option("about half", near(left, 1 / 2, 0.2), "what is left are only dust and burrs, far less than that"),
            Option("far more than half", left < 0.4, "the clearance is hardly larger than dust and burrs here"),
        ),
        f"Dropped in, the whole clearance counts and the cut may shift by {bench.show('shift', dropped)}; pushed home, "
        f"only dust and burrs, {bench.show('shift')}.",
    )


QUESTIONS = named(dropped_in)
