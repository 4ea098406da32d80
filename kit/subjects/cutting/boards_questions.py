"""What is asked about strips out of boards before it is shown."""

from kit.core.question import Bench, Option, Question, named


def wider_kerf(bench: Bench) -> Question:
    """Ask how many pieces a wider kerf costs."""
    thick = bench.case.with_(kerf="6 mm")
    pieces, after = (round(case.base["pieces"]) for case in (bench.case, thick))
    strip = pieces // max(1, round(bench.case.base["strips"]))
    lost = pieces - after
    cut = (thick.base["kerf"] - bench.case.base["kerf"]) / 3
    return Question(
        f"a board gives {bench.show('pieces')} pieces. The kerf grows from {bench.show('kerf').split(' ±')[0]} to 6 "
        "mm. "
        "How many pieces are lost?",
        (
            Option(
                "none or a whole strip of them, never something between",
                lost % strip == 0,
                "the count would have to change by less than a strip",
            ),
            Option("always one for every 3 mm", lost == round(cut) != 0, "what is left over takes some kerf up"),
            Option("half a piece each", lost == pieces // 2 != 0, "pieces are counted whole"),
        ),
        f"Counting goes by whole strips: {bench.show('pieces')} before, {bench.show('pieces', thick)} after; "
        f"{bench.show('strip_left')} of the width were left over.",
    )


QUESTIONS = named(wider_kerf)
