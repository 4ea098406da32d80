"""Stop readings: the reversible block, its errors, and repeated cuts."""

from kit.core.subject import Chapter, Subject


def block() -> Subject:
    """The page reading.block."""
    from kit.subjects.reading import block, block_build, block_figure

    return Subject(block.MODEL, block_figure.draw, build=block_build.build)


def error() -> Subject:
    """The page reading.error."""
    from kit.subjects.reading import error, error_figure

    return Subject(error.MODEL, error_figure.draw)


def cuts() -> Subject:
    """The page reading.cuts."""
    from kit.subjects.reading import cuts, cuts_build, cuts_figure

    return Subject(cuts.MODEL, cuts_figure.draw, build=cuts_build.build)


CHAPTER = Chapter(
    "reading",
    "Stop readings",
    begin=("block", "cuts"),
    makes={"block": ("block scale",)},
    block=block,
    error=error,
    cuts=cuts,
)
