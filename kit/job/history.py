"""What a session did to a job file, step by step, so that it can be undone and redone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.core.trail import Trail
from kit.job.errors import JobError
from kit.job.toml_file import read

if TYPE_CHECKING:
    from kit.job.job import Job


class History:
    """The steps of one job since it was opened. The job's file is the truth; this keeps its earlier texts."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._trail = Trail(read(job.path).text)

    @property
    def undoes(self) -> str:
        """What the next undo takes back; nothing where there is none."""
        return self._trail.undoes

    @property
    def redoes(self) -> str:
        """What the next redo does again; nothing where there is none."""
        return self._trail.redoes

    def note(self, what: str) -> None:
        """Remember what the job's file says now as a step; nothing where it says what it said."""
        self._add(read(self.job.path).text, what)

    def meet(self) -> bool:
        """Remember what was changed in the file by hand since the last step; return whether anything was."""
        disk = read(self.job.path).text
        found = disk != self._trail.now
        self._add(disk, "changes made by hand")
        return found

    def undo(self) -> str:
        """Write the file as it was before the last step; return what was taken back.

        Raises:
            JobError: there is nothing to undo, or the file was changed by hand meanwhile; the next undo takes it back.
        """
        return self._go(-1)

    def redo(self) -> str:
        """Write the file as it was before the last undo; return what was done again. Raises as `undo`."""
        return self._go(1)

    def _go(self, by: int) -> str:
        if self.meet():
            self.job.reload()
            raise JobError(
                f"{self.job.path.name} was changed by hand meanwhile, and is read again; undo again to take that back"
            )
        step = self._trail.beside(by)
        if step is None:
            raise JobError("there is nothing to undo" if by < 0 else "there is nothing to do again")
        text, what = step
        self.job.reload()
        self.job.rewrite(lambda _: text)
        self._trail.go(by)
        return what

    def _add(self, text: str, what: str) -> None:
        if text != self._trail.now:
            self._trail.add(text, what)
