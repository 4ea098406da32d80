"""The way of the air: the flow that a hood needs, its path to the collector, its pull on cloth and on the room."""

from kit.core.subject import Chapter, Subject


def flow() -> Subject:
    """The page air.flow."""
    from kit.subjects.air import flow_figure, flow_questions

    return Subject(flow_figure.draw, questions=flow_questions.QUESTIONS)


def path() -> Subject:
    """The page air.path."""
    from kit.subjects.air import path_build, path_figure, path_questions

    return Subject(path_figure.draw, build=path_build.build, questions=path_questions.QUESTIONS)


def pull() -> Subject:
    """The page air.pull."""
    from kit.subjects.air import pull_figure, pull_questions

    return Subject(pull_figure.draw, questions=pull_questions.QUESTIONS)


def room() -> Subject:
    """The page air.room."""
    from kit.subjects.air import room_figure, room_questions

    return Subject(room_figure.draw, questions=room_questions.QUESTIONS)


CHAPTER = Chapter("air", "Air from the hood to the collector", flow=flow, path=path, pull=pull, room=room)
