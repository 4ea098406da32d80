"""What is asked about screws before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def denser_wood(bench: Bench) -> Question:
    """Ask what denser wood does to the thread's hold."""
    dense = bench.case.with_(main_gravity=1.1 * bench.case["main_gravity"].value)
    times = dense.base["withdrawal_one"] / bench.case.base["withdrawal_one"]
    return Question(
        "the board that holds is a tenth denser. How much harder is a screw to draw out of it?",
        (
            Option("a tenth", near(times, 1.1, 0.02), "density would have to count only once"),
            Option("a fifth", near(times, 1.21, 0.02), "density counts more than once, but not for nothing"),
            Option("not at all", same(times), "the thread holds in wood, and there is more of it"),
        ),
        f"It goes with the density squared: {bench.show('withdrawal_one')} become "
        f"{bench.show('withdrawal_one', dense)} for a screw.",
    )


def in_end_grain(bench: Bench) -> Question:
    """Ask what a screw in end grain holds."""
    end = bench.case.with_(grain="end grain")
    left = _left(bench)
    return Question(
        "the same screws are driven into the end of the board. What may be counted on?",
        (
            Option(
                "nothing when pulled, two thirds when pushed",
                end.base["pull_strength"] == 0 and near(left, 2 / 3, 0.03),
                "the thread would have to hold between fibers that only part",
            ),
            Option(
                "half of both",
                near(left, 0.5, 0.05),
                "fibers part along the thread, but across the screw they still bear",
            ),
            Option("as much as in side grain", same(left), "fibers part along the thread"),
        ),
        f"Pulled: {bench.show('pull_strength', end)}. Pushed: {bench.show('push_strength', end)}.",
    )


def _left(bench: Bench) -> float:
    """Return what end grain leaves of the strength across the screws."""
    side, end = (bench.case.with_(grain=grain).base["push_strength"] for grain in ("side grain", "end grain"))
    return end / side


QUESTIONS = named(denser_wood, in_end_grain)
