"""The room round a design without a browser: the map follows the panel, and the panel the design moved on it."""

from html import escape
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

from kit.core.model.grid import axes_of
from kit.drawing.map_svg import LEFT
from kit.job import Job
from kit.subjects import names
from kit.ui.explore.map_view import CHANCE, MapView
from kit.ui.panel import Panel, panel
from tests import ROOT

SVG = "{http://www.w3.org/2000/svg}"


def opened(made: Panel) -> MapView:
    made.room.selected_index = 0
    assert made.room.map is not None
    return made.room.map


def svg(view: MapView) -> Any:
    return etree.fromstring(view.picture.picture.encode())


def design(view: MapView) -> tuple[float, float]:
    (circle,) = [each for each in svg(view).iter(f"{SVG}circle") if each.get("class") == "fw-design"]
    return float(circle.get("cx")), float(circle.get("cy"))


def test_a_closed_room_costs_nothing() -> None:
    made = panel("stop.deflection")
    made.change("push", "30 N")
    assert made.room.map is None


def test_the_map_follows_the_panel_and_the_panel_the_map() -> None:
    made = panel("stop.deflection")
    view = opened(made)
    view.across.value, view.up.value = "long_reach", "block_width"
    before = design(view)
    made.change("long_reach", "900 mm")
    assert design(view)[0] > before[0]
    assert design(view)[1] == before[1]
    view.move(0.0, 1.0)
    low, high = made.model.givens["long_reach"].span[0], made.model.givens["block_width"].span[1]
    assert (made.case.base["long_reach"], made.case.base["block_width"]) == (low, high)
    assert design(view)[0] == pytest.approx(LEFT, abs=0.1)
    assert made.fields["long_reach"].box.value == "100.0 mm", "a place on a map has no ± of its own"


def test_every_limit_stands_in_the_legend() -> None:
    view = opened(panel("stop.deflection"))
    words = " ".join(svg(view).itertext())
    for said in ("the tip moves at most …", "the work pushes with at most …", "the rib is wide at most …"):
        assert said in words


def test_a_place_tells_all_its_numbers_and_moves_nothing() -> None:
    made = panel("stop.deflection")
    view = opened(made)
    before = made.case
    view.look(0.9, 0.2)
    assert "fails: the tip moves" in view.said.value
    assert "tip error in all" in view.said.value
    assert made.case is before
    tip = view.picture.tip
    for relation in made.model.results.values():
        assert escape(relation.meaning) in tip
    assert tip.count("margin") + tip.count("more than the") + tip.count("less than the") == len(made.model.limits)
    assert "✗</span> fails" in tip


def test_limits_of_what_is_built_are_sampled_on_a_coarse_grid_and_said_to_be() -> None:
    made = panel("cutting.stock")
    view = opened(made)
    view.across.value, view.up.value = "length", "parts_area"
    for step in view.sample():
        step()
    words = " ".join(svg(view).itertext())
    assert "limits of the geometry, sampled at these points alone: none fails, one fails, cannot be built" in words
    dots = [each for each in svg(view).iter(f"{SVG}circle") if each.get("r") == "3"]
    assert 1 < len(dots) < 49 + 1, "some hold, some fail"
    made.change("kerf", "4 mm")
    assert "sampled" not in " ".join(svg(view).itertext()), "they were those of another design"
    bare = opened(panel("stop.deflection"))
    assert list(bare.sample()) == []


@pytest.mark.parametrize(("low", "high"), [(5.0, 5.0), (float("nan"), 7.0)])
def test_an_axis_without_a_length_gets_a_sentence(monkeypatch: pytest.MonkeyPatch, low: float, high: float) -> None:
    view = opened(panel("stop.deflection"))
    monkeypatch.setattr(view, "_ends", lambda _name: (low, high))
    view.zoom.value = "a tenth"
    assert "has no length" in view.said.value
    assert view.picture.picture == ""


def test_the_same_axis_twice_gets_a_sentence() -> None:
    view = opened(panel("stop.deflection"))
    view.up.value = view.across.value
    assert "Both axes are" in view.said.value
    assert view.picture.picture == ""


def test_chances_are_shown_in_bands_of_percent() -> None:
    view = opened(panel("stop.deflection"))
    view.kind.value = CHANCE
    assert "95 %" in " ".join(svg(view).itertext())


def test_a_map_is_written_as_a_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    view = opened(panel(job=Job.open(ROOT / "data" / "boatshed.toml"), part="long_stop"))
    view.printing.write()
    (file,) = (tmp_path / "sheets").glob("*.svg")
    assert etree.fromstring(file.read_bytes()).tag == f"{SVG}svg"


def test_small_maps_of_a_third_given_and_of_choices() -> None:
    view = opened(panel("stop.deflection"))
    view.across.value, view.up.value = "long_reach", "block_width"
    for third, count in (("push", 6), ("rib_face", 3), ("rib_wood", 9)):
        view.third.value = third
        strip = etree.fromstring(view.strip.value.encode())
        assert len(strip.findall(f"{SVG}svg")) == min(count, len(strip.findall(f"{SVG}text")))
        assert sum("(the design)" in (each.text or "") for each in strip.findall(f"{SVG}text")) == 1
    view.third.value = "long_reach"
    assert "is an axis already" in view.strip.value


def test_lines_of_equal_value_and_a_map_on_which_nothing_holds() -> None:
    made = panel("stop.deflection")
    view = opened(made)
    view.across.value, view.up.value, view.equal.value = "rib_height", "block_width", "area"
    assert "lines of equal" in " ".join(svg(view).itertext())
    assert view.said.value == ""
    made.change("push", "450 N")
    assert "at each “the work pushes with at most …” fails" in view.said.value


@pytest.mark.parametrize("page", names())
def test_every_model_has_a_map_or_no_room(page: str) -> None:
    made = panel(page)
    if len(axes_of(made.case)) < 2:
        return
    view = opened(made)
    assert view.picture.picture or "fw-fault" in view.said.value
    assert svg(view).tag == f"{SVG}svg"
    for menu in (view.across, view.up):
        menu.value = menu.options[-1][1] if menu is view.across else menu.options[0][1]
    assert "fw-fault" not in view.said.value
