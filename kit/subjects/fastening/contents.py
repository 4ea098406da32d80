"""What holds boards together, cloth on its frame, and a machine down: screws, staples, seams, bolts and glue."""

from kit.core.subject import Chapter, Subject


def screw() -> Subject:
    """The page fastening.screw."""
    from kit.subjects.fastening import screw_figure, screw_lists, screw_questions

    return Subject(screw_figure.draw, questions=screw_questions.QUESTIONS, lists=screw_lists.lists)


def cloth() -> Subject:
    """The page fastening.cloth."""
    from kit.subjects.fastening import cloth_figure, cloth_questions

    return Subject(cloth_figure.draw, questions=cloth_questions.QUESTIONS)


def hold() -> Subject:
    """The page fastening.hold."""
    from kit.subjects.fastening import hold_figure, hold_lists, hold_questions

    return Subject(hold_figure.draw, questions=hold_questions.QUESTIONS, lists=hold_lists.lists)


def door() -> Subject:
    """The page fastening.door."""
    from kit.subjects.fastening import door_figure, door_lists, door_questions

    return Subject(door_figure.draw, questions=door_questions.QUESTIONS, lists=door_lists.lists)


def glue() -> Subject:
    """The page fastening.glue."""
    from kit.subjects.fastening import glue_figure, glue_lists, glue_questions

    return Subject(glue_figure.draw, questions=glue_questions.QUESTIONS, lists=glue_lists.lists)


def pocket() -> Subject:
    """The page fastening.pocket."""
    from kit.subjects.fastening import pocket_figure, pocket_lists, pocket_questions

    return Subject(pocket_figure.draw, questions=pocket_questions.QUESTIONS, lists=pocket_lists.lists)


CHAPTER = Chapter(
    "fastening",
    "What holds boards, cloth and machines",
    screw=screw,
    cloth=cloth,
    hold=hold,
    door=door,
    glue=glue,
    pocket=pocket,
)
