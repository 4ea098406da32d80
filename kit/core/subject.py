"""Subjects and chapters: what a folder of the trade declares about itself.

A chapter is a folder below `kit/subjects`; its `contents.py` declares one function a page, and the chapter:

    def shape() -> Subject:
        from kit.subjects.hood import shape_build, shape_figure

        return Subject(shape_figure.draw, build=shape_build.build, tasks=shape_build.TASKS)

    CHAPTER = Chapter("hood", "The hood over the machine", shape=shape)

A page's figure and build are loaded when they are first asked for. Its model is stated in the file of its name,
`shape.py`, as `MODEL`, and is called by the chapter's and the page's names: "hood.shape".
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from kit.core.build import Build, BuildInput, Progress
    from kit.core.intake import Intake
    from kit.core.lists import Built, Lists
    from kit.core.quantity import Display
    from kit.core.question import Ask

    Draw = Callable[[Mapping[str, float], Display], Any]
    Task = Callable[[BuildInput, Progress], Build]


@dataclass(frozen=True)
class Subject:
    """One page of the trade beside its statement: its figure and, where formulas do not suffice, what is built.

    `draw` draws the base values of all symbols for a reader's display. `build` answers a slider; a task takes longer
    and gives a better answer behind a button. `best` gives the answer of the station book, the same every time: the
    first task's unless it is stated. `takes` names what it can take of other parts' builds, each with its kind.
    `propose` returns givens to begin with, from what is taken. `intake` says how its file is taken in by hand, in a
    view that is turned. `questions` are asked about a part, by name. `lists` says what a part brings to the lists of
    the whole job: mass, pieces, what is bought, settings of machines. `lies_with`
    names what it takes that has the same axes, so that the part stands where that one does; `at_machine`: where it
    takes none, its axes are those of the machine, which are the station's.
    """

    draw: Draw
    build: Callable[[BuildInput], Build] | None = None
    takes: Mapping[str, str] = field(default_factory=dict)
    tasks: Mapping[str, Task] = field(default_factory=dict)
    propose: Callable[[BuildInput], dict[str, str]] | None = None
    intake: Intake | None = None
    best: Task | None = None
    questions: Mapping[str, Ask] = field(default_factory=dict)
    lists: Callable[[BuildInput, Built], Lists] | None = None
    lies_with: str = ""
    at_machine: bool = False

    def __post_init__(self) -> None:
        """Take the first task for the best."""
        if self.best is None and self.tasks:
            object.__setattr__(self, "best", next(iter(self.tasks.values())))


class Chapter:
    """A chapter of the trade: its name, its title and its pages by name, in building order.

    `begin` names the pages that a new job begins with where this is to be built: the first unless stated. `makes` says
    of which kinds the builds of its pages are, for others to take; it is known before a page is loaded.
    """

    def __init__(
        self,
        name: str,
        title: str,
        *,
        begin: tuple[str, ...] = (),
        makes: Mapping[str, tuple[str, ...]] | None = None,
        **pages: Callable[[], Subject],
    ) -> None:
        self.name, self.title, self.pages = name, title, pages
        self.begin = begin or (next(iter(pages)),)
        self.makes = makes or {}
