"""Leveling a machine: gaps, planes, pads, weight on feet, and how well it comes back to its place."""

from kit.core.subject import Chapter, Subject


def cards() -> Subject:
    """The page level.cards."""
    from kit.subjects.level import cards_figure, cards_questions

    return Subject(cards_figure.draw, questions=cards_questions.QUESTIONS)


def plane() -> Subject:
    """The page level.plane."""
    from kit.subjects.level import plane_build, plane_figure, plane_questions

    return Subject(plane_figure.draw, build=plane_build.build, questions=plane_questions.QUESTIONS)


def pads() -> Subject:
    """The page level.pads."""
    from kit.subjects.level import pads_build, pads_figure, pads_questions

    return Subject(pads_figure.draw, build=pads_build.build, takes=pads_build.TAKES, questions=pads_questions.QUESTIONS)


def feet() -> Subject:
    """The page level.feet."""
    from kit.subjects.level import feet_figure, feet_questions

    return Subject(feet_figure.draw, questions=feet_questions.QUESTIONS)


def tripod() -> Subject:
    """The page level.tripod."""
    from kit.subjects.level import tripod_figure, tripod_questions

    return Subject(tripod_figure.draw, questions=tripod_questions.QUESTIONS)


def register() -> Subject:
    """The page level.register."""
    from kit.subjects.level import register_figure, register_questions

    return Subject(register_figure.draw, questions=register_questions.QUESTIONS)


def print() -> Subject:
    """The page level.print."""
    from kit.subjects.level import print_build, print_figure, print_lists, print_questions

    return Subject(
        print_figure.draw,
        build=print_build.build,
        questions=print_questions.QUESTIONS,
        lists=print_lists.lists,
    )


CHAPTER = Chapter(
    "level",
    "Leveling the machine",
    begin=("cards", "plane", "pads"),
    makes={"plane": ("bed plane",)},
    cards=cards,
    plane=plane,
    pads=pads,
    feet=feet,
    tripod=tripod,
    register=register,
    print=print,
)
