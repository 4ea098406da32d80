"""Shelves and wings that carry: what holds tools and work up beside the machine."""

from kit.core.subject import Chapter, Subject


def shelf() -> Subject:
    """The page support.shelf."""
    from kit.subjects.support import shelf_figure, shelf_lists, shelf_questions

    return Subject(shelf_figure.draw, questions=shelf_questions.QUESTIONS, lists=shelf_lists.lists)


CHAPTER = Chapter("support", "Shelves and wings that carry", shelf=shelf)
