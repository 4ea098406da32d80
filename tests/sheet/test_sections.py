"""The pieces of a sheet: they show what the case says, in the reader's units, and escape what people typed."""

import pytest
import sympy as sp

from kit import subjects
from kit.core.model import Case, Model, Stated
from kit.core.quantity import Display, ValueOrigin, unit
from kit.core.uncertainty import budget, monte_carlo
from kit.core.verdict import Verdict
from kit.sheet import sections
from kit.sheet.carried import carried
from kit.sheet.numbers import sensitivity, uncertainty, with_digits
from tests.core.model.small import blank
from tests.sheet.calculator import number
from tests.sheet.conftest import HOSTILE
from tests.sheet.reading import read

DISPLAYS = [Display(), Display(system="in")]


@pytest.mark.parametrize("display", DISPLAYS)
def test_results_show_what_the_case_says(stop: Case, display: Display) -> None:
    table = read(sections.results_table(stop, display))
    for name in stop.model.results:
        shown, spread = (table.one(data_testid=f"{what}-{name}").text for what in ("value", "u"))
        away = abs(number(shown) - number(stop.show(name, display)))
        assert away <= (number(spread.removeprefix("± ")) / 4 if spread.startswith("±") else 0), "as far as it is known"
    assert len(table.all("tr")) == len(stop.model.results) + 1


@pytest.mark.parametrize("display", DISPLAYS)
def test_givens_show_value_span_and_source(stop: Case, display: Display) -> None:
    table = read(sections.givens_table(stop, display))
    for name, given in stop.model.free.items():
        row = next(r for r in table.all("tr") if r.all(data_testid=f"given-{name}"))
        assert row.one(data_testid=f"given-{name}").text == stop.show(name, display)
        assert given.meaning in row.text
        assert given.span_text(display) in row.text
        assert row.one(data_testid=f"state-{name}").text == stop.entries[name].origin.state
        assert stop.entries[name].origin.source in row.text


def test_what_was_typed_without_a_unit_or_measured_says_so(stop: Case) -> None:
    case = stop.with_(long_reach=Stated("700", origin=ValueOrigin("measured", "2026-04-30", "tape", "me", "shop book")))
    text = read(sections.givens_table(case)).text
    assert "700.0 ± 1 mm (unit assumed) (± not stated, the usual one)" in text
    assert "shop book; tape; on 2026-04-30 by me" in text


def test_an_example_is_never_said_to_be_measured(stop: Case) -> None:
    row = read(sections.givens_table(stop)).one("tbody").all("tr")
    reach = next(each for each in row if each.all(data_testid="given-long_reach"))
    assert reach.one(data_testid="state-long_reach").text == "example"
    assert f"to be measured: {stop.model.givens['long_reach'].how}" in reach.text


def box(case: Case) -> str:
    judged = Verdict(case.checks, case.cautions)
    return sections.verdict_box(judged, more=sections.outside_list(case))


def test_limits_carry_word_and_shape_besides_color(stop: Case) -> None:
    failing = stop.with_(allowed="0.02 mm")
    item = read(sections.checks_list(failing.checks)).one(data_testid="limit-tip")
    assert item.text.startswith("✗ fails")
    assert "to mend it" in item.text
    assert read(sections.checks_list(stop.checks)).one(data_testid="limit-tip").text.startswith("✓ holds")


def test_the_verdict_comes_in_words(stop: Case) -> None:
    assert "All 3 limits hold" in read(box(stop)).text
    failing = read(box(stop.with_(allowed="0.02 mm")))
    assert "1 of 3 limits fails" in failing.text
    assert len(failing.all("li")) == 1


def test_what_is_knowingly_outside_is_told_beside_the_verdict(stop: Case) -> None:
    outside = stop.with_(beyond=frozenset({"long_reach"}), long_reach="4 m")
    text = read(box(outside)).text
    assert "Outside the model: long_reach is 4 m; this model holds for" in text
    assert "left knowingly" in read(sections.givens_table(outside)).text


def test_the_derivation_has_every_relation_with_lines_reasons_numbers_and_value(stop: Case) -> None:
    listed = read(sections.derivation(stop))
    steps = listed.one("ol").all("li")
    assert len(steps) == len(stop.model.relations)
    for step, relation in zip(steps, stop.model.relations.values(), strict=True):
        answer = step.one(data_testid=f"derived-{relation.name}").text
        if relation.result:
            assert answer == read(sections.results_table(stop)).one(data_testid=f"value-{relation.name}").text
        else:
            assert number(answer) == pytest.approx(stop[relation.name].value, rel=1e-3, abs=1e-9)
        for line in relation.lines:
            assert line.because in step.text
        assert relation.because in step.text
    bending = steps[list(stop.model.relations).index("bending_tip")].text
    assert "( 600 mm ) 3" in bending.replace("  ", " "), "the push's arm is put in as a number with its unit"


def test_numbers_in_formulas_lead_to_the_number_shown() -> None:
    """Two test cuts: (1400.45 - 320.2)/1080 = 1.000231 and 320.2 - 1.000231 · 320 = 0.126, with these digits."""
    case = subjects.model("scale.calibration").at(
        reading_1="320 mm", reading_2="1400 mm", part_1="320.2 mm", part_2="1400.45 mm"
    )
    numbers = carried(case)
    assert numbers.givens["part_2"] == "1400.45\u00a0mm"
    assert numbers.lines["slope"].text == "1.000231"
    assert numbers.lines["zero"].text == "0.12608\u00a0mm"
    assert case.show("zero") == "0.13 mm"


def test_numbers_in_formulas_are_decimals_with_units() -> None:
    case = subjects.model("stop.deflection").at(long_reach="23 3/4 in")
    assert carried(case, Display(system="in")).givens["long_reach"] == "23.75\u00a0in"
    assert carried(case, Display()).givens["long_reach"] == "603.25\u00a0mm"
    angles = carried(subjects.model("bevel.frame").at(slope="38 deg")).givens
    assert angles["slope"] == "38°"
    assert angles["sides"] == "6"


def test_a_number_below_zero_stands_in_parentheses(bar: Model) -> None:
    m = blank("test.two")
    a = m.given("a", "a", "-2 mm", (-5, 5), "a")
    b = m.result("b", "b", "mm", "b")
    m.equals(3 * a, "it is so")
    m.result("c", "c", "mm^2", "c")
    m.equals(a * b, "so it is")
    assert carried(m.done().at()).lines["c"].slots["a"] == "(−2\u00a0mm)"


def test_the_budget_agrees_with_the_sums_by_hand(bar: Model) -> None:
    """δ = F L³/(3 E I): relative sensitivities 1, 3, −3, −1 (I goes with h³), so u by hand from u/x of each."""
    case = bar.at()
    text = read(sections.budget_table(case, "tip")).text
    delta = case.base["tip"]
    push, modulus = 5 / 3**0.5 / 50, 1.2 / 6**0.5 / 12
    height, length = 3 * (0.1 / 2) / 30, 3 * (0.5 / 3**0.5) / 600
    u = delta * float(sp.sqrt(push**2 + modulus**2 + height**2 + length**2))
    assert f"± {2 * u:.2g} mm" in text
    assert f"{delta * push:.3g}" in text
    assert f"{100 * (delta * push / u) ** 2:.0f} %" in text
    assert "rectangular ± 5 N" in text
    assert "triangular ± 1.2 GPa" in text


def test_givens_that_bring_next_to_nothing_share_a_row(bar: Model) -> None:
    """Of the bar: height 3·0.05/30 and length 3·0.289/600, together 0.0052 of the movement, by hand."""
    case = bar.at()
    rows = read(sections.budget_table(case, "tip")).one("tbody").all("tr")
    together = [row.text for row in rows if "together" in row.text]
    assert together == [f"h , L : together {0.005204 * case.base['tip']:.4g} mm 1 %"]


def test_shares_and_contributions_are_in_the_readers_units(bar: Model) -> None:
    """1 mm/N is 4.448 N/lbf over 25.4 mm/in, 0.1751 in/lbf."""
    assert sensitivity(1.0, unit("mm"), unit("N"), Display(system="in")) == "0.175\u00a0in/lbf"
    assert uncertainty(0.254, unit("mm"), Display(system="in")) == "0.010\u00a0in"
    assert with_digits(25.4, unit("mm"), Display(system="in"), 4) == "1\u00a0in"


def test_monte_carlo_stands_beside_the_budget(bar: Model) -> None:
    case = bar.at()
    draws = monte_carlo(case, ("tip",), draws=20_000)["tip"]
    text = read(sections.budget_table(case, "tip", draws=draws)).text
    assert "Monte Carlo, 20,000 draws" in text
    assert uncertainty(draws.u, unit("mm"), None).replace("\u00a0", " ") in text


def test_a_result_at_the_top_of_a_hill_has_no_uncertainty_to_first_order() -> None:
    """The likelihood that both tails leave is greatest in the middle of the band; by symmetry its slope is 0 there."""
    case = subjects.model("level.pads").at()
    text = read(sections.results_table(case)).text
    assert case.model.results["chance"].meaning.capitalize() in text
    assert "99.2 % none to first order" in text


def test_correlations_change_the_budget_and_are_named(bar: Model) -> None:
    case = bar.at()
    linked = {("push", "modulus"): 0.9}
    text = read(sections.budget_table(case, "tip", correlations=linked)).text
    assert "Correlations: push at the end and modulus 0.9" in text
    expected = uncertainty(2 * budget(case, "tip", linked).u, unit("mm"), None).replace("\u00a0", " ")
    assert f"± {expected}" in text


def test_without_uncertainty_there_is_a_sentence_and_no_table() -> None:
    m = blank("test.one")
    a = m.given("a", "a", "2 mm", (1, 5), "a")
    m.result("b", "b", "mm", "b")
    m.equals(3 * a, "it is so")
    case = m.done().at()
    assert "No uncertainty is stated" in sections.budgets(case)
    assert "none stated" in sections.results_table(case)
    assert "No limit is stated." in box(case)


def test_where_a_result_has_no_slope_the_value_stands_and_the_budget_says_so() -> None:
    """A root has no slope at zero."""
    m = blank("test.root")
    a = m.given("a", "a", "0 ± 1 mm^2", (0, 5), "a")
    m.result("b", "b", "mm", "b")
    m.equals(sp.sqrt(a), "it is so")
    case = m.done().at()
    assert "no slope here" in sections.results_table(case)
    assert "No budget: b has no slope at this point" in read(sections.budgets(case)).text


def test_the_figure_is_the_models_own_and_its_ids_are_its_own(stop: Case) -> None:
    picture = read(sections.figure(stop, ids="a-1", caption=True))
    assert picture.one("svg").attributes["aria-labelledby"] == "a-1-title a-1-desc"
    assert picture.one("figcaption").text == stop.model.picture


def test_the_static_view_is_the_whole_sheet_without_marks_for_tests(stop: Case) -> None:
    html = sections.static(stop, ids="static")
    assert "data-testid" not in html
    text = read(html).text
    for name in stop.model.results:
        assert stop.show(name) in text
    assert stop.model.assumptions[0][1:] in text


def test_what_a_person_typed_is_text_and_stays_text(stop: Case) -> None:
    case = stop.with_(long_reach=Stated("700 ± 1 mm", origin=ValueOrigin("measured", *[HOSTILE] * 5)))
    html = sections.givens_table(case)
    assert "<script" not in html
    assert "<img" not in html
    assert " ".join(HOSTILE.split()) in read(html).text


def test_degrees_of_freedom_show_only_where_they_are_finite(bar: Model) -> None:
    case = bar.at(length=Stated("600 ± 3 mm", spread="normal", k=1, dof=4))
    found = budget(case, "tip")
    text = read(sections.budget_table(case, "tip")).text
    assert "4 degrees of freedom" in text
    assert f"k = {found.k_for(0.95):.2f} for 95 % at {int(found.dof):,} effective degrees of freedom" in text
    assert "degrees of freedom" not in read(sections.budget_table(bar.at(), "tip")).text
