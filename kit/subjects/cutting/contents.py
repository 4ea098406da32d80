"""How much stock parts take, and what that costs."""

from kit.core.subject import Chapter, Subject


def stock() -> Subject:
    """The page cutting.stock."""
    from kit.subjects.cutting import stock_build, stock_figure, stock_lists, stock_questions

    return Subject(
        stock_figure.draw,
        build=stock_build.build,
        takes=stock_build.TAKES,
        tasks=stock_build.TASKS,
        best=stock_build.packed_by_count,
        propose=stock_build.propose,
        questions=stock_questions.QUESTIONS,
        lists=stock_lists.lists,
    )


def boards() -> Subject:
    """The page cutting.boards."""
    from kit.subjects.cutting import boards_figure, boards_lists, boards_questions

    return Subject(boards_figure.draw, questions=boards_questions.QUESTIONS, lists=boards_lists.lists)


CHAPTER = Chapter("cutting", "Parts cut out of stock", stock=stock, boards=boards)
