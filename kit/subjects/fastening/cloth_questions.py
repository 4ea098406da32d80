"""What is asked about staples before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def thicker_wire(bench: Bench) -> Question:
    """Ask what a thicker wire does to the pull that bends a staple."""
    thick = bench.case.with_(wire=1.2 * bench.case["wire"].value)
    times = thick.base["across"] / bench.case.base["across"]
    return Question(
        "the wire is a fifth thicker. How much harder must one pull across to bend a staple?",
        (
            Option("a fifth harder", 1.15 < times < 1.25, "the wire bends harder and bears on more wood at once"),
            Option("nearly half as hard again", 1.35 < times < 1.5, "the wood would have to bear less, or more"),
            Option("no harder", same(times), "the wire would have to be stiffer than it is strong"),
        ),
        f"It goes with the square of the wire: {bench.show('across')} become {bench.show('across', thick)}. What a "
        f"staple may take is then {bench.show('staple', thick)}, as the cloth may tear first.",
    )


QUESTIONS = named(thicker_wire)
