"""What holds boards together: screws."""

from kit.core.subject import Chapter, Subject


def screw() -> Subject:
    """The page fastening.screw."""
    from kit.subjects.fastening import screw_figure, screw_questions

    return Subject(screw_figure.draw, questions=screw_questions.QUESTIONS)


CHAPTER = Chapter("fastening", "Screws that hold boards", screw=screw)
