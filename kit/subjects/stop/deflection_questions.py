"""What is asked about a long stop before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, largest, named, near, same

PARTS = {
    "play_tip": ("play of the key", "a short key turns little in its slot here"),
    "bending_tip": ("bending of the block", "the block is high where it counts, and its rib stiffens it"),
    "shear_tip": ("shear in the block", "shear counts in short blocks; this one is long and slender"),
    "slip_tip": ("the clamp giving way", "the clamp holds: friction takes the push up"),
}


def moves_most(bench: Bench) -> Question:
    """Ask which of four causes moves the tip most."""
    most = largest(bench, *PARTS)
    told = ", ".join(f"{bench.case.model.relations[name].meaning} {bench.show(name)}" for name in PARTS)
    return Question(
        "which of the four moves the tip most on this bench?",
        tuple(Option(text, name == most, why) for name, (text, why) in PARTS.items()),
        f"Here: {told}.",
    )


def twice_as_far(bench: Bench) -> Question:
    """Ask how bending grows with the reach."""
    twice = bench.case.with_(long_reach=2 * bench.case["long_reach"].value)
    times = twice.base["bending_tip"] / bench.case.base["bending_tip"]
    return Question(
        "the stop reaches twice as far. By how much does the part from bending grow?",
        (
            Option(
                "twice", near(times, 2), "the push has a longer arm, and bends a longer block, and its tip is farther"
            ),
            Option("four times", near(times, 4), "one more factor: the slope at the end acts over a longer reach"),
            Option("eight times", near(times, 8), "the reach would have to enter with its cube"),
        ),
        f"It goes with the cube of the reach: {bench.show('bending_tip')} becomes {bench.show('bending_tip', twice)}.",
    )


def rib_on_top(bench: Bench) -> Question:
    """Ask whether a rib helps as much on top."""
    top = bench.case.with_(rib_face="on top")
    ratio = top.base["bending_tip"] / bench.case.base["bending_tip"]
    return Question(
        "the same rib is glued on top of the block instead of its back. Does it help as much against a sideways push?",
        (
            Option("more", ratio < SAME[0], "a sideways push bends about the upright axis, near which the rib lies"),
            Option("as much", same(ratio), "what counts is its distance from the middle of the bending"),
            Option("less", ratio > SAME[1], "on top the rib would have to lie farther from the middle of the bending"),
        ),
        f"On the back it is far from the middle of the bending, on top it is not: {bench.show('bending_tip')} on the "
        f"back, {bench.show('bending_tip', top)} on top.",
    )


QUESTIONS = named(moves_most, twice_as_far, rib_on_top)
