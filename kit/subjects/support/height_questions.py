"""What is asked about the bench's height before it is shown."""

from kit.core.question import Bench, Option, Question, named


def heavy_work(bench: Bench) -> Question:
    """Ask whether heavy work wants a higher or a lower bench."""
    light = bench.case.with_(task="light").base["bench_wanted"]
    heavy = bench.case.with_(task="heavy").base["bench_wanted"]
    return Question(
        "the bench is used for heavier work than before. What should it be?",
        (
            Option("higher", heavy > light, "from above, the body's weight helps to push"),
            Option("lower", heavy < light, "pushing down wants a lower bench"),
            Option("as it was", heavy == light, "hands that push hard work lower than hands that look close"),
        ),
        f"{bench.show('bench_wanted', bench.case.with_(task='light'))} for light work become "
        f"{bench.show('bench_wanted', bench.case.with_(task='heavy'))}.",
    )


QUESTIONS = named(heavy_work)
