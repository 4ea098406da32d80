"""One model's relations inside another, against the same worked apart."""

import pytest
import sympy as sp

from kit.core.errors import KitError
from kit.core.model import DimensionError, Model, ModelError, derivation, equal, prove, tex
from tests.core.model.small import blank


def rectangle() -> Model:
    m = blank("test.rectangle")
    b = m.given(
        "width", "b", "mm", 40, span=(10, 100), meaning="width of the section", source="drawing", half=0.5
    )
    h = m.given("height", "h_0", "mm", 30, span=(10, 100), meaning="height of the section")
    y = sp.Symbol("y", real=True)
    A = m.relation("area", "A", "mm^2", b * h, because="sides", resolution=1)
    m.result(
        "moment", r"I_{\mathrm{x}}", "mm^4", A * h**2 / 12, because="known", meaning="second moment", source="any book",
        lines=[
            (sp.Integral(b * y**2, (y, -h / 2, h / 2)), "summed"),
            (equal(sp.Matrix([A, h]), sp.Matrix([b * h, h])), "as a matrix"),
            (equal(12 * sp.Symbol("moment", real=True), A * h**2), "about itself"),
        ],
    )  # fmt: skip
    m.limit("slim", "it is", value=h / b, allowed=10, mend="widen it")
    m.caution("Sharp.")
    return m.done()


RECTANGLE = rectangle()


def two() -> Model:
    m = blank("test.two")
    w = m.given("width", "w", "mm", 50, span=(20, 200), meaning="width of the whole")
    lower = m.include(RECTANGLE, prefix="low", label="low", bind={"width": w})
    upper = m.include(
        RECTANGLE, prefix="up", label="up", bind={"width": w / 2, "height": 2 * lower["height"]}
    )
    assert set(lower) == {"height", "area", "moment"}
    assert set(upper) == {"area", "moment"}
    m.result("both", "I", "mm^4", lower["moment"] + upper["moment"], because="they add")
    return m.done()


def test_values_are_those_of_the_models_apart() -> None:
    case = two().at(width="60 mm", low_height="20 mm")
    low = RECTANGLE.at(width="60 mm", height="20 mm").value["moment"]
    up = RECTANGLE.at(width="30 mm", height="40 mm").value["moment"]
    assert case.value["low_moment"] == pytest.approx(low, rel=1e-14)
    assert case.value["up_moment"] == pytest.approx(up, rel=1e-14)
    assert case.value["both"] == pytest.approx(60 * 20**3 / 12 + 30 * 40**3 / 12, rel=1e-14)


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
    assert [(p.relation, p.line) for p in proofs] == [
        (f"{at}_moment", i) for at in ("low", "up") for i in (0, 1, 2)
    ]
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
    x = other.given("x", symbol, "", 1, span=(0, 2), meaning="x")
    other.result("y", "y", "", x, because="same")
    m = blank("test.host")
    m.include(other.done(), prefix="p", label="a")
    assert m.givens["p_x"].tex == labelled


def test_empty_prefix_and_label() -> None:
    m = blank("test.host")
    got = m.include(RECTANGLE, prefix="", label="")
    m.result("twice", "D", "mm^4", 2 * got["moment"], because="two of them")
    m.done()
    assert list(m.givens) == ["width", "height"]
    assert m.givens["width"].meaning == "width of the section"
    assert m.symbol_tex[got["moment"]] == r"I_{\mathrm{x}}"


def test_name_clash() -> None:
    m = blank("test.host")
    m.given("height", "H", "mm", 5, span=(1, 9), meaning="height")
    with pytest.raises(ModelError, match="'height' is stated twice"):
        m.include(RECTANGLE, prefix="", label="")


def test_prefix_that_makes_no_name() -> None:
    with pytest.raises(ModelError, match="'my rib_width' is not a name"):
        blank("test.host").include(RECTANGLE, prefix="my rib", label="")


def test_bound_to_another_dimension() -> None:
    m = blank("test.host")
    F = m.given("push", "F", "N", 5, span=(1, 9), meaning="push")
    with pytest.raises(
        DimensionError, match=r"'width' of test\.rectangle is length, but is bound to push, which is"
    ):
        m.include(RECTANGLE, prefix="r", label="r", bind={"width": F})


def test_bound_to_nothing_known() -> None:
    with pytest.raises(ModelError, match="no given 'widht'; did you mean 'width'"):
        blank("test.host").include(RECTANGLE, prefix="r", label="r", bind={"widht": sp.Integer(1)})


def test_included_in_the_included() -> None:
    outer = blank("test.outer")
    inner = outer.include(two(), prefix="in", label="in")
    outer.result("ratio", "q", "", inner["both"] / inner["low_moment"], because="their ratio")
    outer.done()
    case = outer.at(in_width=60, in_low_height=20)
    assert case.value["ratio"] == pytest.approx(1 + 30 * 40**3 / (60 * 20**3), rel=1e-14)
    assert outer.symbol_tex[inner["low_moment"]] == r"I_{\mathrm{x},\mathrm{low},\mathrm{in}}"
    assert len(prove(outer)) == 6


def test_choice_bound_to_an_option(bar: Model) -> None:
    m = blank("test.host")
    got = m.include(bar, prefix="bar", label="bar", bind={"end": sp.Integer(1)})
    m.result("twice", "D", "mm", 2 * got["tip"], because="two bars")
    m.limit("far", "it is", value=got["length"], allowed=got["far"], mend="shorten it")
    m.limit("allowed", "it may move", value=got["allowed"], allowed=9, mend="allow less")
    m.done()
    assert not m.relations["bar_tip"].expr.has(sp.Piecewise)
    assert m.at().value["twice"] == pytest.approx(2 * bar.at(end="propped").value["tip"], rel=1e-14)


def test_picks_come_along() -> None:
    wooden = blank("test.wooden")
    E = wooden.given("modulus", "E", "GPa", 12, span=(1, 25), meaning="modulus")
    G = wooden.given("gravity", "G", "", 0.6, span=(0.1, 1.2), meaning="specific gravity")
    fills = {"modulus": "modulus_bending", "gravity": "specific_gravity"}
    wooden.pick("wood", table="woods", row="red oak", fills=fills, meaning="the wood")
    wooden.result("stiffness", "S", "GPa", E / G, because="per weight")
    wooden.done()
    m = blank("test.host")
    g = m.given("gravity", "g", "", 0.5, span=(0.1, 1.2), meaning="measured")
    got = m.include(wooden, prefix="rib", label="rib", bind={"gravity": g})
    m.result("twice", "D", "GPa", 2 * got["stiffness"], because="two")
    m.done()
    assert m.picks["rib_wood"].fills == {"rib_modulus": "modulus_bending"}
    assert m.picks["rib_wood"].meaning == "the wood (rib)"
    msi = 1e6 * 4.4482216152605 / 25.4**2
    case = m.at(rib_wood="white oak")  # 1.78 Msi, Wood Handbook Table 5-3b
    assert case.value["twice"] == pytest.approx(2 * 1.78 * msi / 0.5, rel=1e-12)
    with pytest.raises(KitError, match="no row 'oak'"):
        m.at(rib_wood="oak")
