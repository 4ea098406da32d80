"""Bevels for frame fitting."""

from kit.core.subject import Chapter, Subject


def frame() -> Subject:
    """The page bevel.frame."""
    from kit.subjects.bevel import frame, frame_figure

    return Subject(frame.MODEL, frame_figure.draw)


def corner() -> Subject:
    """The page bevel.corner."""
    from kit.subjects.bevel import corner, corner_figure

    return Subject(corner.MODEL, corner_figure.draw)


def hood() -> Subject:
    """The page bevel.hood."""
    from kit.subjects.bevel import hood, hood_figure

    return Subject(hood.MODEL, hood_figure.draw)


def wall() -> Subject:
    """The page bevel.wall."""
    from kit.subjects.bevel import wall, wall_figure

    return Subject(wall.MODEL, wall_figure.draw)


def gap() -> Subject:
    """The page bevel.gap."""
    from kit.subjects.bevel import gap, gap_figure

    return Subject(gap.MODEL, gap_figure.draw)


def setting() -> Subject:
    """The page bevel.setting."""
    from kit.subjects.bevel import setting, setting_figure

    return Subject(setting.MODEL, setting_figure.draw)


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
