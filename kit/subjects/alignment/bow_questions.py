"""What is asked about a bowed fence before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def middle(bench: Bench) -> Question:
    """Ask what a bowed fence does to a part in its middle."""
    there = bench.case.with_(place="0 mm")
    none = abs(there.base["across"]) < 1e-9
    return Question(
        "the same part is cut at the middle of the straightedge, where the gap is widest. How far out of square is it?",
        (
            Option(
                "farther than anywhere else", not none, "the gap is widest there, but it is the slope that turns a part"
            ),
            Option("not at all", none, "the arc would have to lean at its middle"),
        ),
        "At its middle the arc runs along the straightedge; where the part lies now it is out by "
        f"{bench.show('across')}.",
    )


def longer(bench: Bench) -> Question:
    """Ask what a longer part does."""
    twice = bench.case.with_(part=2 * bench.case["part"].value)
    ratio = twice.base["across"] / bench.case.base["across"] if bench.case.base["across"] else 1
    return Question(
        "a part twice as long lies with its middle at the same place. How far is it turned?",
        (
            Option("half as far", near(ratio, 1 / 2), "it bridges more of the arc, but leans on it all the same"),
            Option("as far as the short one", near(ratio, 1), "its two ends would have to meet another mean slope"),
            Option(
                "twice as far", near(ratio, 2), "a longer part reaches where the arc is steeper, and where it is not"
            ),
        ),
        f"Between any two places as far from its middle, the arc has the slope of the middle: {bench.show('turn')}.",
    )


QUESTIONS = named(middle, longer)
