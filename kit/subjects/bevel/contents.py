"""Bevels for frame fitting."""

from kit.core.subject import Chapter, Subject


def frame() -> Subject:
    """The page bevel.frame."""
    from kit.subjects.bevel import frame_figure, frame_lists, frame_questions

    return Subject(frame_figure.draw, questions=frame_questions.QUESTIONS, lists=frame_lists.lists)


def corner() -> Subject:
    """The page bevel.corner."""
    from kit.subjects.bevel import corner_figure, corner_questions

    return Subject(corner_figure.draw, questions=corner_questions.QUESTIONS)


def hood() -> Subject:
    """The page bevel.hood."""
    from kit.subjects.bevel import hood_figure, hood_lists

    return Subject(hood_figure.draw, lists=hood_lists.lists)


def wall() -> Subject:
    """The page bevel.wall."""
    from kit.subjects.bevel import wall_figure

    return Subject(wall_figure.draw)


def gap() -> Subject:
    """The page bevel.gap."""
    from kit.subjects.bevel import gap_figure, gap_questions

    return Subject(gap_figure.draw, questions=gap_questions.QUESTIONS)


def setting() -> Subject:
    """The page bevel.setting."""
    from kit.subjects.bevel import setting_figure, setting_questions

    return Subject(setting_figure.draw, questions=setting_questions.QUESTIONS)


CHAPTER = Chapter(
    "bevel",
    "Bevels for frame fitting",
    frame=frame,
    corner=corner,
    hood=hood,
    wall=wall,
    gap=gap,
    setting=setting,
)
