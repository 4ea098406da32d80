"""Scales along the fence: zero, tape, cursor, calibration."""

from kit.core.subject import Chapter, Subject


def zero() -> Subject:
    """The page scale.zero."""
    from kit.subjects.scale import zero_build, zero_figure

    return Subject(zero_figure.draw, build=zero_build.build, takes=zero_build.TAKES)


def tape() -> Subject:
    """The page scale.tape."""
    from kit.subjects.scale import tape_figure

    return Subject(tape_figure.draw)


def cursor() -> Subject:
    """The page scale.cursor."""
    from kit.subjects.scale import cursor_figure

    return Subject(cursor_figure.draw)


def calibration() -> Subject:
    """The page scale.calibration."""
    from kit.subjects.scale import calibration_build, calibration_figure

    return Subject(calibration_figure.draw, build=calibration_build.build)


CHAPTER = Chapter("scale", "Scales along the fence", zero=zero, tape=tape, cursor=cursor, calibration=calibration)
