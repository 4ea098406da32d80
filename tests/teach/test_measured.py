"""A measured value agrees with the predicted one if they differ by no more than both are known to."""

import pytest

from kit import model
from kit.core.quantity import Display
from kit.teach.measured import compare

# Similar triangles by hand: the line lies 1 mm over the scale and 499 mm under the eye, so 50 · 1 / 499 = 0.1002 mm.
# Of the givens only the gap is uncertain: evenly ± 0.3 mm is a standard uncertainty of 0.3 / √3; doubled 0.346 mm,
# over 10 it is 0.035 mm.
CASE = model("scale.cursor").at(eye_height="500 ± 0 mm", eye_offset="50 ± 0 mm", gap="1 ± 0.3 mm", line="underside")


@pytest.mark.parametrize(
    ("typed", "agrees"),
    [
        ("0.15 ± 0.04 mm", True),  # off by 0.0498; √(0.035² + 0.04²) = 0.053
        ("0.15 ± 0.03 mm", False),  # √(0.035² + 0.03²) = 0.046
        ("0.05 ± 0.03 mm", False),
        ("150 ± 40 µm", True),
    ],
)
def test_the_uncertainties_join_by_their_squares(typed: str, agrees: bool) -> None:
    found = compare(CASE, "parallax", typed, Display())
    assert found.right is agrees
    assert found.words.startswith("Predicted: 0.1002 mm, ± 0.035 mm. ")
    assert found.mistake == ("" if agrees else f"measured {'larger' if '15' in typed else 'smaller'} than predicted")


@pytest.mark.parametrize(("typed", "told"), [("0.1 mm", "has no ±"), ("0.1 ± 0.1 kg", "kg"), ("x", "x")])
def test_what_cannot_be_compared_is_told_and_tells_nothing(typed: str, told: str) -> None:
    found = compare(CASE, "parallax", typed, Display())
    assert told in found.words
    assert "Predicted" not in found.words
