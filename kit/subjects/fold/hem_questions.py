"""What is asked about a hem before it is shown."""

from kit.core.question import Bench, Option, Question, named


def plies(bench: Bench) -> Question:
    """Ask how many plies lie where two hems cross."""
    one, both = (round(bench.case.base[name]) for name in ("plies", "corner_plies"))
    counted = {
        2 * one - 1: "one ply too few: no ply is shared where two hems cross",
        2 * one: "each ply of one hem is folded by the other: plies multiply, they do not add",
        one * one: "the second hem would have to fold each ply of the first",
    }
    return Question(
        "two double hems cross at the corner. How many plies lie on each other there?",
        tuple(Option(str(count), count == both, why) for count, why in counted.items()),
        f"Plies multiply: {bench.show('corner_plies')} plies, {bench.show('bulk')} thick, want a staple leg of "
        f"{bench.show('corner_leg')}.",
    )


QUESTIONS = named(plies)
