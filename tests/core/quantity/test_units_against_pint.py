"""Every row of the unit table compared with pint, the outside reference for factors and dimensions."""

import pytest

from kit.core.quantity import Quantity, parse, registry, unit
from kit.core.quantity.unit_table import ROWS, RUN_TOGETHER, SPELLINGS

AXES = ("millimeter", "metric_ton", "second", "kelvin")

# Our spelling beside the same unit in pint's own grammar, which the kit never gives user text.
COMPOUNDS = {
    "N/mm^2": "newton / millimeter**2",
    "N·m": "newton * meter",
    "Nm": "newton * meter",
    "Nmm": "newton * millimeter",
    "lbf·in": "pound_force * inch",
    "in-lbf": "pound_force * inch",
    "ft-lbf": "pound_force * foot",
    "lbf ft": "pound_force * foot",
    "kg/m³": "kilogram / meter**3",
    "kg/m3": "kilogram / meter**3",
    "g/cm**3": "gram / centimeter**3",
    "lb/ft^3": "pound / foot**3",
    "g/m^2": "gram / meter**2",
    "oz/yd²": "ounce / yard**2",
    "mm²": "millimeter**2",
    "mm^3": "millimeter**3",
    "mm⁴": "millimeter**4",
    "in4": "inch**4",
    "1/K": "1 / kelvin",
    "K⁻¹": "1 / kelvin",
    "m/s": "meter / second",
    "m per s": "meter / second",
    "fpm": "foot / minute",
    "m^3/h": "meter**3 / hour",
    "ft^3/min": "foot**3 / minute",
    "N/mm": "newton / millimeter",
    "lbf/in": "pound_force / inch",
    "kg/(m·s^2)": "pascal",
    "mm/m": "millimeter / meter",
    "": "dimensionless",
    "1": "dimensionless",
}


def in_base(expression: object) -> float:
    """Return what one of a pint unit is in mm, tonne, s, K, whatever its dimension."""
    one = registry().Quantity(1.0, expression)
    powers = {"[length]": 0, "[mass]": 1, "[time]": 2, "[temperature]": 3}
    base = registry().Unit("dimensionless")
    for dimension, power in one.dimensionality.items():
        base *= registry().Unit(AXES[powers[dimension]]) ** power
    return float(one.to(base).magnitude)


def dimension(expression: object) -> tuple[float, ...]:
    found = registry().Quantity(1.0, expression).dimensionality
    return tuple(found.get(name, 0) for name in ("[length]", "[mass]", "[time]", "[temperature]"))


@pytest.mark.parametrize("name", ROWS)
def test_row_has_the_factor_offset_and_dimension_that_pint_gives(name: str) -> None:
    ours = unit(name)
    theirs = registry().Unit(ours.pint)
    assert ours.text == name
    assert ours.dim == dimension(theirs)
    if ours.offset:
        zero, hundred = (registry().Quantity(v, theirs).to("kelvin").magnitude for v in (0.0, 100.0))
        assert ours.to_base(0.0) == pytest.approx(zero, rel=1e-13)
        assert ours.to_base(100.0) == pytest.approx(hundred, rel=1e-13)
    else:
        assert ours.factor == pytest.approx(in_base(theirs), rel=4e-15)


def test_a_spelling_that_pint_knows_too_means_the_same_there() -> None:
    # A mil of the trade is a thousandth of an inch, pint's an angle of gunnery; its cfm is a centifemtometer.
    in_the_trade = {"mil", "mils", "cfm"}
    shared = [s for s in SPELLINGS if s.isidentifier() and s in registry() and s not in in_the_trade]
    assert len(shared) > 80
    for spelling in shared:
        theirs = registry().Unit(spelling)
        assert dimension(theirs) == SPELLINGS[spelling].dim, spelling
        if not SPELLINGS[spelling].offset:
            assert in_base(theirs) == pytest.approx(SPELLINGS[spelling].factor, rel=4e-15), spelling


@pytest.mark.parametrize("text", COMPOUNDS)
def test_compound_unit_is_the_one_pint_builds_from_its_own_words(text: str) -> None:
    ours, theirs = unit(text), registry().Unit(COMPOUNDS[text])
    assert ours.dim == dimension(theirs)
    assert ours.factor == pytest.approx(in_base(theirs), rel=1e-14)
    assert in_base(registry().Unit(ours.pint)) == pytest.approx(in_base(theirs), rel=1e-14)


@pytest.mark.parametrize("text", [*ROWS, *RUN_TOGETHER, *COMPOUNDS])
def test_the_text_of_a_unit_names_the_same_unit(text: str) -> None:
    assert unit(unit(text).text) is unit(text)


@pytest.mark.parametrize(
    ("text", "field", "wanted", "magnitude"),
    [
        ("23 3/4 in", "mm", "meter", 0.60325),
        ("12 lbf", "N", "newton", 53.3786593831),
        ("68 °F", "degC", "degree_Celsius", 20.0),
        ("38° 30'", "deg", "degree", 38.5),
        ("12 %", "%", "dimensionless", 0.12),
    ],
)
def test_a_quantity_becomes_a_pint_quantity(text: str, field: str, wanted: str, magnitude: float) -> None:
    assert parse(text, field).pint.to(wanted).magnitude == pytest.approx(magnitude, rel=1e-11)


def test_there_is_one_registry_and_it_is_the_one_that_pint_itself_hands_out() -> None:
    import pint

    ours = Quantity(25.4, unit("mm")).pint
    assert registry() is registry()
    assert (ours + pint.Quantity(1, "inch")).to("inch").magnitude == pytest.approx(2.0, rel=1e-15)
