"""What is asked about routing round a template before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def outline(bench: Bench) -> Question:
    """Ask which side of its template a plate lies on."""
    plate = bench.case.with_(work="outline")
    ratio = plate.base["template_width"] / plate.base["width"]
    return Question(
        "the same bush and bit cut a plate round a template instead of a pocket inside one. Is the template larger "
        "than "
        "the plate?",
        (
            Option("larger, as for the pocket", ratio > SAME[1], "round a plate the cut lies outside of the template"),
            Option("as large", same(ratio), "so it is with a bit as wide as the bush alone"),
            Option("smaller", ratio < SAME[0], "the cut would have to lie inside of the template"),
        ),
        "The cut always lies outside the bush, on the far side from the template: the pocket of "
        f"{bench.show('width')} needs an opening of {bench.show('template_width')}, the plate a template of "
        f"{bench.show('template_width', plate)}.",
    )


def reground(bench: Bench) -> Question:
    """Ask what a reground cutter does behind its bearing."""
    offset = bench.case.base["offset"]
    return Question(
        "the class has its flush-trim cutter reground; the bearing stays. Does the insert still come out flush "
        "with its "
        "template?",
        (
            Option("yes, the bearing guides it", offset == 0, "the bearing guides it, but the cutter is smaller now"),
            Option("no, it comes out larger", offset > 0, "the cutter would have to be larger than its bearing"),
            Option("no, it comes out smaller", offset < 0, "a smaller cutter takes less off, not more"),
        ),
        f"The cutter is now smaller than its bearing and stays {bench.show('offset')} off the template on each side.",
    )


QUESTIONS = named(outline, reground)
