"""What is asked about the pull of the air on cloth before it is shown."""

from kit.core.question import Bench, Option, Question, named, near


def taut(bench: Bench) -> Question:
    """Ask which cloth pulls harder at its staples, a taut or a slack one."""
    tight = bench.case.with_(slack="0.01 %")
    times = tight.base["pull"] / bench.case.base["pull"]
    return Question(
        "the cloth is put on without any slack. What does it do to the pull at the staples?",
        (
            Option("they are pulled harder", times > 1.02, "the taut cloth would have to sag as far as the slack one"),
            Option("they are pulled less", times < 0.98, "a flat strip needs a harder pull to carry the same load"),
            Option("nothing", near(times, 1, 0.02), "the load is the same, but the sag that carries it is not"),
        ),
        f"The flatter the strip, the harder it pulls: {bench.show('pull')} become {bench.show('pull', tight)}.",
    )


def half_span(bench: Bench) -> Question:
    """Ask what a batten in the middle does to the sag."""
    half = bench.case.with_(span=0.5 * bench.case["span"].value)
    left = half.base["sag"] / bench.case.base["sag"]
    return Question(
        "a batten is set in the middle of the span. What is left of the sag?",
        (
            Option("half or a little less", 0.38 < left < 0.51, "slack would have to count in another way"),
            Option("a quarter", near(left, 0.25, 0.2), "the slack's sag goes with the span itself"),
            Option("a sixteenth", near(left, 1 / 16, 0.3), "that would be a beam; cloth hangs"),
        ),
        f"Slack sags with the span, stretch with a little more: {bench.show('sag')} become {bench.show('sag', half)}.",
    )


QUESTIONS = named(taut, half_span)
