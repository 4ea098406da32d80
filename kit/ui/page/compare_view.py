"""The open job beside another one of the folder: what differs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as w

from kit.job import Job
from kit.job.folder import job_files
from kit.sheet.comparison import comparison
from kit.station.compare import compare_jobs
from kit.ui.page.widgets import button, labeled
from kit.ui.page.working import Working

if TYPE_CHECKING:
    from kit.ui.page.state import PageState
    from kit.ui.page.working import Told


class CompareView(w.VBox):
    """A choice of the folder's other jobs, and a table of what differs; nothing where there is no other."""

    def __init__(self, page: PageState) -> None:
        self.page = page
        own = page.job.path.resolve()
        others = {
            f"{each.name} ({each.path.name})": each.path
            for each in job_files(page.folder)
            if not each.fault and each.path.resolve() != own
        }
        self.other = w.Dropdown(options=others)
        self.go = button("Compare", "tell what differs: givens, results, limits, verdicts", self.compare)
        self.working = Working([self.go], "the comparison")
        children = [
            w.HTML("<h2>Beside another job</h2>"),
            labeled("The other job", self.other, "the job to compare with"),
            self.working,
        ]
        super().__init__(children if others else [], _dom_classes=("fw-compare",))

    def compare(self) -> None:
        """Work out and show what differs."""
        self.working.start(self._compare)

    def _compare(self, told: Told) -> str:
        told(0.0, "computing both jobs")
        return comparison(compare_jobs(self.page.job, Job.open(self.other.value)))
