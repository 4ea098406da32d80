"""What is asked about gaping joints before it is shown."""

from kit.core.question import Bench, Option, Question, named

BOARDS = 12  # more boards than a frame has


def last_joint(bench: Bench) -> Question:
    """Ask how errors of one setting add up round a frame."""
    exact = bench.case.with_(miter_error="0 deg", tilt_error="0.1 deg")
    times = exact.base["gap_last"] / exact.base["gap_tilt"]
    return Question(
        "the tilt is off by 0.1 deg and the miter is right. One joint gapes a little. How wide does the last one gape?",
        (
            Option(
                "as wide as any other", times < 1.5, "the others are closed by hand, and the rest comes to the last"
            ),
            Option(
                "about as many times wider as there are boards",
                1.5 <= times <= BOARDS,
                "so it would be if an error turned only the ends of a board, and not the whole board",
            ),
            Option("far wider than that", times > BOARDS, "the error would have to turn whole boards"),
        ),
        f"One joint gapes by {bench.show('gap_tilt', exact)} across its thickness; the last corner misses by "
        f"{bench.show('gap_last', exact)}, because the error turns whole boards and not only their ends.",
    )


QUESTIONS = named(last_joint)
