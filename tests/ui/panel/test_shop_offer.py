"""The ± of a shop's record in a panel: what is offered where, what taking it states; nothing comes by itself."""

import math
from pathlib import Path

import pytest

from kit.core.quantity import ValueOrigin, unit
from kit.job import Job
from kit.station.shop import add_entry
from kit.ui.panel import Panel, panel
from kit.ui.panel.shop_offer import ShopOffer

JOB = """\
format = 2
[job]
name = "Bench"
[parts.frame]
model = "bevel.frame"
[parts.corner]
model = "bevel.corner"
[parts.corner.givens]
slope_1 = { from = "frame.tilt" }
[parts.stop]
model = "stop.deflection"
[parts.stop.givens]
long_reach = { value = "451 ± 2 mm", measured = 2026-04-11, how = "tape" }
"""
OFF = (0.2, -0.1, 0.3)  # mm: mean 2/15, deviation 0.2082, u = 0.2082 √(4/3) = 0.2404, by hand
HALF = 0.48  # twice that, to two digits


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Job:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("FITWRIGHT_SHOP", raising=False)
    (tmp_path / "bench.toml").write_text(JOB, encoding="utf-8")
    for day, off in enumerate(OFF, 1):
        entry = {"date": f"2026-05-0{day}", "job": f"Shed <{day}>", "what": "stop.length"}
        add_entry(tmp_path / "shop.toml", "our <tape>", off, unit("mm"), entry)
        add_entry(tmp_path / "shop.toml", "saw tilt", off / 100, unit("deg"), entry)
    add_entry(tmp_path / "shop.toml", "once", 0.1, unit("mm"), {})
    return Job.open(tmp_path / "bench.toml")


def opened(shown: Panel, name: str) -> ShopOffer | None:
    shown.fields[name].opened.value = True
    return shown.fields[name].offer


def test_a_given_is_offered_what_fits_its_unit_with_its_history(job: Job) -> None:
    stop = panel(job=job, part="stop")
    offer = opened(stop, "long_reach")
    assert offer is not None
    assert [value for _, value in offer.which.options] == ["", "our <tape>"], "one entry tells no spread"
    assert offer in stop.fields["long_reach"].children
    assert len(offer.children) == 1
    offer.which.value = "our <tape>"
    for told in ("2026-05-01", "2026-05-03", "Shed &lt;2&gt;", "-0.1", "dof = 2"):
        assert told in offer.history.value
    assert offer.take.description == "Take ± 0.48 mm"
    assert opened(stop, "push") is None, "a force"
    corner = panel(job=job, part="corner")
    tilt = opened(corner, "slope_2")
    assert tilt is not None
    assert [value for _, value in tilt.which.options] == ["", "saw tilt"]


def test_what_is_taken_is_stated_with_its_origin_and_can_be_undone(job: Job) -> None:
    stop = panel(job=job, part="stop")
    offer = opened(stop, "long_reach")
    assert offer is not None
    before = stop.case.entries["long_reach"]
    offer.which.value = "our <tape>"
    assert stop.case.entries["long_reach"] == before, "looking changes nothing"
    offer.take.click()
    entry = stop.case.entries["long_reach"]
    assert (entry.base, entry.spread.shape, entry.spread.k, entry.spread.dof) == (451, "normal", 2, 2)
    assert entry.spread.half == pytest.approx(HALF)
    note = "± from the shop record: our <tape>, 3 entries, 2026-05-01 to 2026-05-03, of Shed <1>, Shed <2>, Shed <3>"
    assert entry.origin == ValueOrigin("measured", "2026-04-11", "tape", note=note)
    offer.take.click()
    assert stop.case.entries["long_reach"].origin.note == note, "told once"
    stop.saving.save.click()
    assert Job.open(job.path).case("stop").entries["long_reach"] == stop.case.entries["long_reach"]
    assert stop.steps.undo.description == "Undo: ± of our <tape>"
    while not stop.steps.undo.disabled:
        stop.steps.undo.click()
    assert stop.case.entries["long_reach"] == before
    stop.steps.redo.click()
    assert stop.case.entries["long_reach"].origin.note == note


def test_another_half_width_or_value_is_no_longer_the_record_s(job: Job) -> None:
    stop = panel(job=job, part="stop")
    offer = opened(stop, "long_reach")
    assert offer is not None
    offer.which.value = "our <tape>"
    offer.take.click()
    editor = stop.fields["long_reach"].origin
    assert editor is not None
    editor.by.value = "A. Turner"
    assert stop.case.entries["long_reach"].spread.dof == 2, "who measured it leaves the ± alone"
    editor.half.value = "1 mm"
    entry = stop.case.entries["long_reach"]
    assert (entry.spread.half, entry.spread.shape, entry.spread.dof) == (1, "rectangular", math.inf)
    assert (entry.origin.by, entry.origin.note) == ("A. Turner", "")
    offer.take.click()
    stop.fields["long_reach"].box.value = "470 mm"
    assert "shop record" not in stop.case.entries["long_reach"].origin.note


def test_an_example_s_value_becomes_chosen_and_a_link_takes_nothing(job: Job) -> None:
    stop = panel(job=job, part="stop")
    offer = opened(stop, "key_length")
    assert offer is not None
    offer.which.value = "our <tape>"
    offer.take.click()
    assert stop.case.entries["key_length"].origin.kind == "chosen"
    corner = panel(job=job, part="corner")
    linked = opened(corner, "slope_1")
    assert linked is not None
    linked.which.value = "saw tilt"
    assert linked.take.disabled
    assert linked.which.disabled


def test_without_a_record_that_can_be_read_nothing_is_offered(job: Job) -> None:
    (job.path.parent / "shop.toml").write_text("[", encoding="utf-8")
    assert opened(panel(job=job, part="stop"), "long_reach") is None
    (job.path.parent / "shop.toml").unlink()
    assert opened(panel(job=job, part="stop"), "long_reach") is None
