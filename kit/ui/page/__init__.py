"""The job page: jobs, parts and panels without typing code.

from kit.ui.page import job_page
job_page()
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kit.ui.page.page import JobPage


def job_page() -> JobPage:
    """Return the page of the jobs in this folder, on the one that was open last."""
    from kit.ui.page.page import JobPage

    return JobPage()
