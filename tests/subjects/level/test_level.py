"""Leveling against counted cards, a frame library, matrices, brute force and other statisticians' functions."""

import itertools
import math

import numpy as np
import pytest
from Pynite import FEModel3D
from scipy.optimize import linprog, minimize_scalar
from scipy.stats import norm, t

from kit.core.errors import KitError
from kit.core.model import find
from kit.core.uncertainty import budget
from kit.subjects import model

CARDS, PLANE, PADS = model("level.cards"), model("level.plane"), model("level.pads")
FEET, TRIPOD, REGISTER = model("level.feet"), model("level.tripod"), model("level.register")


# -- cards ---------------------------------------------------------------------------------------------------


def test_a_card_left_over_by_counting() -> None:
    """Gaps drawn at will, filled with whole cards and read as n and a half: the error spreads as stated."""
    v = CARDS.at(cards=10, stack="2 mm", stack_pressed="2 mm", zero="0 mm").base
    card = 0.2
    gaps = np.random.default_rng(3).uniform(1, 5, 400_000)
    error = (np.floor(gaps / card) + 0.5) * card - gaps
    assert v["card"] == pytest.approx(card, rel=1e-12)
    assert error.std() == pytest.approx(v["u_card"], rel=2e-3)
    assert error.mean() == pytest.approx(0, abs=3e-4)


def test_depth_and_uncertainty_by_drawing_every_reading() -> None:
    """A workshop in NumPy: true cards under true pressures, calipers that round, a feel that wanders."""
    rng, draws = np.random.default_rng(5), 400_000
    n, k, free, step = 12, 0.04, 2.5, 0.01
    p0, p1, p2, zero, m, s = 2.0, 20.0, 100.0, 0.013, 5, 0.03
    true_p0 = p0 * np.exp(rng.uniform(-0.3, 0.3, draws))  # so k times it is rectangular, as the model has it
    left = rng.uniform(0, 1, draws)
    shift = rng.uniform(-step / 2, step / 2, (3, draws))  # where the calipers' steps happen to lie
    at_one = free - k * math.log(p1 / p0)

    def read(value: float, start: np.ndarray) -> np.ndarray:
        return np.round((value + start) / step) * step - start

    h1, h2, z = (
        read(at_one + zero, shift[0]),
        read(at_one - k * math.log(p2 / p1) + zero, shift[1]),
        read(zero, shift[2]),
    )
    back = math.log(p1 / p0) / math.log(p2 / p1)
    read_gap = (h1 - z + back * (h1 - h2)) * (1 + 0.5 / n)
    stack = free - k * np.log(true_p0 / p0)
    edge = rng.uniform(-0.02, 0.02, draws)
    error = read_gap + rng.normal(0, s / math.sqrt(m), draws) - stack * (1 + left / n) - edge
    v = CARDS.at(
        cards=n, stack=f"{at_one + zero} mm", stack_pressed=f"{at_one + zero - k * math.log(p2 / p1)} mm",
        zero=f"{zero} mm", step=f"{step} mm", feel=p0, pressure=p1, pressure_high=p2, feel_error="30 %",
        spread=f"{s} mm", readings=m, edge_error="0.02 mm",
    ).base  # fmt: skip
    assert v["stack_free"] == pytest.approx(free, abs=1e-9)
    assert error.std() == pytest.approx(v["u"], rel=5e-3)


def test_budget_of_the_gap_agrees_with_the_stated_parts() -> None:
    case = CARDS.at(stack="2.41 ± 0.005 mm", stack_pressed="2.35 ± 0.005 mm", zero="0.01 ± 0.005 mm", feel="2 ± 1 kPa")
    v = case.base
    parts = math.sqrt(v["u_card"] ** 2 + v["u_calipers"] ** 2 + v["u_feel"] ** 2)
    assert budget(case, "gap").u == pytest.approx(parts, rel=1e-9)


@pytest.mark.parametrize(("overhang", "place"), [(0, 450), (80, 300), (250, 700), (420, 450)])
def test_sag_by_frame_analysis(overhang: float, place: float) -> None:
    v = CARDS.at(supports="900 mm", overhang=f"{overhang} mm", place=f"{place} mm", hand="7 N").base
    frame = FEModel3D()
    frame.add_material("steel", 1.0, 1.0, 0.0, 0.0)
    frame.add_section("edge", A=v["stiffness"], Iy=v["stiffness"], Iz=v["stiffness"], J=v["stiffness"])
    stations = sorted({-overhang, 0.0, place, 900.0, 900.0 + overhang})
    for x in stations:
        frame.add_node(f"{x}", x, 0, 0)
    frame.def_support("0.0" if "0.0" in frame.nodes else "0", *[True] * 4, False, False)
    frame.def_support("900.0", False, True, True, False, False, False)
    weight = 0.0
    for name, (a, b) in enumerate(itertools.pairwise(stations)):
        frame.add_member(f"{name}", f"{a}", f"{b}", "steel", "edge")
        frame.add_member_dist_load(f"{name}", "FY", -v["weight"], -v["weight"])
        weight += v["weight"] * (b - a)
    frame.add_node_load(f"{place}", "FY", -7.0)
    frame.analyze()
    assert -frame.nodes[f"{place}"].DY["Combo 1"] == pytest.approx(v["sag_weight"] + v["sag_hand"], rel=1e-6)


@pytest.mark.parametrize("readings", [3, 4, 5, 8, 20])
@pytest.mark.parametrize("spread", [0.05, 0.2, 1.0])
def test_student_factor(readings: int, spread: float) -> None:
    """SciPy's t at the Welch-Satterthwaite degrees of freedom; the series is 0.8 % low at 2, as stated."""
    v = CARDS.at(readings=readings, spread=f"{spread} mm").base
    freedom = v["u"] ** 4 / (v["u_type_a"] ** 4 / (readings - 1))
    assert v["student"] == pytest.approx(t.ppf(0.975, freedom), rel=8e-3 if freedom < 3 else 2e-3)
    if freedom > 4:
        assert v["student"] == pytest.approx(t.ppf(0.975, freedom), rel=4e-4)


def test_readings_all_alike_leave_the_normal_factor() -> None:
    v = CARDS.at(spread="0 mm").base
    assert v["student"] == pytest.approx(norm.ppf(0.975), abs=1e-6)
    assert v["u"] == v["u_type_b"]


# -- plane ---------------------------------------------------------------------------------------------------


def test_plane_by_matrices() -> None:
    v = PLANE.at(u_1="0.1 mm", u_2="0.05 mm", u_3="0.2 mm", u_edge="0.3 mm").base
    rows = np.array([[1, v[f"x_{i}"], v[f"y_{i}"]] for i in (1, 2, 3)])
    terms = np.linalg.solve(rows, [v[f"gap_{i}"] for i in (1, 2, 3)])
    back = np.linalg.inv(rows)
    foot = np.array([1, v["foot_x"], v["foot_y"]])
    covariance = back @ (np.diag([0.1**2, 0.05**2, 0.2**2]) + 0.3**2) @ back.T  # what all share stands everywhere
    assert terms == pytest.approx([v["depth_corner"], v["slope_x"], v["slope_y"]], rel=1e-9)
    assert foot @ terms == pytest.approx(v["depth"], rel=1e-9)
    assert math.sqrt(foot @ covariance @ foot) == pytest.approx(v["u"], rel=1e-9)
    normal = np.array([-terms[1], -terms[2], 1])
    assert math.acos(normal[2] / np.linalg.norm(normal)) == pytest.approx(v["lean"], rel=1e-6)


def test_places_in_one_line_get_one_sentence() -> None:
    with pytest.raises(KitError, match="three places in one line fix no plane"):
        PLANE.at(y_3="40 mm", beyond=("y_3",))
    near = PLANE.at(y_1="0 mm", x_2="600 mm", y_2="300 mm", x_1="0 mm", x_3="1100 mm", y_3="500 mm")
    state = next(state for state in near.checks if state.name == "spread_out")
    assert not state.ok
    assert "move one place" in state.words()


# -- pads ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("aim", "band", "u"), [(0.1, 0.3, 0.07), (0.0, 0.2, 0.2), (0.5, 0.4, 0.05), (0.2, 0.2, 1.0)])
def test_chances_by_another_normal_distribution(aim: float, band: float, u: float) -> None:
    v = PADS.at(aim=f"{aim} mm", band=f"{band} mm", u_depth=f"{u} mm", step="0.01 mm", made_error="0.06 mm").base
    spread = math.sqrt(u**2 + 0.06**2 / 3)
    proud = norm(v["proud"], spread)
    assert v["chance_low"] == pytest.approx(proud.cdf(0), abs=1e-12)
    assert v["chance_high"] == pytest.approx(proud.sf(band), abs=1e-12)
    assert v["chance"] == pytest.approx(proud.cdf(band) - proud.cdf(0), abs=1e-12)
    top = minimize_scalar(
        lambda m: norm.cdf(0, m, spread) - norm.cdf(band, m, spread), bounds=(-1, 2), method="bounded"
    )
    assert v["chance_best"] == pytest.approx(-top.fun, abs=1e-9)


@pytest.mark.parametrize(
    ("depth", "step", "height"),
    [("3.1 mm", "0.2 mm", 3.4), ("3.04 mm", "0.2 mm", 3.2), ("3 mm", "0.32 mm", 3.2)],
)
def test_height_goes_in_steps(depth: str, step: str, height: float) -> None:
    v = PADS.at(depth=depth, step=step, aim="0.2 mm").base
    assert v["height"] == pytest.approx(height, abs=1e-9)
    assert abs(v["rounding"]) <= v["step"] / 2 + 1e-12


def test_a_bed_that_stands_high_needs_no_pad() -> None:
    case = PADS.at(depth="0 mm", aim="0 mm")
    assert any("no height is wanted" in text for text in case.cautions)
    with pytest.raises(KitError, match="depth is -1 mm"):
        PADS.at(depth="-1 mm")


# -- feet ----------------------------------------------------------------------------------------------------

HEIGHTS = [
    (3.0, 3.0, 3.0, 3.0),
    (2.0, 2.4, 3.1, 2.2),
    (3.0, 2.0, 2.5, 3.3),
    (0.5, 1.5, 0.2, 1.0),
    (1.0, 2.0, 3.0, 2.1),
]


def corners(v: dict[str, float]) -> np.ndarray:
    a, b = v["length"] / 2, v["depth"] / 2
    return np.array([(-a, -b), (a, -b), (a, b), (-a, b)])


@pytest.mark.parametrize("heights", HEIGHTS)
def test_forces_of_a_stiff_base_on_springs(heights: tuple[float, ...]) -> None:
    """Stiffness method: three unknown movements of the base, springs that may also pull."""
    v = FEET.at(**{f"height_{i + 1}": f"{h} mm" for i, h in enumerate(heights)}).base
    rows = np.column_stack([np.ones(4), corners(v)])
    k, W = v["stiffness"], v["weight"]
    load = W * np.array([1, v["center_x"], v["center_y"]])
    base = np.linalg.solve(k * rows.T @ rows, k * rows.T @ np.array(heights) - load)
    force = k * (np.array(heights) - rows @ base)
    assert [v[f"force_{i}"] for i in (1, 2, 3, 4)] == pytest.approx(force, rel=1e-9)
    assert v["sink"] == pytest.approx(np.mean(force) / k, rel=1e-9)


@pytest.mark.parametrize("heights", HEIGHTS)
@pytest.mark.parametrize("center", [(20, 10), (-30, 40), (45, -20), (-10, -45)])
def test_hanging_foot_by_trying_all_threes(heights: tuple[float, ...], center: tuple[float, float]) -> None:
    """On hard pads the machine stands on three feet round its center, and the fourth is above its pad."""
    v = FEET.at(
        center_x=f"{center[0]} mm", center_y=f"{center[1]} mm",
        **{f"height_{i + 1}": f"{h} mm" for i, h in enumerate(heights)},
    ).base  # fmt: skip
    rows = np.column_stack([np.ones(4), corners(v)])
    stands = []
    for free in range(4):
        held = [i for i in range(4) if i != free]
        shares = np.linalg.solve(rows[held].T, [1, *center])
        gap = rows[free] @ np.linalg.solve(rows[held], np.array(heights)[held]) - heights[free]
        if shares.min() > 0 and gap > 1e-9:
            stands.append((free + 1, gap))
    if v["twist"] == pytest.approx(0, abs=1e-9):
        assert not stands
        return
    assert [free for free, _ in stands] == [round(v["hanging"])]
    assert stands[0][1] == pytest.approx(abs(v["twist"]), rel=1e-9)


@pytest.mark.parametrize("heights", HEIGHTS)
def test_split_is_what_no_plane_fits(heights: tuple[float, ...]) -> None:
    v = FEET.at(**{f"height_{i + 1}": f"{h} mm" for i, h in enumerate(heights)}).base
    rows = np.column_stack([np.ones(4), corners(v)])
    fitted = rows @ np.linalg.lstsq(rows, np.array(heights), rcond=None)[0]
    assert np.array(heights) - fitted == pytest.approx(v["split"] * np.array([1, -1, 1, -1]), abs=1e-12)


def test_rocking_by_turning_about_the_diagonal() -> None:
    v = FEET.at(height_1="3.2 mm", height_2="2.9 mm", height_3="3.3 mm", height_4="3 mm").base
    one, two, three, _ = corners(v)
    axis = (three - one) / np.linalg.norm(three - one)
    arm = abs(axis[0] * (two - one)[1] - axis[1] * (two - one)[0])
    assert v["arm"] == pytest.approx(arm, rel=1e-12)
    turn = math.asin(v["twist"] / arm)
    assert v["sway"] == pytest.approx(v["blade_height"] * math.sin(turn), rel=1e-5)


def test_twist_that_rubber_takes_up_leaves_the_lightest_foot_bare() -> None:
    v = FEET.at().base
    less = FEET.at(height_1=f"{2.7 + v['twist_taken'] - v['twist']} mm").base
    assert min(less[f"force_{i}"] for i in (1, 2, 3, 4)) == pytest.approx(0, abs=1e-9)


# -- three feet ----------------------------------------------------------------------------------------------


def test_three_feet_by_matrices() -> None:
    v = TRIPOD.at(x_1="-30 mm", y_1="10 mm", x_2="500 mm", y_2="-40 mm", x_3="180 mm", y_3="420 mm").base
    rows = np.array([[1.0, v[f"x_{i}"], v[f"y_{i}"]] for i in (1, 2, 3)])
    force = np.linalg.solve(rows.T, v["weight"] * np.array([1, v["center_x"], v["center_y"]]))
    assert [v[f"force_{i}"] for i in (1, 2, 3)] == pytest.approx(force, rel=1e-9)
    plane = np.linalg.solve(rows, force / v["stiffness"])
    assert v["lean"] == pytest.approx(math.hypot(plane[1], plane[2]), rel=1e-9)


def test_tipping_push_by_searching_all_directions() -> None:
    v = TRIPOD.at().base
    rows = np.array([[1.0, v[f"x_{i}"], v[f"y_{i}"]] for i in (1, 2, 3)])
    least = math.inf
    for angle in np.linspace(0, 2 * np.pi, 20_001):
        arm = v["push_height"] * np.array([0, math.cos(angle), math.sin(angle)])
        still = np.linalg.solve(rows.T, v["weight"] * np.array([1, v["center_x"], v["center_y"]]))
        each = np.linalg.solve(rows.T, arm)  # change of the three forces for a push of 1 N
        least = min([least, *(-still[i] / each[i] for i in range(3) if each[i] < 0)])
    assert v["tip"] == pytest.approx(least, rel=1e-6)


def test_a_center_outside_the_feet_is_told() -> None:
    case = TRIPOD.at(center_x="600 mm")
    assert any("falls over" in text for text in case.cautions)
    assert min(case.base[f"force_{i}"] for i in (1, 2, 3)) < 0


# -- coming back ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("along", "beside"), [(60, 150), (-350, -80), (900, 40), (0, 0)])
def test_worst_shift_by_linear_programming(along: float, beside: float) -> None:
    """All small movements that leave both feet in their play; the blade's two shifts and the turn at their largest."""
    v = REGISTER.at(way="dropped in", along=f"{along} mm", beside=f"{beside} mm").base
    D, half = v["apart"], v["clearance"] / 2
    feet = np.array([[0, 1, -D / 2], [0, 1, D / 2], [1, 0, 0]])  # of shift x, shift y, turn

    def largest(row: list[float]) -> float:
        found = linprog(-np.array(row), A_ub=np.vstack([feet, -feet]), b_ub=[half] * 6, bounds=(None, None))
        return float(-found.fun)

    assert v["shift"] == pytest.approx(largest([0, 1, along]), rel=1e-9)
    assert v["twist"] == pytest.approx(largest([0, 0, 1]), rel=1e-9)
    # x and turn are independent, so their worst cases meet
    assert v["shift_x"] == pytest.approx(max(largest([1, 0, -beside]), largest([1, 0, beside])), rel=1e-9)


def test_spread_of_the_shift_by_drawing() -> None:
    v = REGISTER.at(way="dropped in", along="300 mm").base
    near, far = np.random.default_rng(2).uniform(-v["clearance"] / 2, v["clearance"] / 2, (2, 400_000))
    turn = (far - near) / v["apart"]
    assert ((near + far) / 2 + turn * 300).std() == pytest.approx(v["u_shift"], rel=5e-3)
    assert (turn * v["cut"]).std() == pytest.approx(v["u_square"], rel=5e-3)


def test_negative_clearances_are_refused() -> None:
    for stated, name in ((REGISTER, "clearance"), (model("level.print"), "clearance")):
        with pytest.raises(KitError, match=r"clearance is -0\.1 mm; this model holds for 0 mm to"):
            stated.at(**{name: "-0.1 mm"})


# -- turned round --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "unknown", "result", "target"),
    [
        ("level.cards", "edge_height", "sag_weight", "0.01 mm"),
        ("level.cards", "hand", "sag_hand", "0.02 mm"),
        ("level.plane", "u_2", "u", "0.08 mm"),
        ("level.plane", "gap_3", "depth", "3 mm"),
        ("level.pads", "u_depth", "chance_best", "95 %"),
        ("level.feet", "height_3", "twist", "0 mm"),
        ("level.tripod", "push_height", "tip", "200 N"),
        ("level.register", "dirt", "out_of_square", "0.1 mm"),
        ("level.print", "height", "mass", "20 g"),
    ],
)
def test_turned_round(name: str, unknown: str, result: str, target: str) -> None:
    case = model(name).at()
    found = find(case, unknown, result, target)
    assert found.values, found.words()
    for value in found.values:
        stated = model(name).part(unknown).unit.from_base(value)
        assert case.with_(**{unknown: stated}).base[result] == pytest.approx(found.target, rel=1e-6, abs=1e-9)
    if (name, unknown) != ("level.tripod", "push_height"):  # the least of three
        assert found.how == "closed form"
