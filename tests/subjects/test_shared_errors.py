"""Errors that several measurements share are counted once, and never averaged away: by drawing what happens."""

import numpy as np
import pytest

from kit.job import open_job
from kit.subjects import model
from kit.subjects.scale.line_fit import calibrate
from tests import DATA

DRAWS = 200_000


def test_gaps_under_one_straightedge_by_drawing() -> None:
    """Three gaps, each with its own error, and one straightedge that is off alike at all of them."""
    page = model("level.plane")
    places = {"x_1": 60, "y_1": 40, "x_2": 640, "y_2": 40, "x_3": 350, "y_3": 520}
    spreads = {"u_1": 0.05, "u_2": 0.03, "u_3": 0.04, "u_edge": 0.06}
    foot = {"foot_x": 300.0, "foot_y": 200.0}
    v = page.at(**places, **spreads, **foot).base
    rng = np.random.default_rng(5)
    own = np.array([spreads[f"u_{i}"] for i in (1, 2, 3)])
    depths = rng.normal(0, 1, (DRAWS, 3)) * own + rng.normal(0, spreads["u_edge"], (DRAWS, 1))
    at = np.array([[1, places[f"x_{i}"], places[f"y_{i}"]] for i in (1, 2, 3)], dtype=float)
    found = np.linalg.solve(at, depths.T).T @ np.array([1, foot["foot_x"], foot["foot_y"]])
    assert v["u"] == pytest.approx(found.std(), rel=0.01)
    assert v["u"] > spreads["u_edge"], "no number of gaps makes the straightedge truer"


def test_a_gap_tells_its_own_part_apart_from_the_straightedge() -> None:
    v = model("level.cards").at(edge_error="0.05 mm").base
    assert v["u_edge"] == pytest.approx(0.05 / np.sqrt(3))
    assert np.hypot(v["u_own"], v["u_edge"]) == pytest.approx(v["u"], rel=1e-12)


def test_one_rule_for_all_test_cuts_by_drawing() -> None:
    """Cuts scatter; the rule is off by a share of each length, the same for all. Then the scale is used."""
    page = model("scale.calibration")
    readings, cut_u, rule = np.array([300.0, 1100.0]), 0.08, 0.4
    v = page.at(
        reading_1=300, reading_2=1100, part_1=300, part_2=1100, cut_u=cut_u, rule_error=rule, target=950, allowed=5
    ).base
    rng = np.random.default_rng(6)
    stretch = rng.uniform(-rule, rule, (DRAWS, 1)) / 1000
    parts = (readings + rng.normal(0, cut_u, (DRAWS, 2))) * (1 + stretch)
    slope = (parts[:, 1] - parts[:, 0]) / 800
    line = parts[:, 0] + slope * (950 - 300)
    assert v["reading_u"] == pytest.approx(line.std(), rel=0.01)
    assert v["even_half"] == pytest.approx(np.sqrt(3) * line.std(), rel=0.01)
    fitted = calibrate(readings, readings, cut_u, rule=rule / 1000 / np.sqrt(3))
    assert float(fitted.u(950)) == pytest.approx(v["reading_u"], rel=1e-9)


def test_more_cuts_do_not_make_the_rule_truer() -> None:
    readings = np.linspace(200, 1800, 400)
    fitted = calibrate(readings, readings, 0.08, rule=1e-4)
    assert float(fitted.u(1500)) > 1500 * 1e-4
    low, high = fitted.trusted(0.3) or (0.0, 0.0)
    assert [float(fitted.band(end)) for end in (low, high)] == pytest.approx([0.3, 0.3], rel=1e-9)


@pytest.mark.parametrize("rule", [0.0, 0.05, 0.3])
def test_the_scale_is_trusted_as_far_as_its_band_is_narrow(rule: float) -> None:
    page = model("scale.calibration")
    v = page.at(rule_error=rule, allowed="0.4 mm").base
    for end in ("trust_from", "trust_to"):
        reading = v[end]
        if reading > 0:
            part = v["zero"] + v["slope"] * reading
            there = page.at(rule_error=rule, allowed="0.4 mm", target=part, beyond=("target",)).base
            assert there["expanded"] == pytest.approx(0.4, rel=1e-6)


def test_few_cuts_behind_the_spread_ask_for_students_factor() -> None:
    """Student's t for 95 %: 2.78 for five, 12.71 for two (JCGM 100:2008, table G.2)."""
    page = model("scale.calibration")
    assert [page.at(trials=f"{n} parts").base["coverage"] for n in (2, 5)] == [12.71, 2.78]


def test_the_blade_is_out_of_square_for_a_whole_batch() -> None:
    page = model("accuracy.chain")
    square, crooked = (page.at(squareness=f"{angle} deg").base for angle in (0, 1))
    assert crooked["each_u"] == square["each_u"]
    assert crooked["common_u"] > square["common_u"]
    clean, dusty = (page.at(seating=f"{half} mm").base for half in (0, 0.3))
    assert dusty["common_u"] == clean["common_u"]
    assert dusty["each_u"] > clean["each_u"]


def test_a_tape_pulled_as_it_is_rated_is_not_stretched() -> None:
    """Long tapes are true at the pull printed on them, not at none."""
    page = model("scale.tape")
    assert page.at(pull="50 N", rated_pull="50 N")["stretch_error"].base == pytest.approx(0, abs=1e-12)
    slack = page.at(pull="0 N", rated_pull="50 N")["stretch_error"].base
    assert slack == pytest.approx(-page.at(pull="50 N")["stretch_error"].base)


@pytest.mark.parametrize(("job", "chain", "scale"), [("boatshed", "cut_accuracy", "scale_check"),
                                                     ("schoolshop", "cleat_accuracy", "saw_check")])  # fmt: skip
def test_a_chain_on_a_calibrated_scale_counts_its_zero_once(job: str, chain: str, scale: str) -> None:
    opened = open_job(DATA / f"{job}.toml")
    v, calibrated = opened.case(chain).base, opened.case(scale).base
    assert v["zero"] == 0.0
    assert v["tape"] / np.sqrt(3) == pytest.approx(calibrated["reading_u"], rel=1e-9)
