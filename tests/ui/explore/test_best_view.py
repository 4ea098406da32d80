"""The best design from a panel: told before it is taken, taken and undone; a front on which a point is clicked."""

from kit import panel
from kit.ui.explore.best_view import BestView
from kit.ui.explore.room import BEST


def test_the_best_is_told_taken_and_undone_and_a_front_is_clicked() -> None:
    made = panel("stop.deflection")
    view = made.room.unfold(BEST)
    assert isinstance(view, BestView)
    before = made.case
    view.find()
    assert "Nothing may vary" in view.said.value
    view.wish.value = next(wish for words, wish in view.wish.options if words == "least section")
    view.vary.value = ("rib_height",)
    view.sizes["rib_height"].value = "steps of 5 mm"
    view.find()
    assert made.case is before
    assert "all limits hold together with 9" in view.said.value
    assert "instead of" in view.said.value
    view.accept.click()
    assert made.case.base["rib_height"] % 5 == 0
    assert made.case.entries["rib_height"].origin.kind == "solved"
    made.steps.undo.click()
    assert made.case.base == before.base
    view.second.value = next(wish for words, wish in view.second.options if words == "most reach")
    view.vary.value = ("rib_height", "long_reach")
    view.sizes["rib_height"].value = "any size"
    view.find()
    assert view.picture.picture.count("<circle") >= 4
    view.click(0.0, 0.0)
    least = made.case.base["area"]
    view.click(1.0, 1.0)
    assert made.case.base["area"] > least
    view.printing.with_sheet.value = True
    assert "Front of two wishes" in [heading for heading, _ in made.more_of_sheet()]
    made.change("push", "450 N")
    assert "search again" in view.said.value
