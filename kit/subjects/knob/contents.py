"""Knobs built up from plies: their nut, their outline, the hand's torque and what it clamps."""

from kit.core.subject import Chapter, Subject


def plies() -> Subject:
    """The page knob.plies."""
    from kit.subjects.knob import plies_build, plies_figure, plies_lists, plies_questions

    return Subject(
        plies_figure.draw, build=plies_build.build, questions=plies_questions.QUESTIONS, lists=plies_lists.lists
    )


def outline() -> Subject:
    """The page knob.outline."""
    from kit.subjects.knob import outline_build, outline_figure, outline_lists, outline_questions

    return Subject(
        outline_figure.draw,
        build=outline_build.build,
        takes=outline_build.TAKES,
        questions=outline_questions.QUESTIONS,
        lists=outline_lists.lists,
    )


def torque() -> Subject:
    """The page knob.torque."""
    from kit.subjects.knob import torque_figure, torque_questions

    return Subject(torque_figure.draw, questions=torque_questions.QUESTIONS)


def clamp() -> Subject:
    """The page knob.clamp."""
    from kit.subjects.knob import clamp_figure, clamp_questions

    return Subject(clamp_figure.draw, questions=clamp_questions.QUESTIONS)


CHAPTER = Chapter(
    "knob",
    "Knobs",
    begin=("plies", "outline", "torque"),
    makes={"plies": ("knob plies",)},
    plies=plies,
    outline=outline,
    torque=torque,
    clamp=clamp,
)
