"""Scale strip, calibration by many cuts, wall table and repeated parts, against hand work and other libraries."""

import csv
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from kit.core.build import Build
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.subjects import model, subject
from kit.subjects.reading.block_build import BlockScale
from tests.builds import build_input
from tests.drawing.pdf_reading import pages
from tests.drawing.reading import read

MM, INCHES = Display(), Display(system="in")


def build(
    name: str,
    shape: dict[str, Any],
    display: Display = MM,
    *,
    takes: dict[str, Build] | None = None,
    **givens: Any,
) -> Build:
    """What the work of a model makes of a shape, the rest as the model has it."""
    work = subject(name)
    assert work is not None
    return work.build(build_input(model(name).at(**givens), shape, takes, display=display))


# -- the strip ----------------------------------------------------------------------------------------


def strip(**shape: Any) -> Build:
    """Cut at 252 - 0.55 - 32 = 219.45 mm: teeth 3.2, plate 2.2, run-out 0.1."""
    givens: dict[str, Any] = {
        "kerf": "3.2 mm",
        "plate": "2.2 mm",
        "runout": "0.1 mm",
        "datum": "252 mm",
        "cursor": "32 mm",
    }
    return build("scale.zero", shape, takes={"block": Build(data=BlockScale(400.0, 220.0, 900.0))}, **givens)


def numbers(path: Path) -> dict[str, float]:
    """Where the numbers on the strip's SVG stand, mm from the strip's left end."""
    drawn = read(path.read_text())
    (frame,) = [line for line in drawn.lines("construction") if len(line) == 4]
    left = min(x for x, _ in frame)
    return {text: float(item.attrib["x"]) - left for text, item in drawn.words().items() if text.isdigit()}


def test_the_strip_begins_at_the_mark_and_its_second_row_a_block_further_on(tmp_path: Path) -> None:
    found = strip(to="900 mm")
    (_, svg) = found.output("strip").write(tmp_path, "zero", MM)
    at = numbers(svg)
    assert at["800"] == pytest.approx(800 - 219.45, abs=0.01)
    assert at["300"] == pytest.approx(400 + 300 - 219.45, abs=0.01)  # the second row's, over a block of 400 mm
    assert found.number("first").base == pytest.approx(219.45, abs=1e-9)


def test_the_strip_is_drawn_larger_for_a_printer_that_prints_small(tmp_path: Path) -> None:
    found = strip(to="900 mm", printer={"x": "100 mm", "y": "99 mm"})
    pdf, svg = found.output("strip").write(tmp_path, "zero", MM)
    at = numbers(svg)
    assert at["800"] - at["600"] == pytest.approx(200 * 100 / 99, abs=0.01)
    assert len(pages(pdf.read_bytes())) > 2


def test_a_strip_that_ends_before_the_blocks_scale_is_told() -> None:
    assert strip(to="900 mm").ok
    (told,) = [held.words() for held in strip(to="880 mm").checks if not held.ok]
    assert told.startswith(
        "by the block's scale, the strip ends at reading 880.0 mm, 20.0 mm less than the 900.0 mm needed"
    )
    with pytest.raises(KitError, match=r"name a part with the model 'reading\.block'"):
        build("scale.zero", {}, takes={"block": build("reading.cuts", {})})


def test_a_mark_below_zero_is_no_strip() -> None:
    with pytest.raises(KitError, match=r"would begin at -4.* begin the recess farther"):
        build("scale.zero", {}, datum="28 mm", cursor="32 mm")


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        ({"to": "900 kg"}, r"to: .*mass"),
        ({"to": True}, r"to is True; write a quantity"),
        ({"division": "fine"}, r"division is 'fine'; write a whole number"),
        ({"printer": "99 mm"}, r"printer is '99 mm'; write a table such as { x = …, y = … }"),
        ({"printer": {"x": "90 mm"}}, r"90.*must come out between 95 and 105 mm"),
        ({"too": "900 mm"}, r"unknown input 'too'; did you mean 'to'"),
        ({"to": "220 mm"}, r"strip's length is 0.55 mm"),
    ],
)
def test_a_strip_that_cannot_be_printed_gets_one_sentence(shape: dict[str, Any], told: str) -> None:
    with pytest.raises(KitError, match=told):
        strip(**shape)


# -- calibration --------------------------------------------------------------------------------------

READINGS = np.array([300.0, 1100.0, 500.0, 700.0, 900.0])
PARTS = np.array([300.25, 1100.5, 500.31, 700.3, 900.44])
U = np.array([0.08, 0.08, 0.08, 0.12, 0.08])
CUTS = [
    {"reading": "500 mm", "part": "500.31 mm"},
    {"reading": "700 mm", "part": "700.3 mm", "u": "0.12 mm"},
    {"reading": "900 mm", "part": "900.44 mm"},
]


def test_five_cuts_against_the_fit_of_another_library() -> None:
    """numpy.polyfit, weights 1/u, covariance not scaled: slope and zero with their uncertainties."""
    found = build("scale.calibration", {"cuts": CUTS}, coverage="2", rule_error="0 mm/m")
    (slope, zero), covariance = np.polyfit(READINGS, PARTS, 1, w=1 / U, cov="unscaled")
    assert found.number("zero").base == pytest.approx(zero, rel=1e-9)
    assert found.number("scale").base == pytest.approx(slope - 1, rel=1e-9)
    assert found.number("zero").half == pytest.approx(2 * np.sqrt(covariance[1, 1]), rel=1e-9)
    assert found.number("scale").half == pytest.approx(2 * np.sqrt(covariance[0, 0]), rel=1e-9)
    assert found.number("set_to").base == pytest.approx((800 - zero) / slope, rel=1e-12)
    assert [held.ok for held in found.checks] == [True, True, True]


def test_two_cuts_say_what_the_model_says() -> None:
    case = model("scale.calibration").at()
    found = build("scale.calibration", {})
    assert found.number("zero").base == pytest.approx(case.base["zero"], rel=1e-12)
    assert found.number("expanded").base == pytest.approx(case.base["expanded"], rel=1e-12)


def test_the_table_says_where_to_trust() -> None:
    found = build(
        "scale.calibration", {"cuts": CUTS, "step": "200 mm"}, allowed="0.1 mm", coverage="2", rule_error="0 mm/m"
    )
    rows = found.rows("Which reading to trust where").rows
    assert [row[0] for row in rows[:2]] == ["200.0 mm", "400.0 mm"]
    trusted = {row[0]: row[3] for row in rows}
    assert trusted["800.0 mm"] == "yes"
    assert trusted["1400.0 mm"].startswith("no")


def test_a_slip_of_the_rule_is_found() -> None:
    slip = [*CUTS[:2], {"reading": "900 mm", "part": "901.44 mm"}]
    found = build("scale.calibration", {"cuts": slip})
    failed = {held.name: held.words() for held in found.checks if not held.ok}
    assert {*failed} == {"scatter", "slip"}
    assert "cut 5" in failed["slip"]
    assert "measure that part again" in failed["slip"]


@pytest.mark.parametrize(
    ("cuts", "told"),
    [
        ([{"reading": "500 mm"}], r"cuts, number 1: part is not stated; add part"),
        ([{"reading": "500 mm", "part": "0.5 kg"}], r"cuts, number 1: part: .*mass"),
        ([{"reading": "500 mm", "part": "500 mm", "u": "0 mm"}], r"cuts, number 1: u is 0 mm; allowed is 0.001 mm"),
        ("500 mm", r"cuts is '500 mm'; write a list"),
    ],
)
def test_a_cut_that_cannot_be_read_gets_one_sentence(cuts: Any, told: str) -> None:
    with pytest.raises(KitError, match=told):
        build("scale.calibration", {"cuts": cuts})


# -- the wall's table ---------------------------------------------------------------------------------


def test_the_wall_in_inch_fractions(tmp_path: Path) -> None:
    """A 16 in block: 9 7/16 in is read at 25 7/16 in, the hand 2 in nearer (worked by hand)."""
    shape = {"step": "1/16 in", "first": "9 3/8 in", "last": "9 1/2 in"}
    givens: dict[str, Any] = {"block": "16 in", "knob": "2 in", "scale_from": "12 in", "scale_to": "48 in"}
    found = build("reading.block", shape, INCHES, **givens)
    assert found.rows("For the wall").rows[1] == ("9 7/16 in", "over the block", "25 7/16 in", "23 7/16 in")
    (path,) = found.output("wall_list").write(tmp_path, "saw", INCHES)
    with path.open(newline="") as file:
        assert list(csv.reader(file))[2][2] == "25 7/16 in"


def test_the_wall_as_a_card_names_every_row(tmp_path: Path) -> None:
    found = build("reading.block", {"step": "100 mm", "first": "100 mm"})
    rows = found.rows("For the wall").rows
    assert rows[0][1] == "no safe way"  # fence gap 25 and 120 held: 145 mm at least
    assert "1 of 15 lengths have no safe way" in found.cautions[1]
    pdf, svg = found.output("wall").write(tmp_path, "stop", MM)
    words = read(svg.read_text()).words()
    assert {cell for row in rows for cell in row} <= {*words}
    assert any(text.startswith("Holds for the block of 400.0 mm") for text in words)
    assert len(pages(pdf.read_bytes())) == 1


def test_lengths_just_held_are_safe_in_inches_too() -> None:
    """6 in less a gap of 1 in are 5 in held, though not in binary fractions of a millimeter."""
    givens: dict[str, Any] = {
        "block": "16 in",
        "knob": "2 in",
        "scale_from": "12 in",
        "scale_to": "48 in",
        "fence_gap": "1 in",
    }
    found = build("reading.block", {"step": "2 in"}, INCHES, held_least="5 in", keep_off="6 in", **givens)
    assert found.rows("For the wall").rows[0][:3] == ("6 in", "over the block", "22 in")


def test_a_block_longer_than_the_scale_has_no_table() -> None:
    with pytest.raises(KitError, match=r"block is long 1400 mm, 150 mm more than the 1250 mm allowed"):
        build("reading.block", {}, block="1400 mm")


@pytest.mark.parametrize(
    ("name", "shape", "told"),
    [
        ("reading.block", {"step": "0 mm"}, r"step is 0 mm; allowed is 0.01 mm"),
        ("reading.block", {"step": "0.1 mm"}, r"take a longer step, at most 2000"),
        (
            "reading.block",
            {"first": "800 mm", "last": "300 mm"},
            r"no whole step of 50 mm lies between 800 mm and",
        ),
        (
            "reading.cuts",
            {"boards": ["3000 mm", "-2 m"]},
            r"boards, number 2: boards is -2 m; allowed is 0.001 m",
        ),
        (
            "scale.calibration",
            {"step": "1 mm"},
            r"step is 1.0 mm; it must be at least .* for a table of 200 rows",
        ),
        ("scale.calibration", {"step": "0 mm"}, r"step is 0 mm; allowed is 0.1 mm"),
    ],
)
def test_a_table_that_cannot_be_gets_one_sentence(name: str, shape: dict[str, Any], told: str) -> None:
    with pytest.raises(KitError, match=told):
        build(name, shape)


# -- repeated parts -----------------------------------------------------------------------------------


def test_blocking_from_boards_on_hand() -> None:
    """Eight inches with a kerf of 1/8 in: 11 from 8 ft, 5 from 4 ft (48/8.125 = 5.9), worked by hand."""
    givens: dict[str, Any] = {
        "part": "8 in",
        "kerf": "0.125 in",
        "trim": "0 mm",
        "tail_least": "0 mm",
        "wanted": 16,
    }
    found = build("reading.cuts", {"boards": ["96 in", "48 in"]}, INCHES, stock="96 in", **givens)
    assert found.data == 16
    assert found.checks[0].ok
    assert [row[2] for row in found.rows("Boards on hand").rows] == ["11", "5"]
    cuts = found.rows("Parts from a board, by number").rows
    assert [row[1] for row in cuts[:2]] == ["8 in", "16 1/8 in"]
    assert cuts[-1][2] == "6 5/8 in"  # 96 - 11 · 8.125
    short = build("reading.cuts", {"boards": ["96 in"]}, INCHES, stock="96 in", **givens)
    assert short.checks[0].words() == (
        "parts from the boards on hand: 11, 5 less than the 16 needed; to mend it, take one more board, or a longer one"
    )


def test_a_stack_of_nine() -> None:
    """9 · 0.05 = 0.45 mm of bias, 2 √9 · 0.06 = 0.36 mm by chance."""
    found = build("reading.cuts", {}, wanted=9, bias="0.05 mm", spread="0.06 mm", part="100 mm")
    assert found.rows("The stack of parts").rows[-1] == ("9", "900.0 mm", "0.45 mm", "± 0.36 mm")


def test_a_display_of_inches_changes_words_and_no_number() -> None:
    inputs = build_input(model("reading.cuts").at(), display=MM)
    work = subject("reading.cuts")
    assert work is not None
    assert work.build(inputs).data == work.build(replace(inputs, display=INCHES)).data
