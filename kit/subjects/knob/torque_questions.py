"""What is asked about a knob's clamp force before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, near, same


def into_clamping(bench: Bench) -> Question:
    """Ask how much of the hand's work clamps."""
    share = bench.case.base["efficiency"]
    return Question(
        "of the work that a hand puts into the knob, how much ends up as clamping?",
        (
            Option("nearly all of it", share > 0.8, "most of it rubs away under the knob and on the flanks"),
            Option("about half", 0.3 <= share <= 0.7, "a screw that wasted only half would turn back by itself"),
            Option("less than a tenth", share < 0.1, "the thread would have to be steeper, or slicker"),
        ),
        f"Here {bench.show('efficiency')}. The rest turns to warmth under the knob and on the flanks, and that is "
        "what keeps "
        "the knob from turning back.",
    )


def small_knob(bench: Bench) -> Question:
    """Ask what a small knob leaves of the clamp force."""
    small = bench.case.with_(knob_size="25 mm")
    left = small.base["axial_force"] / bench.case.base["axial_force"]
    size = small.base["knob_size"] / bench.case.base["knob_size"]
    return Question(
        "the knob shrinks to 25 mm, which fingers and palm just close round. How much of its clamp force is left?",
        (
            Option(
                "as little as the square of the sizes says",
                near(left, size**2, 0.05),
                "so it is only with knobs too small for the whole hand",
            ),
            Option("as much as the sizes say", near(left, size, 0.05), "the arm shrinks so, but the hand grips better"),
            Option("two thirds", near(left, 2 / 3, 0.06), "the whole hand no longer closes round it"),
        ),
        f"A small handle is grasped by the whole hand: {bench.show('axial_force')} become "
        f"{bench.show('axial_force', small)}. Only below that does the force fall with the square.",
    )


def thicker_stud(bench: Bench) -> Question:
    """Ask what a thicker stud does to the clamp force."""
    coarse = bench.case.with_(thread="M10")
    ratio = coarse.base["axial_force"] / bench.case.base["axial_force"]
    return Question(
        "a stronger stud, M10, and the same hand. What does the clamp force do?",
        (
            Option("it grows, the stud is stronger", ratio > SAME[1], "strength is not what the hand has to overcome"),
            Option("it stays", same(ratio), "the thread's friction acts on a longer radius now"),
            Option("it falls", ratio < SAME[0], "the thread would have to rub on a shorter radius"),
        ),
        f"A thicker thread rubs on a longer radius: {bench.show('axial_force')} become "
        f"{bench.show('axial_force', coarse)}. "
        f"The stud was never in question: {bench.show('stud_stress')} of a proof strength of {bench.show('proof')}.",
    )


QUESTIONS = named(into_clamping, small_knob, thicker_stud)
