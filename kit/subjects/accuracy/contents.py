"""The whole chain from scale to cut part, predicted and measured."""

from kit.core.subject import Chapter, Subject


def chain() -> Subject:
    """The page accuracy.chain."""
    from kit.subjects.accuracy import chain_build, chain_figure, chain_questions

    return Subject(
        chain_figure.draw, build=chain_build.build, tasks=chain_build.TASKS, questions=chain_questions.QUESTIONS
    )


def batch() -> Subject:
    """The page accuracy.batch."""
    from kit.subjects.accuracy import batch_build, batch_figure, batch_questions

    return Subject(
        batch_figure.draw, build=batch_build.build, propose=batch_build.propose, questions=batch_questions.QUESTIONS
    )


CHAPTER = Chapter("accuracy", "The whole chain from scale to cut part", chain=chain, batch=batch)
