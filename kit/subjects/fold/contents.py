"""Folds in sheet and cloth."""

from kit.core.subject import Chapter, Subject


def bend() -> Subject:
    """The page fold.bend."""
    from kit.subjects.fold import bend, bend_figure

    return Subject(bend.MODEL, bend_figure.draw)


def chain() -> Subject:
    """The page fold.chain."""
    from kit.subjects.fold import chain, chain_figure

    return Subject(chain.MODEL, chain_figure.draw)


def strain() -> Subject:
    """The page fold.strain."""
    from kit.subjects.fold import strain, strain_figure

    return Subject(strain.MODEL, strain_figure.draw)


def wrap() -> Subject:
    """The page fold.wrap."""
    from kit.subjects.fold import wrap, wrap_figure

    return Subject(wrap.MODEL, wrap_figure.draw)


def hem() -> Subject:
    """The page fold.hem."""
    from kit.subjects.fold import hem, hem_figure

    return Subject(hem.MODEL, hem_figure.draw)


CHAPTER = Chapter(
    "fold", "Folds in sheet and cloth", begin=("chain",), bend=bend, chain=chain, strain=strain, wrap=wrap, hem=hem
)
