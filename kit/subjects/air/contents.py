"""The way of the air: the flow that a hood needs, and its path to the collector."""

from kit.core.subject import Chapter, Subject


def flow() -> Subject:
    """The page air.flow."""
    from kit.subjects.air import flow_figure, flow_questions

    return Subject(flow_figure.draw, questions=flow_questions.QUESTIONS)


def path() -> Subject:
    """The page air.path."""
    from kit.subjects.air import path_build, path_figure, path_questions

    return Subject(path_figure.draw, build=path_build.build, questions=path_questions.QUESTIONS)


CHAPTER = Chapter("air", "Air from the hood to the collector", flow=flow, path=path)
