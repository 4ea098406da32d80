"""What matters, from a panel: charts and sentences that follow it, and what cannot be told gets a sentence."""

from lxml import etree

from kit import panel
from kit.ui.explore.matters_view import MattersView
from kit.ui.explore.room import MATTERS


def test_what_to_measure_better_and_how_well() -> None:
    made = panel("stop.deflection")
    view = made.room.unfold(MATTERS)
    assert isinstance(view, MattersView)
    view.result.value = "tip_error"
    assert "to reach ±" in view.told.value
    assert "sideways push of the work at the tip to ±" in view.told.value
    assert len(view.printing.pictures) == 2
    for picture in view.printing.pictures.values():
        etree.fromstring(picture.encode())
    narrow = view.roamed.value
    view.range.value = "whole spans"
    assert "Over whole spans" in view.roamed.value != narrow
    assert view.each.value.count("<li>") >= 5
    before = view.chart.value
    made.change("push", "60 ± 1 N")
    assert view.chart.value != before
    view.wished.value = "1 mm"
    assert "no more than the ±\u00a01" in view.told.value
    view.wished.value = "3 kg"
    assert "fw-fault" in view.told.value
    view.wished.value = ""
    view.printing.with_sheet.value = True
    assert "What matters" in [heading for heading, _ in made.more_of_sheet()]
