"""Grooves, tracks in them, and keys that run in tracks."""

from kit.core.subject import Chapter, Subject


def guide() -> Subject:
    """The page groove.guide."""
    from kit.subjects.groove import guide_build, guide_figure, guide_questions

    return Subject(guide_figure.draw, build=guide_build.build, questions=guide_questions.QUESTIONS)


def template() -> Subject:
    """The page groove.template."""
    from kit.subjects.groove import template_build, template_figure, template_questions

    return Subject(template_figure.draw, build=template_build.build, questions=template_questions.QUESTIONS)


def depth() -> Subject:
    """The page groove.depth."""
    from kit.subjects.groove import depth_build, depth_figure, depth_questions

    return Subject(depth_figure.draw, build=depth_build.build, questions=depth_questions.QUESTIONS)


def track() -> Subject:
    """The page groove.track."""
    from kit.subjects.groove import track_figure, track_lists, track_questions

    return Subject(track_figure.draw, questions=track_questions.QUESTIONS, lists=track_lists.lists)


def key() -> Subject:
    """The page groove.key."""
    from kit.subjects.groove import key_figure, key_questions

    return Subject(key_figure.draw, questions=key_questions.QUESTIONS)


CHAPTER = Chapter(
    "groove", "Grooves, tracks and keys", guide=guide, template=template, depth=depth, track=track, key=key
)
