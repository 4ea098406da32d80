"""Plots of models: what stands on the axes, what is drawn where, and what is refused."""

import re
from xml.etree import ElementTree

import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.mathtext import MathTextParser

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.plots import axis_label, picture, shares, sweep, trade_off
from kit.subjects import model, names

TIP = ["play_tip", "bending_tip", "shear_tip", "slip_tip"]


def curve(figure: Figure, number: int = 0) -> tuple[np.ndarray, np.ndarray]:
    line = [line for line in figure.axes[0].lines if len(line.get_xdata()) > 2][number]
    return np.asarray(line.get_xdata()), np.asarray(line.get_ydata())


def test_a_sweep_draws_what_the_formula_says_in_the_units_of_the_axes() -> None:
    case = model("bevel.frame").at(sides=4)
    figure = sweep(case, "slope", ["miter", "tilt"], over=("20 deg", "80 deg"))
    slope, miter = curve(figure)
    _, tilt = curve(figure, 1)
    s = np.radians(slope)
    assert slope[0] == pytest.approx(20)
    assert slope[-1] == pytest.approx(80)
    # tan(miter) = cos(slope) tan 45° and sin(tilt) = sin(slope) sin 45°, handbook rules of joinery
    np.testing.assert_allclose(miter, np.degrees(np.arctan(np.cos(s))), rtol=1e-9)
    np.testing.assert_allclose(tilt, np.degrees(np.arcsin(np.sin(s) / np.sqrt(2))), rtol=1e-9)
    assert figure.axes[0].get_xlabel() == "slope of the boards, from the horizontal $s$ in degrees"
    assert figure.axes[0].get_ylabel() == "degrees"


def test_inches_stand_on_the_axes_of_a_reader_of_inches() -> None:
    case = model("stop.deflection").at(key_play="0.05 in", key_length="5 in")
    figure = sweep(case, "long_reach", ["play_tip"], Display(system="in"), over=("10 in", "20 in"))
    reach, play = curve(figure)
    assert reach[-1] == pytest.approx(20)
    np.testing.assert_allclose(play, reach / 100, rtol=1e-9)  # 0.05 in on 5 in
    assert figure.axes[0].get_ylabel().endswith("in in")


def test_a_lone_result_shows_its_limit_and_a_count_its_whole_numbers() -> None:
    case = model("bevel.frame").at(tilt_reach="45 deg")
    figure = sweep(case, "sides", ["tilt"])
    _, allowed = curve(figure, 1)
    np.testing.assert_allclose(allowed, 45, rtol=1e-9)
    assert list(curve(figure)[0]) == list(range(3, 25))
    assert "allowed" in figure.axes[0].get_legend_handles_labels()[1]
    assert "allowed" not in sweep(case, "slope", ["miter", "tilt"]).axes[0].get_legend_handles_labels()[1]


def test_shares_are_stacked_to_the_sum() -> None:
    case = model("stop.deflection").at()
    figure = shares(case, "long_reach", TIP, over=("100 mm", "600 mm"))
    top = max(path.vertices[:, 1].max() for band in figure.axes[0].collections for path in band.get_paths())
    assert top == pytest.approx(case.with_(long_reach="600 mm")["tip_error"].value, rel=1e-9)
    assert len(figure.axes[0].collections) == len(TIP)


def test_a_map_hatches_where_the_limit_fails() -> None:
    case = model("stop.deflection").at(allowed="0.5 mm")
    figure = trade_off(case, "rib_height", "key_length", "tip_error", over_up=("100 mm", "600 mm"))
    hatched = [c for c in figure.axes[0].collections if c.get_hatch() or getattr(c, "hatches", [None])[0]]
    assert len(hatched) == 1
    assert "hatched: more than allowed" in figure.axes[0].get_title()
    generous = trade_off(case.with_(allowed="5 mm"), "rib_height", "key_length", "tip_error",
                         over_up=("100 mm", "600 mm"))  # fmt: skip
    assert not [c for c in generous.axes[0].collections if getattr(c, "hatches", [None])[0]]


def test_a_picture_is_inline_svg_with_a_text_and_always_the_same() -> None:
    case = model("bevel.frame").at()
    one, two = (picture(sweep(case, "slope", ["tilt"]), "tilt & slope") for _ in range(2))
    assert one == two
    root = ElementTree.fromstring(one)
    assert root.get("aria-label") == "tilt & slope"
    other = picture(sweep(case, "slope", ["tilt"]), "another")
    ids = [set(re.findall(r'clip-path="url\(#([^)]+)\)"', svg)) for svg in (one, other)]
    assert ids[0]
    assert not ids[0] & ids[1]


@pytest.mark.parametrize("name", names())
def test_every_symbol_can_be_written_at_an_axis(name: str) -> None:
    parser = MathTextParser("path")
    stated = model(name)
    for part in (*stated.givens.values(), *stated.relations.values()):
        parser.parse(axis_label(part, Display()))


def test_what_has_no_axis_is_refused_with_what_has() -> None:
    case = model("bevel.frame").at()
    with pytest.raises(KitError, match=r"joint is no measure.*sides"):
        sweep(case, "joint", ["tilt"])
    with pytest.raises(KitError, match="do not share an axis"):
        sweep(case, "slope", ["tilt", "height"])
    with pytest.raises(KitError, match="width is given"):
        sweep(case, "slope", ["width"])
    with pytest.raises(KitError, match="smaller end first"):
        sweep(case, "slope", ["tilt"], over=("80 deg", "20 deg"))
    with pytest.raises(KitError, match="did you mean 'slope'"):
        sweep(case, "slop", ["tilt"])
