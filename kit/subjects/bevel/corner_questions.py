"""What is asked about a corner of two boards before it is shown."""

from kit.core.question import Bench, Option, Question, named, same


def thin_and_thick(bench: Bench) -> Question:
    """Ask which of two boards of unlike thickness is cut steeper."""
    base = bench.case.base
    thin, thick = (1, 2) if base["thickness_1"] < base["thickness_2"] else (2, 1)
    ratio = base[f"tilt_{thin}"] / base[f"tilt_{thick}"]
    return Question(
        "which of the two boards needs the steeper blade, the thin one or the thick one?",
        (
            Option("the thin one", ratio > 1 and not same(ratio), "the miter would have to cross the thick one longer"),
            Option("the thick one", ratio < 1 and not same(ratio), "the miter crosses the thick board more squarely"),
            Option(
                "both the same, half of what is left of a half turn",
                same(ratio),
                "so it is with boards of one thickness: then the miter halves the corner",
            ),
        ),
        f"The miter runs from outer to inner corner. The thin board ({bench.show(f'thickness_{thin}')}) is crossed at "
        f"{bench.show(f'tilt_{thin}')}, the thick one ({bench.show(f'thickness_{thick}')}) at "
        f"{bench.show(f'tilt_{thick}')}.",
    )


QUESTIONS = named(thin_and_thick)
