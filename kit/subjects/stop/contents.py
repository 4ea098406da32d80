"""Long stops and ribs."""

from kit.core.subject import Chapter, Subject


def deflection() -> Subject:
    """The page stop.deflection."""
    from kit.subjects.stop import deflection_figure

    return Subject(deflection_figure.draw)


def section() -> Subject:
    """The page stop.section."""
    from kit.subjects.stop import section_figure

    return Subject(section_figure.draw)


def bow() -> Subject:
    """The page stop.bow."""
    from kit.subjects.stop import bow_figure

    return Subject(bow_figure.draw)


def warp() -> Subject:
    """The page stop.warp."""
    from kit.subjects.stop import warp_figure

    return Subject(warp_figure.draw)


def movement() -> Subject:
    """The page stop.movement."""
    from kit.subjects.stop import movement_figure

    return Subject(movement_figure.draw)


CHAPTER = Chapter("stop", "Long stops", deflection=deflection, section=section, bow=bow, warp=warp, movement=movement)
