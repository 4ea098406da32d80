"""What a new job begins with: from what a person is building to parts in building order."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.job.arrange import add_part
from kit.subjects import CHAPTERS, heading

if TYPE_CHECKING:
    from kit.job.job import Job


@dataclass(frozen=True)
class Goal:
    """Something to build: a chapter of the trade, its title, and the models that its parts begin with."""

    name: str
    title: str
    models: tuple[str, ...]

    @property
    def words(self) -> str:
        """The questions that its parts answer."""
        return " ".join(heading(model)[1] for model in self.models)


def goals() -> tuple[Goal, ...]:
    """Return what can be built, in building order.

    >>> goals()[1]
    Goal(name='hood', title='The hood over the machine', models=('hood.shape',))
    """
    return tuple(Goal(each.name, each.title, tuple(f"{each.name}.{page}" for page in each.begin)) for each in CHAPTERS)


def begin(job: Job, chosen: Collection[str]) -> list[str]:
    """Add the parts that the chosen goals begin with, in building order, linked to each other; return their ids.

    A model that the job already has is not added again. Raises as `add_part`.
    """
    wanted = [model for goal in goals() if goal.name in chosen for model in goal.models]
    there = {part.model for part in job.parts.values()}
    return [add_part(job, model) for model in wanted if model not in there]
