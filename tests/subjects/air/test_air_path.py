"""The path of the air against a library of fluid mechanics, against cases known in closed form, and what it refuses."""

from math import pi, sqrt
from typing import Any

import pytest
from fluids import bend_rounded, contraction_conical, dP_from_K
from fluids.fittings import diffuser_sharp
from fluids.friction import Colebrook, friction_laminar
from scipy.optimize import brentq

from kit.core.build import Build
from kit.core.errors import KitError
from kit.subjects import model, subject
from kit.subjects.air.losses import bend, branch_entry, contraction, friction, pushed_together, widening
from tests.builds import build_input

PATH = model("air.path")
HOUR, PA = 1e9 / 3600, 1e-6  # m³/h and Pa in mm, N and s
DUCT = {"branch": "a", "diameter": "100 mm"}
ENTRY = {"piece": "entry", **DUCT, "mouth": "plain end"}
HOSE = {"piece": "hose", **DUCT, "length": "3 m", "roughness": "1 mm", "drawn": "100 %"}
BEND = {"piece": "bend", **DUCT, "angle": "90 deg", "radius": "200 mm", "roughness": "1 mm"}
CHUTE = {"piece": "chute", **DUCT, "width": "300 mm", "height": "200 mm", "length": "250 mm"}
FILTER = {"piece": "filter", "branch": "a", "clean": "100 Pa", "loaded": "300 Pa", "at": "700 m^3/h"}
GATE = {"piece": "gate", **DUCT, "slit": "0 mm^2"}
FALLING = [("0 m^3/h", "2000 Pa"), ("600 m^3/h", "1500 Pa"), ("1200 m^3/h", "0 Pa")]
GIVENS = {
    "wanted": "300 m^3/h",
    "fan_speed": "100 %",
    "density": "1.2 kg/m^3",
    "viscosity": "15 mm^2/s",
    "orifice": "0.6",
}


def stated(
    *pieces: dict[str, Any], curve: Any = FALLING, branches: Any = ({"name": "a"},), **more: Any
) -> dict[str, Any]:
    points = [{"flow": flow, "pressure": pressure} for flow, pressure in curve]
    return {"branches": list(branches), "pieces": list(pieces), "curve": points, **more}


def built(*pieces: dict[str, Any], givens: dict[str, str] | None = None, **more: Any) -> Build:
    build = subject("air.path").build
    assert build is not None
    return build(build_input(PATH.at(**GIVENS | (givens or {})), stated(*pieces, **more)))


def on(branch: str, *pieces: dict[str, Any]) -> list[dict[str, Any]]:
    return [{**piece, "branch": branch} for piece in pieces]


@pytest.mark.parametrize("reynolds", [1e4, 1.3e5, 2e6])
@pytest.mark.parametrize("roughness", [0.0, 1.5e-3, 2e-2])
def test_friction_is_colebrooks(reynolds: float, roughness: float) -> None:
    assert friction(reynolds, roughness) == pytest.approx(Colebrook(Re=reynolds, eD=roughness), rel=1e-10)


@pytest.mark.parametrize("reynolds", [1e-6, 3.0, 1500.0])
def test_air_that_creeps_through_a_slit_rubs_as_in_laminar_flow(reynolds: float) -> None:
    assert friction(reynolds, 1e-2) == pytest.approx(friction_laminar(reynolds), rel=1e-12)


@pytest.mark.parametrize("degrees", [30.0, 45.0, 90.0, 180.0])
@pytest.mark.parametrize("radius", [1.0, 2.5, 6.0])
def test_bends_after_rennels(degrees: float, radius: float) -> None:
    ours = bend(degrees * pi / 180, radius, 0.035)
    assert ours == pytest.approx(bend_rounded(Di=100, angle=degrees, rc=100 * radius, fd=0.035), rel=1e-12)


@pytest.mark.parametrize(("wide", "length"), [(150.0, 100.0), (276.4, 250.0), (500.0, 60.0)])
def test_cones_after_rennels(wide: float, length: float) -> None:
    ours = contraction(wide, 100.0, length, 0.02)
    assert ours == pytest.approx(contraction_conical(Di1=wide, Di2=100, l=length, fd=0.02), rel=1e-12)


def test_a_widening_after_borda() -> None:
    assert widening(100, 150) == pytest.approx(diffuser_sharp(Di1=100, Di2=150), rel=1e-12)


def test_a_branch_entry_between_the_table_s_rows_and_at_them() -> None:
    """ACGIH, Industrial Ventilation, branch entry: 30° 0.18, 45° 0.28, from memory; between them a straight line."""
    assert branch_entry(30 * pi / 180) == pytest.approx(0.18)
    assert branch_entry(37.5 * pi / 180) == pytest.approx(0.23, abs=0.003)
    assert branch_entry(45 * pi / 180) == pytest.approx(0.28)


def test_a_hose_pushed_together_costs_several_times_as_much() -> None:
    """Abushakra, Walker, Sherman, abstract: moderate compression by a factor of four, further close to ten; 6 in."""
    assert pushed_together(1.0, 150) == 1.0
    assert 3 < pushed_together(0.85, 150) < 6
    assert 7 < pushed_together(0.70, 150) < 11


def library_cost(flow: float, loaded: str = "300 Pa") -> float:
    """Return what chute, hose, bend and filter pull at the wall, Pa, by the library in SI units; flow in m³/s."""
    wide, nu, rho = 0.1, 15e-6, 1.2
    speed = flow / (pi * wide**2 / 4)
    begin = sqrt(4 * 0.3 * 0.2 / pi)
    smooth = Colebrook(Re=speed * wide / nu, eD=0.0)
    rough = Colebrook(Re=speed * wide / nu, eD=0.01)
    K = (
        1  # what accelerates the air stays in it, and shows at the wall
        + contraction_conical(Di1=begin, Di2=wide, l=0.25, fd=smooth)
        + rough * 3.0 / wide
        + bend_rounded(Di=wide, angle=90, rc=0.2, fd=rough)
    )
    return float(dP_from_K(K, rho=rho, V=speed)) + float(loaded.split()[0]) * flow * 3600 / 700


def test_the_operating_point_of_a_path_in_one_line() -> None:
    def lacking(flow: float) -> float:
        fan = 2000 - 500 * flow / 600 if flow < 600 else 1500 - 1500 * (flow - 600) / 600
        return library_cost(flow / 3600) - fan

    expected = brentq(lacking, 1, 1199, xtol=1e-9)
    found = built(CHUTE, HOSE, BEND, FILTER)
    assert found.number("flow_1").base / HOUR == pytest.approx(expected, rel=1e-9)
    assert found.number("pull_1").base / PA == pytest.approx(library_cost(expected / 3600), rel=1e-9)
    assert found.data[0].clean.flow > found.data[0].loaded.flow


def test_two_like_branches_share_evenly_and_cost_a_quarter() -> None:
    """Each carries half of the flow, so its loss is a quarter: as one branch with twice the area."""
    branches = [{"name": "a", "joins": "main"}, {"name": "b", "joins": "main"}, {"name": "main"}]
    loss = {"piece": "other", **DUCT, "loss": "4"}
    end = {"piece": "other", "branch": "main", "diameter": "200 mm", "loss": "0"}
    two = built(*on("a", loss), *on("b", loss), end, branches=branches).data[0].loaded
    assert two.hoods["a"] == pytest.approx(two.hoods["b"], rel=1e-9)
    assert sum(two.hoods.values()) == pytest.approx(two.flow, rel=1e-9)
    quarter = {**loss, "diameter": f"{100 * sqrt(2):.12f} mm"}
    one = built(quarter, {**end, "branch": "a"}).data[0].loaded
    assert one.flow == pytest.approx(two.flow, rel=1e-7)


def test_a_leak_as_large_as_the_duct_leaves_the_hood_next_to_nothing() -> None:
    """Air creeps in at the hood, however slowly; nothing breaks."""
    found = (
        built(ENTRY, {**HOSE, "length": "9 m"}, {"piece": "leak", "branch": "a", "area": "500000 mm^2"}).data[0].loaded
    )
    assert 0 < found.hoods["a"] < 0.2 * found.flow


def test_what_a_leak_draws() -> None:
    """An orifice: C A √(2 p/ρ) at the wall's suction, by hand."""
    found = built(ENTRY, HOSE, {"piece": "leak", "branch": "a", "area": "400 mm^2"}, FILTER).data[0].loaded
    hose = next(at for at in found.pieces if at.piece.words.startswith("hose"))
    drawn = found.flow - found.hoods["a"]
    assert drawn / HOUR == pytest.approx(0.6 * 400e-6 * sqrt(2 * hose.wall / PA / 1.2) * 3600, rel=1e-9)
    assert built(ENTRY, HOSE, FILTER).number("leak_1").base == 0


def test_a_shut_gate_with_a_slit_takes_air_from_the_open_hood() -> None:
    branches = [{"name": "a", "joins": "main"}, {"name": "b", "joins": "main"}, {"name": "main"}]
    end = on("main", HOSE)
    positions = [{"name": "a alone", "open": ["a"]}, {"name": "both", "open": ["a", "b"]}]

    def run(slit: str) -> Build:
        gate = {**GATE, "slit": slit}
        return built(
            *on("a", ENTRY, HOSE, gate), *on("b", ENTRY, HOSE, gate), *end, branches=branches, positions=positions
        )

    tight, leaking = run("0 mm^2"), run("500 mm^2")
    assert tight.data[0].loaded.hoods["a"] == pytest.approx(tight.data[0].loaded.flow, rel=1e-9)
    assert leaking.data[0].loaded.hoods["a"] < tight.data[0].loaded.hoods["a"]
    assert leaking.number("leak_1").base > 0
    assert tight.data[1].loaded.flow > tight.data[0].loaded.flow
    assert tight.data[1].loaded.hoods["a"] < tight.data[0].loaded.hoods["a"]
    assert [at.branch for at in tight.data[0].loaded.pieces if at.flow > 0 and at.branch == "b"] == []


def test_a_slower_fan_in_thin_air_moves_as_many_liters() -> None:
    """Losses and fan both go with the density; with no filter the flow goes with the speed (fan laws)."""
    loss = {"piece": "other", **DUCT, "loss": "3"}
    full = built(loss).number("flow_1").base
    assert built(loss, givens={"density": "0.9 kg/m^3"}).number("flow_1").base == pytest.approx(full, rel=1e-9)
    assert built(loss, givens={"fan_speed": "80 %"}).number("flow_1").base == pytest.approx(0.8 * full, rel=1e-9)


def test_a_path_that_is_too_dear_fails_and_says_what_mends_it() -> None:
    found = built(ENTRY, {**HOSE, "length": "30 m"}, givens={"wanted": "600 m^3/h"})
    assert {check.name for check in found.checks if not check.ok} == {"flow_1_1", "carries_1"}
    assert "to mend it, shorten or widen" in found.check("flow_1_1").words()


def test_nothing_beyond_the_curve_or_faster_than_the_formulas_is_green() -> None:
    short = [("0 m^3/h", "2000 Pa"), ("300 m^3/h", "1900 Pa")]
    assert not built(ENTRY, HOSE, curve=short).check("curve_1").ok
    vacuum = [("0 m^3/h", "30000 Pa"), ("700 m^3/h", "20000 Pa"), ("900 m^3/h", "0 Pa")]
    narrow = {"diameter": "40 mm"}
    found = built({**ENTRY, **narrow}, {**HOSE, **narrow, "length": "0.2 m"}, curve=vacuum)
    assert not found.check("fastest_1").ok
    assert not found.check("stands").ok
    assert any("thinner by up to 30 %" in text for text in found.cautions)


def test_without_a_path_nothing_is_said_to_hold() -> None:
    build = subject("air.path").build
    assert build is not None
    found = build(build_input(PATH.at()))
    assert found.open
    assert not found.checks


MAIN = [{"name": "a", "joins": "main"}, {"name": "main"}]


@pytest.mark.parametrize(
    ("pieces", "more", "told"),
    [
        ([ENTRY, HOSE], {"curve": FALLING[:1]}, "one point, 2000 Pa at 0 m³/h"),
        ([ENTRY, HOSE], {"curve": [FALLING[0], ("300 m^3/h", "2100 Pa")]}, "with more flow it gives less suction"),
        ([ENTRY, HOSE], {"curve": [FALLING[0], FALLING[2], FALLING[1]]}, "in the order of the flow"),
        ([ENTRY, HOSE], {"curve": FALLING[1:]}, "begin with the inlet shut"),
        (
            [*on("a", ENTRY, HOSE), *on("b", ENTRY, HOSE)],
            {"branches": [{"name": "a"}, {"name": "b"}]},
            "one branch runs into the collector, here 'a' and 'b'",
        ),
        (
            [*on("a", HOSE), *on("b", HOSE), *on("c", ENTRY, HOSE)],
            {"branches": [{"name": "a", "joins": "b"}, {"name": "b", "joins": "a"}, {"name": "c"}]},
            "join in a circle",
        ),
        ([HOSE], {"branches": [{"name": "a", "joins": "mian"}, {"name": "main"}]}, "mian"),
        ([ENTRY, HOSE], {"branches": MAIN}, "'main' has no pieces"),
        ([HOSE, ENTRY], {}, "is not its beginning"),
        ([*on("a", ENTRY, HOSE), *on("main", HOSE, GATE)], {"branches": MAIN}, "others join it"),
        ([{**BEND, "radius": "30 mm"}], {}, "at least half the diameter"),
        ([{**CHUTE, "width": "50 mm", "height": "50 mm"}], {}, "must become narrower"),
        (
            [*on("a", {"piece": "other", **DUCT, "loss": "0"}), *on("main", HOSE)],
            {"branches": MAIN},
            "'a' costs the air nothing",
        ),
        ([HOSE], {}, "begins with a hose ⌀100.0 mm; put its entry first"),
        ([ENTRY, HOSE], {"positions": [{"name": "p", "open": ["b"]}]}, "b"),
        (
            [*on("a", ENTRY, HOSE), *on("b", ENTRY, HOSE), *on("main", HOSE)],
            {
                "branches": [{"name": "a", "joins": "main"}, {"name": "b", "joins": "main"}, {"name": "main"}],
                "positions": [{"name": "p", "open": ["a"]}],
            },
            "shuts 'b', which has no gate",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(pieces: Any, more: dict[str, Any], told: str) -> None:
    with pytest.raises(KitError) as error:
        built(*pieces, **more)
    assert told in str(error.value)
    assert "\n" not in str(error.value)
