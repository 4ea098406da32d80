"""What goes on the wood last: primer, paint and oil."""

from kit.core.subject import Chapter, Subject


def coat() -> Subject:
    """The page finish.coat."""
    from kit.subjects.finish import coat_figure, coat_lists, coat_questions

    return Subject(coat_figure.draw, questions=coat_questions.QUESTIONS, lists=coat_lists.lists)


CHAPTER = Chapter("finish", "What goes on the wood last", coat=coat)
