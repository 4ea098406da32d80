"""Grooves, tracks in them, and keys that run in tracks."""

from kit.core.subject import Chapter, Subject


def guide() -> Subject:
    """The page groove.guide."""
    from kit.subjects.groove import guide_build, guide_figure

    return Subject(guide_figure.draw, build=guide_build.build)


def template() -> Subject:
    """The page groove.template."""
    from kit.subjects.groove import template_build, template_figure

    return Subject(template_figure.draw, build=template_build.build)


def depth() -> Subject:
    """The page groove.depth."""
    from kit.subjects.groove import depth_build, depth_figure

    return Subject(depth_figure.draw, build=depth_build.build)


def track() -> Subject:
    """The page groove.track."""
    from kit.subjects.groove import track_figure

    return Subject(track_figure.draw)


def key() -> Subject:
    """The page groove.key."""
    from kit.subjects.groove import key_figure

    return Subject(key_figure.draw)


CHAPTER = Chapter(
    "groove", "Grooves, tracks and keys", guide=guide, template=template, depth=depth, track=track, key=key
)
