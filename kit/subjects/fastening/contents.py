"""What holds boards together, and cloth on its frame: screws, staples and seams."""

from kit.core.subject import Chapter, Subject


def screw() -> Subject:
    """The page fastening.screw."""
    from kit.subjects.fastening import screw_figure, screw_questions

    return Subject(screw_figure.draw, questions=screw_questions.QUESTIONS)


def cloth() -> Subject:
    """The page fastening.cloth."""
    from kit.subjects.fastening import cloth_figure, cloth_questions

    return Subject(cloth_figure.draw, questions=cloth_questions.QUESTIONS)


CHAPTER = Chapter("fastening", "What holds boards and cloth", screw=screw, cloth=cloth)
