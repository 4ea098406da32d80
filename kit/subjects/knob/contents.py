"""Knobs built up from plies: their nut, their outline, the hand's torque and what it clamps."""

from kit.core.subject import Chapter, Subject


def plies() -> Subject:
    """The page knob.plies."""
    from kit.subjects.knob import plies, plies_build, plies_figure

    return Subject(plies.MODEL, plies_figure.draw, build=plies_build.build)


def outline() -> Subject:
    """The page knob.outline."""
    from kit.subjects.knob import outline, outline_build, outline_figure

    return Subject(outline.MODEL, outline_figure.draw, build=outline_build.build, takes=outline_build.TAKES)


def torque() -> Subject:
    """The page knob.torque."""
    from kit.subjects.knob import torque, torque_figure

    return Subject(torque.MODEL, torque_figure.draw)


def clamp() -> Subject:
    """The page knob.clamp."""
    from kit.subjects.knob import clamp, clamp_figure

    return Subject(clamp.MODEL, clamp_figure.draw)


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
