"""What is asked about lifting before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def nearer(bench: Bench) -> Question:
    """Ask what holding it half as far out brings."""
    far = bench.case.with_(reach="600 mm")
    close = bench.case.with_(reach="300 mm")
    ratio = close.base["alone"] / far.base["alone"]
    return Question(
        "a load is held 600 mm before the ankles, then 300 mm. How much more may it weigh?",
        (
            Option("a little more", ratio < 1.3, "the arm would have to count for little"),
            Option("twice as much", near(ratio, 2), "the reach would not divide"),
            Option("four times as much", near(ratio, 4), "it is the lever that counts, not its square"),
        ),
        f"{bench.show('alone', far)} become {bench.show('alone', close)}: nothing brings as much as coming nearer.",
    )


def pair(bench: Bench) -> Question:
    """Ask what a second person brings."""
    ratio = bench.case.with_(people="two").base["together"] / bench.case.with_(people="one").base["together"]
    return Question(
        "a second person takes hold. How much more may it weigh?",
        (
            Option("twice as much", near(ratio, 2), "two never share a load evenly, and are in each other's way"),
            Option("a third more", near(ratio, 4 / 3), "two would have to share the load quite evenly"),
            Option("no more", near(ratio, 1), "two lift more than one"),
        ),
        f"Two thirds of what both manage alone: {bench.show('together', bench.case.with_(people='two'))}.",
    )


QUESTIONS = named(nearer, pair)
