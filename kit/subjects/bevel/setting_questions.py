"""What is asked about setting an angle before it is shown."""

from kit.core.question import Bench, Option, Question, named, near, same


def longer_base(bench: Bench) -> Question:
    """Ask how much surer an angle is over a longer base."""
    case = bench.case
    longer = case.with_(base=case["base"].base * 1.5, rise=case["rise"].base * 1.5)
    better = case.base["angle_u"] / longer.base["angle_u"]
    return Question(
        "you make base and rise half as long again, and measure as well as before. How sure is the angle then?",
        (
            Option("as sure as before", same(better), "the same error turns a longer base by a smaller angle"),
            Option("half as sure again", near(better, 1.5), "the errors do not shrink in proportion here"),
            Option("more than twice as sure", better > 2, "the errors count once, over a base 1.5 times as long"),
        ),
        f"The same errors are spread over a longer base: {bench.show('angle_u')} becomes "
        f"{bench.show('angle_u', longer)}, {better:.1f} times as sure.",
    )


QUESTIONS = named(longer_base)
