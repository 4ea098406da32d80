"""How square the blade cuts, and how straight the fence is."""

from kit.core.subject import Chapter, Subject


def square() -> Subject:
    """The page alignment.square."""
    from kit.subjects.alignment import square_figure, square_questions

    return Subject(square_figure.draw, questions=square_questions.QUESTIONS)


def bow() -> Subject:
    """The page alignment.bow."""
    from kit.subjects.alignment import bow_figure, bow_questions

    return Subject(bow_figure.draw, questions=bow_questions.QUESTIONS)


CHAPTER = Chapter("alignment", "Square and straight", square=square, bow=bow)
