"""What is not a quantity: one error, one sentence that quotes it and says what is allowed."""

import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display, QuantityError, parse, unit

REFUSED = [
    # text, field, what the sentence must say
    ("", "mm", "Nothing was typed; this field takes a length such as '600 mm' or '23 3/4 in'"),
    (" \u2009 ", "deg", "Nothing was typed; this field takes an angle"),
    ("23,5 in", "mm", "has a comma; this field takes a length .* write “23.5” with a decimal point"),
    ("1,200 mm", "mm", "write “1200” if it separates thousands, “1.200” if decimals"),
    ("1,234,567 mm", "mm", "write “1234567”, with no mark between thousands"),
    ("1,234.5 mm", "mm", "write “1234.5”, with no mark between thousands"),
    ("1.234,5 mm", "mm", "write “1234.5”, with a decimal point and no other mark"),
    (", mm", "mm", "has a comma; .* write a decimal point"),
    ("1 200 mm", "mm", "two numbers in a row"),
    ("12 kg", "N", "is in kg, a mass; this field takes a force such as '60 N' or '12 lbf'"),
    ("12 lb", "N", "is in lb, a mass; this field takes a force"),
    ("60 N", "mm", "is in N, a force; this field takes a length"),
    ("12 %", "deg", "is in %, a plain number; this field takes an angle"),
    ("38 deg", "%", "is in deg, an angle; this field takes a plain number"),
    ("30'", "deg", "is in ft, a length; .* write 0° 30' or 30 arcmin"),
    ("20 °C", "K", "is a reading in °C, and a difference is wanted: type it in K"),
    ("5 °C/m", "mm", "has °C inside a compound unit; .* write K there"),
    ("1/0", "mm", "divides by zero"),
    ("23 3/0 in", "mm", "divides by zero"),
    ("1e999 mm", "mm", "too large or too small"),
    ("1e-999 mm", "mm", "too large or too small"),
    ("1×10⁹⁹⁹ mm", "mm", "too large or too small"),
    ("1e308 m", "mm", "too large a number"),
    ("1 ± 1e308 m", "mm", "too large a number"),
    ("inf", "mm", "has no number before “inf”"),
    ("nan mm", "mm", "has no number before “nan”"),
    ("-inf mm", "mm", "has no number before “inf”"),
    ("5 mm^99", "mm", "has a power that is not a whole one up to 9"),
    ("5 mm^0", "mm", "has a power that is not a whole one up to 9"),
    ("5 mm^1.5", "mm", "has a power that is not a whole one up to 9"),
    ("5 mm^9·m^9·km", "mm", "the unit “km”, which is not known"),
    ("5 kg/m·s", "mm", "multiplies after a division; .* in parentheses"),
    ("5 N/(mm", "mm", "has a parenthesis that is not closed"),
    ("5 N/((((mm))))", "mm", "lacks a unit before"),
    ("5 N/", "N", "lacks a unit at its end"),
    ("5 m·m·m·m·m·m·m·m·m", "mm", "has more than 8 units in one"),
    ("600 mm\n", "mm", r"has an invisible character, \\n"),
    ("600\u200b mm", "mm", r"has an invisible character, \\u200b"),
    ("\x00", "mm", r"has an invisible character, \\x00"),
    ("\ud800", "mm", r"has an invisible character, \\ud800"),
    ("٣ mm", "mm", "has the character “٣”"),
    ("<b>6</b>", "mm", "has the character “<”"),
    ("5 N.m", "N·m", "has the character “.”"),
    ("1_000 mm", "mm", "has the character “_”"),
    ("__import__('os')", "mm", "has the character “_”"),
    ("9**9**9", "mm", r"cannot be read from “\*\*” on"),
    ("1' 6", "mm", "has a part after the ft whose unit is not 'in'"),
    ("1' 14\"", "mm", "has 14 in after the ft, where it must be below 12"),
    ("1.5' 6\"", "mm", "has a fraction of ft and smaller parts after it"),
    ("6\" 1'", "mm", "two numbers|cannot be read from “1” on"),
    ("38° 75'", "deg", "has 75 arcmin after the deg, where it must be below 60"),
    ("38° 10\" 5'", "deg", "cannot be read from “5” on"),
    ("23 4/3 in", "mm", "has a fraction of one or more after a whole number"),
    ("23.5 3/4 in", "mm", "two numbers in a row"),
    ("1.5/2 in", "mm", "cannot be read from|lacks a unit"),
    ("1/2.5 in", "mm", "has a fraction that is not made of whole numbers"),
    ("3/4/5 in", "mm", "cannot be read from “/” on"),
    ("23 - 3/4 in", "mm", "cannot be read from “-” on"),
    ("--5 mm", "mm", "has no number before “-”"),
    ("600 ± -0.2 mm", "mm", "has no number before “-”"),
    ("600 mm ±", "mm", "has no number at its end"),
    ("600 mm ± 2 N", "mm", "has a value in mm and after ± one in N"),
    ("23 3/4 in (0.004 in)", "mm", "holds no correction with its sign"),
    ("23 3/4 in (+0.004)", "mm", "is not one number with a unit of the same kind"),
    ("600 mm 5", "mm", "cannot be read from “5” on"),
    ("about 600", "mm", "has no number before “about”"),
    ("6" * 201, "mm", "has 201 characters, where at most 200 are read"),
]


@pytest.mark.parametrize(("text", "field", "says"), REFUSED)
def test_refused(text: str, field: str, says: str) -> None:
    with pytest.raises(QuantityError, match=says) as caught:
        parse(text, field)
    sentence = str(caught.value)
    assert isinstance(caught.value, KitError)
    assert "this field takes" in sentence
    assert sentence.isprintable()
    assert len(sentence) < 260


@pytest.mark.parametrize("given", [None, 3.5, 600, b"600 mm", ["600 mm"], {}])
def test_what_is_no_text_is_refused(given: object) -> None:
    with pytest.raises(QuantityError, match=rf"A value of type {type(given).__name__} is not text"):
        parse(given, "mm")  # type: ignore[arg-type]
    with pytest.raises(QuantityError, match=rf"A value of type {type(given).__name__} is not text"):
        unit(given)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("inchs", "did you mean 'inches', 'inch' or 'in'"),
        ("mpa", r"did you mean 'MPa'\?$"),
        ("gpa", r"did you mean 'GPa'\?$"),
        ("MM", r"did you mean 'mm'\?$"),
        ("lbF", r"did you mean 'lbf'\?$"),
        ("milimeter", "did you mean 'millimeter'"),
        ("newtns", "did you mean 'newtons'"),
        ("zzz", r"which is not known$"),
        ("q" * 150, r"which is not known$"),
    ],
)
def test_an_unknown_unit_lists_its_near_misses(name: str, says: str) -> None:
    with pytest.raises(QuantityError, match=says):
        unit(name)


def test_a_unit_is_not_guessed_from_what_follows_it() -> None:
    with pytest.raises(QuantityError, match="“mm 5” is not a unit from “5” on; write a unit like 'N/mm"):
        unit("mm 5")
    with pytest.raises(QuantityError, match="too large or too small"):
        unit("m^9·GPa^9·kN^9·h^9/(nm^9·g^9·Pa^9·arcsec^9)")


@pytest.mark.parametrize(
    ("preference", "says"),
    [
        ({"system": "ft"}, "shown in 'mm' or 'in', not in 'ft'"),
        ({"denominator": 3}, "denominator of .*128.*, not 3"),
        ({"decimals": -1}, "decimals is a whole number from 0 to 12, not -1"),
        ({"decimals": True}, "decimals is a whole number"),
        ({"angle_decimals": 1.5}, "angle_decimals is a whole number"),
        ({"digits": 0}, "digits is a whole number from 1 to 12, not 0"),
    ],
)
def test_a_display_offers_what_it_offers(preference: dict[str, object], says: str) -> None:
    with pytest.raises(QuantityError, match=says):
        Display(**preference)  # type: ignore[arg-type]
