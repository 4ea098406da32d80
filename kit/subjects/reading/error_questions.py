"""What is asked about dust before a stop before it is shown."""

from kit.core.question import Bench, Option, Question, named


def full_chamfer(bench: Bench) -> Question:
    """Ask what two cuts beyond a full chamfer cost."""
    full = bench.case.with_(cuts=bench.case.base["cuts_free"] + 2)
    off = abs(full.base["dust_error"])
    return Question(
        "the chamfer holds the dust of a certain number of cuts. Two cuts later, how far off is the part?",
        (
            Option("by a few hundredths of a millimeter", off < 0.07, "dust is fluffy: two cuts make a thick heap"),
            Option("by about a tenth", 0.07 <= off <= 0.2, "the heap's leg goes with the root of its area"),
            Option("by a millimeter or more", off >= 1, "the chamfer holds nearly all of it"),
        ),
        f"The heap's leg goes with the square root of its area: {bench.show('dust_error', full)} already. Brush early.",
    )


QUESTIONS = named(full_chamfer)
