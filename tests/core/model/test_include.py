"""One model's relations inside another, against the same worked apart."""

import pytest
import sympy as sp

from kit.core.errors import KitError
from kit.core.model import DimensionError, Model, ModelError, derivation, equal, prove, tex
from tests.core.model.small import blank


def rectangle() -> Model:
    m = blank("test.rectangle")
    b = m.given("width", "b", "40 ± 0.5 mm", (10, 100), "width of the section")
    m.source("drawing")
    h = m.given("height", "h_0", "30 mm", (10, 100), "height of the section")
    y = sp.Symbol("y", real=True)
    A = m.relation("area", "A", "mm^2", resolution=1)
    m.equals(b * h, "sides")
    moment = m.result("moment", r"I_{\mathrm{x}}", "mm^4", "second moment")
    m.step(sp.Integral(b * y**2, (y, -h / 2, h / 2)), "summed")
    m.step(equal(sp.Matrix([A, h]), sp.Matrix([b * h, h])), "as a matrix")
    m.step(equal(12 * moment, A * h**2), "about itself")
    m.equals(A * h**2 / 12, "known")
    m.source("any book")
    m.limit("slim", "it is", h / b, "<=", 10)
    m.mend("widen it")
    m.caution("Sharp.")
    return m.done()


RECTANGLE = rectangle()


def two() -> Model:
    m = blank("test.two")
    w = m.given("width", "w", "50 mm", (20, 200), "width of the whole")
    lower = m.include(RECTANGLE, prefix="low", label="low", bind={"width": w})
    upper = m.include(RECTANGLE, prefix="up", label="up", bind={"width": w / 2, "height": 2 * lower["height"]})
    assert set(lower) == {"height", "area", "moment"}
    assert set(upper) == {"area", "moment"}
    m.result("both", "I", "mm^4")
    m.equals(lower["moment"] + upper["moment"], "they add")
    return m.done()


def test_values_are_those_of_the_models_apart() -> None:
    case = two().at(width="60 mm", low_height="20 mm")
    low = RECTANGLE.at(width="60 mm", height="20 mm").base["moment"]
    up = RECTANGLE.at(width="30 mm", height="40 mm").base["moment"]
    assert case.base["low_moment"] == pytest.approx(low, rel=1e-14)
    assert case.base["up_moment"] == pytest.approx(up, rel=1e-14)
    assert case.base["both"] == pytest.approx(60 * 20**3 / 12 + 30 * 40**3 / 12, rel=1e-14)


def test_what_comes_along_and_what_stays() -> None:
    m = two()
    assert list(m.givens) == ["width", "low_height"]
    assert m.givens["low_height"].meaning == "height of the section (low)"
    assert list(m.results) == ["both"]
    assert not m.limits
    assert not m.cautions
    relation = m.relations["low_area"]
    assert (relation.because, relation.resolution, relation.unit.text) == ("sides", 1, "mm²")
    assert m.relations["up_moment"].source == "any book"


def test_lines_come_along_and_are_proved() -> None:
    proofs = prove(two())
    assert [(p.relation, p.line) for p in proofs] == [(f"{at}_moment", i) for at in ("low", "up") for i in (0, 1, 2)]
    assert all(p.how == "symbolic" for p in proofs)


def test_printed_symbols() -> None:
    m = two()
    printed = list(m.symbol_tex.values())
    assert printed == [
        "w", r"h_{0,\mathrm{low}}", r"A_{\mathrm{low}}", r"I_{\mathrm{x},\mathrm{low}}", r"A_{\mathrm{up}}",
        r"I_{\mathrm{x},\mathrm{up}}", "I",
    ]  # fmt: skip
    assert r"\int" in derivation(m)[1].lines[0].tex
    assert "matrix" in derivation(m)[1].lines[1].tex
    assert tex(m, m.relations["low_area"].expr) == r"w\,h_{0,\mathrm{low}}"


@pytest.mark.parametrize(
    ("symbol", "labelled"),
    [
        ("L", r"L_{\mathrm{a}}"),
        (r"\delta", r"\delta_{\mathrm{a}}"),
        ("h_0", r"h_{0,\mathrm{a}}"),
        (r"E_\parallel", r"E_{\parallel,\mathrm{a}}"),
        (r"\delta_{\mathrm{max}}", r"\delta_{\mathrm{max},\mathrm{a}}"),
        (r"\mathrm{kn}", r"\mathrm{kn}_{\mathrm{a}}"),
    ],
)
def test_labels_under_symbols(symbol: str, labelled: str) -> None:
    other = blank()
    x = other.given("x", symbol, "1", (0, 2), "x")
    other.result("y", "y", "")
    other.equals(x, "same")
    m = blank("test.host")
    m.include(other.done(), prefix="p", label="a")
    assert m.givens["p_x"].tex == labelled


def test_empty_prefix_and_label() -> None:
    m = blank("test.host")
    got = m.include(RECTANGLE, prefix="", label="")
    m.result("twice", "D", "mm^4")
    m.equals(2 * got["moment"], "two of them")
    m.done()
    assert list(m.givens) == ["width", "height"]
    assert m.givens["width"].meaning == "width of the section"
    assert m.symbol_tex[got["moment"]] == r"I_{\mathrm{x}}"


def test_name_clash() -> None:
    m = blank("test.host")
    m.given("height", "H", "5 mm", (1, 9), "height")
    with pytest.raises(ModelError, match="'height' is stated twice"):
        m.include(RECTANGLE, prefix="", label="")


def test_prefix_that_makes_no_name() -> None:
    with pytest.raises(ModelError, match="'my rib_width' is not a name"):
        blank("test.host").include(RECTANGLE, prefix="my rib", label="")


def test_bound_to_another_dimension() -> None:
    m = blank("test.host")
    F = m.given("push", "F", "5 N", (1, 9), "push")
    with pytest.raises(DimensionError, match=r"'width' of test\.rectangle is length, but is bound to push, which is"):
        m.include(RECTANGLE, prefix="r", label="r", bind={"width": F})


def test_bound_to_nothing_known() -> None:
    with pytest.raises(ModelError, match="no given 'widht'; did you mean 'width'"):
        blank("test.host").include(RECTANGLE, prefix="r", label="r", bind={"widht": sp.Integer(1)})


def test_included_in_the_included() -> None:
    outer = blank("test.outer")
    inner = outer.include(two(), prefix="in", label="in")
    outer.result("ratio", "q", "")
    outer.equals(inner["both"] / inner["low_moment"], "their ratio")
    outer.done()
    case = outer.at(in_width=60, in_low_height=20)
    assert case.base["ratio"] == pytest.approx(1 + 30 * 40**3 / (60 * 20**3), rel=1e-14)
    assert outer.symbol_tex[inner["low_moment"]] == r"I_{\mathrm{x},\mathrm{low},\mathrm{in}}"
    assert len(prove(outer)) == 6


def test_choice_bound_to_an_option(bar: Model) -> None:
    m = blank("test.host")
    got = m.include(bar, prefix="bar", label="bar", bind={"end": sp.Integer(1)})
    m.result("twice", "D", "mm")
    m.equals(2 * got["tip"], "two bars")
    m.limit("far", "it is", got["length"], "<=", got["far"])
    m.mend("shorten it")
    m.limit("allowed", "it may move", got["allowed"], "<=", 9)
    m.mend("allow less")
    m.done()
    assert not m.relations["bar_tip"].expr.has(sp.Piecewise)
    assert m.at().base["twice"] == pytest.approx(2 * bar.at(end="propped").base["tip"], rel=1e-14)


def test_picks_come_along() -> None:
    wooden = blank("test.wooden")
    E = wooden.given("modulus", "E", "12 GPa", (1, 25), "modulus")
    G = wooden.given("gravity", "G", "0.6", (0.1, 1.2), "specific gravity")
    fills = {"modulus": "modulus_bending", "gravity": "specific_gravity"}
    wooden.pick("wood", "woods", "red oak", fills, "the wood")
    wooden.result("stiffness", "S", "GPa")
    wooden.equals(E / G, "per weight")
    wooden.done()
    m = blank("test.host")
    g = m.given("gravity", "g", "0.5", (0.1, 1.2), "measured")
    got = m.include(wooden, prefix="rib", label="rib", bind={"gravity": g})
    m.result("twice", "D", "GPa")
    m.equals(2 * got["stiffness"], "two")
    m.done()
    assert m.picks["rib_wood"].fills == {"rib_modulus": "modulus_bending"}
    assert m.picks["rib_wood"].meaning == "the wood (rib)"
    msi = 1e6 * 4.4482216152605 / 25.4**2
    case = m.at(rib_wood="white oak")  # 1.78 Msi, Wood Handbook Table 5-3b
    assert case.base["twice"] == pytest.approx(2 * 1.78 * msi / 0.5, rel=1e-12)
    with pytest.raises(KitError, match="no row 'oak'"):
        m.at(rib_wood="oak")
