"""What is asked about the air that a hood needs before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def twice_as_far(bench: Bench) -> Question:
    """Ask what a hood twice as far away asks for."""
    far = bench.case.with_(distance=2 * bench.case["distance"].value)
    times = far.base["capture_flow"] / bench.case.base["capture_flow"]
    return Question(
        "the hood is set twice as far from the cut. How much more air must it draw to catch the dust?",
        (
            Option("twice as much", near(times, 2, 0.15), "the air comes from a surface, and that grows faster"),
            Option(
                "between twice and four times as much", 2.3 < times < 4.05, "the opening would have to count for more"
            ),
            Option("eight times as much", near(times, 8, 0.15), "the air comes from a surface, not out of a volume"),
        ),
        f"{bench.show('capture_flow')} become {bench.show('capture_flow', far)}: the surface through which the air "
        "comes grows with the distance squared; only the opening's own part stays.",
    )


def wider_hose(bench: Bench) -> Question:
    """Ask what a wider hose does to the air that it needs to stay clean."""
    wide = bench.case.with_(diameter=1.25 * bench.case["diameter"].value)
    times = wide.base["transport_flow"] / bench.case.base["transport_flow"]
    return Question(
        "a hose is a quarter wider. How much air does it need so that no dust settles in it?",
        (
            Option("less", times < 0.98, "more air runs slower in it, and the speed is what carries"),
            Option("as much", same(times), "the same air would run slower"),
            Option("a quarter more", near(times, 1.25), "the area grows with the diameter squared"),
            Option("more than half as much again", times > 1.5, "the area would have to grow less than that"),
        ),
        f"The speed must stay, the area grows by the square: {bench.show('transport_flow')} become "
        f"{bench.show('transport_flow', wide)}.",
    )


QUESTIONS = named(twice_as_far, wider_hose)
