"""What is asked about pads before it is shown."""

from kit.core.question import Bench, Option, Question, named
from kit.subjects.level.plane_fit import balance


def exactly_as_deep(bench: Bench) -> Question:
    """Ask how often a pad of just the depth is too low."""
    line = bench.case.with_(aim="0 mm", step="0.01 mm")
    low = line.base["chance_low"]
    return Question(
        "you make the pad exactly as high as the depth that you found. How often does the bed lie low?",
        (
            Option("hardly ever", low < 0.05, "the depth found may be too small as well as too large"),
            Option("about every tenth time", 0.05 <= low <= 0.2, "half of all errors go the one way"),
            Option("about every second time", 0.4 <= low <= 0.6, "errors would have to lean to one side"),
        ),
        f"The depth may be larger as well as smaller: {bench.show('chance_low', line)} lie low. Aimed "
        f"{bench.show('aim')} above the line, {bench.show('chance_low')} do.",
    )


def far_right_foot(bench: Bench) -> Question:
    """Ask why a pad is not the nearest step."""
    made = bench.build()
    step, left = bench.case.base["step"], made.number("twist").base
    feet = [(row["x"], row["y"]) for row in bench.stated["feet"]]
    places = [tuple(float(text.split()[0]) for text in foot) for foot in feet]
    names = [row["name"] for row in bench.stated["feet"]]
    more = left + step * abs(float(balance(places)[names.index("far right")]))
    rocks = left <= step / 2 < more
    return Question(
        "look at the far right foot: a pad of 3.1 mm would be nearer to the height wanted. Why is it 3.0 mm?",
        (
            Option("the layer is 0.1 mm", step > 0.1001, "3.1 mm is a whole number of layers, too"),
            Option(
                "with 3.1 mm the machine would rock", rocks, "one layer more would leave the four pads in one plane"
            ),
            Option("so that the bed lies low there", not rocks, "a low bed is no aim: the height wanted is above it"),
        ),
        "Of all ways to round, one was taken that leaves no more twist than half a layer; here it is "
        f"{made.number('twist').show(bench.display)}. With 3.1 mm it would be a whole layer, and one foot would "
        "hang by it.",
    )


QUESTIONS = named(exactly_as_deep, far_right_foot)
