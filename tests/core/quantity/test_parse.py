"""What people type, beside what it is by definition.

The inch is 25.4 mm and the pound 0.45359237 kg exactly (international agreement of 1959). Seven-digit factors
are those of NIST SP 811, appendix B, from memory.
"""

from math import floor, log10, pi

import pytest

from kit.core.quantity import Quantity, QuantityError, parse, unit

# text, field, value in the base mm, N, s, K
LENGTHS = [
    ("23 3/4 in", 603.25),
    ('23-3/4"', 603.25),
    ("23¾ in", 603.25),
    ("23 ¾ in", 603.25),
    ("23-¾ in", 603.25),
    ("23 3⁄4 in", 603.25),
    ("23 3/4 inches", 603.25),
    ("23 3/4 in.", 603.25),
    ("1 ft. 11 3/4 in.", 603.25),
    ("23.75”", 603.25),
    ("23.75 ″", 603.25),
    ("23.75''", 603.25),
    ("23\u00a03/4\u2009in", 603.25),
    ("¾ in", 19.05),
    ("5/8 in", 15.875),
    ("1' 6 1/2\"", 469.9),
    ("1'-6 1/2\"", 469.9),
    ("1' - 6-1/2\"", 469.9),
    ("1′ 6½″", 469.9),
    ("1’6 1/2”", 469.9),
    ("1 ft 6.5 in", 469.9),
    ("1 foot 6 1/2 inches", 469.9),
    ("1ft6.5in", 469.9),
    ("1ft6 1/2in", 469.9),
    ("-1' 6\"", -457.2),
    ("2'", 609.6),
    ("1.5 ft", 457.2),
    ("-1 1/2 in", -38.1),
    ("−1 1/2 in", -38.1),
    ("+1 1/2 in", 38.1),
    ("- 1 1/2 in", -38.1),
    ("600 mm", 600.0),
    ("600mm", 600.0),
    ("  600 mm ", 600.0),
    ("600", 600.0),
    (".6 m", 600.0),
    ("0.6 m", 600.0),
    ("60 cm", 600.0),
    ("1.2e-3 m", 1.2),
    ("1.2E+3 um", 1.2),
    ("1.2×10³ µm", 1.2),
    ("1.2 x 10^3 μm", 1.2),
    ("1.2*10**-3 m", 1.2),
    ("1 yd", 914.4),
    ("5 thou", 0.127),
    ("5 mil", 0.127),
    ("23 3/4 in (+0.004 in)", 603.3516),
    ("24 in (-1/4 in)", 603.25),
]
OTHERS = [
    ("38 deg", "deg", 38 * pi / 180),
    ("38°", "deg", 38 * pi / 180),
    ("38 º", "deg", 38 * pi / 180),
    ("38° 30'", "deg", 38.5 * pi / 180),
    ("38°30′15″", "deg", 138615 / 3600 * pi / 180),
    ("38° 30' 15\"", "deg", 138615 / 3600 * pi / 180),
    ("38 deg 30 arcmin 15 arcsec", "deg", 138615 / 3600 * pi / 180),
    ('38° 15"', "deg", (38 + 15 / 3600) * pi / 180),
    ("38° 30.5'", "deg", (38 + 30.5 / 60) * pi / 180),
    ("-0° 30'", "deg", -0.5 * pi / 180),
    ("30 arcmin", "deg", 0.5 * pi / 180),
    ("1/2 rad", "deg", 0.5),
    ("60 N", "N", 60.0),
    ("1.2 kN", "N", 1200.0),
    ("12 lbf", "N", 12 * 0.45359237 * 9.80665),
    ("1.8 Msi", "GPa", 1.8e6 * 6894.757e-6),
    ("12.3 GPa", "MPa", 12300.0),
    ("12.3 GPa", "N/mm^2", 12300.0),
    ("12 %", "%", 0.12),
    ("12", "%", 0.12),
    ("12 percent", "", 0.12),
    ("0.35", "1", 0.35),
    ("6", "", 6.0),
    ("20 degC", "degC", 293.15),
    ("68 °F", "degC", 293.15),
    ("68 degF", "degC", 293.15),
    ("293.15 K", "degC", 293.15),
    ("12 K", "K", 12.0),
    ("12e-6 1/K", "1/K", 12e-6),
    ("12×10⁻⁶ /K", "1/K", 12e-6),
    ("12e-6 per K", "1/K", 12e-6),
    ("700 kg/m³", "kg/m^3", 700e-12),
    ("0.7 g/cm^3", "kg/m^3", 700e-12),
    ("5 N·m", "N·m", 5000.0),
    ("250 mm2", "mm^2", 250.0),
    ("2 m3/h", "m^3/h", 2e9 / 3600),
    ("5 Nm", "N·m", 5000.0),
    ("5 N m", "N·m", 5000.0),
    ("1.234×10⁶ mm⁴", "mm^4", 1.234e6),
    ("2 kg", "kg", 2e-3),
    ("1/2 min", "s", 30.0),
]
# One of each unit in the SI unit of NIST SP 811, appendix B (seven digits, from memory).
SP811 = [
    ("1 lbf", "N", 4.448222),
    ("1 psi", "Pa", 6894.757),
    ("1 ksi", "Pa", 6.894757e6),
    ("1 oz", "kg", 2.834952e-2),
    ("1 lb", "kg", 4.535924e-1),
    ("1 lb/ft^3", "kg/m^3", 16.01846),
    ("1 oz/yd^2", "kg/m^2", 3.390575e-2),
    ("1 lbf·in", "N·m", 1.129848e-1),
    ("1 lbf·ft", "N·m", 1.355818),
    ("1 in^4", "m^4", 4.162314e-7),
    ("1 lbf/in", "N/m", 175.1268),
    ("1 ft/min", "m/s", 5.08e-3),
    ("1 cfm", "m^3/s", 4.719474e-4),
    ("1 arcmin", "rad", 2.908882e-4),
    ("1 arcsec", "rad", 4.848137e-6),
]


@pytest.mark.parametrize(("text", "base"), LENGTHS)
def test_lengths(text: str, base: float) -> None:
    assert parse(text, "mm").base == pytest.approx(base, rel=1e-15)


@pytest.mark.parametrize(("text", "field", "base"), OTHERS)
def test_other_quantities(text: str, field: str, base: float) -> None:
    relative = 1e-6 if "Msi" in text else 1e-14  # the psi above has seven digits
    assert parse(text, field).base == pytest.approx(base, rel=relative)


@pytest.mark.parametrize(("text", "si", "value"), SP811)
def test_factors_of_the_handbook(text: str, si: str, value: float) -> None:
    half_of_the_last_digit = 0.5 * 10.0 ** (floor(log10(value)) - 6)
    assert abs(parse(text, si).to(si).value - value) <= half_of_the_last_digit


@pytest.mark.parametrize(
    ("text", "value", "half", "of"),
    [
        ("600 ± 0.2 mm", 600, 0.2, "mm"),
        ("600 mm ± 0.2 mm", 600, 0.2, "mm"),
        ("600 +/- 0.2 mm", 600, 0.2, "mm"),
        ("600 +- 0.2", 600, 0.2, "mm"),
        ("600 mm ± 0.2", 600, 0.2, "mm"),
        ("23 3/4 ± 1/64 in", 23.75, 0.015625, "in"),
        ("23 3/4 in ± 0.254 mm", 23.75, 0.01, "in"),
        ('1\' 6" ± 1/16"', 18, 0.0625, "in"),
        ("600 ± 0 mm", 600, 0.0, "mm"),
    ],
)
def test_half_widths_are_told_in_the_unit_of_the_value(text: str, value: float, half: float, of: str) -> None:
    found = parse(text, "mm")
    assert (found.value, found.unit.text) == (value, of)
    assert found.half == pytest.approx(half, rel=1e-15)


def test_a_half_width_of_a_temperature_is_a_difference() -> None:
    found = parse("68 ± 9 °F", "degC")
    assert found.base == pytest.approx(293.15, rel=1e-15)
    assert found.half_base == pytest.approx(5.0, rel=1e-15)
    assert parse("20 °C ± 1 K", "degC").half == 1.0


@pytest.mark.parametrize(
    ("text", "field", "bare"),
    [
        ("600", "mm", True),
        ("600 ± 0.2", "mm", True),
        ("600 ± 0.2 mm", "mm", False),
        ("5/8", "in", True),
        ("600 mm", "in", False),
        ("12", "%", True),
        ("6", "", False),
    ],
)
def test_a_bare_number_takes_the_unit_of_the_field_and_says_so(text: str, field: str, bare: bool) -> None:
    found = parse(text, field)
    assert found.bare is bare
    assert found.text == text
    if bare:
        assert found.unit is unit(field)


def test_quantities_change_their_unit_but_not_their_kind() -> None:
    length = parse("23 3/4 ± 1/64 in", "mm").to("mm")
    assert (length.value, length.half) == pytest.approx((603.25, 0.396875), rel=1e-15)
    assert Quantity.from_base(603.25, "in", 0.396875).value == 23.75
    with pytest.raises(QuantityError, match=r"23 3/4 ± 1/64 in is a length; it cannot be shown in N, a force"):
        parse("23 3/4 ± 1/64 in", "mm").to("N")


@pytest.mark.parametrize("text", ["23 3/4 in", "600.2 mm", "0.6 m", "600 ± 0.2 mm", "38.5°", "12 %", "6"])
def test_a_quantity_writes_itself_in_its_own_unit(text: str) -> None:
    field = {"°": "deg", "%": "%", "6": ""}.get(text[-1], "mm")
    assert str(parse(text, field)) == text


def test_a_unit_is_stated_with_its_formula() -> None:
    assert unit("mm").tex == r"\mathrm{mm}"
    assert unit("N/mm^2").tex == r"\mathrm{N}/\mathrm{mm}^{2}"
    assert unit("lbf·in").tex == r"\mathrm{lbf}{\cdot}\mathrm{in}"
    assert unit("kg/(m·s^2)").text == "kg/(m·s²)"
