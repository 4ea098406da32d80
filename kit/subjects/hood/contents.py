"""The hood over the machine: its shape, and the air through it."""

from kit.core.subject import Chapter, Subject


def shape() -> Subject:
    """The page hood.shape."""
    from kit.subjects.hood import shape_build, shape_figure, shape_lists, shape_questions

    return Subject(
        shape_figure.draw,
        build=shape_build.build,
        takes=shape_build.TAKES,
        tasks=shape_build.TASKS,
        best=shape_build.certify_wholly,
        propose=shape_build.propose,
        questions=shape_questions.QUESTIONS,
        lists=shape_lists.lists,
        lies_with="envelope",
        at_machine=True,
    )


def air() -> Subject:
    """The page hood.air."""
    from kit.subjects.hood import air_figure

    return Subject(air_figure.draw)


CHAPTER = Chapter(
    "hood", "The hood over the machine", makes={"shape": ("hood frame", "pieces to cut")}, shape=shape, air=air
)
