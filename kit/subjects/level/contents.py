"""Leveling a machine: gaps, planes, pads, weight on feet, and how well it comes back to its place."""

from kit.core.subject import Chapter, Subject


def cards() -> Subject:
    """The page level.cards."""
    from kit.subjects.level import cards, cards_figure

    return Subject(cards.MODEL, cards_figure.draw)


def plane() -> Subject:
    """The page level.plane."""
    from kit.subjects.level import plane, plane_build, plane_figure

    return Subject(plane.MODEL, plane_figure.draw, build=plane_build.build)


def pads() -> Subject:
    """The page level.pads."""
    from kit.subjects.level import pads, pads_build, pads_figure

    return Subject(pads.MODEL, pads_figure.draw, build=pads_build.build, takes=pads_build.TAKES)


def feet() -> Subject:
    """The page level.feet."""
    from kit.subjects.level import feet, feet_figure

    return Subject(feet.MODEL, feet_figure.draw)


def tripod() -> Subject:
    """The page level.tripod."""
    from kit.subjects.level import tripod, tripod_figure

    return Subject(tripod.MODEL, tripod_figure.draw)


def register() -> Subject:
    """The page level.register."""
    from kit.subjects.level import register, register_figure

    return Subject(register.MODEL, register_figure.draw)


def print() -> Subject:
    """The page level.print."""
    from kit.subjects.level import print, print_build, print_figure

    return Subject(print.MODEL, print_figure.draw, build=print_build.build)


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
