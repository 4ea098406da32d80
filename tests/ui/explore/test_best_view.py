"""The best design from a panel: told before it is taken, taken and undone; a front on which a point is clicked."""

import asyncio
from threading import Event

import ipywidgets as w

from kit import panel
from kit.core.search.watch import StoppedError, Watch
from kit.ui.explore.best_view import BestView
from kit.ui.explore.room import BEST
from kit.ui.explore.searching import Searching


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


def test_a_choice_may_vary_with_the_rest() -> None:
    made = panel("groove.key")
    view = made.room.unfold(BEST)
    assert isinstance(view, BestView)
    view.wish.value = next(wish for words, wish in view.wish.options if wish.of == "play_loose" and wish.least)
    assert made.case.show("moving") == "wooden key, metal slot"
    view.vary.value = ("moving",)
    view.find()
    least = {option: made.case.with_(moving=option).base["play_loose"] for option in made.model.free["moving"].options}
    assert f"{made.model.called('moving')}: {min(least, key=least.__getitem__)}".lower() in view.said.value.lower()


def test_a_row_of_a_table_may_vary_and_is_called_as_beside_its_menu() -> None:
    made = panel("stop.deflection")
    view = made.room.unfold(BEST)
    assert isinstance(view, BestView)
    assert ("wood of the block", "block_wood") in view.vary.options
    view.vary.value = ("block_wood",)
    view.wish.value = next(wish for words, wish in view.wish.options if words == "least tip movement")
    view.find()
    assert "Wood of the block: " in view.said.value
    view.accept.click()
    assert made.case.picks["block_wood"] in view.said.value
    assert made.case.origins["block_wood"].kind == "solved"
    view.vary.value = ("block_wood", "block_modulus")
    view.find()
    assert "let one of both vary" in view.said.value
    assert "block_wood" not in view.said.value


def test_a_search_says_how_far_it_is_and_is_stopped() -> None:
    said: list[str] = []
    answers: list[object] = []
    searching = Searching(said.append)
    began, stopped, ended = Event(), Event(), Event()

    def work(watch: Watch) -> int:
        assert watch("looking at the first")
        began.set()
        stopped.wait()
        goes_on = watch("looking at the second")
        ended.set()
        if not goes_on:
            raise StoppedError("stopped")
        return 1

    async def press() -> None:
        searching.begin(work, answers.append, answers.append)
        await asyncio.to_thread(began.wait)
        searching.stop.click()
        stopped.set()
        await asyncio.to_thread(ended.wait)

    asyncio.run(press())
    assert said == ["looking at the first …", "stopped; nothing has changed"]
    assert answers == []


def test_lists_that_a_person_types_are_said_to_stay() -> None:
    for page, said in (("cutting.stock", True), ("stop.deflection", False)):
        view = panel(page).room.unfold(BEST)
        assert isinstance(view, BestView)
        notes = [each.value for each in view.children if isinstance(each, w.HTML) and "stays as it is" in each.value]
        assert bool(notes) is said
