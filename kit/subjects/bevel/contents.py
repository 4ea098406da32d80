"""Bevels for frame fitting."""

from kit.core.subject import Chapter, Subject


def frame() -> Subject:
    """The page bevel.frame."""
    from kit.subjects.bevel import frame_figure

    return Subject(frame_figure.draw)


def corner() -> Subject:
    """The page bevel.corner."""
    from kit.subjects.bevel import corner_figure

    return Subject(corner_figure.draw)


def hood() -> Subject:
    """The page bevel.hood."""
    from kit.subjects.bevel import hood_figure

    return Subject(hood_figure.draw)


def wall() -> Subject:
    """The page bevel.wall."""
    from kit.subjects.bevel import wall_figure

    return Subject(wall_figure.draw)


def gap() -> Subject:
    """The page bevel.gap."""
    from kit.subjects.bevel import gap_figure

    return Subject(gap_figure.draw)


def setting() -> Subject:
    """The page bevel.setting."""
    from kit.subjects.bevel import setting_figure

    return Subject(setting_figure.draw)


CHAPTER = Chapter(
    "bevel",
    "Bevels for frame fitting",
    frame=frame,
    corner=corner,
    hood=hood,
    wall=wall,
    gap=gap,
    setting=setting,
)
