"""Least squares against the GUM's thermometer, numpy, scipy, drawing at random, and the two-cut model."""

from math import inf

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import t

from kit.core.errors import KitError
from kit.subjects import model
from kit.subjects.scale.line_fit import calibrate

# JCGM 100:2008 (GUM), H.3, table H.6: thermometer readings and corrections, as transcribed in
# github.com/MSLNZ/GTC, docs/API/GUM_H3.rst, with its unrounded results; 20 is the GUM's reference temperature.
READINGS = np.array(
    [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511]
) - 20  # fmt: skip
CORRECTIONS = np.array([-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160])


def test_thermometer_to_the_printed_digits() -> None:
    """Printed: y1 -0.1712, s 0.0029; y2 0.00218, s 0.00067; r -0.930; s 0.0035 (the last two from memory)."""
    line = calibrate(READINGS, CORRECTIONS)
    assert round(line.zero, 4) == -0.1712
    assert round(line.zero_u, 4) == 0.0029
    assert round(line.scale, 5) == 0.00218
    assert round(line.scale_u, 5) == 0.00067
    assert round(line.correlation, 3) == -0.930
    assert round(line.spread, 4) == 0.0035
    assert round(float(line.part(10.0)), 4) == -0.1494
    assert round(float(line.u(10.0)), 4) == 0.0041
    assert line.freedom == 9


def test_thermometer_to_another_librarys_digits() -> None:
    line = calibrate(READINGS, CORRECTIONS)
    assert line.zero == pytest.approx(-0.17120379013135004, rel=1e-12)
    assert line.scale == pytest.approx(0.0021826977398872894, rel=1e-10)
    assert line.scale_u == pytest.approx(0.0006679387732278323, rel=1e-10)
    assert (line.residuals**2).sum() == pytest.approx(0.000110096583109, rel=1e-11)


def some_cuts(seed: int, count: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    rng = np.random.default_rng(seed)
    R = rng.uniform(100, 2400, count)
    u = rng.uniform(0.02, 0.3, count)
    return R, 0.3 + 1.0004 * R + rng.normal(0, u), u


@pytest.mark.parametrize("seed", range(4))
def test_weighted_line_against_scipy(seed: int) -> None:
    R, L, u = some_cuts(seed, 7)
    line = calibrate(R, L, u)
    middle = 1000.0  # scipy iterates; about a middle it does so without loss
    found, covariance = curve_fit(lambda x, a, b: a + b * (x - middle), R, L, sigma=u, absolute_sigma=True)
    back = np.array([[1.0, -middle], [0.0, 1.0]])
    assert (line.zero, line.scale) == pytest.approx(tuple(back @ found), rel=1e-6)
    assert line.covariance == pytest.approx(back @ covariance @ back.T, rel=1e-5)
    assert line.freedom == inf


@pytest.mark.parametrize("seed", range(4))
def test_plain_line_against_numpy(seed: int) -> None:
    R, L, _ = some_cuts(seed, 9)
    line = calibrate(R, L)
    (scale, zero), covariance = np.polyfit(R, L, 1, cov=True)
    assert (line.zero, line.scale) == pytest.approx((zero, scale), rel=1e-9)
    assert line.covariance == pytest.approx(covariance[::-1, ::-1], rel=1e-7)


def test_bands_hold_what_they_say() -> None:
    """Drawn 4,000 times: the line's band and the next part's band cover 95 %, Student's factor for few cuts."""
    rng = np.random.default_rng(5)
    R, at, draws = np.array([200.0, 600.0, 900.0, 1500.0]), 1200.0, 4_000
    inside = np.zeros(2)
    for _ in range(draws // 10):
        for L in 0.2 + R + rng.normal(0, 0.1, (10, 4)):
            line = calibrate(R, L)
            off = line.part(at) - (0.2 + at)
            inside += [abs(off) <= line.band(at), abs(off - rng.normal(0, 0.1)) <= line.next_band(at)]
    # Four standard deviations of a share of 4,000 draws: 4 √(0.95 · 0.05/4000).
    assert inside / draws == pytest.approx([0.95, 0.95], abs=0.0138)
    assert calibrate(R, R + np.array([0.1, 0, 0, 0.1])).factor() == pytest.approx(t.ppf(0.975, 2), rel=1e-9)


def test_two_cuts_are_the_model() -> None:
    stated = model("scale.calibration")
    case = stated.at(reading_1="240 mm", reading_2="1310 mm", part_1="240.3 mm", part_2="1310.1 mm", cut_u="0.07 mm")
    v = case.base
    line = calibrate([240, 1310], [240.3, 1310.1], 0.07)
    assert (line.zero, line.scale - 1) == pytest.approx((v["zero"], v["scale_error"]), rel=1e-9)
    assert (line.zero_u, line.scale_u, line.correlation) == pytest.approx(
        (v["zero_u"], v["scale_u"], v["correlation"]), rel=1e-9
    )
    assert line.reading(v["target"]) == pytest.approx(v["set_to"], rel=1e-12)
    assert line.u(v["set_to"]) == pytest.approx(v["line_u"], rel=1e-9)
    ruled = calibrate([240, 1310], [240.3, 1310.1], 0.07, rule=v["rule_u"])
    assert ruled.u(v["set_to"]) == pytest.approx(v["reading_u"], rel=1e-9)
    assert ruled.next_band(v["set_to"], 0.07) / ruled.factor() == pytest.approx(v["next_u"], rel=1e-9)


def test_trusted_readings_end_where_the_band_is_allowed() -> None:
    R, L, u = some_cuts(1, 5)
    line = calibrate(R, L, u)
    allowed = 1.5 * float(line.band(line.middle))
    ends = line.trusted(allowed)
    assert ends is not None
    assert line.band(ends) == pytest.approx([allowed, allowed], rel=1e-9)
    assert line.trusted(0.9 * float(line.band(line.middle))) is None


def test_scatter_larger_than_stated_shows() -> None:
    R, L, u = some_cuts(2, 12)
    rng = np.random.default_rng(0)
    assert calibrate(R, L, u).chance > 0.001
    assert calibrate(R, L + rng.normal(0, 1.0, 12), u).chance < 1e-6


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (([300, 300], [300.1, 300.2], 0.1), "All test cuts were made at reading 300 mm"),
        (([300], [300.1], 0.1), "There are 1 test cuts; a calibration needs at least 2."),
        (([300, 900], [300.1, 900.2]), "needs at least 3, or two and the standard uncertainty"),
        (([300, 900], [300.1], 0.1), "There are 2 readings and 1 parts"),
        (([300, np.nan], [300.1, 900], 0.1), "not a finite number"),
        (([300, 900], [300.1, 900.2], 0.0), "is 0 mm; it must be above 0 mm"),
        (([300, 900], [300.1, 900.2], [0.1, -1.0]), "is -1 mm; it must be above 0 mm"),
    ],
)
def test_bad_cuts_get_one_sentence(given: tuple[object, ...], told: str) -> None:
    with pytest.raises(KitError) as caught:
        calibrate(*given)  # type: ignore[arg-type]
    assert told in str(caught.value)
    assert str(caught.value).count(". ") == 0


def test_two_cuts_do_not_tell_their_scatter() -> None:
    line = calibrate([300, 900], [300.1, 900.2], 0.1)
    with pytest.raises(KitError, match="do not show how cuts scatter"):
        line.next_band(600)
    with pytest.raises(KitError, match="coverage is 95"):
        line.factor(95)
