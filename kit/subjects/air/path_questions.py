"""What is asked about the path of the air before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def slower_fan(bench: Bench) -> Question:
    """Ask what is left of a fan's suction when it turns slower."""
    slow = bench.case.with_(fan_speed=0.8 * bench.case["fan_speed"].value)
    left = slow.base["pressure_factor"] / bench.case.base["pressure_factor"]
    return Question(
        "a drive lets the fan turn a fifth slower. What is left of its suction?",
        (
            Option("four fifths", near(left, 0.8, 0.05), "so much is left of the flow"),
            Option("about two thirds", near(left, 2 / 3, 0.05), "the suction would have to fall with the speed itself"),
            Option("about half", near(left, 0.5, 0.05), "so much is left of the power"),
        ),
        f"It falls with the speed squared: from {bench.show('pressure_factor')} to "
        f"{bench.show('pressure_factor', slow)} of that on the curve. The power falls with the third power, to "
        f"{bench.show('power_factor', slow)}.",
    )


def both_gates(bench: Bench) -> Question:
    """Ask what a second open gate leaves for the hood that works."""
    alone = bench.build().data[0]
    hoods = [position.loaded.hoods for position in bench.build().data]
    both = bench.build(positions=[{"name": "all", "open": [name for open_ in hoods for name in open_]}]).data[0]
    hood, flow = next(iter(alone.loaded.hoods.items()))
    left = both.loaded.hoods[hood] / flow
    return Question(
        f"somebody leaves the other gate open as well. How much of its air is left at the hood of {hood!r}?",
        (
            Option("nearly all", left > 0.9, "both hoods now share what the fan moves"),
            Option("more than half, but not all", 0.52 < left < 0.9, "the fan would have to follow, or not at all"),
            Option("just half", near(left, 0.5, 0.04), "with two ways the path costs less, so the fan moves more"),
        ),
        f"With two ways the path costs less, and the fan moves more at a lower suction; {100 * left:.0f} % are left.",
    )


QUESTIONS = named(slower_fan, both_gates)
