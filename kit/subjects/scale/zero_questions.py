"""What is asked about the zero of a scale before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, near, same

THIN = {"new_kerf": "2.4 mm", "new_plate": "1.6 mm"}


def same_plate(bench: Bench) -> Question:
    """Ask what a narrower kerf does to parts."""
    other = bench.case.with_(new_plate=bench.case["plate"].value)
    change = other.base["part_change"]
    return Question(
        "you put on a blade with a narrower kerf and the same plate, and leave the scale alone. How do the parts "
        "come out?",
        (
            Option("shorter", change < 0, "the kerf's face would have to come nearer to the stop"),
            Option("as before", change == 0, "the kerf's face on the side of the stop has moved"),
            Option("longer", change > 0, "the kerf's face would have to draw nearer to the stop"),
        ),
        f"The kerf's face draws back from the stop: parts grow by {bench.show('part_change', other)}, half of what "
        "the kerf "
        f"is narrower ({bench.show('kerf')} to {bench.show('new_kerf', other)}).",
    )


def thin_blade(bench: Bench) -> Question:
    """Ask on which side a thin blade changes more."""
    flange, other = (bench.case.changed({"stop_side": side, **THIN}) for side in ("left", "right"))
    ratio = abs(other.base["part_change"]) / abs(flange.base["part_change"])
    return Question(
        "a thin blade: kerf 2.4 mm on a plate of 1.6 mm. On which side of the blade does the scale suffer more?",
        (
            Option("on the flange's side", ratio < SAME[0], "the plate stays where the flange holds it"),
            Option("on the other side", ratio > SAME[1], "the plate's thickness counts on the flange's side alone"),
            Option("on both alike", same(ratio), "the flange holds one face of the plate, not its middle"),
        ),
        f"On the flange's side parts change by {bench.show('part_change', flange)}, on the other by "
        f"{bench.show('part_change', other)}: there the plate's thickness is missing too.",
    )


def tooth_tip(bench: Bench) -> Question:
    """Ask what a zero set at a tooth's tip is off."""
    tip = bench.case.with_(reference="tooth tip")
    part = abs(tip.base["reading_error"]) / tip.base["runout"]
    return Question(
        "somebody sets the zero with a rule against a tooth's tip, blade at rest. What do the parts come out?",
        (
            Option("true", part < 0.05, "the tooth that swings out farthest cuts deeper than the one at rest"),
            Option("short by half the run-out", near(part, 1 / 2), "the rule met another tooth than that"),
            Option(
                "short by the whole run-out", near(part, 1), "the mean tooth lies half the run-out off the farthest"
            ),
        ),
        "The tooth that swings farthest cuts deeper than the one the rule met: parts are off by "
        f"{bench.show('reading_error', tip)}.",
    )


QUESTIONS = named(same_plate, thin_blade, tooth_tip)
