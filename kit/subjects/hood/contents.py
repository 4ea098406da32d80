"""The hood over the machine: its shape, and the air through it."""

from kit.core.subject import Chapter, Subject


def shape() -> Subject:
    """The page hood.shape."""
    from kit.subjects.hood import shape, shape_build, shape_figure

    return Subject(
        shape.MODEL,
        shape_figure.draw,
        build=shape_build.build,
        takes=shape_build.TAKES,
        tasks=shape_build.TASKS,
        propose=shape_build.propose,
    )


def air() -> Subject:
    """The page hood.air."""
    from kit.subjects.hood import air, air_figure

    return Subject(air.MODEL, air_figure.draw)


CHAPTER = Chapter(
    "hood", "The hood over the machine", makes={"shape": ("hood frame", "pieces to cut")}, shape=shape, air=air
)
