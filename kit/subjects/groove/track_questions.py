"""What is asked about a track in wood before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def flat_sawn(bench: Bench) -> Question:
    """Ask what the cut of the boards does to the play."""
    flat = bench.case.with_(cut="flat-sawn")
    ratio = abs(flat.base["width_change"] / bench.case.base["width_change"])
    return Question(
        "the top is glued up from flat-sawn boards instead of quarter-sawn ones. What does the dry winter do to the "
        "track's play?",
        (
            Option("takes more of it", ratio > SAME[1], "along the rings wood would have to move less than across"),
            Option("takes as much", same(ratio), "wood moves otherwise along its rings than across them"),
            Option("takes less", ratio < SAME[0], "flat-sawn boards move more in their width, not less"),
        ),
        "Along the rings wood moves more than across them: the groove's width changes by "
        f"{bench.show('width_change', flat)} "
        f"instead of {bench.show('width_change')}; a play of {bench.show('play_used', flat)} is left instead of "
        f"{bench.show('play_used')}.",
    )


QUESTIONS = named(flat_sawn)
