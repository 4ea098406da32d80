"""Formulas as TeX, against how a person would set them."""

import pytest
import sympy as sp

from kit.core.model import Case, Model, Relation, derivation, equal, find, slot, tex
from tests.core.model.small import blank


def substituted(case: Case, relation: Relation) -> str:
    return next(step for step in derivation(case.model) if step.relation is relation).cases.at(case).template


def named(name: str) -> str:
    return rf"\text{{{slot(name)}}}"


@pytest.fixture(scope="module")
def mix() -> Model:
    m = blank("test.mix")
    F = m.given("z_force", "F", "50 N", (1, 500), "force")
    L = m.given("m_length", "L", "600 mm", (1, 2000), "length")
    b = m.given("a_width", "b", "40 mm", (1, 100), "width")
    n = m.given("power", "n", "2", (0, 3), "power")
    j = m.choice("joint", "j", ("mitered", "butted"), "mitered", "joint")
    m.relation("moment", "M", "N*mm")
    m.equals(F * L, "so")
    m.relation("powers", "p", "")
    m.equals((L / b) ** 3 + (b / L) ** sp.Rational(3, 2) + n**n + L**2 / b**2, "so")
    m.relation("roots", "r", "mm")
    m.equals(sp.sqrt(L * b) + sp.sqrt(L) * sp.sqrt(b) + b, "so")
    m.relation("cased", "c", "mm")
    m.equals(sp.Piecewise((sp.Piecewise((L, b < L), (2 * b, True)), sp.Eq(j, 0)), (L - b, True)), "so")
    m.relation("not_butted", "d", "mm")
    m.equals(sp.Piecewise((L, sp.Ne(j, 1)), (b, True)), "so")
    m.result("rounded", "k", "")
    m.equals(sp.ceiling(L / b) ** 2 + sp.floor(L / b), "so")
    return m.done()


def formula(m: Model, name: str) -> str:
    relation = m.relations[name]
    return tex(m, relation.expr)


def test_factors_stand_as_stated(mix: Model) -> None:
    """The names would sort the other way round."""
    assert formula(mix, "moment") == r"F\,L"


def test_second_moment(bar: Model) -> None:
    assert formula(bar, "second_moment") == r"\frac{b\,h^{3}}{12}"


def test_a_difference_begins_with_what_is_taken_from(mix: Model) -> None:
    F, L, b = (mix.part(name).symbol for name in ("z_force", "m_length", "a_width"))
    assert tex(mix, sp.pi / 2 - F) == r"\frac{\pi}{2} - F"
    assert tex(mix, b - L) == "b - L"
    assert tex(mix, b + sp.pi - F - L) == r"b - F - L + \pi"
    assert tex(mix, -L - b) == "- L - b"


def test_powers_of_numbers_stand_in_parentheses(mix: Model) -> None:
    case = mix.at()
    text = substituted(case, mix.relations["powers"])
    L, b, n = named("m_length"), named("a_width"), named("power")
    assert rf"\left({L}\right)^{{2}}" in text
    assert rf"\left({L}\right)^{{3}}" in text
    assert rf"\left({n}\right)^{{{n}}}" in text
    assert rf"\left({b}\right)^{{\frac{{3}}{{2}}}}" in text
    for mark in (L, b, n):
        assert rf"{mark}^" not in text


def test_letters_to_a_power_need_none(mix: Model) -> None:
    assert r"L^{3}" in formula(mix, "powers")
    assert r"\left(L\right)" not in formula(mix, "powers")


def test_roots_stay_roots(mix: Model) -> None:
    text = substituted(mix.at(), mix.relations["roots"])
    assert r"\sqrt{" in text
    assert "^" not in text


def test_cases_in_words(mix: Model) -> None:
    text = formula(mix, "cased")
    assert r"\text{joint mitered}" in text
    assert r"\text{otherwise}" in text
    assert r"\text{joint not butted}" in formula(mix, "not_butted")


@pytest.mark.parametrize(
    ("typed", "shown", "hidden"),
    [
        ({}, ["m_length"], ["a_width", "joint"]),
        ({"m_length": 30}, ["a_width"], ["m_length", "joint"]),
        ({"joint": "butted"}, ["m_length", "a_width"], ["joint"]),
    ],
)
def test_only_the_case_that_applies_is_substituted(
    mix: Model, typed: dict[str, object], shown: list[str], hidden: list[str]
) -> None:
    case = mix.at(**typed)  # type: ignore[arg-type]
    text = substituted(case, mix.relations["cased"])
    assert all(slot(name) in text for name in shown)
    assert not any(slot(name) in text for name in hidden)
    assert "cases" not in text


def test_ceiling_and_floor(mix: Model) -> None:
    text = formula(mix, "rounded")
    assert r"\left\lceil \frac{L}{b} \right\rceil^{2}" in text
    assert r"\left\lfloor \frac{L}{b} \right\rfloor" in text


def test_derivation_of_the_bar(bar: Model) -> None:
    steps = derivation(bar)
    assert [step.relation.name for step in steps] == list(bar.relations)
    inertia, moment = steps[:2]
    assert inertia.formula == r"\frac{b\,h^{3}}{12}"
    (line,) = inertia.lines
    assert not line.whole
    assert line.because == "the second moment sums the squared distances"
    assert line.tex.startswith(r"\int\limits_{- \frac{h}{2}}^{\frac{h}{2}}")
    assert "b" in line.tex
    assert moment.lines[0].whole
    assert moment.lines[0].tex == r"F\,L = F\,L"


def test_lines_of_matrices(mix: Model) -> None:
    L = mix.part("m_length").symbol
    text = tex(mix, equal(sp.Matrix([L, 2 * L]), sp.Matrix([L, L + L])))
    assert text.count("matrix") == 4
    assert " = " in text


def test_turned_round_formula(bar: Model) -> None:
    """The formula comes in plain symbols; it is set in the model's letters all the same."""
    found = find(bar.at(), "push", "tip", "1 mm")
    assert found.formula is not None
    assert tex(bar, found.formula) == r"\frac{3\,E\,I\,\delta}{L^{3}}"
    root = find(bar.at(), "height", "tip", "1 mm")
    assert root.formula is not None
    text = tex(bar, root.formula)
    assert r"\sqrt[3]{" in text
    for letter in (r"\delta", "F", "L", "E", "b"):
        assert letter in text
    for name in ("length", "push", "tip"):
        assert name not in text
