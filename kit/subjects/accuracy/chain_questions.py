"""What is asked about the errors of a part before it is shown."""

from kit.core.model.stated import Typed
from kit.core.question import Bench, Option, Question, named, near, same

NONE = {
    **dict.fromkeys(("tape", "zero", "reading", "block", "play", "fence_bow", "seating"), "0 mm"),
    "warmth": "0 K",
    "moisture": "0 %",
    "push": "0 N",
    "squareness": "0 deg",
}


def worst_case(bench: Bench) -> Question:
    """Ask how far the worst case lies beyond what most parts stay within."""
    ratio = bench.case.base["worst"] / bench.case.base["expanded"]
    return Question(
        "a dozen errors, each evenly spread between its ends. How far is the worst case beyond what 95 % of the "
        "parts stay "
        "within?",
        (
            Option("the same", same(ratio), "all errors at their ends and on one side: hardly ever"),
            Option("a quarter more", near(ratio, 1.25), "the more errors there are, the rarer is their worst"),
            Option("about twice", near(ratio, 2, 0.2), "one error alone would have to rule all others"),
        ),
        f"At worst {bench.show('worst')}, but 95 % stay within {bench.show('expanded')}: hardly ever do all errors "
        "lie at "
        "their ends and on one side.",
    )


def no_dust(bench: Bench) -> Question:
    """Ask what mending two small contributors brings."""
    mended = bench.case.with_(seating="0 mm", blade="0.005 mm")
    gain = 1 - mended.base["expanded"] / bench.case.base["expanded"]
    return Question(
        "you brush out every grain of dust and true the blade. How much better is the uncertainty of a part?",
        (
            Option("less than a tenth better", gain < 0.1, "one of the two would have to be the largest"),
            Option("a third better", near(gain, 1 / 3), "squares leave little of a small contributor"),
            Option("twice as good", near(gain, 1 / 2), "squares leave little of a small contributor"),
        ),
        f"From {bench.show('expanded')} to {bench.show('expanded', mended)}. Small contributors vanish in the squares.",
    )


def whole_batch(bench: Bench) -> Question:
    """Ask which of two saws more often has a whole batch right."""
    common: dict[str, Typed] = {**NONE, "parts": 16, "tolerance": "0.15 mm"}
    own = bench.case.changed({**common, "blade": "0.2 mm"})
    shared = bench.case.changed({**common, "tape": "0.2 mm", "blade": "0.005 mm"})
    anew, alike = own.base["batch_within"], shared.base["batch_within"]
    return Question(
        "two saws have the same uncertainty. One errs anew with each part, the other by the same for all 16. Which "
        "batch is "
        "more often all within tolerance?",
        (
            Option("the one that errs anew", anew > alike, "then every one of the 16 parts must be lucky"),
            Option("the one that errs alike", alike > anew, "then one throw of the dice spoils all parts"),
            Option("both the same", anew == alike, "a single part is as often right, but not a whole batch"),
        ),
        f"Alike, one throw of the dice decides for all: {bench.show('batch_within', shared)}. Anew, every part must be "
        f"lucky: {bench.show('batch_within', own)}.",
    )


QUESTIONS = named(worst_case, no_dust, whole_batch)
