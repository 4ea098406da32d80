"""Moisture against the printed table and the other set of coefficients; movement against its definition."""

import numpy as np
import pytest

from kit.subjects import model

MOVEMENT = model("stop.movement")

# Wood Handbook, FPL-GTR-190, table 4-2, p. 4-4, read via fliphtml5.com/kbpub/hdrb/Wood_Handbook/83: moisture
# content in percent at relative humidity 5, 10, ... 95 percent; rows by degrees Fahrenheit.
PRINTED = {
    50: "1.4 2.6 3.6 4.6 5.5 6.3 7.1 7.9 8.7 9.5 10.3 11.2 12.3 13.4 14.8 16.4 18.4 20.9 24.3",
    60: "1.3 2.5 3.6 4.6 5.4 6.2 7.0 7.8 8.6 9.4 10.2 11.1 12.1 13.3 14.6 16.2 18.2 20.7 24.1",
    70: "1.3 2.5 3.5 4.5 5.4 6.2 6.9 7.7 8.5 9.2 10.1 11.0 12.0 13.1 14.4 16.0 17.9 20.5 23.9",
    80: "1.3 2.4 3.5 4.4 5.3 6.1 6.8 7.6 8.3 9.1 9.9 10.8 11.7 12.9 14.2 15.7 17.7 20.2 23.6",
    100: "1.2 2.3 3.3 4.2 5.0 5.8 6.5 7.2 7.9 8.7 9.5 10.3 11.2 12.3 13.6 15.1 17.0 19.5 22.9",
    140: "0.9 1.9 2.8 3.6 4.3 5.0 5.7 6.3 7.0 7.7 8.4 9.1 10.0 11.0 12.1 13.6 15.3 17.7 21.0",
}
HUMIDITY = np.arange(5, 100, 5) / 100


def moisture(fahrenheit: float, humidity: np.ndarray) -> np.ndarray:
    """Return the model's moisture in percent."""
    kelvin = (fahrenheit - 32) / 1.8 + 273.15
    values = {"used_humidity": humidity, "used_temperature": kelvin}
    return 100 * np.asarray(MOVEMENT.compute(values, ("used_moisture",))["used_moisture"])


@pytest.mark.parametrize("fahrenheit", PRINTED)
def test_moisture_against_the_printed_table(fahrenheit: int) -> None:
    printed = np.array([float(word) for word in PRINTED[fahrenheit].split()])
    # Half of the last digit, and what the equation itself is off: 0.01.
    assert np.abs(moisture(fahrenheit, HUMIDITY) - printed).max() <= 0.06


def test_moisture_against_the_coefficients_for_fahrenheit() -> None:
    """FPL-RN-0268 (1998) prints the same fit for degrees Fahrenheit, rounded on its own."""
    T = np.linspace(35, 140, 40)[:, None]
    H = HUMIDITY[None, :]
    W = 330 + 0.452 * T + 0.00415 * T**2
    K = (0.791 + 0.000463 * T - 0.000000844 * T**2) * H
    K1 = 6.34 + 0.000775 * T - 0.0000935 * T**2
    K2 = 1.09 + 0.0284 * T - 0.0000904 * T**2
    other = 1800 / W * (K / (1 - K) + (K1 * K + 2 * K1 * K2 * K**2) / (1 + K1 * K + K1 * K2 * K**2))
    ours = np.vstack([moisture(float(t), HUMIDITY) for t in T[:, 0]])
    assert np.abs(ours - other).max() <= 0.06


def test_same_air_moves_nothing() -> None:
    v = MOVEMENT.at(made_humidity=55, used_humidity=55, made_temperature=20, used_temperature=20).base
    assert v["length_change"] == v["width_change"] == 0
    assert v["play_used"] == v["play_made"]


def test_damp_frees_a_groove_and_binds_a_key() -> None:
    air = {"made_humidity": 30, "used_humidity": 80}
    groove = MOVEMENT.at(moving="wooden groove, metal key", **air).base
    key = MOVEMENT.at(moving="wooden key, metal track", **air).base
    assert groove["play_used"] > groove["play_made"] > key["play_used"]
    assert groove["play_used"] + key["play_used"] == pytest.approx(2 * groove["play_made"])


def test_growth_rings_choose_the_coefficient() -> None:
    flat, quarter = (MOVEMENT.at(cut=cut, wood="beech").base for cut in ("flat-sawn", "quarter-sawn"))
    # Table 13-5, American beech: 0.00431 along the rings, 0.00190 across.
    assert flat["width_change"] / quarter["width_change"] == pytest.approx(0.00431 / 0.00190)


def test_whole_shrinkage_from_fiber_saturation() -> None:
    """From fiber saturation to ovendry the block loses just its printed shrinkage; to half of it, half.

    That is how FPL Report 1093 (1960) puts it: to about 12 percent, about half as much.
    """
    v = MOVEMENT.at(shrinkage_along="0.2 %", fiber_saturation="30 %").base
    per_change = v["length_change"] / v["moisture_change"]
    assert per_change * 0.30 == pytest.approx(0.002 * v["length"])
