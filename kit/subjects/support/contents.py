"""What carries: shelves, the bench at its height, and the people who lift the machine onto it."""

from kit.core.subject import Chapter, Subject


def shelf() -> Subject:
    """The page support.shelf."""
    from kit.subjects.support import shelf_figure, shelf_lists, shelf_questions

    return Subject(shelf_figure.draw, questions=shelf_questions.QUESTIONS, lists=shelf_lists.lists)


def wing() -> Subject:
    """The page support.wing."""
    from kit.subjects.support import wing_figure, wing_lists, wing_questions

    return Subject(wing_figure.draw, questions=wing_questions.QUESTIONS, lists=wing_lists.lists)


def height() -> Subject:
    """The page support.height."""
    from kit.subjects.support import height_figure, height_questions

    return Subject(height_figure.draw, questions=height_questions.QUESTIONS)


def lift() -> Subject:
    """The page support.lift."""
    from kit.subjects.support import lift_figure, lift_questions

    return Subject(lift_figure.draw, questions=lift_questions.QUESTIONS)


def tip() -> Subject:
    """The page support.tip."""
    from kit.subjects.support import tip_figure, tip_questions

    return Subject(tip_figure.draw, questions=tip_questions.QUESTIONS)


CHAPTER = Chapter("support", "What carries, and who lifts", shelf=shelf, wing=wing, height=height, tip=tip, lift=lift)
