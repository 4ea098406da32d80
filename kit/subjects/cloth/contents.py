"""Cloth cut flat: cones, miters, relief of curved hems, twist, and the drop chute."""

from kit.core.subject import Chapter, Subject


def skin() -> Subject:
    """The page cloth.skin."""
    from kit.subjects.cloth import pattern_lists, skin_build, skin_figure, skin_questions

    return Subject(
        skin_figure.draw,
        build=skin_build.build,
        takes=skin_build.TAKES,
        tasks=skin_build.TASKS,
        propose=skin_build.propose,
        questions=skin_questions.QUESTIONS,
        lists=pattern_lists.lists,
        lies_with="frame",
    )


def cone() -> Subject:
    """The page cloth.cone."""
    from kit.subjects.cloth import cone_figure, cone_lists, cone_questions

    return Subject(cone_figure.draw, questions=cone_questions.QUESTIONS, lists=cone_lists.lists)


def oblique() -> Subject:
    """The page cloth.oblique."""
    from kit.subjects.cloth import oblique_figure

    return Subject(oblique_figure.draw)


def miter() -> Subject:
    """The page cloth.miter."""
    from kit.subjects.cloth import miter_figure

    return Subject(miter_figure.draw)


def twist() -> Subject:
    """The page cloth.twist."""
    from kit.subjects.cloth import twist_figure

    return Subject(twist_figure.draw)


def chute() -> Subject:
    """The page cloth.chute."""
    from kit.subjects.cloth import chute_build, chute_figure, chute_questions, pattern_lists

    return Subject(
        chute_figure.draw,
        build=chute_build.build,
        tasks=chute_build.TASKS,
        propose=chute_build.propose,
        questions=chute_questions.QUESTIONS,
        lists=pattern_lists.lists,
    )


def relief() -> Subject:
    """The page cloth.relief."""
    from kit.subjects.cloth import relief_figure, relief_questions

    return Subject(relief_figure.draw, questions=relief_questions.QUESTIONS)


CHAPTER = Chapter(
    "cloth",
    "Cloth cut flat",
    begin=("skin", "chute"),
    makes={"skin": ("pieces to cut",), "chute": ("pieces to cut",)},
    skin=skin,
    cone=cone,
    oblique=oblique,
    miter=miter,
    twist=twist,
    chute=chute,
    relief=relief,
)
