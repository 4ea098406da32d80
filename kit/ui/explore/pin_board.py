"""The pinned designs of a panel: in its job's file where it has one that can be written, else for the session."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.job.demo import is_example
from kit.job.pins import Pin, pin, pins, unpin

if TYPE_CHECKING:
    from kit.ui.panel.state import PanelState


class PinBoard:
    """What is pinned, and how to pin and to take out."""

    def __init__(self, panel: PanelState) -> None:
        self._panel = panel
        self._kept: list[Pin] = []

    @property
    def in_file(self) -> bool:
        """Whether pins are written into the job's file."""
        panel = self._panel
        return panel.job is not None and panel.part is not None and not is_example(panel.job)

    @property
    def all(self) -> tuple[Pin, ...]:
        """The pinned designs, in their order."""
        job, part = self._panel.job, self._panel.part
        if job is None or part is None or part not in job.parts:
            return tuple(self._kept)
        return (*pins(job, part), *self._kept)

    def add(self, name: str, why: str) -> None:
        """Pin what the panel shows.

        Raises:
            KitError: a name that is empty or taken, a file that cannot be written as it is.
            OSError: the folder cannot be written.
        """
        job, part, name = self._panel.job, self._panel.part, name.strip()
        if self.in_file and job is not None and part is not None:
            pin(job, part, name, why, case=self._panel.case)
            return
        if not name or any(each.name == name for each in self.all):
            raise KitError(f"a pinned design needs a name of its own; {name!r} is empty or taken")
        self._kept.append(Pin(name, why.strip(), self._panel.case))

    def remove(self, name: str) -> None:
        """Take a pinned design out. Raises as `add`."""
        job, part = self._panel.job, self._panel.part
        if any(each.name == name for each in self._kept):
            self._kept = [each for each in self._kept if each.name != name]
        elif job is not None and part is not None:
            unpin(job, part, name)

    def sections(self) -> list[tuple[str, str]]:
        """Return the section of the sheet that sets the pinned designs beside the panel's."""
        found = self.all
        if not found:
            return []
        from kit.sheet.alternatives import alternatives

        panel = self._panel
        return alternatives(panel.case, found, panel.display, level=panel.judged.level)
