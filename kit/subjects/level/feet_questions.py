"""What is asked about four feet before it is shown."""

from kit.core.question import Bench, Option, Question, named, near

RISING = {"height_1": "3 mm", "height_2": "4 mm", "height_3": "6 mm", "height_4": "5 mm"}


def rising_pads(bench: Bench) -> Question:
    """Ask how much four unlike pads rock."""
    ramp = bench.case.changed(RISING)
    twist = abs(ramp.base["twist"])
    return Question(
        "the four pads are 3, 4, 6 and 5 mm high, going round. How much does the machine rock?",
        (
            Option("by 3 mm", near(twist, 3), "the highest less the lowest says how it leans, not how it rocks"),
            Option("by 1 mm", near(twist, 1), "neighbors differ so; what counts are the sums of opposite pads"),
            Option("not at all", twist < 1e-9, "opposite pads would have to have unlike sums"),
        ),
        "Opposite pairs have the same sum, 3 + 6 and 4 + 5: the pads lie in one plane, a leaning one. The twist is "
        f"{bench.show('twist', ramp)}. On the job's pads it is {bench.show('twist')}.",
    )


def hard_feet(bench: Bench) -> Question:
    """Ask whether hard feet take a twist up."""
    hard = bench.case.with_(stiffness="5000 N/mm")
    stands = hard.base["twist_taken"] >= abs(hard.base["twist"])
    return Question(
        "the rubber feet are taken off, and the machine stands on hard ones, 5000 N/mm. Does it still stand on all "
        "four?",
        (
            Option("yes, its weight holds it", stands, "hard feet give way too little under that weight"),
            Option("no, a foot hangs", not stands, "the feet give way by more than the pads are out"),
        ),
        f"Hard feet take up a twist of {bench.show('twist_taken', hard)} only, rubber ones "
        f"{bench.show('twist_taken')}; "
        f"the pads are out by {bench.show('twist')}. Foot {bench.show('hanging', hard)} hangs.",
    )


QUESTIONS = named(rising_pads, hard_feet)
