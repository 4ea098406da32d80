"""What is asked about tipping before it is shown."""

from kit.core.question import Bench, Option, Question, named


def behind(bench: Bench) -> Question:
    """Ask what the machine does while it stands behind the front feet."""
    here = bench.case.with_(machine_place="-50 mm").base["reserve"]
    heavier = bench.case.with_(machine_place="-50 mm", machine=2 * bench.case["machine"].value + 1).base["reserve"]
    return Question(
        "the machine's center lies 50 mm behind the front feet, drawn out as far as it goes. A heavier machine makes "
        "the bench",
        (
            Option("tip more easily", heavier < here, "behind the feet its weight holds the bench down"),
            Option("stand more firmly", heavier > here, "its weight would have to lie before the feet"),
            Option("neither", heavier == here, "it would have to stand right over the feet"),
        ),
        "What weighs behind the front feet holds, what weighs before them tips; it is the place that counts.",
    )


def lower_push(bench: Bench) -> Question:
    """Ask whether weight or the push tips a bench."""
    push = bench.case.base["push"] * bench.case.base["push_height"]
    share = push / bench.case.base["tips"]
    return Question(
        "how much of what tips the bench comes from the push alone?",
        (
            Option("less than a quarter", share < 1 / 4, "a push counts with its whole height over the floor"),
            Option("between a quarter and a half", 1 / 4 <= share < 1 / 2, "work out push times height"),
            Option("half or more", share >= 1 / 2, "the weights before the feet count for more here"),
        ),
        f"Push times height is {push / 1000:.0f} N·m of {bench.show('tips')}.",
    )


QUESTIONS = named(behind, lower_push)
