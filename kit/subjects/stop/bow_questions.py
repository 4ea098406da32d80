"""What is asked about pressing a bow straight before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def longer_bar(bench: Bench) -> Question:
    """Ask whether the length of a bar counts for what springs back."""
    longer = bench.case.with_(length=1.5 * bench.case["length"].value)
    ratio = longer.base["bow_left"] / bench.case.base["bow_left"]
    return Question(
        "another bar is half as long again and has the same bow. How much of the bow is left after release?",
        (
            Option("less", ratio < SAME[0], "it is pressed flat more easily, and springs back as easily"),
            Option("the same", same(ratio), "the length would have to count for one of the two bars and not the other"),
            Option("more", ratio > SAME[1], "a longer bar springs back more easily, but was pressed flat as easily"),
        ),
        f"Lengths fall out, only stiffness counts: {bench.show('bow_left')} is left of {bench.show('bow')} in both. "
        "But the "
        f"longer one is pressed flat with {bench.show('press', longer)} instead of {bench.show('press')}.",
    )


QUESTIONS = named(longer_bar)
