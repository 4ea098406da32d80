"""What the author of a topic is told when a statement is wrong."""

import re

import pytest
import sympy as sp

from kit.core.model import DimensionError, Model, ModelError, Spread, equal
from tests.core.model.small import blank


@pytest.fixture
def m() -> Model:
    model = blank()
    model.given("length", "L", "600 mm", (100, 2000), "length")
    model.given("push", "F", "50 N", (0, 500), "push")
    return model


def at(m: Model, name: str) -> sp.Symbol:
    return m.part(name).symbol


def says(*parts: str) -> str:
    return ".*".join(re.escape(part) for part in parts)


# -- dimensions ---------------------------------------------------------------------------------------


def test_relation_of_the_wrong_dimension(m: Model) -> None:
    m.relation("area", "A", "mm^2")
    with pytest.raises(DimensionError, match=says("'area'", "mm²", "length^2", "length^3")):
        m.equals(at(m, "length") ** 3, "wrong")


def test_relation_in_another_unit_of_the_dimension(m: Model) -> None:
    work = m.result("work", "W", "kN*m")
    m.equals(at(m, "push") * at(m, "length"), "force times way")
    m.done()
    assert m.at()["work"].value == pytest.approx(0.030, rel=1e-14)  # 50 N · 0.6 m = 30 N·m
    assert m.at().base[work.name] == pytest.approx(30_000, rel=1e-14)


def test_line_of_the_wrong_dimension(m: Model) -> None:
    L = at(m, "length")
    m.relation("area", "A", "mm^2")
    with pytest.raises(DimensionError, match=says("a line of 'area'", "length", "length^2")):
        m.step(2 * L, "wrong")


def test_equation_line_of_the_wrong_dimension(m: Model) -> None:
    L, F = at(m, "length"), at(m, "push")
    m.relation("area", "A", "mm^2")
    with pytest.raises(DimensionError, match=says("length", "length·mass/time^2")):
        m.step(equal(L, F), "wrong")


def test_matrix_line_is_checked_element_by_element(m: Model) -> None:
    L, F = at(m, "length"), at(m, "push")
    m.relation("area", "A", "mm^2")
    with pytest.raises(DimensionError, match="length"):
        m.step(equal(sp.Matrix([L, F]), sp.Matrix([L, L])), "wrong below")


@pytest.mark.parametrize("shape", [(3, 1), (1, 2)])
def test_matrix_line_of_two_shapes(m: Model, shape: tuple[int, int]) -> None:
    L = at(m, "length")
    line = equal(sp.Matrix([L, L]), sp.ones(*shape) * L)
    m.relation("area", "A", "mm^2")
    with pytest.raises(ModelError, match=says("a line of 'area'", f"2 × 1 and {shape[0]} × {shape[1]}", "one shape")):
        m.step(line, "misfit")


def test_trivial_line_is_refused(m: Model) -> None:
    L = at(m, "length")
    m.relation("area", "A", "mm^2")
    with pytest.raises(ModelError, match="not yet known"):
        m.step(sp.Eq(L, L), "says nothing")


def test_line_with_the_symbol_being_stated(m: Model) -> None:
    L, side = at(m, "length"), sp.Symbol("side", real=True)
    m.relation("side", "s", "mm")
    m.step(equal(4 * side, L), "four of them")
    m.equals(L / 4, "a quarter")
    assert m.relations["side"].lines[0].because == "four of them"


def test_limit_of_the_wrong_dimension(m: Model) -> None:
    with pytest.raises(DimensionError, match=says("limit 'long'", "length", "length·mass/time^2")):
        m.limit("long", "it is", at(m, "length"), "<=", at(m, "push"))


def test_limit_shown_in_the_wrong_unit(m: Model) -> None:
    with pytest.raises(DimensionError, match=says("limit 'long'", "shown in kg", "mass", "length")):
        m.limit("long", "it is", at(m, "length"), "<=", 5, in_unit="kg")


@pytest.mark.parametrize("threshold", [1, 1000.0])
def test_caution_with_a_bare_threshold(m: Model, threshold: float) -> None:
    with pytest.raises(DimensionError, match=says("a caution", "length", "a plain number")):
        m.caution("Long.", when=at(m, "length") > threshold)


def test_caution_with_zero_as_threshold(m: Model) -> None:
    m.caution("Pushed.", when=at(m, "push") > 0)
    assert len(m.cautions) == 1


def test_symbol_of_another_model(m: Model) -> None:
    stray = blank("test.other").given("height", "h", "3 mm", (1, 5), "height")
    m.relation("area", "A", "mm^2")
    with pytest.raises(DimensionError, match="height is not a given"):
        m.equals(at(m, "length") * stray, "wrong")


# -- steps --------------------------------------------------------------------------------------------


def test_a_relation_without_a_value_is_refused_at_the_next_statement(m: Model) -> None:
    L = at(m, "length")
    m.result("area", "A", "mm^2")
    for after in (
        lambda: m.given("late", "l", "1 mm", (0, 2), "late"),
        lambda: m.count("late", "n", 1, (0, 2), "late"),
        lambda: m.choice("late", "c", ("a", "b"), "a", "late"),
        lambda: m.constant("late", "c", "1 mm", "late", "none"),
        lambda: m.chance("late", "x", "late"),
        lambda: m.pick("late", "woods", "red oak", {}, "late"),
        lambda: m.relation("late", "l", "mm"),
        lambda: m.limit("late", "it is", L, "<=", L),
        lambda: m.caution("Late."),
        lambda: m.include(blank("test.other"), prefix="", label=""),
        m.done,
    ):
        with pytest.raises(ModelError, match=r"test\.small: 'area' has no value yet; state it with equals\(\)"):
            after()
    m.equals(L**2, "square")
    m.limit("push", "the push is", at(m, "push"), "<=", 60)
    for early in (lambda: m.caution("Late."), m.done):
        with pytest.raises(ModelError, match=says("limit 'push' says not what would mend it; say it with mend()")):
            early()
    m.mend("push less")
    assert m.limits["push"].mend == "push less"
    with pytest.raises(ModelError, match=says("mend() follows the limit that it speaks of")):
        m.mend("pull")
    assert m.done().at().base["area"] == 600**2


def test_a_value_does_not_rest_on_itself(m: Model) -> None:
    area = m.result("area", "A", "mm^2")
    with pytest.raises(DimensionError, match=says("relation 'area' of test.small: the symbol area is not a given")):
        m.equals(2 * area, "circular")


@pytest.mark.parametrize("step", ["step", "equals"])
def test_a_step_that_follows_no_relation(m: Model, step: str) -> None:
    with pytest.raises(ModelError, match=says(f"{step}() follows the result() or relation()")):
        getattr(m, step)(at(m, "length"), "why")


def test_what_is_said_of_a_given_and_of_a_relation(m: Model) -> None:
    m.given("width", "b", "60 ± 0.2 mm", (10, 200), "width")
    m.measured("caliper, three places", spread="normal", k=1, dof=4)
    m.source("drawing 7")
    given = m.givens["width"]
    assert (given.how, given.source, given.spread) == (
        "caliper, three places",
        "drawing 7",
        Spread(0.2, "normal", 1, 4),
    )
    m.count("boards", "n", 3, (1, 9), "boards")
    m.measured("look")
    assert m.givens["boards"].how == "look"
    m.relation("area", "A", "mm^2")
    m.equals(at(m, "length") ** 2, "square")
    m.source("any book")
    assert m.relations["area"].source == "any book"
    assert m.givens["length"].origin.kind == "example"
    assert m.givens["boards"].origin.kind == "example", "how it is measured is no source"


def test_what_is_said_of_nothing(m: Model) -> None:
    constant = lambda: m.constant("far", "L", "1 m", "what counts as far", "invented")  # noqa: E731
    caution = lambda: m.caution("Unplug.")  # noqa: E731
    for before in (constant, caution):
        before()
        with pytest.raises(ModelError, match=says("measured() follows the given or count")):
            m.measured("tape")
        with pytest.raises(ModelError, match=says("source() follows the given, count or relation")):
            m.source("a book")


@pytest.mark.parametrize(("value", "fault"), [("sixty mm", "sixty"), ("60 furlong", "furlong"), ("", "Nothing")])
def test_a_value_that_is_no_quantity(m: Model, value: str, fault: str) -> None:
    with pytest.raises(ModelError, match=says("test.small: 'width': ", fault)):
        m.given("width", "b", value, (10, 200), "width")


def test_a_constant_is_not_measured(m: Model) -> None:
    with pytest.raises(ModelError, match=says("'far' is a constant and takes no ±")):
        m.constant("far", "L", "1 ± 0.1 m", "what counts as far", "invented")


def test_a_limit_without_its_sense(m: Model) -> None:
    with pytest.raises(ModelError, match=says("limit 'long' has the sense '<'; use <= or >=")):
        m.limit("long", "it is", at(m, "length"), "<", 5)


# -- names --------------------------------------------------------------------------------------------


def test_names_are_stated_once(m: Model) -> None:
    m.pick("wood", "woods", "red oak", {"length": "E_L"}, "the wood")
    for again in (
        lambda: m.given("length", "l", "1 mm", (0, 2), "again"),
        lambda: m.count("push", "n", 1, (0, 2), "again"),
        lambda: m.choice("length", "c", ("a", "b"), "a", "again"),
        lambda: m.constant("length", "c", "1 mm", "again", "none"),
        lambda: m.relation("length", "l", "mm"),
        lambda: m.relation("wood", "l", "mm"),
        lambda: m.pick("length", "woods", "red oak", {}, "again"),
    ):
        with pytest.raises(ModelError, match="is stated twice"):
            again()


def test_limits_are_stated_once(m: Model) -> None:
    m.limit("long", "it is", at(m, "length"), "<=", 1000)
    m.mend("shorten it")
    with pytest.raises(ModelError, match="limit 'long' is stated twice"):
        m.limit("long", "it is", at(m, "length"), "<=", 2000)


@pytest.mark.parametrize("name", ["two words", "3rd", "", "a-b", "beyond", "tables", "self"])
def test_names_that_cannot_be_given(m: Model, name: str) -> None:
    with pytest.raises(ModelError, match="is not a name"):
        m.given(name, "x", "1 mm", (0, 2), "x")


def test_choice_that_is_no_option(m: Model) -> None:
    with pytest.raises(ModelError, match=says("option", "'miterd'", "'mitered'")):
        m.choice("joint", "j", ("mitered", "butted"), "miterd", "joint")


def test_pick_that_fills_no_given(m: Model) -> None:
    with pytest.raises(ModelError, match=says("no given 'lenght'", "'length'")):
        m.pick("wood", "woods", "red oak", {"lenght": "E_L"}, "the wood")


# -- the whole ----------------------------------------------------------------------------------------


def test_closed_after_done(bar: Model) -> None:
    L = at(bar, "length")
    for late in (
        lambda: bar.given("late", "l", "1 mm", (0, 2), "late"),
        lambda: bar.relation("late", "l", "mm"),
        lambda: bar.limit("late", "it is", L, "<=", L),
        lambda: bar.caution("Late."),
        lambda: bar.pick("late", "woods", "red oak", {}, "late"),
    ):
        with pytest.raises(ModelError, match=r"test\.bar is closed"):
            late()


def test_not_worked_before_done(m: Model) -> None:
    m.result("area", "A", "mm^2")
    m.equals(at(m, "length") ** 2, "square")
    for early in (m.at, lambda: m.compute({}, ("area",))):
        with pytest.raises(ModelError, match=r"not closed; end its statement with done\(\)"):
            early()


@pytest.mark.parametrize("span", [(700, 2000), (100, 500), (2000, 100)])
def test_value_outside_its_span(span: tuple[float, float]) -> None:
    m = blank()
    L = m.given("length", "L", "600 mm", span, "length")
    m.result("area", "A", "mm^2")
    m.equals(L**2, "square")
    with pytest.raises(ModelError, match=says("'length' starts outside its span", " mm to ")):
        m.done()


def test_unused_given(m: Model) -> None:
    m.result("area", "A", "mm^2")
    m.equals(at(m, "length") ** 2, "square")
    with pytest.raises(ModelError, match="no relation uses push"):
        m.done()


def test_given_used_by_a_limit_only(m: Model) -> None:
    m.result("area", "A", "mm^2")
    m.equals(at(m, "length") ** 2, "square")
    m.limit("push", "the push is", at(m, "push"), "<=", 60)
    m.mend("push less")
    m.done()
    assert m.at().checks[0].margin == 10


def test_no_result(m: Model) -> None:
    m.relation("work", "W", "N*mm")
    m.equals(at(m, "length") * at(m, "push"), "way")
    with pytest.raises(ModelError, match="no relation is stated as a result"):
        m.done()


def test_closed_once(bar: Model) -> None:
    with pytest.raises(ModelError, match=r"test\.bar is closed"):
        bar.done()


def test_units_of_a_statement_are_turned_into_the_base() -> None:
    """12 Msi = 12e6 lbf/in² = 82.737 GPa; 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm (exact by definition)."""
    m = blank()
    E = m.given("modulus", "E", "12 ± 1 Msi", (1, 30), "modulus")
    m.result("twice", "D", "Msi", resolution=0.5)
    m.equals(2 * E, "doubled")
    m.limit("soft", "it is", E, ">=", 2)
    m.mend("take steel")
    m.done()
    msi = 1e6 * 4.4482216152605 / 25.4**2
    given = m.givens["modulus"]
    assert given.base == pytest.approx(12 * msi, rel=1e-14)
    assert given.span == pytest.approx((msi, 30 * msi), rel=1e-14)
    assert given.spread.half == pytest.approx(msi, rel=1e-14)
    assert m.relations["twice"].resolution == pytest.approx(msi / 2, rel=1e-14)
    assert m.at().checks[0].allowed == pytest.approx(2 * msi, rel=1e-14)


def test_limit_in_a_unit_with_an_offset() -> None:
    """60 °C is 333.15 K, so 20 °C leaves 40 K."""
    m = blank()
    T = m.given("heat", "T", "20 degC", (-20, 200), "heat")
    m.result("same", "S", "degC")
    m.equals(T, "the same")
    m.limit("hot", "it has", T, "<=", 60)
    m.mend("cool it")
    state = m.done().at().checks[0]
    assert state.allowed == pytest.approx(333.15, rel=1e-14)
    assert state.margin == pytest.approx(40, rel=1e-12)


def test_needed_leaves_out_what_a_result_does_not_rest_on(bar: Model) -> None:
    assert [r.name for r in bar.needed([at(bar, "tip")])] == ["second_moment", "tip"]
    assert [r.name for r in bar.needed([at(bar, "screws")])] == ["screws"]


def test_part_names_near_misses(bar: Model) -> None:
    with pytest.raises(ModelError, match=says("no quantity 'second_momnt'", "'second_moment'")):
        bar.part("second_momnt")
