"""Stop readings: the reversible block, its errors, and repeated cuts."""

from kit.core.subject import Chapter, Subject


def block() -> Subject:
    """The page reading.block."""
    from kit.subjects.reading import block_build, block_figure, block_questions

    return Subject(block_figure.draw, build=block_build.build, questions=block_questions.QUESTIONS)


def error() -> Subject:
    """The page reading.error."""
    from kit.subjects.reading import error_figure, error_questions

    return Subject(error_figure.draw, questions=error_questions.QUESTIONS)


def cuts() -> Subject:
    """The page reading.cuts."""
    from kit.subjects.reading import cuts_build, cuts_figure, cuts_questions

    return Subject(cuts_figure.draw, build=cuts_build.build, questions=cuts_questions.QUESTIONS)


CHAPTER = Chapter(
    "reading",
    "Stop readings",
    begin=("block", "cuts"),
    makes={"block": ("block scale",)},
    block=block,
    error=error,
    cuts=cuts,
)
