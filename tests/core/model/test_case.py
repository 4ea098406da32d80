"""A model at one point: what is typed, what follows, what is refused."""

import math
import re

import numpy as np
import pytest
import sympy as sp

from kit.core.errors import KitError
from kit.core.model import Case, Model, NoValueError, SpanError, Stated
from kit.core.quantity import Display, Quantity, QuantityError, ValueOrigin, unit
from kit.core.tables import table, with_rows
from kit.core.verdict import Verdict
from tests.core.model.small import blank, one


def test_point_by_hand(bar: Model) -> None:
    """F L³/(3 E I) with I = 40·30³/12 = 90 000 mm⁴: 50·600³/(3·12 000·90 000) = 3.3333 mm."""
    case = bar.at()
    assert case.base["second_moment"] == pytest.approx(90_000, rel=1e-14)
    assert case["moment"].value == pytest.approx(30, rel=1e-14)  # 50 N · 0.6 m
    assert case.base["tip"] == pytest.approx(10 / 3, rel=1e-14)
    assert case.base["screws"] == 6  # 600/130 = 4.6, five gaps


def test_the_other_branch(bar: Model) -> None:
    """Propped cantilever, load at mid-span: 7 F L³/(768 E I) (Roark, from memory)."""
    want = 7 * 50 * 600**3 / (768 * 12_000 * 90_000)
    assert bar.at(end="propped").base["tip"] == pytest.approx(want, rel=1e-14)


# -- what may be typed --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "base"),
    [
        ("47 1/4 in", 1200.15),
        ("1.2 m", 1200),
        ("700", 700),
        (700, 700),
        (np.int64(700), 700),
        (np.float32(700), 700),
        (Quantity(0.7, unit("m")), 700),
        (Stated("70 cm"), 700),
    ],
)
def test_a_given_is_typed(bar: Model, typed: object, base: float) -> None:
    case = bar.at(length=typed)  # type: ignore[arg-type]
    assert case.base["length"] == pytest.approx(base, rel=1e-12)
    assert case.entries["length"].origin.kind == "chosen"


def test_a_number_is_in_the_given_s_own_unit(bar: Model) -> None:
    assert bar.at(modulus=12.5).base["modulus"] == pytest.approx(12_500, rel=1e-14)  # GPa in MPa


def test_a_bare_text_is_noted_and_nothing_else(bar: Model) -> None:
    assert bar.at(length="700").entries["length"].bare
    assert not bar.at(length="700 mm").entries["length"].bare
    assert not bar.at(length=700).entries["length"].bare


def test_what_was_typed_is_kept(bar: Model) -> None:
    entry = bar.at(length="27 1/2 in").entries["length"]
    assert entry.text == "27 1/2 in"
    assert entry.unit == unit("in")
    assert bar.at().entries["length"].text is None


def test_half_width_typed_replaces_the_usual_one(bar: Model) -> None:
    usual = bar.at(length="700 mm").entries["length"]
    assert usual.u == pytest.approx(0.5 / math.sqrt(3), rel=1e-14)
    typed = bar.at(length="700 ± 0.3 mm").entries["length"]
    assert typed.u == pytest.approx(0.3 / math.sqrt(3), rel=1e-14)


def test_stated_says_how_surely(bar: Model) -> None:
    entry = bar.at(
        length=Stated(
            "700 ± 0.3 mm",
            spread="normal",
            k=3,
            origin=ValueOrigin("measured", "2026-01-02", "compared", "A. Turner", "certificate 7"),
        )
    ).entries["length"]
    assert entry.u == pytest.approx(0.1, rel=1e-12)
    assert entry.origin.words == "measured; certificate 7; compared; on 2026-01-02 by A. Turner"
    assert not entry.usual


def test_every_given_has_exactly_one_origin(bar: Model) -> None:
    case = bar.at(push="60 N", length=Stated("700 mm", origin=ValueOrigin("measured", "2026-01-02")))
    kinds = {name: origin.kind for name, origin in case.origins.items()}
    assert kinds.keys() == bar.free.keys()
    assert (kinds["push"], kinds["length"], kinds["height"]) == ("chosen", "measured", "example")
    assert Verdict(case.checks, origins=tuple(case.origins.values())).examples == len(kinds) - 2


def test_a_half_width_that_nobody_stated_is_marked(bar: Model) -> None:
    assert bar.at(length="700 mm").entries["length"].usual
    assert not bar.at(length="700 ± 1 mm").entries["length"].usual
    assert not bar.at().entries["length"].usual, "the example's own half-width belongs to it"


def test_a_value_found_by_solving_says_so_and_has_no_method(bar: Model) -> None:
    measured = ValueOrigin("measured", "2026-01-02", how="tape")
    case = bar.at(length=Stated("700 ± 0.3 mm", origin=measured))
    entry = case.find("length", "tip", "1 mm").into(case).entries["length"]
    assert (entry.origin.kind, entry.origin.measured, entry.usual) == ("solved", "", True)
    assert entry.origin.how == "so that tip is 1.00 mm"


def test_stated_keeps_what_it_does_not_say(bar: Model) -> None:
    entry = bar.at(height=Stated("31 mm")).entries["height"]
    assert entry.spread.shape == "normal"
    assert entry.u == pytest.approx(0.05, rel=1e-12)  # ±0.1 mm with k = 2


def test_choice_by_name_or_code(bar: Model) -> None:
    for typed in ("propped", "Propped ", 1, 1.0, Stated("propped")):
        assert bar.at(end=typed).base["end"] == 1


def test_count(bar: Model) -> None:
    m = blank()
    n = m.count("sides", "N", 6, (3, 24), "sides")
    m.result("turn", "t", "deg")
    m.equals(2 * sp.pi / n, "a full turn")
    m.done()
    assert m.at(sides="8")["turn"].value == pytest.approx(45, rel=1e-14)
    with pytest.raises(KitError, match=r"sides is 6\.5, but must be a whole number; allowed is 3 to 24"):
        m.at(sides=6.5)
    with pytest.raises(SpanError, match="sides is 25; this model holds for 3 to 24"):
        m.at(sides=25)


# -- what is refused ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"lenght": 5}, "no given 'lenght'; did you mean 'length'"),
        ({"zz": 5}, "no given 'zz'; it takes push, length"),
        ({"far": 5}, "no given 'far'"),  # a constant is nobody's to set
        ({"end": "proped"}, "'proped', but must be clamped or propped; did you mean 'propped'?"),
        ({"end": 2}, "end is 2, but must be clamped or propped"),
        ({"length": "long"}, "length: “long” has no number"),
        ({"length": "5 kg"}, "length: “5 kg” is in kg, a mass; this field takes a length"),
        ({"length": None}, "length is None; give a text such as '600.0 mm' or a number"),
        ({"length": math.nan}, "length is nan; give a text"),
        ({"length": math.inf}, "length is inf; give a text"),
    ],
)
def test_refused(bar: Model, typed: dict[str, object], said: str) -> None:
    with pytest.raises(KitError, match=re.escape(said)):
        bar.at(**typed)  # type: ignore[arg-type]


def test_quantity_of_another_kind(bar: Model) -> None:
    with pytest.raises(KitError, match="a mass; length takes a length"):
        bar.at(length=Quantity(5, unit("kg")))


def test_reading_of_a_thermometer_is_no_difference() -> None:
    m = one(lambda x: 2 * x, in_unit="K", result_unit="K", span=(0, 50))
    with pytest.raises(KitError, match="takes a temperature difference"):
        m.at(x=Quantity(20, unit("degC")))


def test_unknown_beyond(bar: Model) -> None:
    with pytest.raises(KitError, match="'lenght'; did you mean 'length'"):
        bar.at(beyond=("lenght",))


# -- spans --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("3 m", "length is 3 m; this model holds for 0.1 m to 2 m"),
        ("100 in", "length is 100 in; this model holds for 3.937 in to 78.74 in"),
        (50, "length is 50 mm; this model holds for 100 mm to 2000 mm"),
        (Quantity(5, unit("cm")), "length is 5 cm; this model holds for 10 cm to 200 cm"),
    ],
)
def test_outside_is_said_in_the_unit_typed(bar: Model, typed: str | float | Quantity, said: str) -> None:
    with pytest.raises(SpanError) as error:
        bar.at(length=typed)
    assert str(error.value) == f"{said}; to go outside knowingly, say beyond length"
    assert error.value.given == "length"


def test_beyond_goes_outside_knowingly(bar: Model) -> None:
    case = bar.at(length="3 m", beyond=("length",))
    assert case.outside == ("length is 3 m; this model holds for 0.1 m to 2 m",)
    assert bar.at().outside == ()
    with pytest.raises(SpanError, match="push"):
        bar.at(length="3 m", push="1 kN", beyond=("length",))


def test_span_end_typed_in_inches() -> None:
    m = one(lambda x: x, span=(4 * 25.4, 10 * 25.4), in_unit="mm", result_unit="mm")
    assert m.at(x="4 in").base["x"] == pytest.approx(101.6, rel=1e-15)
    assert m.at(x="10 in").ok


# -- no value -----------------------------------------------------------------------------------------


def test_no_value_names_the_first_relation_and_its_inputs() -> None:
    m = blank()
    r = m.given("radius", "r", "50 mm", (10, 100), "radius")
    d = m.given("depth", "d", "20 mm", (1, 100), "depth")
    g = m.relation("half_chord", "g", "mm", "half chord")
    m.equals(sp.sqrt(r**2 - d**2), "the chord")
    m.result("chord", "c", "mm")
    m.equals(2 * g, "twice")
    m.done()
    assert m.at(depth=30)["half_chord"].value == pytest.approx(40, rel=1e-14)  # 3-4-5
    with pytest.raises(NoValueError) as error:
        m.at(depth=60)
    assert str(error.value) == ("test.small has no half chord at radius 50.0 mm, depth 60.0 mm; change one of them")


@pytest.mark.parametrize(
    "expr", [lambda x: 1 / x, lambda x: sp.log(x), lambda x: sp.ceiling(1 / x), lambda x: (x - 1) ** sp.Rational(1, 3)]
)  # fmt: skip
def test_no_value_of_every_kind(expr: object) -> None:
    with pytest.raises(NoValueError, match="has no what follows at x 0"):
        one(expr).at(x=0)  # type: ignore[arg-type]


def test_too_large_a_value() -> None:
    with pytest.raises(NoValueError):
        one(lambda x: sp.exp(100 * x)).at(x=10)  # e^1000 is no double


def test_branch_without_value_elsewhere() -> None:
    m = one(lambda x: sp.Piecewise((sp.sqrt(x - 5), x > 5), (1 / (6 - x), True)))
    assert m.at(x=9).base["y"] == pytest.approx(2, rel=1e-14)
    assert m.at(x=2).base["y"] == pytest.approx(0.25, rel=1e-14)


@pytest.mark.parametrize("name", ["floor", "sin", "max", "lambda", "select", "shared_0", "E", "math"])
def test_a_quantity_may_bear_any_name(name: str) -> None:
    m = blank()
    x = m.given(name, "x", "3", (1, 10), "x")
    y = m.relation(f"{name}_", "y", "")
    m.equals(sp.floor(x / 2) + sp.sin(x) ** 2 + sp.Max(x, 2) ** 3, "so")
    m.result("again", "z", "")
    m.equals(sp.Piecewise((y, x > 2), (sp.sin(x) ** 2, True)), "so")
    m.done()
    want = 1 + math.sin(3) ** 2 + 27
    assert m.at().base["again"] == pytest.approx(want, rel=1e-14)
    assert m.compute({name: np.array([3.0, 3.0])}, ("again",))["again"] == pytest.approx([want] * 2, rel=1e-14)


# -- limits and cautions ------------------------------------------------------------------------------


def test_limit_with_its_margin(bar: Model) -> None:
    (state,) = bar.at().checks
    assert not state.ok
    assert state.margin == pytest.approx(2 - 10 / 3, rel=1e-13)
    assert state.words() == (
        "the end moves 3.33 mm, 1.33 mm more than the 2.00 mm allowed; to mend it, make the bar higher"
    )
    met = bar.at(height=60)  # an eighth of the movement: 0.41667 mm
    assert met.ok
    assert met.checks[0].words() == "the end moves 0.42 mm of 2.00 mm allowed; margin 1.58 mm"
    # 0.41667 mm = 0.016404 in of 2 mm = 0.07874 in
    assert met.checks[0].words(Display(system="in")).startswith("the end moves 0.0164 in of 0.0787 in allowed")


def test_limit_from_below() -> None:
    m = blank()
    x = m.given("hold", "H", "100 N", (0, 500), "hold")
    m.result("grip", "G", "N")
    m.equals(x / 2, "half")
    m.limit("grip", "the grip is", x / 2, ">=", 60, in_unit="N")
    m.mend("clamp harder")
    m.done()
    (state,) = m.at().checks
    assert (state.ok, state.margin) == (False, -10)
    assert state.words().endswith("10 N less than the 60 N needed; to mend it, clamp harder")
    assert m.at(hold=120).checks[0].ok  # just met is met
    assert m.at(hold=160).checks[0].words() == "the grip is 80 N, at least 60 N needed; margin 20 N"


def test_a_limit_just_met_is_met_whatever_rounding_made_of_it() -> None:
    """6 in less 1 in are 5 in; in binary fractions of a millimeter they come out a hair below."""
    m = blank()
    x = m.given("part", "T", "100 mm", (0, 500), "part")
    gap = m.given("gap", "g", "10 mm", (0, 500), "gap")
    m.result("held", "h", "mm", "held")
    m.equals(x - gap, "the rest")
    m.limit("held", "held are", x - gap, ">=", 127, in_unit="mm")
    m.mend("hold more")
    m.done()
    assert m.at(part="6 in", gap="1 in").base["held"] < 127
    assert m.at(part="6 in", gap="1 in").ok
    assert not m.at(part="6 in", gap="1.00001 in").ok


def test_limit_without_value_is_said() -> None:
    m = blank()
    x = m.given("x", "x", "1", (0, 2), "x")
    m.result("y", "y", "")
    m.equals(x, "same")
    m.limit("share", "the share is", 1 / x, "<=", 2)
    m.mend("move x")
    m.done()
    assert m.at().ok
    with pytest.raises(NoValueError, match=r"a limit or caution of test\.small has no value"):
        _ = m.at(x=0).checks


def test_cautions(bar: Model) -> None:
    assert bar.at().cautions == ("Unplug the machine.",)
    assert bar.at(length="1.1 m").cautions == ("Unplug the machine.", "This is far.")
    assert bar.at(length="1 m").cautions == ("Unplug the machine.",)  # not more than 1 m


# -- changing a case ----------------------------------------------------------------------------------


def test_with_keeps_the_rest(bar: Model) -> None:
    case = bar.at(length="3 m", push=20, beyond=("length",)).with_(push="30 N")
    assert case.base["length"] == 3000
    assert case.base["push"] == 30
    with pytest.raises(SpanError):
        case.with_(beyond=frozenset())


def test_equal_cases_are_equal(bar: Model) -> None:
    assert bar.at(length=700) == bar.at(length=700)
    assert bar.at(length=700) != bar.at(length=701)


def test_show(bar: Model) -> None:
    case = bar.at(length="600 ± 0.2 mm")
    assert case.show("length") == "600.0 ± 0.2 mm"
    assert case.show("end") == "clamped"
    assert case.show("screws") == "6"
    assert case.show("tip") == "3.33 mm"


# -- picks --------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def wooden() -> Model:
    m = blank("test.wooden")
    E = m.given("modulus", "E", "12 ± 1.2 GPa", (1, 25), "modulus")
    m.source("a guess")
    G = m.given("gravity", "G", "0.6", (0.1, 1.2), "specific gravity")
    m.pick("wood", "woods", "red oak", {"modulus": "modulus_bending", "gravity": "specific_gravity"}, "the wood")
    m.result("stiffness", "S", "GPa")
    m.equals(E / G, "per weight")
    return m.done()


MSI = 1e6 * 4.4482216152605 / 25.4**2  # in MPa


def moduli(case: Case) -> tuple[float, float]:
    return case.base["modulus"], case.base["gravity"]


def test_pick_fills_its_givens(wooden: Model) -> None:
    """Red oak: 1.82 Msi and 0.63 (Wood Handbook, Table 5-3b)."""
    case = wooden.at()
    assert case.picks == {"wood": "red oak"}
    assert moduli(case) == pytest.approx((1.82 * MSI, 0.63), rel=1e-12)
    entry = case.entries["modulus"]
    assert entry.origin.kind == "table"
    assert entry.origin.source.startswith("woods, red oak: ")
    assert "Wood Handbook" in entry.origin.source
    # a tenth of the model's own 12 GPa is a tenth of the wood's modulus too
    assert entry.spread.half == pytest.approx(0.1 * 1.82 * MSI, rel=1e-12)


def test_another_row(wooden: Model) -> None:
    assert moduli(wooden.at(wood="White Oak")) == pytest.approx((1.78 * MSI, 0.68), rel=1e-12)


def test_unknown_row(wooden: Model) -> None:
    with pytest.raises(KitError, match=r"no row 'rd oak'.*'red oak'"):
        wooden.at(wood="rd oak")


def test_typed_value_goes_before_the_row(wooden: Model) -> None:
    case = wooden.at(wood="white oak", modulus="11 GPa")
    assert moduli(case) == pytest.approx((11_000, 0.68), rel=1e-12)
    assert case.entries["modulus"].origin.kind == "chosen"
    assert (case.origins["wood"].kind, wooden.at().origins["wood"].kind) == ("chosen", "example")


def test_new_pick_takes_back_what_was_typed(wooden: Model) -> None:
    case = wooden.at(modulus="11 GPa").with_(wood="white oak")
    assert moduli(case) == pytest.approx((1.78 * MSI, 0.68), rel=1e-12)
    assert "modulus" not in case.typed
    again = case.with_(modulus="10 GPa", wood="red oak")
    assert moduli(again) == pytest.approx((10_000, 0.63), rel=1e-12)


def test_row_of_the_job(wooden: Model) -> None:
    row = {
        "id": "shed pine",
        "modulus_bending": "9 GPa",
        "specific_gravity": "0.45",
        "source": "our own test",
    }
    case = wooden.at(wood="shed pine", tables={"woods": with_rows(table("woods"), [row])})
    assert moduli(case) == pytest.approx((9000, 0.45), rel=1e-12)
    assert case.entries["modulus"].origin.source.startswith("woods, shed pine: our own test")
    assert moduli(case.with_(gravity="0.5")) == pytest.approx((9000, 0.5), rel=1e-12)
    with pytest.raises(KitError, match="no row 'shed pine'"):
        wooden.at(wood="shed pine")


def test_row_outside_the_span(wooden: Model) -> None:
    row = {"id": "iron", "modulus_bending": "30 GPa", "specific_gravity": "0.9", "source": "test"}
    woods = {"woods": with_rows(table("woods"), [row])}
    with pytest.raises(SpanError, match="modulus is 30 GPa; this model holds for 1 GPa to 25 GPa"):
        wooden.at(wood="iron", tables=woods)
    assert wooden.at(wood="iron", tables=woods, beyond=("modulus",)).outside


def test_parse_errors_stay_quantity_errors(bar: Model) -> None:
    with pytest.raises(QuantityError):
        bar.at(length="1,5 m")
