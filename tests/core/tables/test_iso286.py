"""Tolerance grades and shaft deviations against the standard's own formulas, with the roundings that it documents."""

from itertools import pairwise
from math import sqrt

import pytest

from kit.core.tables import Row, table

ROWS = list(table("iso286"))
UNITS = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100, 12: 160}


def middle(row: Row) -> float:
    """Return the geometric mean of the range, mm; the standard takes 1 to 3 mm for the first."""
    return sqrt(max(row["over"], 1.0) * row["up_to"])


def test_ranges_follow_one_another_without_gap() -> None:
    assert ROWS[0]["over"] == 0
    assert ROWS[-1]["up_to"] == 500
    assert all(a["up_to"] == b["over"] for a, b in pairwise(ROWS))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
@pytest.mark.parametrize("grade", UNITS)
def test_grades_are_multiples_of_the_standard_unit(row: Row, grade: int) -> None:
    """ISO 286-1, from memory: i = 0.45 D^(1/3) + 0.001 D micrometers, IT6 = 10 i and so on.

    The printed table rounds, mostly upward to preferred numbers: by 1 micrometer or 4.5 % at the most, and up to
    16 % upward in the first range.
    """
    printed = row[f"IT{grade}"] * 1000
    D = middle(row)
    exact = UNITS[grade] * (0.45 * D ** (1 / 3) + 0.001 * D)
    if row["over"] == 0:
        assert 1 <= printed / exact < 1.16
    else:
        assert printed == pytest.approx(exact, abs=1, rel=0.045)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_five_grades_make_ten_times(row: Row) -> None:
    # From IT6 on every fifth grade is ten times as wide; the print keeps that, up to its rounding.
    assert row["IT11"] == pytest.approx(10 * row["IT6"], abs=0.011)
    assert row["IT12"] == pytest.approx(10 * row["IT7"], abs=0.011)


FACTORS = {"d": (16, 0.44), "e": (11, 0.41), "f": (5.5, 0.41), "g": (2.5, 0.34)}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
@pytest.mark.parametrize("letter", FACTORS)
def test_shaft_deviations_follow_their_power_laws(row: Row, letter: str) -> None:
    """ISO 286-1, from memory: d 16 D^0.44, e 11 D^0.41, f 5.5 D^0.41, g 2.5 D^0.34 micrometers, rounded.

    The smallest sizes are printed by hand: g is 2 there where the law gives 3.
    """
    factor, power = FACTORS[letter]
    exact = factor * middle(row) ** power
    if row["over"] == 0 and letter == "g":
        assert row["shaft_g"] * 1000 == pytest.approx(2)
    else:
        assert row[f"shaft_{letter}"] * 1000 == pytest.approx(exact, abs=1, rel=0.025)


def test_fits_at_25_mm() -> None:
    # ISO 286-2, from memory: H7 +21/0, g6 -7/-20, h6 0/-13, f7 -20/-41, H8 +33/0, h9 0/-52 micrometers
    row = table("iso286").row("18-30")
    um = {name: round(row[name] * 1000, 9) for name in row.entries}
    assert (um["IT7"], um["IT8"]) == (21, 33)
    assert (-um["shaft_g"], -um["shaft_g"] - um["IT6"]) == (-7, -20)
    assert (-um["shaft_f"], -um["shaft_f"] - um["IT7"]) == (-20, -41)
    assert (-um["IT6"], -um["IT9"]) == (-13, -52)


def test_each_figure_says_how_surely_it_is_known() -> None:
    row = table("iso286").row("400-500")
    assert (row.entry("IT11").confidence, row.entry("IT12").confidence) == ("read", "memory")
    assert row.entry("shaft_g").confidence == "memory"
    assert table("iso286").row("18-30").entry("IT12").confidence == "read"
