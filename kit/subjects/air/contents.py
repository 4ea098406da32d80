"""The way of the air: the flow that a hood needs, and its path to the collector."""

from kit.core.subject import Chapter, Subject


def flow() -> Subject:
    """The page air.flow."""
    from kit.subjects.air import flow_figure, flow_questions

    return Subject(flow_figure.draw, questions=flow_questions.QUESTIONS)


CHAPTER = Chapter("air", "Air from the hood to the collector", flow=flow)
