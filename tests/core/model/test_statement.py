"""What the author of a topic is told when a statement is wrong."""

import re

import pytest
import sympy as sp

from kit.core.model import DimensionError, Model, ModelError, equal
from tests.core.model.small import blank


@pytest.fixture
def m() -> Model:
    model = blank()
    model.given("length", "L", "mm", 600, span=(100, 2000), meaning="length")
    model.given("push", "F", "N", 50, span=(0, 500), meaning="push")
    return model


def at(m: Model, name: str) -> sp.Symbol:
    return m.part(name).symbol


def says(*parts: str) -> str:
    return ".*".join(re.escape(part) for part in parts)


# -- dimensions ---------------------------------------------------------------------------------------


def test_relation_of_the_wrong_dimension(m: Model) -> None:
    with pytest.raises(DimensionError, match=says("'area'", "mm²", "length^2", "length^3")):
        m.relation("area", "A", "mm^2", at(m, "length") ** 3, because="wrong")


def test_relation_in_another_unit_of_the_dimension(m: Model) -> None:
    work = m.result("work", "W", "kN*m", at(m, "push") * at(m, "length"), because="force times way")
    m.done()
    assert m.at()["work"].value == pytest.approx(0.030, rel=1e-14)  # 50 N · 0.6 m = 30 N·m
    assert m.at().value[work.name] == pytest.approx(30_000, rel=1e-14)


def test_line_of_the_wrong_dimension(m: Model) -> None:
    L = at(m, "length")
    with pytest.raises(DimensionError, match=says("a line of 'area'", "length", "length^2")):
        m.relation("area", "A", "mm^2", L**2, because="it is square", lines=[(2 * L, "wrong")])


def test_equation_line_of_the_wrong_dimension(m: Model) -> None:
    L, F = at(m, "length"), at(m, "push")
    with pytest.raises(DimensionError, match=says("length", "length·mass/time^2")):
        m.relation("area", "A", "mm^2", L**2, because="square", lines=[(equal(L, F), "wrong")])


def test_matrix_line_is_checked_element_by_element(m: Model) -> None:
    L, F = at(m, "length"), at(m, "push")
    with pytest.raises(DimensionError, match="length"):
        m.relation(
            "area", "A", "mm^2", L**2, because="square",
            lines=[(equal(sp.Matrix([L, F]), sp.Matrix([L, L])), "wrong below")],
        )  # fmt: skip


@pytest.mark.parametrize("shape", [(3, 1), (1, 2)])
def test_matrix_line_of_two_shapes(m: Model, shape: tuple[int, int]) -> None:
    L = at(m, "length")
    line = equal(sp.Matrix([L, L]), sp.ones(*shape) * L)
    with pytest.raises(
        ModelError, match=says("a line of 'area'", f"2 × 1 and {shape[0]} × {shape[1]}", "one shape")
    ):
        m.relation("area", "A", "mm^2", L**2, because="square", lines=[(line, "misfit")])


def test_trivial_line_is_refused(m: Model) -> None:
    L = at(m, "length")
    with pytest.raises(ModelError, match="not yet known"):
        m.relation("area", "A", "mm^2", L**2, because="square", lines=[(sp.Eq(L, L), "says nothing")])


def test_line_with_the_symbol_being_stated(m: Model) -> None:
    L, side = at(m, "length"), sp.Symbol("side", real=True)
    m.relation("side", "s", "mm", L / 4, because="a quarter", lines=[(equal(4 * side, L), "four of them")])
    assert m.relations["side"].lines[0].because == "four of them"


def test_limit_of_the_wrong_dimension(m: Model) -> None:
    with pytest.raises(DimensionError, match=says("limit 'long'", "length", "length·mass/time^2")):
        m.limit("long", "it is", value=at(m, "length"), allowed=at(m, "push"), mend="shorten it")


def test_limit_shown_in_the_wrong_unit(m: Model) -> None:
    with pytest.raises(DimensionError, match=says("limit 'long'", "shown in kg", "mass", "length")):
        m.limit("long", "it is", value=at(m, "length"), allowed=5, in_unit="kg", mend="shorten it")


@pytest.mark.parametrize("threshold", [1, 1000.0])
def test_caution_with_a_bare_threshold(m: Model, threshold: float) -> None:
    with pytest.raises(DimensionError, match=says("a caution", "length", "a plain number")):
        m.caution("Long.", when=at(m, "length") > threshold)


def test_caution_with_zero_as_threshold(m: Model) -> None:
    m.caution("Pushed.", when=at(m, "push") > 0)
    assert len(m.cautions) == 1


def test_symbol_of_another_model(m: Model) -> None:
    stray = blank("test.other").given("height", "h", "mm", 3, span=(1, 5), meaning="height")
    with pytest.raises(DimensionError, match="height is not a given"):
        m.relation("area", "A", "mm^2", at(m, "length") * stray, because="wrong")


# -- names --------------------------------------------------------------------------------------------


def test_names_are_stated_once(m: Model) -> None:
    L = at(m, "length")
    m.pick("wood", table="woods", row="red oak", fills={"length": "E_L"}, meaning="the wood")
    for again in (
        lambda: m.given("length", "l", "mm", 1, span=(0, 2), meaning="again"),
        lambda: m.count("push", "n", 1, span=(0, 2), meaning="again"),
        lambda: m.choice("length", "c", ("a", "b"), "a", meaning="again"),
        lambda: m.constant("length", "c", "mm", 1, meaning="again", source="none"),
        lambda: m.relation("length", "l", "mm", L, because="again"),
        lambda: m.relation("wood", "l", "mm", L, because="again"),
        lambda: m.pick("length", table="woods", row="red oak", fills={}, meaning="again"),
    ):
        with pytest.raises(ModelError, match="is stated twice"):
            again()


def test_limits_are_stated_once(m: Model) -> None:
    m.limit("long", "it is", value=at(m, "length"), allowed=1000, mend="shorten it")
    with pytest.raises(ModelError, match="limit 'long' is stated twice"):
        m.limit("long", "it is", value=at(m, "length"), allowed=2000, mend="shorten it")


@pytest.mark.parametrize("name", ["two words", "3rd", "", "a-b", "beyond", "tables", "self"])
def test_names_that_cannot_be_given(m: Model, name: str) -> None:
    with pytest.raises(ModelError, match="is not a name"):
        m.given(name, "x", "mm", 1, span=(0, 2), meaning="x")


def test_choice_that_is_no_option(m: Model) -> None:
    with pytest.raises(ModelError, match=says("option", "'miterd'", "'mitered'")):
        m.choice("joint", "j", ("mitered", "butted"), "miterd", meaning="joint")


def test_pick_that_fills_no_given(m: Model) -> None:
    with pytest.raises(ModelError, match=says("no given 'lenght'", "'length'")):
        m.pick("wood", table="woods", row="red oak", fills={"lenght": "E_L"}, meaning="the wood")


# -- the whole ----------------------------------------------------------------------------------------


def test_closed_after_done(bar: Model) -> None:
    L = at(bar, "length")
    for late in (
        lambda: bar.given("late", "l", "mm", 1, span=(0, 2), meaning="late"),
        lambda: bar.relation("late", "l", "mm", L, because="late"),
        lambda: bar.limit("late", "it is", value=L, allowed=L, mend="nothing"),
        lambda: bar.caution("Late."),
        lambda: bar.pick("late", table="woods", row="red oak", fills={}, meaning="late"),
    ):
        with pytest.raises(ModelError, match=r"test\.bar is closed"):
            late()


def test_not_worked_before_done(m: Model) -> None:
    m.result("area", "A", "mm^2", at(m, "length") ** 2, because="square")
    for early in (m.at, lambda: m.compute({}, ("area",))):
        with pytest.raises(ModelError, match=r"not closed; end its statement with done\(\)"):
            early()


@pytest.mark.parametrize("span", [(700, 2000), (100, 500), (2000, 100)])
def test_value_outside_its_span(span: tuple[float, float]) -> None:
    m = blank()
    L = m.given("length", "L", "mm", 600, span=span, meaning="length")
    m.result("area", "A", "mm^2", L**2, because="square")
    with pytest.raises(ModelError, match=says("'length' starts outside its span", " mm to ")):
        m.done()


def test_unused_given(m: Model) -> None:
    m.result("area", "A", "mm^2", at(m, "length") ** 2, because="square")
    with pytest.raises(ModelError, match="no relation uses push"):
        m.done()


def test_given_used_by_a_limit_only(m: Model) -> None:
    m.result("area", "A", "mm^2", at(m, "length") ** 2, because="square")
    m.limit("push", "the push is", value=at(m, "push"), allowed=60, mend="push less")
    m.done()
    assert m.at().limits[0].margin == 10


def test_no_result(m: Model) -> None:
    m.relation("work", "W", "N*mm", at(m, "length") * at(m, "push"), because="way")
    with pytest.raises(ModelError, match="no relation is stated as a result"):
        m.done()


def test_no_source() -> None:
    m = Model("test.bare", title="t", question="q?", picture="p", assumptions=(), sources=())
    x = m.given("x", "x", "", 1, span=(0, 2), meaning="x")
    m.result("y", "y", "", x, because="same")
    with pytest.raises(ModelError, match="no source is stated"):
        m.done()


def test_units_of_a_statement_are_turned_into_the_base() -> None:
    """12 Msi = 12e6 lbf/in² = 82.737 GPa; 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm (exact by definition)."""
    m = blank()
    E = m.given("modulus", "E", "Msi", 12, span=(1, 30), meaning="modulus", half=1)
    m.result("twice", "D", "Msi", 2 * E, because="doubled", resolution=0.5)
    m.limit("soft", "it is", value=E, allowed=2, sense=">=", mend="take steel")
    m.done()
    msi = 1e6 * 4.4482216152605 / 25.4**2
    given = m.givens["modulus"]
    assert given.value == pytest.approx(12 * msi, rel=1e-14)
    assert given.span == pytest.approx((msi, 30 * msi), rel=1e-14)
    assert given.spread.half == pytest.approx(msi, rel=1e-14)
    assert m.relations["twice"].resolution == pytest.approx(msi / 2, rel=1e-14)
    assert m.at().limits[0].allowed == pytest.approx(2 * msi, rel=1e-14)


def test_limit_in_a_unit_with_an_offset() -> None:
    """60 °C is 333.15 K, so 20 °C leaves 40 K."""
    m = blank()
    T = m.given("heat", "T", "degC", 20, span=(-20, 200), meaning="heat")
    m.result("same", "S", "degC", T, because="the same")
    m.limit("hot", "it has", value=T, allowed=60, mend="cool it")
    state = m.done().at().limits[0]
    assert state.allowed == pytest.approx(333.15, rel=1e-14)
    assert state.margin == pytest.approx(40, rel=1e-12)


def test_needed_leaves_out_what_a_result_does_not_rest_on(bar: Model) -> None:
    assert [r.name for r in bar.needed([at(bar, "tip")])] == ["second_moment", "tip"]
    assert [r.name for r in bar.needed([at(bar, "screws")])] == ["screws"]


def test_part_names_near_misses(bar: Model) -> None:
    with pytest.raises(ModelError, match=says("no quantity 'second_momnt'", "'second_moment'")):
        bar.part("second_momnt")
