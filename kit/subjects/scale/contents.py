"""Scales along the fence: zero, tape, cursor, calibration."""

from kit.core.subject import Chapter, Subject


def zero() -> Subject:
    """The page scale.zero."""
    from kit.subjects.scale import zero_build, zero_figure, zero_questions

    return Subject(zero_figure.draw, build=zero_build.build, takes=zero_build.TAKES, questions=zero_questions.QUESTIONS)


def tape() -> Subject:
    """The page scale.tape."""
    from kit.subjects.scale import tape_figure, tape_lists, tape_questions

    return Subject(tape_figure.draw, questions=tape_questions.QUESTIONS, lists=tape_lists.lists)


def cursor() -> Subject:
    """The page scale.cursor."""
    from kit.subjects.scale import cursor_figure, cursor_questions

    return Subject(cursor_figure.draw, questions=cursor_questions.QUESTIONS)


def calibration() -> Subject:
    """The page scale.calibration."""
    from kit.subjects.scale import calibration_build, calibration_figure, calibration_questions

    return Subject(calibration_figure.draw, build=calibration_build.build, questions=calibration_questions.QUESTIONS)


CHAPTER = Chapter("scale", "Scales along the fence", zero=zero, tape=tape, cursor=cursor, calibration=calibration)
