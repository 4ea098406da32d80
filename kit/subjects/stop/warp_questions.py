"""What is asked about a bow by moisture before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def both_faces(bench: Bench) -> Question:
    """Ask what moisture does that both faces gain."""
    case = bench.case
    both = case.changed({name: f"{case[name].value + 2} %" for name in ("front_moisture", "back_moisture")})
    ratio = both.base["bow"] / case.base["bow"]
    return Question(
        "a wet week: both faces gain two percent of moisture. What happens to the bow?",
        (
            Option("it stays", same(ratio), "the difference of the two faces would have to change"),
            Option("it doubles", near(ratio, 2), "only the difference of the two faces bends the block"),
            Option("it vanishes", near(1 + ratio, 1, 0.02), "the faces still differ by as much as before"),
        ),
        f"Only the difference bends: {bench.show('bow')} before, {bench.show('bow', both)} after.",
    )


QUESTIONS = named(both_faces)
