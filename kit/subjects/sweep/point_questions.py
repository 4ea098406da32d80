"""What is asked about a point of the machine before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def raised(bench: Bench) -> Question:
    """Ask which way the handle goes as the head rises."""
    rate = bench.case.base["reach_rate"]
    return Question(
        "the head is at its lowest and you raise it. What happens to the distance of the handle from the swing axis?",
        (
            Option("it grows at first", rate > 0, "it would grow only while the arm still points below level"),
            Option("it shrinks from the start", rate < 0, "the arm points below level here and swings outward first"),
            Option("it stays", rate == 0, "only at the one angle at which the arm is level does it stand still"),
        ),
        f"What counts is where the arm points when the head is down: every degree changes the distance by "
        f"{bench.show('reach_rate')} here. Above level each further degree lifts the handle and brings it in.",
    )


def stopped_earlier(bench: Bench) -> Question:
    """Ask what a stop against rising brings."""
    lower = bench.case.with_(tilt_most="30 deg")
    top = not same(lower.base["height_most"] / bench.case.base["height_most"])
    front = not same(lower.base["reach_most"] / bench.case.base["reach_most"])
    return Question(
        "a stop keeps the head from rising above 30°. What does the hood gain?",
        (
            Option("a lower top", top and not front, "the head no longer goes where it was highest"),
            Option("a nearer front", front and not top, "the reach is greatest with the head low, where it still goes"),
            Option("both", top and front, "the reach is greatest with the head low, where it still goes"),
        ),
        f"The top comes from {bench.show('height_most')} to {bench.show('height_most', lower)}, the front from "
        f"{bench.show('reach_most')} to {bench.show('reach_most', lower)}.",
    )


QUESTIONS = named(raised, stopped_earlier)
