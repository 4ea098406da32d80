"""Depth, track and key: drawn errors, integrated steps, round trips, bodies turned in their slots, printed grades."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from kit.core.errors import KitError
from kit.core.tables import table
from kit.subjects import model
from kit.subjects.groove.key import GRADES, LETTERS

DEPTH, TRACK, KEY = model("groove.depth"), model("groove.track"), model("groove.key")


def test_depth_uncertainty_by_drawing_errors() -> None:
    """Blocks and touch each miss between their limits; the calipers miss both readings of the pile alike."""
    rng = np.random.default_rng(3)
    v = DEPTH.at(blocks_limit=0.04, pile_limit=0.06, touch_limit=0.09, repeat=0.02).base
    n = 400_000
    blocks, pile, touch = (rng.uniform(-a, a, n) for a in (0.04, 0.06, 0.09))
    scatter = rng.normal(0, 0.02, n)
    drawn = DEPTH.compute(
        {"blocks": v["blocks"] + blocks, "pile_light": v["pile_light"] + pile, "pile_firm": v["pile_firm"] + pile,
         "paper": v["paper"] + touch},
        ("depth",),
    )["depth"] + scatter  # fmt: skip
    assert v["depth_u"] == pytest.approx(drawn.std(), rel=0.01)
    assert v["depth_expanded"] == pytest.approx(2 * v["depth_u"])


@pytest.mark.parametrize("force", [1, 6, 30, 90])
def test_pile_by_integrating_its_steps(force: float) -> None:
    """dh = -k dp/p, k from the two readings, summed numerically from the light reading to the rod."""
    v = DEPTH.at(rod_force=force, pile_light=4.0, pile_firm=3.7).base
    k = (v["pile_light"] - v["pile_firm"]) / quad(lambda p: 1 / p, v["pressure_light"], v["pressure_firm"])[0]
    pressure = force / (np.pi * v["rod"] ** 2 / 4)
    change = quad(lambda p: k / p, v["pressure_light"], pressure)[0]
    assert v["pile"] == pytest.approx(v["pile_light"] - change, rel=1e-9)


def test_pile_read_at_the_rods_own_pressure_is_the_reading() -> None:
    v = DEPTH.at(rod_force=20e-3 * np.pi * 16, rod=8, pressure_light=20).base
    assert v["pile"] == pytest.approx(v["pile_light"])


def test_the_blocks_wanted_make_the_wanted_depth() -> None:
    first = DEPTH.at(wanted=17.3)
    assert not next(state for state in first.checks if state.name == "off").ok
    again = DEPTH.at(wanted=17.3, blocks=first.base["blocks_wanted"])
    assert again.base["depth"] == pytest.approx(17.3)
    assert again.base["off"] == pytest.approx(0, abs=1e-12)


def test_no_pass_is_deeper_than_its_share_and_one_less_would_be() -> None:
    for wanted in np.linspace(1, 55, 28):
        v = DEPTH.at(blocks=wanted, bit=7.3, pass_share=40).base
        assert v["pass_depth"] <= 0.4 * 7.3 + 1e-9
        assert v["passes"] == 1 or v["depth"] / (v["passes"] - 1) > 0.4 * 7.3


@pytest.mark.parametrize("case", range(20))
def test_the_narrowest_groove_keeps_just_the_least_play(case: int) -> None:
    rng = np.random.default_rng(case)
    air = {
        "made_humidity": rng.uniform(20, 80),
        "used_humidity": rng.uniform(20, 80),
        "cut": rng.choice(["flat-sawn", "quarter-sawn"]),
    }
    v = TRACK.at(**air).base
    again = TRACK.at(groove=v["groove_least"], **air).base
    assert again["play_tight"] == pytest.approx(v["play_least"], abs=1e-9)


def test_a_groove_moves_like_the_walls_of_its_board() -> None:
    """The two walls are points of a board that swells evenly about its middle."""
    v = TRACK.at(groove=40, track=39, used_humidity=75).base
    stretch = 1 + v["coefficient"] * v["moisture_change"]
    walls = np.array([130.0, 170.0]) * stretch
    assert v["play_used"] == pytest.approx(np.ptp(walls) - 39)


def test_slip_by_adding_slices() -> None:
    v = TRACK.at(used_humidity=80, used_temperature=35, length=2000).base
    wood = 0.0015 / 0.30 * v["moisture_change"]  # 0.15 % from 30 % down to ovendry, evenly
    metal = 23.4e-6 * 17
    slices = np.full(1000, (wood - metal))
    assert v["creep"] == pytest.approx(slices.sum() * 1.0, rel=1e-9)
    same = TRACK.at(made_humidity=50, used_humidity=50, made_temperature=20, used_temperature=20).base
    assert same["creep"] == 0
    assert same["play_used"] == same["play_made"]


def test_screws_or_walls_stop_the_track_whichever_come_first() -> None:
    # Groove 31, track 30: 1 mm between the walls and 0.3 mm in the holes; then 2 mm in the holes.
    air = {"made_humidity": 50, "used_humidity": 50, "made_temperature": 20, "used_temperature": 20}
    assert TRACK.at(groove=31, hole=4.3, screw=4, **air).base["wander"] == pytest.approx(0.3)
    assert TRACK.at(groove=31, hole=6, screw=4, **air).base["wander"] == pytest.approx(1.0)
    assert TRACK.at(groove=31, held="adhesive", **air).base["wander"] == 0


@pytest.mark.parametrize("moving", ["wooden key, metal slot", "wooden slot, metal key"])
@pytest.mark.parametrize("case", range(10))
def test_the_planed_key_keeps_just_the_least_play(moving: str, case: int) -> None:
    rng = np.random.default_rng(case)
    air = {"made_humidity": rng.uniform(20, 80), "used_humidity": rng.uniform(20, 80), "moving": moving}
    v = KEY.at(**air).base
    again = KEY.at(key=v["key_wanted"], **air).base
    assert again["play_tight"] == pytest.approx(v["play_least"], abs=1e-9)
    assert again["planing"] == pytest.approx(0, abs=1e-9)
    assert abs(v["play_loose"] - v["play_tight"]) == pytest.approx(abs(v["width_change"]))


def test_swing_by_turning_a_bar_in_its_slot() -> None:
    """A bar b by l turns in a slot B until b cos t + l sin t = B: its corners touch."""
    v = KEY.at(made_humidity=50, used_humidity=50, made_temperature=20, used_temperature=20, key=18.8).base
    b, k, B, a = (v[name] for name in ("key", "key_length", "slot", "reach"))
    turn = brentq(lambda t: b * np.cos(t) + k * np.sin(t) - B, 0, 0.1, xtol=1e-14)
    assert v["play_tip"] == pytest.approx(a * np.sin(turn), rel=1e-4)


def test_quarter_sawn_moves_by_the_radial_coefficient() -> None:
    # Wood Handbook, table 13-5, sugar maple: 0.00353 tangential, 0.00165 radial, via issuhub.com pageIndex=307
    flat, quarter = (KEY.at(cut=cut).base["width_change"] for cut in ("flat-sawn", "quarter-sawn"))
    assert flat / quarter == pytest.approx(0.00353 / 0.00165)


@pytest.mark.parametrize("row", table("iso286").ids)
def test_fits_by_reading_the_printed_row(row: str) -> None:
    """Every letter and grade picked is the figure printed for that range, in micrometers."""
    printed = table("iso286").row(row)
    middle = max((printed["over"] + printed["up_to"]) / 2, 3)
    for number, letter in enumerate(LETTERS):
        slot, key = GRADES[number], GRADES[-1 - number]
        v = KEY.at(
            sizes=row, slot=middle, key=middle - 0.1, letter=letter, slot_grade=slot, key_grade=key,
            beyond=("slot", "key", "range_to", "range_over"),
        ).base  # fmt: skip
        below = 0.0 if letter == "h" else printed[f"shaft_{letter}"]
        assert v["fit_least"] == pytest.approx(below, abs=1e-12)
        assert v["fit_most"] == pytest.approx(below + printed[slot] + printed[key], abs=1e-12)


@pytest.mark.parametrize(("grade", "printed"), [(6, 13), (7, 21), (8, 33), (9, 52), (10, 84), (11, 130)])
def test_grade_of_a_movement_as_wide_as_a_printed_tolerance(grade: int, printed: int) -> None:
    """ISO 286-1, range 18 to 30 mm, IT6 to IT11; the rule of five grades is rounded by up to 2 % in print."""
    v = KEY.at().base
    scale = printed / 1000 / v["width_change"]
    found = KEY.at(tangential=v["tangential"] / 100 * scale, beyond=("tangential",)).base
    number = 6 + 5 * np.log10(printed / 13)
    assert found["season_grade"] == pytest.approx(number, abs=1e-6)
    assert found["season_grade"] == pytest.approx(grade, abs=0.06)


def test_a_key_wider_than_its_slot_is_told() -> None:
    case = KEY.at(slot="19 mm", key="19.2 mm")
    assert case.base["play_made"] == pytest.approx(-0.2)
    assert any("wider than the slot" in text for text in case.cautions)
    told = next(state for state in case.checks if state.name == "slides")
    assert not told.ok
    assert "plane the key" in told.words()


def test_a_size_outside_its_range_is_told() -> None:
    assert any("outside the range" in text for text in KEY.at(slot="31 mm", key="30.8 mm").cautions)
    fitting = KEY.at(slot="31 mm", key="30.8 mm", sizes="30-50").cautions
    assert not any("outside the range" in text for text in fitting)


@pytest.mark.parametrize(
    ("name", "given", "typed"),
    [
        ("groove.key", "play_least", "-0.1 mm"),
        ("groove.track", "play_least", "-1 mm"),
        ("groove.track", "groove", "-30 mm"),
        ("groove.depth", "blocks", "-2 mm"),
        ("groove.key", "key", "0 mm"),
    ],
)
def test_negative_clearances_get_one_sentence(name: str, given: str, typed: str) -> None:
    with pytest.raises(KitError) as told:
        model(name).at(**{given: typed})
    text = str(told.value)
    assert "\n" not in text
    assert given.replace("_", " ") in text.replace("_", " ")
    assert " to " in text


def test_a_pile_that_grows_under_pressure_is_told() -> None:
    failing = [check.name for check in DEPTH.at(pile_light=1.0, pile_firm=1.1).checks if not check.ok]
    assert "press" in failing
