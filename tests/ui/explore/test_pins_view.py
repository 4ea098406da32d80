"""Designs pinned from a panel: kept in the job's file, shown side by side, taken back, undone, printed."""

from pathlib import Path

import pytest
from lxml import etree

from kit import example_job
from kit.job import Job
from kit.sheet.write import sheet
from kit.ui.explore.pins_view import PinsView
from kit.ui.explore.room import PINS
from kit.ui.panel import Panel, panel
from tests import DATA

REACH = "from the clamp's middle to the tip of the long end"


def opened(made: Panel) -> PinsView:
    view = made.room.unfold(PINS)
    assert isinstance(view, PinsView)
    return view


def pinned(view: PinsView, name: str, why: str = "") -> None:
    view.name.value, view.why.value = name, why
    view.add.click()


@pytest.fixture
def stop(tmp_path: Path) -> Panel:
    path = tmp_path / "own.toml"
    path.write_text((DATA / "boatshed.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return panel(job=Job.open(path), part="long_stop")


def test_pinned_designs_stand_side_by_side_come_back_and_are_undone(stop: Panel) -> None:
    view = opened(stop)
    assert "Nothing is pinned yet" in view.table.value
    before = stop.case
    pinned(view, "<b>short</b>", "less wood")
    stop.change("long_reach", "900 mm")
    stop.change("rib_wood", "white ash")
    table = etree.HTML(view.table.value)
    rows = {row[0].text: row for row in table.iter("tr")}
    assert [each.text for each in rows["Quantity"]][1:] == ["this design", "<b>short</b>"]
    assert {"why", "wood of the rib", REACH, "tip error in all", "the tip moves at most …"} <= rows.keys()
    assert "sideways push of the work at the tip" not in rows, "what is alike in all is counted below"
    assert rows[REACH][2][0].text == "≠ 640.0 ± 1 mm"
    assert "holds" in "".join(rows["the tip moves at most …"].itertext())
    assert "%" in "".join(rows["the tip moves at most …"][2].itertext())
    assert len(etree.fromstring(view.curves.value.encode())) > 5
    take = view.buttons.children[0].children[0]
    take.click()
    assert stop.case.base == pytest.approx(before.base)
    assert stop.saving.unsaved == set(), "also the links stand again"
    assert stop.steps.trail.undoes == "take <b>short</b>"
    stop.steps.undo.click()
    assert stop.case.base["long_reach"] == 900
    assert stop.fields["long_reach"].box.value == "900.0 mm"
    stop.steps.redo.click()
    assert stop.case.base == pytest.approx(before.base)


def test_pins_are_in_the_file_and_on_the_sheet(stop: Panel) -> None:
    stop.change("long_reach", "700 mm")
    pinned(opened(stop), "longer", "for rails")
    assert stop.job is not None
    assert '[parts.long_stop.pins.longer]\nwhy = "for rails"' in stop.job.path.read_text(encoding="utf-8")
    again = Job.open(stop.job.path)
    made = panel(job=again, part="long_stop")
    page = sheet(made.case, more=made.more_of_sheet(), draws=0)
    assert "<h2>Alternatives considered</h2>" in page
    assert "for rails" in page
    assert "Alternatives considered" in made.static_view.html()
    opened(made).remove("longer")
    assert made.more_of_sheet() == []
    assert ".pins" not in again.path.read_text(encoding="utf-8")


def test_without_a_file_of_ones_own_pins_stay_in_the_session() -> None:
    for made in (panel("stop.deflection"), panel(job=example_job("boatshed.toml"), part="long_stop")):
        view = opened(made)
        pinned(view, "first")
        pinned(view, "first")
        assert "empty or taken" in view.buttons.children[-1].value
        assert [each.name for each in made.room.pins.all] == ["first"]


def test_steps_have_names_and_a_moved_slider_is_one_step() -> None:
    made = panel("stop.deflection")
    for text in ("61 N", "62 N", "63 N"):
        made.change("push", text)
    made.change("long_reach", "700 mm")
    assert made.steps.undo.description.startswith("Undo: from the clamp's middle")
    made.steps.undo.click()
    made.steps.undo.click()
    assert made.case.base["push"] == 60
    assert (made.steps.trail.undoes, made.steps.redo.description) == ("", "Redo: sideways push of the work at the tip")
    made.steps.redo.click()
    assert made.case.base["push"] == 63
    made.change("push", "64 N")
    assert made.steps.trail.redoes == ""
