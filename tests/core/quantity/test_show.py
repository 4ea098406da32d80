"""How quantities are written; expected texts worked out by hand from 1 in = 25.4 mm and the rules in the module."""

from math import inf, nan, pi

import pytest

from kit.core.quantity import Display, number, show, show_in, show_parts, tex, unit
from kit.core.quantity.digits import signed

MM = Display(system="mm")
INCH = Display(system="in")


@pytest.mark.parametrize(
    ("base", "of", "display", "text"),
    [
        (603.25, "mm", MM, "603.3 mm"),  # halves away from zero
        (-603.25, "mm", MM, "-603.3 mm"),
        (603.25, "in", MM, "603.3 mm"),
        (603.25, "in", None, "23 3/4 in"),
        (603.25, "mm", None, "603.3 mm"),
        (603.25, "mm", INCH, "23 3/4 in"),
        (603.25 + 0.004 * 25.4, "mm", INCH, "23 3/4 in (+0.004 in)"),  # 0.1016 mm is above 0.1 mm
        (603.25 - 0.004 * 25.4, "mm", INCH, "23 3/4 in (-0.004 in)"),
        (603.25 + 0.0039 * 25.4, "mm", INCH, "23 3/4 in"),  # 0.099 mm is not
        (603.0, "mm", Display(system="in", denominator=2), "23 1/2 in (+0.240 in)"),
        (603.0, "mm", Display(system="in", denominator=128), "23 95/128 in"),
        (-38.1, "mm", INCH, "-1 1/2 in"),
        (12.7, "mm", INCH, "1/2 in"),
        (-12.7, "mm", INCH, "-1/2 in"),
        (50.8, "mm", INCH, "2 in"),
        (0.0, "mm", INCH, "0 in"),
        (-0.0, "mm", INCH, "0 in"),
        (-1e-17, "mm", INCH, "0 in"),
        (-1e-17, "mm", MM, "0.0 mm"),
        (0.06, "mm", INCH, "0.0024 in"),  # would read 0
        (0.06, "mm", MM, "0.060 mm"),  # two significant digits
        (0.6, "mm", INCH, "0.024 in"),  # 1/64 in would be off by 0.2 mm
        (603.31, "mm", Display(decimals=0), "603 mm (+0.3 mm)"),
        (603.31, "mm", Display(decimals=3), "603.310 mm"),
        (600.0, "m", MM, "0.6 m"),
        (0.0254, "µm", MM, "25.4 µm"),
        (0.0254, "µm", INCH, "1 thou"),
        (38 * pi / 180, "deg", MM, "38.0°"),
        (38 * pi / 180, "rad", INCH, "38.0°"),
        (-1e-12, "deg", MM, "0.0°"),
        (38.126 * pi / 180, "deg", Display(angle_decimals=2), "38.13°"),
        (60.0, "N", MM, "60 N"),
        (60.0, "N", INCH, "13.49 lbf"),
        (12300.0, "GPa", MM, "12.3 GPa"),
        (12300.0, "GPa", INCH, "1.784 Msi"),
        (1.234e6, "mm^4", MM, "1.234×10⁶ mm⁴"),
        (999_999.7, "mm^4", MM, "1×10⁶ mm⁴"),
        (999_499.0, "mm^4", MM, "999499 mm⁴"),
        (1.234e7, "mm^4", Display(digits=2), "12×10⁶ mm⁴"),
        (-12.3e-6, "1/K", MM, "-12.3×10⁻⁶ 1/K"),
        (700e-12, "kg/m^3", MM, "700 kg/m³"),
        (0.12, "%", MM, "12 %"),
        (0.35, "", MM, "0.35"),
        (6.0, "1", INCH, "6"),
        (0.001, "mm/m", INCH, "1 mm/m"),
        (293.15, "degC", MM, "20 °C"),
        (293.15, "degC", INCH, "68 °F"),
        (nan, "mm", MM, "undefined mm"),
        (-inf, "N", MM, "-∞ N"),
    ],
)
def test_show(base: float, of: str, display: Display | None, text: str) -> None:
    assert show(base, of, display) == text


@pytest.mark.parametrize(
    ("base", "of", "display", "stated", "text"),
    [
        (600.0, "mm", MM, {"half": 0.2}, "600.0 ± 0.2 mm"),
        (600.0, "mm", MM, {"half": 0.05}, "600.00 ± 0.05 mm"),  # half a step of 0.01 is below 0.05/4
        (600.0, "mm", MM, {"half": 0.2886751}, "600.0 ± 0.29 mm"),
        (0.00353, "1/K", MM, {"half": 0.0004}, "0.00353 ± 0.0004 1/K"),  # one power of ten for both
        (353e-6, "1/K", MM, {"half": 0.04}, "0.000353 ± 0.04 1/K"),
        (353e-6, "1/K", MM, {"half": 4e-5}, "353×10⁻⁶ ± 40×10⁻⁶ 1/K"),
        (1.234e6, "mm^4", MM, {"half": 2000.0}, "1.234×10⁶ ± 0.002×10⁶ mm⁴"),
        (0.0, "1/K", MM, {"half": 4e-5}, "0 ± 40×10⁻⁶ 1/K"),
        (600.0, "mm", MM, {"resolution": 0.01}, "600.00 mm"),
        (600.3, "mm", MM, {"resolution": 1}, "600 mm"),
        (0.07749, "%", MM, {"resolution": 0.001}, "7.7 %"),
        (603.25, "mm", INCH, {"half": 25.4 / 64}, "23 3/4 ± 1/64 in"),
        (603.25, "mm", INCH, {"half": 0.2}, "23 3/4 ± 0.0079 in"),
        (603.30, "mm", INCH, {"half": 0.1}, "23 3/4 ± 0.0039 in (+0.0020 in)"),  # off by 0.05, above 0.1/4
        (603.30, "mm", INCH, {"half": 0.4}, "23 3/4 ± 0.016 in"),
        (603.30, "mm", INCH, {"resolution": 0.05}, "23 3/4 in (+0.0020 in)"),
        (38 * pi / 180, "deg", MM, {"half": 0.05 * pi / 180}, "38.00 ± 0.05°"),
        (60.0, "N", MM, {"half": 2.0}, "60 ± 2 N"),
        (61.2345, "N", MM, {"half": 0.004}, "61.235 ± 0.004 N"),  # half a step of 0.001 is below 0.004/4
        (293.15, "degC", INCH, {"half": 5.0}, "68 ± 9 °F"),
    ],
)
def test_what_is_stated_of_its_accuracy_sets_the_rounding(
    base: float, of: str, display: Display, stated: dict[str, float], text: str
) -> None:
    assert show(base, of, display, **stated) == text


def test_the_pieces_are_those_of_the_whole() -> None:
    base = 603.25 + 0.004 * 25.4
    assert show_parts(base, "mm", INCH) == ("23 3/4", "in", "+0.004 in")
    assert number(base, "mm", INCH) == "23 3/4"
    assert show_parts(38 * pi / 180, unit("deg"), MM) == ("38.0", "°", "")


@pytest.mark.parametrize(
    ("base", "of", "display", "formula"),
    [
        (1200.0, "mm", MM, r"1200\,\mathrm{mm}"),
        (603.25, "mm", INCH, r"23\tfrac{3}{4}\,\mathrm{in}"),
        (-12.7, "mm", INCH, r"-\tfrac{1}{2}\,\mathrm{in}"),
        (25.4 / 3, "mm", INCH, r"0.333\,\mathrm{in}"),  # 21/64 in is 0.13 mm off
        (1.23e6, "mm^4", MM, r"1.23\times10^{6}\,\mathrm{mm}^{4}"),
        (12.3e-6, "1/K", MM, r"12.3\times10^{-6}\,1/\mathrm{K}"),
        (38.5 * pi / 180, "deg", MM, r"38.5{}^{\circ}"),
        (0.12, "%", MM, r"12\,\%"),
        (6.0, "", MM, "6"),
        (10.0, "N/mm^2", MM, r"10\,\mathrm{N}/\mathrm{mm}^{2}"),
        (inf, "mm", MM, r"\infty\,\mathrm{mm}"),
        (nan, "mm", MM, r"\text{undefined}\,\mathrm{mm}"),
    ],
)
def test_tex(base: float, of: str, display: Display, formula: str) -> None:
    assert tex(base, of, display) == formula


def test_an_answer_in_the_unit_typed_keeps_that_unit() -> None:
    assert show_in(600.0, "m") == "0.6 m"
    assert show_in(603.25, "in") == "23 3/4 in"
    assert show_in(100.0, "in") == "3.937 in"
    assert show_in(600.0, "mm", half=0.2) == "600 ± 0.2 mm"


@pytest.mark.parametrize(
    ("metric", "customary"),
    [
        ("mm", "in"),
        ("µm", "thou"),
        ("mm²", "in²"),
        ("mm⁴", "in⁴"),
        ("N", "lbf"),
        ("kg", "lb"),
        ("g", "oz"),
        ("MPa", "psi"),
        ("GPa", "Msi"),
        ("N·m", "lbf·in"),
        ("N/mm", "lbf/in"),
        ("kg/m³", "lb/ft³"),
        ("g/m²", "oz/yd²"),
        ("m/s", "ft/min"),
        ("m³/h", "cfm"),
        ("Pa", "inwg"),
        ("°C", "°F"),
        ("1/mm", "1/in"),
    ],
)
def test_the_reader_sees_the_counterpart_in_either_system(metric: str, customary: str) -> None:
    assert INCH.unit_for(unit(metric)) is unit(customary)
    assert MM.unit_for(unit(customary)) is unit(metric)
    assert MM.unit_for(unit(metric)) is unit(metric)
    assert INCH.unit_for(unit(customary)) is unit(customary)


@pytest.mark.parametrize("name", ["deg", "%", "s", "K", "1/K", "", "mm/m"])
def test_units_of_both_systems_stay(name: str) -> None:
    assert MM.unit_for(unit(name)) is unit(name)
    assert INCH.unit_for(unit(name)) is unit(name)


@pytest.mark.parametrize(
    ("value", "text"), [(0.04, "0.0"), (-0.04, "0.0"), (-0.0, "0.0"), (0.05, "+0.1"), (-0.05, "-0.1"), (2.0, "+2.0")]
)
def test_a_sign_stands_before_what_is_shown_as_more_or_less_than_nothing(value: float, text: str) -> None:
    assert signed(value, 1) == text
