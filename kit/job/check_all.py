"""Every fault of a job file: what the job itself says, and then what its shapes say."""

from __future__ import annotations

from pathlib import Path

from kit.core.errors import KitError
from kit.job import Finding, Job, check
from kit.job.build import build
from kit.job.schema import in_two


def check_all(path: Path) -> list[Finding]:
    """Return all that is wrong or odd in the job file at `path`; shapes are made only of a job without a fault."""
    findings = check(path)
    if any(finding.severity == "fault" for finding in findings):
        return findings
    job = Job.open(path)
    for id in job.parts:
        try:
            build(job, id)
        except KitError as error:
            where = ("parts", id, "shape") if job.parts[id].shape else ("parts", id)
            line, column = job.place(where)
            message, remedy = in_two(error, "see to this shape")
            findings.append(Finding(line, column, "fault", ".".join(where), message, remedy))
    return sorted(findings, key=lambda finding: (finding.line, finding.column or 0))
