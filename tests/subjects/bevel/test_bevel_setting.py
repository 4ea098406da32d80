"""Angle by rise and base: the uncertainty against a package that propagates errors and against drawing lots."""

import numpy as np
import pytest
import uncertainties
from uncertainties import umath

from kit.subjects import model

CASES = [(93, 200, 0.06, 0.12), (150, 260, 0.5, 0.3), (20, 900, 0.05, 4.0), (185, 200, 0.1, 0.1)]


@pytest.mark.parametrize(("rise", "base", "u_rise", "u_base"), CASES)
@pytest.mark.parametrize("along", ["line", "slope"])
def test_uncertainty_of_the_angle(rise: float, base: float, u_rise: float, u_base: float, along: str) -> None:
    v = model("bevel.setting").at(rise=rise, base=base, rise_u=u_rise, base_u=u_base, base_along=along).base
    ratio = uncertainties.ufloat(rise, u_rise) / uncertainties.ufloat(base, u_base)
    angle = umath.atan(ratio) if along == "line" else umath.asin(ratio)
    assert v["angle"] == pytest.approx(angle.nominal_value, rel=1e-12)
    assert v["angle_u"] == pytest.approx(angle.std_dev, rel=1e-6)
    rng = np.random.default_rng(3)
    drawn = rng.normal(rise, u_rise, 200_000) / rng.normal(base, u_base, 200_000)
    lots = np.arctan(drawn) if along == "line" else np.arcsin(drawn)
    assert np.std(lots) == pytest.approx(v["angle_u"], rel=0.02)


@pytest.mark.parametrize(("line", "from_square"), [("vertical", 30), ("square cut", 30), ("table", 60), ("fence", 60)])
def test_zeros(line: str, from_square: float) -> None:
    """30° off the upright or the square cut is 60° off the table or the fence."""
    v = model("bevel.setting").at(rise=150, base=300, base_along="slope", line=line).base
    assert np.degrees(v["from_square"]) == pytest.approx(from_square, rel=1e-12)
    assert np.degrees(v["from_flat"]) == pytest.approx(90 - from_square, rel=1e-12)
    assert np.degrees(v["protractor"]) == pytest.approx(150, rel=1e-12)


@pytest.mark.parametrize("along", ["line", "slope"])
def test_wanted_rise_sets_the_wanted_angle(along: str) -> None:
    setting = model("bevel.setting")
    first = setting.at(base=450, wanted=22.5, base_along=along)
    again = first.with_(rise=first.base["rise_wanted"])
    assert again.base["off"] == pytest.approx(0, abs=1e-15)
