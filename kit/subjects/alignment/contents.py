"""How square the blade cuts, how straight the fence is, how true the blade runs."""

from kit.core.subject import Chapter, Subject


def square() -> Subject:
    """The page alignment.square."""
    from kit.subjects.alignment import square_figure, square_questions

    return Subject(square_figure.draw, questions=square_questions.QUESTIONS)


def bow() -> Subject:
    """The page alignment.bow."""
    from kit.subjects.alignment import bow_figure, bow_questions

    return Subject(bow_figure.draw, questions=bow_questions.QUESTIONS)


def runout() -> Subject:
    """The page alignment.runout."""
    from kit.subjects.alignment import runout_figure, runout_questions

    return Subject(runout_figure.draw, questions=runout_questions.QUESTIONS)


def wedge() -> Subject:
    """The page alignment.wedge."""
    from kit.subjects.alignment import wedge_figure, wedge_questions

    return Subject(wedge_figure.draw, questions=wedge_questions.QUESTIONS)


CHAPTER = Chapter("alignment", "Square, straight and true", square=square, wedge=wedge, runout=runout, bow=bow)
