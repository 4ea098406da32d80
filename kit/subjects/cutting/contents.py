"""How much stock parts take, and what that costs."""

from kit.core.subject import Chapter, Subject


def stock() -> Subject:
    """The page cutting.stock."""
    from kit.subjects.cutting import stock, stock_build, stock_figure

    return Subject(
        stock.MODEL,
        stock_figure.draw,
        build=stock_build.build,
        takes=stock_build.TAKES,
        tasks=stock_build.TASKS,
        best=stock_build.packed_by_count,
        propose=stock_build.propose,
    )


def boards() -> Subject:
    """The page cutting.boards."""
    from kit.subjects.cutting import boards, boards_figure

    return Subject(boards.MODEL, boards_figure.draw)


CHAPTER = Chapter("cutting", "Parts cut out of stock", stock=stock, boards=boards)
