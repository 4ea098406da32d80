"""Over both demos: whoever shows a limit of a formula shows the one outcome that the part's verdict gives it."""

import pytest

from kit.job import Job
from kit.job.verdict import standalone_verdict
from kit.sheet.sections import answer, static
from kit.sheet.write import sheet
from kit.ui.lesson.lesson import Lesson
from tests import ROOT
from tests.sheet.reading import Node, read

SIGNS = {"holds": "✓ holds", "unsure": "≈ holds, not surely", "may hold": "✗? fails, may hold", "fails": "✗ fails"}


def marks(page: Node) -> list[str]:
    return [item.one(css="fw-mark").text for item in page.one("ul", css="fw-limits").all("li")]


@pytest.mark.parametrize("name", ["boatshed", "schoolshop"])
def test_all_views_show_one_outcome(name: str) -> None:
    job = Job.open(ROOT / "data" / f"{name}.toml")
    seen = set()
    for id in job.parts:
        case = job.case(id)
        if all(check.drawn is None for check in case.checks):
            continue  # the others are judged by first order alone, everywhere
        verdict = standalone_verdict(case, level=job.level)
        outcomes = [check.outcome(job.level) for check in verdict.checks]
        seen |= set(outcomes)
        wanted = [SIGNS[outcome] for outcome in outcomes]
        views = {
            "sheet": sheet(case, verdict=verdict, draws=0),
            "panel": answer(case, level=job.level),
            "its static form": static(case, verdict=verdict),
            "lesson": Lesson().results(case).html,
        }
        for view, html in views.items():
            assert marks(read(html)) == wanted, f"{view} of {id}"
    assert {"holds", "unsure"} <= seen
