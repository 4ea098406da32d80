"""Long stops and ribs."""

from kit.core.subject import Chapter, Subject


def deflection() -> Subject:
    """The page stop.deflection."""
    from kit.subjects.stop import deflection_figure, deflection_lists, deflection_questions

    return Subject(deflection_figure.draw, questions=deflection_questions.QUESTIONS, lists=deflection_lists.lists)


def section() -> Subject:
    """The page stop.section."""
    from kit.subjects.stop import section_figure

    return Subject(section_figure.draw)


def bow() -> Subject:
    """The page stop.bow."""
    from kit.subjects.stop import bow_figure, bow_questions

    return Subject(bow_figure.draw, questions=bow_questions.QUESTIONS)


def warp() -> Subject:
    """The page stop.warp."""
    from kit.subjects.stop import warp_figure, warp_questions

    return Subject(warp_figure.draw, questions=warp_questions.QUESTIONS)


def movement() -> Subject:
    """The page stop.movement."""
    from kit.subjects.stop import movement_figure, movement_questions

    return Subject(movement_figure.draw, questions=movement_questions.QUESTIONS)


CHAPTER = Chapter("stop", "Long stops", deflection=deflection, section=section, bow=bow, warp=warp, movement=movement)
