"""How sure the air of a path is: draws through equations of their own against the implicit derivatives, and by hand."""

from math import pi, sqrt
from typing import Any

import numpy as np
import pytest
from fluids import bend_rounded, contraction_conical
from fluids.friction import Colebrook
from scipy.optimize import brentq

from kit.subjects.air.path_sure import CURVE_OFF, OFF, Sure
from tests.subjects.air.test_air_path import BEND, CHUTE, DUCT, FILTER, HOSE, built, on

DRAWS = 3000  # a standard deviation of so many draws is known to 1.3 %
HOUR = 1e9 / 3600  # m³/h in mm³/s


def sure(found: Any, position: int = 0) -> Sure:
    known: Sure = found.data[position].sure
    return known


def test_one_run_against_draws_through_a_library() -> None:
    hose = {**HOSE, "length": "3 ± 0.4 m", "diameter": "100 ± 3 mm", "off": "30 %"}
    curve = [("0 m^3/h", "2000 ± 80 Pa"), ("600 m^3/h", "1500 ± 120 Pa"), ("1200 m^3/h", "0 Pa")]
    pieces = (CHUTE, hose, {**BEND, "off": "0 %"}, {**FILTER, "loaded": "300 ± 90 Pa"})
    found = built(*pieces, curve=curve)
    draw = np.random.default_rng(7).uniform(-1, 1, (DRAWS, 7))

    def flow(off: list[float]) -> float:
        """Solve it for one draw, m³/h; each loss at its own width, in SI units."""
        wide, at_hose, length = 0.1, 0.1 + 0.003 * off[0], 3 + 0.4 * off[1]
        first, second = 2000 + 80 * off[4], 1500 + 120 * off[5]

        def lacking(hourly: float) -> float:
            q = hourly / 3600
            v, v_hose = (4 * q / (pi * d**2) for d in (wide, at_hose))
            smooth, rough = (Colebrook(Re=v * wide / 15e-6, eD=e / wide) for e in (0.0, 1e-3))
            cone = contraction_conical(Di1=sqrt(4 * 0.06 / pi), Di2=wide, l=0.25, fd=smooth) * (1 + OFF * off[2])
            rubbing = Colebrook(Re=v_hose * at_hose / 15e-6, eD=1e-3 / at_hose) * length / at_hose * (1 + 0.3 * off[3])
            turn = bend_rounded(Di=wide, angle=90, rc=0.2, fd=rough)
            lost = 0.6 * ((1 + cone + turn) * v**2 + rubbing * v_hose**2) + (300 + 90 * off[6]) * hourly / 700
            fan = float(np.interp(hourly, [0, 600, 1200], [first, second, 0]))
            return float(lost - fan)

        return float(brentq(lacking, 1, 1199))

    drawn = np.array([flow(off) for off in draw.tolist()])
    assert sure(found).u_flow("a") / HOUR == pytest.approx(drawn.std(), rel=0.05)
    place = next(n for n, at in enumerate(found.data[0].loaded.pieces) if at.piece.words.startswith("bend"))
    bend = sure(found).u_speed(place) / found.data[0].loaded.pieces[place].speed
    assert bend == pytest.approx(sure(found).u_flow("a") / found.data[0].loaded.hoods["a"], rel=1e-6)


def test_branches_that_join_against_draws_through_their_own_equations() -> None:
    """Losses of a constant coefficient: each branch passes A √(2 p/(ρ K)) at the pull p where they meet."""
    branches = [{"name": "a", "joins": "main"}, {"name": "b", "joins": "main"}, {"name": "main"}]
    curve = [("0 m^3/h", "2000 ± 100 Pa"), ("2000 m^3/h", "0 Pa")]
    a = {"piece": "other", "diameter": "100 ± 4 mm", "loss": "3", "off": "15 %"}
    b = {"piece": "other", "diameter": "80 mm", "loss": "2 ± 0.5"}
    main = {"piece": "other", "diameter": "150 mm", "loss": "1.5", "off": "40 %"}
    found = built(*on("a", a), *on("b", b), *on("main", main), branches=branches, curve=curve)

    def flows(off: np.ndarray) -> tuple[float, float]:
        areas = [pi / 4 * d**2 for d in (0.1 + 0.004 * off[0], 0.08, 0.15)]
        losses = [3 * (1 + 0.15 * off[1]), 2 + 0.5 * off[2], 1.5 * (1 + 0.4 * off[3])]

        def through(pull: float) -> list[float]:
            return [area * sqrt(2 * pull / 1.2 / loss) for area, loss in zip(areas[:2], losses[:2], strict=True)]

        def lacking(pull: float) -> float:
            q = sum(through(pull))
            fan = (2000 + 100 * off[4]) * max(0.0, 1 - q * 3600 / 2000)
            return float(pull + (losses[2] + 1) * 0.6 * (q / areas[2]) ** 2 - fan)

        one, other = through(brentq(lacking, 1e-6, 2500))
        return one * 3600, other * 3600

    drawn = np.array([flows(off) for off in np.random.default_rng(11).uniform(-1, 1, (DRAWS, 5))])
    for number, hood in enumerate("ab"):
        assert sure(found).u_flow(hood) / HOUR == pytest.approx(drawn[:, number].std(), rel=0.05)
    effects = {cause.piece: part for cause, part in zip(sure(found).causes, sure(found).hoods["a"], strict=True)}
    assert effects["other 2 of 'b'"] > 0, "what b loses more, a gains"
    assert effects["other 3 of 'main'"] < 0


def test_what_says_nothing_is_taken_to_be_off_by_a_fifth() -> None:
    """A level curve and one loss with its outlet's velocity pressure: q² (K + 1) stays, so dq/q = -dK / 2 (K + 1)."""
    level = [("0 m^3/h", "1000 ± 0 Pa"), ("5000 m^3/h", "1000 ± 0 Pa")]
    piece = {"piece": "other", **DUCT, "loss": "9"}

    def relative(**more: str) -> float:
        found = built({**piece, **more}, curve=level)
        return sure(found).u_flow("a") / float(found.data[0].loaded.flow)

    assert relative() == pytest.approx(9 * OFF / sqrt(3) / (2 * 10), rel=1e-5)
    assert relative(off="10 %") == pytest.approx(9 * 0.1 / sqrt(3) / (2 * 10), rel=1e-5)
    assert relative(loss="9 ± 2") == pytest.approx(2 / sqrt(3) / (2 * 10), rel=1e-5), "its own ± in place of a fifth"
    assert relative(loss="9 ± 0") == pytest.approx(0, abs=1e-9), "stated as exact"
    assert relative(loss="9 ± 2", off="0 %") == relative(loss="9 ± 2")


def test_a_curve_that_says_nothing_is_off_by_a_twentieth_all_along() -> None:
    """The flow goes with the root of the pressure, so by half of that; a point that states its ± is left out."""

    def relative(*pressures: str) -> float:
        curve = [("0 m^3/h", pressures[0]), ("5000 m^3/h", pressures[1])]
        found = built({"piece": "other", **DUCT, "loss": "9 ± 0"}, curve=curve)
        return sure(found).u_flow("a") / float(found.data[0].loaded.flow)

    assert relative("1000 Pa", "1000 Pa") == pytest.approx(CURVE_OFF / sqrt(3) / 2, rel=1e-5)
    share = built(
        {"piece": "other", **DUCT, "loss": "9 ± 0"}, curve=[("0 m^3/h", "1000 Pa"), ("5000 m^3/h", "1000 Pa")]
    )
    at = share.data[0].loaded.flow / HOUR / 5000
    assert relative("1000 Pa", "1000 ± 0 Pa") == pytest.approx((1 - at) * CURVE_OFF / sqrt(3) / 2, rel=1e-5)


def test_a_flow_is_enough_only_when_that_is_sure() -> None:
    pieces = (CHUTE, HOSE, BEND, FILTER)
    flow = built(*pieces).data[0].loaded.flow / HOUR
    u = sure(built(*pieces)).u_flow("a") / HOUR

    def outcome(wanted: float) -> str:
        return built(*pieces, givens={"wanted": f"{wanted:.3f} m^3/h"}).check("flow_1_1").outcome()

    assert outcome(flow - 3 * u) == "holds"
    assert outcome(flow - 0.5 * u) not in ("holds", "fails")
    assert outcome(flow + 3 * u) == "fails"


def test_the_table_says_which_piece_matters() -> None:
    found = built(CHUTE, {**HOSE, "off": "50 %"}, BEND, FILTER)
    table = next(each for each in found.tables if "unsure" in each.title)
    assert table.rows[0][3] == "hose 2 of 'a'"
    assert sum(int(row[5].removesuffix(" %")) for row in table.rows) == pytest.approx(100, abs=2)


def test_a_bend_as_tight_as_may_be_is_sure_to_one_side() -> None:
    """Wider by its ± it could not be bent so; it is then differenced the other way alone."""
    found = built(CHUTE, {**BEND, "radius": "50 mm", "diameter": "100 ± 1 mm"}, FILTER)
    wide = built(CHUTE, {**BEND, "radius": "50.1 mm", "diameter": "100 ± 1 mm"}, FILTER)
    brought = [
        part
        for each in (found, wide)
        for cause, part in zip(sure(each).causes, sure(each).hoods["a"], strict=True)
        if cause.what == "diameter"
    ]
    assert brought[0] == pytest.approx(brought[1], rel=0.01)
