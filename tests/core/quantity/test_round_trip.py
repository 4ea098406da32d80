"""What is shown reads back as what was meant, within the rounding that the rules of `show` allow."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.core.quantity import Display, Quantity, parse, show, show_in, unit
from kit.core.quantity.unit_table import ROWS

DERANDOMIZED = settings(max_examples=400, derandomize=True, deadline=None)

lengths = st.one_of(
    st.floats(-1e6, 1e6),
    st.floats(-10, 10),
    st.integers(-100_000, 100_000).map(lambda n: n / 128 * 25.4),
    st.floats(1e-6, 1e12),
)
displays = st.builds(
    Display,
    system=st.sampled_from(["mm", "in"]),
    denominator=st.sampled_from([2, 4, 8, 16, 32, 64, 128]),
    decimals=st.integers(0, 4),
    angle_decimals=st.integers(0, 3),
    digits=st.integers(2, 8),
)
stated_widths = st.one_of(st.none(), st.floats(1e-4, 10))
units = st.sampled_from(
    [
        *ROWS,
        "N/mm²",
        "kg/m³",
        "g/m²",
        "oz/yd²",
        "lbf·in",
        "N·m",
        "mm⁴",
        "in⁴",
        "1/K",
        "m/s",
        "N/mm",
        "lbf/in",
        "mm/m",
    ]
)


@DERANDOMIZED
@given(base=lengths, display=displays, half=stated_widths, resolution=stated_widths)
def test_lengths(base: float, display: Display, half: float | None, resolution: float | None) -> None:
    text = show(base, "mm", display, half=half, resolution=resolution)
    limits = [0.25 * half] if half else []
    limits += [0.5 * resolution] if resolution else []
    allowed = min(limits) if limits else 0.1
    if abs(base) >= 1e7:  # significant digits from there on
        allowed = max(allowed, abs(base) * 0.6 * 10.0 ** (1 - display.digits))
    back = parse(text, "mm")
    assert abs(back.base - base) <= allowed * (1 + 1e-6) + 2e-15 * abs(base) + 1e-6
    if half is not None:
        assert back.half_base == pytest.approx(half, rel=0.06)  # two significant digits


@DERANDOMIZED
@given(base=lengths, display=displays)
def test_what_is_shown_without_a_note_is_the_nearest_fraction(base: float, display: Display) -> None:
    text = show(base, "mm", display)
    if display.system == "in" and "/" in text and "(" not in text:
        shown = Fraction(parse(text, "in").value)
        assert shown.denominator <= display.denominator
        assert abs(shown - Fraction(base / 25.4)) <= Fraction(1, 2 * display.denominator)


@DERANDOMIZED
@given(turns=st.floats(-2, 2), display=displays, resolution=stated_widths)
def test_angles(turns: float, display: Display, resolution: float | None) -> None:
    base = turns * 6.283185307179586
    text = show(base, "deg", display, resolution=resolution)
    step = 10.0**-display.angle_decimals * unit("deg").factor
    allowed = 0.5 * resolution if resolution else 0.5 * step  # a stated resolution sets the decimals
    assert text.endswith("°")
    assert abs(parse(text, "deg").base - base) <= allowed * (1 + 1e-9) + 1e-10


@DERANDOMIZED
@given(value=st.floats(1e-8, 1e9), negative=st.booleans(), of=units, display=displays)
def test_all_units(value: float, negative: bool, of: str, display: Display) -> None:
    stated = unit(of)
    base = stated.to_base(-value if negative else value)
    seen = display.unit_for(stated)
    if seen.text in ("mm", "in", "deg"):
        return  # by rules of their own, above
    back = parse(show(base, stated, display), stated)
    allowed = abs(seen.from_base(base)) * 0.6 * 10.0 ** (1 - display.digits) * seen.factor
    assert abs(back.base - base) <= allowed + 1e-12 * abs(stated.offset)
    assert back.unit.dim == stated.dim
    assert not back.bare


@DERANDOMIZED
@given(value=st.floats(-1e8, 1e8).filter(lambda v: v == 0 or abs(v) > 1e-200), half=stated_widths, of=units)
def test_quantities_as_text(value: float, half: float | None, of: str) -> None:
    meant = Quantity(value, unit(of), half)
    back = parse(str(meant), of)
    assert back.unit is meant.unit
    smallest = 1e-6 / 128 if of == "in" else 0.0
    assert abs(back.value - value) <= 1e-11 * abs(value) + 2 * smallest + 1e-12 * abs(meant.unit.offset)
    if half is not None:
        assert back.half is not None
        assert abs(back.half - half) <= 1e-11 * half + 2 * smallest


@DERANDOMIZED
@given(base=st.floats(-1e-9, 1e-9), of=units, display=displays)
def test_nothing_is_shown_as_minus_zero(base: float, of: str, display: Display) -> None:
    for text in (show(base, of, display), show_in(base, of)):
        if text.startswith("-"):
            assert any(digit in "123456789" for digit in text.partition("×")[0].partition(" ")[0])
