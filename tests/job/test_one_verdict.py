"""Whoever shows a limit, or the verdict on a part, shows the one that the part's verdict gives it."""

import asyncio
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from kit.job import Job
from kit.job.build import build, forget
from kit.job.check import check_all
from kit.job.content import content_digests
from kit.job.overview import overview
from kit.job.verdict import Upstream, rests_on, standalone_verdict, upstream
from kit.sheet.book_parts import write_part
from kit.sheet.sections import answer, static
from kit.sheet.write import sheet
from kit.ui.lesson.lesson import Lesson
from kit.ui.panel import Panel, panel, settling
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


def test_check_list_book_and_panel_judge_what_is_certified(tmp_path: Path) -> None:
    """Needed is 0.01 mm less than is clear where it is sampled; what is proven lies some hundredths lower."""
    path = tmp_path / "mine.toml"
    path.write_text(NEAR, encoding="utf-8")
    sampled = build(Job.open(path), "hood").check("clearance")
    assert sampled.ok
    path.write_text(NEAR.replace('margin = "1 mm"', f'margin = "{sampled.base - 0.01} mm"'), encoding="utf-8")
    job = Job.open(path)
    proven = job.verdict("hood")
    assert [check.name for check in proven.failing] == ["certified"]
    assert overview(job, "hood").verdict == proven
    assert check_all(path).verdicts == {"hood": proven}
    assert write_part(job, "hood", tmp_path / "book").state == "fails"
    forget()
    assert panel(job=job, part="hood").judged == proven


def test_a_panel_certifies_once_its_controls_rest_and_ends_that_when_one_moves(tmp_path: Path) -> None:
    forget()
    path = tmp_path / "mine.toml"
    path.write_text(NEAR, encoding="utf-8")
    job = Job.open(path)

    async def come_to(shown: Panel, state: str) -> None:
        for _ in range(3000):
            if shown.judged.state == state and not shown.build_view.message.value:
                return
            await asyncio.sleep(0.02)
        raise AssertionError(shown.judged)

    async def moved() -> None:
        shown = panel(job=job, part="hood")
        assert shown.judged.state == "not fully checked"  # it is sampled at once, and certified at rest
        await come_to(shown, "meets")
        assert shown.judged == job.verdict("hood")
        shown.change("margin", "1.5 mm")
        assert shown.judged.state == "not fully checked"
        shown.build_view.settling.begin()  # begins beside, and is overtaken:
        shown.change("margin", "2 mm")
        await come_to(shown, "meets")
        assert shown.build.check("certified").allowed == 2.0
        shown.change("margin", "2.5 mm")
        shown.build_view.settling.begin()
        assert not shown.build_view.stop.disabled
        shown.build_view.stop.click()
        assert shown.build_view.stop.disabled
        await asyncio.sleep(0.1)
        assert shown.judged.state == "not fully checked"

    asyncio.run(moved())


def test_a_sheet_waits_for_the_certificate_beside_the_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is written once the shape is judged, without holding the page up; a control that moves calls it off."""
    forget()
    monkeypatch.chdir(tmp_path)
    path, on = tmp_path / "mine.toml", Event()
    path.write_text(NEAR, encoding="utf-8")
    job = Job.open(path)
    best = settling.best_of

    def slow(*given: Any) -> Any:
        assert on.wait(60.0)
        return best(*given)

    monkeypatch.setattr(settling, "best_of", slow)

    async def asked() -> None:
        shown = panel(job=job, part="hood")
        shown.saving.export.click()
        assert not (tmp_path / "sheets").exists(), "the page goes on before the shape is judged"
        shown.change("margin", "1.5 mm")
        assert "nothing is written" in shown.saving.message.value
        shown.saving.export.click()
        on.set()
        for _ in range(3000):
            if "wrote" in shown.saving.message.value:
                break
            await asyncio.sleep(0.02)
        (sheet,) = (tmp_path / "sheets").glob("*.html")
        text = sheet.read_text(encoding="utf-8")
        assert "1.5 mm" in text
        assert "not fully checked" not in text
        assert shown.judged.state == "meets"

    asyncio.run(asked())


def test_a_panel_judges_what_its_part_rests_on_beside_the_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second bend is shown while what it rests on is judged; then its panel says what is known of that."""
    path, begun, on = tmp_path / "mine.toml", Event(), Event()
    path.write_text(RESTS, encoding="utf-8")
    job = Job.open(path)

    def slow(*given: Any, **named: Any) -> Upstream:
        begun.set()
        assert on.wait(60.0)
        return upstream(*given, **named)

    monkeypatch.setattr("kit.ui.panel.rests_on.upstream", slow)

    async def shown_and_judged() -> list[Any]:
        shown = panel(job=job, part="second")
        before = dict(shown.judged.upstream)
        assert begun.wait(60.0)
        on.set()
        for _ in range(3000):
            if dict(shown.judged.upstream) != before:
                break
            await asyncio.sleep(0.02)
        return [before, dict(shown.judged.upstream)]

    assert asyncio.run(shown_and_judged()) == [{"first": "not fully checked"}, {"first": "meets"}]


def test_what_cannot_be_certified_is_not_fully_checked(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text('format = 2\n[parts.hood]\nmodel = "hood.shape"\n', encoding="utf-8")
    verdict = check_all(path).verdicts["hood"]
    assert verdict.state == "not fully checked"
    assert "no machine" in verdict.open[0]


def test_parts_that_take_each_other_are_judged_by_all_that_both_rest_on() -> None:
    """The scale's zero takes the block that is read over it, and the block is read from the zero's mark."""
    job = Job.open(ROOT / "data" / "boatshed.toml")
    assert "scale_zero" in rests_on(job, "stop_reading")
    assert "stop_reading" in rests_on(job, "scale_zero")
    for part in ("scale_zero", "stop_reading"):
        assert job.verdict(part).state == "meets"
    before = content_digests(job)
    job.set("long_stop", "short_reach", "265 mm")
    after = content_digests(job)
    assert [part for part in ("scale_zero", "stop_reading") if after[part] == before[part]] == []
    job.set("stop_reading", "held_least", "400 mm")
    states = [job.verdict(part).state for part in ("scale_zero", "stop_reading")]
    assert states == ["not fully checked", "fails"]


NEAR = """\
format = 2
[parts.hood]
model = "hood.shape"
boxes = [
  { low = ["-200 mm", "-200 mm", "0 mm"], high = ["200 mm", "180 mm", "300 mm"] },
  { low = ["-210 mm", "-330 mm", "10 mm"], high = ["210 mm", "-100 mm", "60 mm"] },  # through the brow, 5 mm from it
]
[parts.hood.givens]
reach = "230 mm"
margin = "1 mm"
"""

RESTS = """\
format = 2
[parts.first]
model = "fold.bend"
[parts.second]
model = "fold.bend"
[parts.second.givens]
leg_a = { from = "first.leg_a" }
"""
