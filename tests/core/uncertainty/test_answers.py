"""An answer has the digits that its uncertainty bears out: by the rule, on numbers rounded by hand."""

import pytest

from kit.core.model import Case
from kit.core.quantity import Display
from kit.core.uncertainty.answers import answered
from kit.sheet.sections import results_table
from tests.core.model.small import blank
from tests.sheet.reading import read


def known(value: str, half: str, unit: str) -> Case:
    """A result that is a given, whose expanded uncertainty is then 2/√3 of the given's half-width."""
    m = blank()
    a = m.given("a", "a", f"{value} ± {half} {unit}", (-1e6, 1e6), "a")
    m.result("b", "b", unit, "b")
    m.equals(a, "so")
    return m.done().at()


@pytest.mark.parametrize(
    ("value", "half", "unit", "answer"),
    [
        ("2716.3", "275.4", "mm^2", "2720 mm²"),  # ± 318
        ("2716.3", "2.754", "mm^2", "2716 mm²"),  # ± 3.18; four digits are all that a reader is shown
        ("812.34", "3", "mm", "812.3 mm"),  # ± 3.5
        ("812.34", "30", "mm", "812 mm"),  # ± 35
        ("816.34", "300", "mm", "820 mm"),  # ± 350
        ("38.46", "12", "deg", "38°"),  # ± 14
        ("0.1234", "0.0866", "", "0.12"),  # ± 0.10
    ],
)
def test_the_last_digit_is_the_second_of_the_uncertainty(value: str, half: str, unit: str, answer: str) -> None:
    case = known(value, half, unit)
    assert answered(case, case.model.results["b"]) == answer


def test_an_inch_fraction_is_as_coarse_as_what_is_known() -> None:
    """Of 23.594 in, ± 1.2 in bears out halves, ± 0.125 in sixteenths, 5/8 the nearest, ± 0.02 in what one reads."""
    reader = Display(system="in", denominator=32)
    shown = []
    for half in ("1.04", "0.1083", "0.02"):
        case = known("23.594", half, "in")
        shown.append(answered(case, case.model.results["b"], reader))
    assert shown == ["23 1/2 in", "23 5/8 in", "23 19/32 in"]


def test_the_table_of_results_answers_so() -> None:
    row = read(results_table(known("2716.3", "275.4", "mm^2"))).one("tbody").text
    assert "2720 mm²" in row
    assert "± 320 mm²" in row
