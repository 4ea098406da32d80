"""Cloth cut flat: cones, miters, relief of curved hems, twist, and the drop chute."""

from kit.core.subject import Chapter, Subject


def skin() -> Subject:
    """The page cloth.skin."""
    from kit.subjects.cloth import skin, skin_build, skin_figure

    return Subject(
        skin.MODEL,
        skin_figure.draw,
        build=skin_build.build,
        takes=skin_build.TAKES,
        tasks=skin_build.TASKS,
        propose=skin_build.propose,
    )


def cone() -> Subject:
    """The page cloth.cone."""
    from kit.subjects.cloth import cone, cone_figure

    return Subject(cone.MODEL, cone_figure.draw)


def oblique() -> Subject:
    """The page cloth.oblique."""
    from kit.subjects.cloth import oblique, oblique_figure

    return Subject(oblique.MODEL, oblique_figure.draw)


def miter() -> Subject:
    """The page cloth.miter."""
    from kit.subjects.cloth import miter, miter_figure

    return Subject(miter.MODEL, miter_figure.draw)


def twist() -> Subject:
    """The page cloth.twist."""
    from kit.subjects.cloth import twist, twist_figure

    return Subject(twist.MODEL, twist_figure.draw)


def chute() -> Subject:
    """The page cloth.chute."""
    from kit.subjects.cloth import chute, chute_build, chute_figure

    return Subject(
        chute.MODEL,
        chute_figure.draw,
        build=chute_build.build,
        tasks=chute_build.TASKS,
        propose=chute_build.propose,
    )


def relief() -> Subject:
    """The page cloth.relief."""
    from kit.subjects.cloth import relief, relief_figure

    return Subject(relief.MODEL, relief_figure.draw)


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
