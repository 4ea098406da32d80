"""What is asked about curved hems before it is shown."""

from kit.core.question import Bench, Option, Question, named


def convex_hem(bench: Bench) -> Question:
    """Ask whether a hem on a convex edge has too much cloth."""
    convex = bench.case.with_(edge="convex")
    surplus = convex.base["flat_length"] - convex.base["folded_length"]
    return Question(
        "the hem of a convex corner is folded in. Is there too much cloth in it, or too little?",
        (
            Option("too much: it puckers", surplus > 0, "the hem is shorter than the line that it is folded to"),
            Option("too little: it must stretch", surplus < 0, "so it is on a concave edge, which is slit instead"),
            Option("just enough", surplus == 0, "so it is on a straight edge alone"),
        ),
        f"Outside a convex edge the hem lies on the larger radius, {bench.show('flat_length', convex)} long, and is "
        "folded "
        f"to the smaller one, {bench.show('folded_length', convex)}. Notches take the surplus out; a concave edge "
        "is slit "
        "instead.",
    )


QUESTIONS = named(convex_hem)
