"""Folds in sheet and cloth."""

from kit.core.subject import Chapter, Subject


def bend() -> Subject:
    """The page fold.bend."""
    from kit.subjects.fold import bend_figure, bend_questions

    return Subject(bend_figure.draw, questions=bend_questions.QUESTIONS)


def chain() -> Subject:
    """The page fold.chain."""
    from kit.subjects.fold import chain_figure, chain_questions

    return Subject(chain_figure.draw, questions=chain_questions.QUESTIONS)


def strain() -> Subject:
    """The page fold.strain."""
    from kit.subjects.fold import strain_figure, strain_questions

    return Subject(strain_figure.draw, questions=strain_questions.QUESTIONS)


def wrap() -> Subject:
    """The page fold.wrap."""
    from kit.subjects.fold import wrap_figure, wrap_questions

    return Subject(wrap_figure.draw, questions=wrap_questions.QUESTIONS)


def hem() -> Subject:
    """The page fold.hem."""
    from kit.subjects.fold import hem_figure, hem_questions

    return Subject(hem_figure.draw, questions=hem_questions.QUESTIONS)


CHAPTER = Chapter(
    "fold", "Folds in sheet and cloth", begin=("chain",), bend=bend, chain=chain, strain=strain, wrap=wrap, hem=hem
)
