"""What is asked about the depth of a groove before it is shown."""

from kit.core.question import Bench, Option, Question, named


def leaning(bench: Bench) -> Question:
    """Ask whether a depth stop gives way."""
    firm = bench.case.with_(push="160 N")
    more = firm.base["depth"] - bench.case.base["depth"]
    return Question(
        "you lean on the router twice as hard as when you set it. Is the groove deeper?",
        (
            Option("yes, a little", more > 0, "the stop would have to be stiffer than anything is"),
            Option("no, the stop is a stop", more == 0, "everything that is pushed gives way, a stop as well"),
            Option("less deep", more < 0, "a push down does not lift the bit"),
        ),
        f"The stop gives way in proportion to the push, {bench.show('stop_give')} becomes "
        f"{bench.show('stop_give', firm)}, and the depth {bench.show('depth', firm)} instead of {bench.show('depth')}.",
    )


QUESTIONS = named(leaning)
