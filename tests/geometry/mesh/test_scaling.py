"""The scale, against weighted means worked by hand and a general least-squares routine."""

import numpy as np
import pytest
from scipy.optimize import curve_fit

from kit.core.errors import KitError
from kit.geometry.mesh import Scan, fit_scale, replay


def test_one_length_is_a_ratio() -> None:
    """600 mm ± 0.6 mm over 0.5 units: 1200 mm per unit, ± 1.2."""
    scale = fit_scale([0.5], [600.0], [0.6])
    assert (scale.factor, scale.uncertainty) == (pytest.approx(1200.0), pytest.approx(1.2))
    assert scale.agree
    assert scale.warning == ""


def test_several_lengths_as_a_general_routine_fits_them() -> None:
    scanned, measured, spread = (
        np.array([0.5, 0.8, 0.3]),
        np.array([600.4, 959.5, 360.1]),
        np.array([0.5, 1.0, 0.3]),
    )
    (slope,), cover = curve_fit(lambda x, s: s * x, scanned, measured, 1.0, spread, absolute_sigma=True)
    scale = fit_scale(scanned, measured, spread)
    assert scale.factor == pytest.approx(slope, rel=1e-9)
    assert scale.uncertainty == pytest.approx(float(cover[0, 0]) ** 0.5, rel=1e-6)
    np.testing.assert_allclose(scale.residuals, measured - slope * scanned, atol=1e-6)
    assert scale.agree


def test_lengths_that_disagree_are_told_and_widen_the_uncertainty() -> None:
    """By hand: 1 and 1 unit, 1000 and 1010 mm, each ± 1: chi-square 50, so √50 times 1/√2 = 5 mm."""
    scale = fit_scale([1.0, 1.0], [1000.0, 1010.0], [1.0, 1.0])
    assert scale.factor == pytest.approx(1005.0)
    assert scale.uncertainty == pytest.approx(5.0)
    assert not scale.agree
    assert "5.0 times its uncertainty; measure or pick it again" in scale.warning


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        (([], [], []), "at least one length"),
        (([1.0, 2.0], [1.0], [1.0]), "give all three"),
        (([0.0], [1.0], [1.0]), "length on the scan"),
        (([1.0], [-600.0], [1.0]), "measured length is -600"),
        (([1.0], [1.0], [0.0]), "uncertainty is 0"),
        (([1.0], [float("nan")], [1.0]), "measured length"),
    ],
)
def test_wrong_lengths_get_a_sentence(given: tuple[list[float], ...], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        fit_scale(*given)


@pytest.mark.parametrize(("length", "told"), [(1e9, r"is 1e\+09 mm"), (1e-9, "is 1e-09 mm")])
def test_a_scale_beyond_any_machine_is_refused(length: float, told: str) -> None:
    scan = Scan(np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0]]), np.array([[0, 1, 2]]))
    step = {"do": "scale", "lengths": [{"from": "A", "to": "B", "mm": length, "uncertainty": length / 100}]}
    with pytest.raises(KitError, match=told):
        replay(scan, [step], {"A": [0.0, 0, 0], "B": [1.0, 0, 0]})
