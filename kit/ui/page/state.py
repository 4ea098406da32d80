"""What the views of the job page read from it and ask of it; none of them knows the page itself."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from kit.job import Job
    from kit.job.history import History


class PageState(Protocol):
    """The folder, the open job, its history and what of it is open; how to go elsewhere, to change and to speak."""

    folder: Path
    history: History | None
    changed_at: dict[str, str]
    open_views: set[str]

    @property
    def job(self) -> Job:
        """The open job. Raises KitError where none is open."""

    def open_job(self, path: Path) -> None:
        """Open a job and show its parts. Raises KitError where it cannot be read."""

    def show_jobs(self) -> None:
        """Show the jobs of the folder."""

    def show_parts(self) -> None:
        """Show the parts of the open job."""

    def show_part(self, part_id: str) -> None:
        """Show a part of the open job."""

    def attempt(self, action: Callable[[], str]) -> bool:
        """Do something that changes the job and say what it returns, or why it failed; return whether it was done."""

    def stored(self, what: str, part_id: str = "") -> None:
        """Take note that a change was saved."""

    def say(self, text: str, *, fault: bool = False) -> None:
        """Show a line below the head of the page."""
