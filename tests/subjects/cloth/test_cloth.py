"""Closed forms of cloth against the numeric development, and both against integrals and arcs laid out in points."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from kit.core.model import find
from kit.geometry.development.develop import develop, refine, total_turn
from kit.geometry.development.primitives import apex, arc, circle, ellipse, line, polyline
from kit.geometry.development.tangency import Tangents, defects, strain_of_twist
from kit.subjects import model
from kit.subjects.cloth.geometry.hems import Tolerance, reliefs
from kit.subjects.cloth.geometry.pattern import Finish, SewEdge

FINE = 1e-4  # mm, chord error of the development


@pytest.mark.parametrize("narrow", [0.0, 104.0, 280.0])
def test_a_cone_is_the_sector_that_the_development_finds(narrow: float) -> None:
    case = model("cloth.cone").at(wide="300 mm", narrow=f"{narrow} mm", height="260 mm", cloth_thickness="2 mm")
    top = apex((0, 0, 260)) if narrow == 0 else circle(narrow / 2, (0, 0, 260))
    d = develop(circle(150), top, chord=FINE, offset=1.0)
    v = case.base
    assert abs(total_turn(d.flat)) == pytest.approx(v["sector"], rel=1e-5)
    assert np.linalg.norm(d.flat.b - d.flat.a, axis=1) == pytest.approx(np.full(len(d.flat.a), v["slant"]), rel=1e-9)
    around = np.linalg.norm(np.diff(d.flat.a, axis=0), axis=1).sum()
    if narrow:  # at a tip the offset strip has no smooth edge to measure
        assert around == pytest.approx(v["wide_arc"], rel=1e-5)
        assert d.flat.area / 1e6 == pytest.approx(v["area"] / 1e6, rel=1e-5)
    ends = np.linalg.norm(d.flat.a[-1] - d.flat.a[0])
    assert ends == pytest.approx(v["chord"], rel=1e-4)


def test_panels_of_a_cone_laid_out_by_trammel_make_the_whole() -> None:
    v = model("cloth.cone").at(panels=3).base
    # Draw one panel: an arc of radius R1 over the chord; its rise and area follow by counting, not by the formula.
    angle = np.linspace(-v["panel_angle"] / 2, v["panel_angle"] / 2, 20001)
    low = v["wide_arm"] * np.column_stack([np.sin(angle), -np.cos(angle)])
    high = v["narrow_arm"] / v["wide_arm"] * low
    ring = np.vstack([low, high[::-1]])
    x, y = ring.T
    area = 0.5 * abs(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))
    assert 3 * area == pytest.approx(v["area"], rel=1e-7)
    assert low[-1, 0] - low[0, 0] == pytest.approx(v["chord"], rel=1e-12)
    assert np.ptp(low[:, 1]) == pytest.approx(v["rise"], rel=1e-9)


def test_the_height_that_gives_a_wished_sector_is_found() -> None:
    found = find(model("cloth.cone").at(), "height", "sector", "120 deg")
    for height in found.values:
        back = model("cloth.cone").at(height=height).base["sector"]
        assert math.degrees(back) == pytest.approx(120, abs=1e-6)
    assert found.values


@pytest.mark.parametrize(("offset", "height"), [(0.0, 120.0), (40.0, 100.0), (90.0, 240.0), (200.0, 80.0)])
def test_an_oblique_cone_turns_as_its_integral_and_as_the_development(offset: float, height: float) -> None:
    r = 60.0
    v = model("cloth.oblique").at(radius=r, offset=offset, height=height, divisions=96, ruling=17).base
    tip = np.array([offset, 0.0, height])

    def rate(p: float) -> float:
        rim = np.array([r * math.cos(p), r * math.sin(p), 0.0])
        step = np.array([-r * math.sin(p), r * math.cos(p), 0.0])
        return float(np.linalg.norm(np.cross(step, tip - rim)) / ((tip - rim) @ (tip - rim)))

    half, _ = quad(rate, 0, math.pi, limit=200)
    assert v["half_sector"] == pytest.approx(half, rel=1e-9)
    assert v["rate"] == pytest.approx(rate(v["turn"]), rel=1e-12)
    d = develop(circle(r), apex(tuple(tip)), chord=FINE)
    assert abs(total_turn(d.flat)) == pytest.approx(2 * half, rel=1e-5)
    assert d.flat.area == pytest.approx(v["area"], rel=1e-5)
    piece, _ = quad(rate, v["turn"], v["turn"] + v["step"])
    # The chord triangle against the smooth cone: off by the square of the division.
    assert v["element"] == pytest.approx(piece, rel=2 * v["step"] ** 2)


def test_triangulation_closes_in_with_the_square_of_the_division() -> None:
    def summed(n: int) -> float:
        stated = model("cloth.oblique")
        return sum(stated.at(divisions=n, ruling=i).base["element"] for i in range(n // 2))

    whole = model("cloth.oblique").at().base["half_sector"]
    errors = [abs(summed(n) - whole) for n in (12, 24, 48)]
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.05)
    assert errors[1] / errors[2] == pytest.approx(4, rel=0.05)


@pytest.mark.parametrize("miter", [0.0, 22.5, 60.0])
def test_a_mitered_tube_has_the_curve_that_the_development_finds(miter: float) -> None:
    stated = model("cloth.miter")
    slope = math.tan(math.radians(miter))
    base = circle(51.0, start=math.pi)  # throat at -x
    cut = base.moved(np.array([[1.0, 0, 0], [0, 1, 0], [slope, 0, 0]]), np.array([0, 0, 60 + 51 * slope]))
    d = develop(base, cut, chord=1e-3, method="equal")
    for station in (0, 1, 5, 12, 17):
        v = stated.at(
            size="100 mm",
            cloth_thickness="2 mm",
            miter=f"{miter} deg",
            throat="60 mm",
            stations=24,
            station=station,
        ).base
        y = np.interp(v["along"], d.flat.b[:, 0], d.flat.b[:, 1])
        assert y == pytest.approx(v["length"], abs=5e-3)
    assert d.flat.a[-1, 0] == pytest.approx(v["girth"], rel=2e-5)
    assert d.flat.area == pytest.approx(v["area"], rel=2e-5)


@pytest.mark.parametrize("sides", [4, 5, 6])
def test_a_mitered_prism_has_the_lengths_that_the_development_finds(sides: int) -> None:
    stated = model("cloth.miter")
    slope, inside = math.tan(math.radians(30)), 51.0
    out = inside / math.cos(math.pi / sides)
    turns = [math.pi + (2 * k + 1) * math.pi / sides for k in range(sides)]
    foot = [(out * math.cos(a), out * math.sin(a), 0.0) for a in turns]
    head = [(x, y, 60 + (x + inside) * slope) for x, y, _ in foot]
    d = develop(polyline(foot, closed=True), polyline(head, closed=True), method="equal")
    for station in range(1, sides + 1):
        v = stated.at(
            kind="flat sides",
            size="100 mm",
            cloth_thickness="2 mm",
            miter="30 deg",
            throat="60 mm",
            stations=sides,
            station=station,
        ).base
        assert v["length"] == pytest.approx(head[station - 1][2], rel=1e-12)
    assert d.flat.a[-1, 0] == pytest.approx(v["girth"], rel=1e-12)
    assert d.flat.area == pytest.approx(v["area"], rel=1e-12)
    assert v["longest"] == pytest.approx(60 + slope * (inside + (out if sides % 2 else inside)), rel=1e-12)


def test_twist_is_the_defect_that_the_development_reports() -> None:
    stated = model("cloth.twist")
    rng = np.random.default_rng(5)
    for a, u, r, h, turn in rng.uniform([50, -200, 20, 50, -1.4], [300, 200, 200, 400, 1.4], (20, 5)):
        v = stated.at(side=a, along=u, radius=r, height=h, turn=f"{turn} rad").base
        foot, head = np.array([[a, u, 0.0]]), np.array([[r * math.cos(turn), r * math.sin(turn), h]])
        side, rim = np.array([[0.0, 1, 0]]), np.array([[-math.sin(turn), math.cos(turn), 0.0]])
        found = defects(Tangents(foot, side, side), Tangents(head, rim, rim))
        assert v["twist"] == pytest.approx(found[0], abs=1e-9)
        assert v["strain"] == pytest.approx(strain_of_twist(found)[0], rel=1e-9)


def test_the_strain_of_a_twist_is_the_width_that_a_narrow_band_lacks_halfway_up() -> None:
    v = model("cloth.twist").at(turn="25 deg").base
    delta = v["twist"]
    # Two rulings 1e-6 apart at both ends, in directions that make the twist; measure halfway up.
    low, high = np.array([1e-6, 0.0]), 1e-6 * np.array([math.cos(delta), math.sin(delta)])
    assert 1 - np.linalg.norm((low + high) / 2) / 1e-6 == pytest.approx(v["strain"], rel=1e-9)


def test_a_strip_of_twisted_rulings_keeps_its_folds_however_fine() -> None:
    side, rim = line((150, -120, 0), (150, 120, 0)), arc((35, -35, 250), (50, 0, 250), (35, 35, 250))
    naive = refine(side, rim, method="equal")
    assert not naive.holds
    right = refine(side, rim, method="lattice")
    assert right.folds[-1] < naive.folds[-1] / 2


@pytest.mark.parametrize("kind", ["convex", "concave"])
def test_relief_cuts_are_those_of_the_pattern(kind: str) -> None:
    radius, turn, depth = 160.0, math.radians(75), 18.0
    v = model("cloth.relief").at(edge=kind, radius=radius, turn="75 deg", depth=depth, tolerated="10 %").base
    angle = np.linspace(0, turn, 4001)
    edge = radius * np.column_stack([np.sin(angle), -np.cos(angle)])  # turns left: convex
    if kind == "concave":
        edge = edge * [1, -1]
    cuts = reliefs(SewEdge("rim", edge, Finish("hem", depth)), Tolerance(0.1, 3.0))
    assert len(cuts) == round(v["cuts"])
    assert {cut.kind for cut in cuts} == {"notch" if kind == "convex" else "slit"}
    root = cuts[0].points[1]
    mouth = cuts[0].points[[0, -1]].mean(axis=0) if kind == "convex" else cuts[0].points[0]
    assert np.linalg.norm(mouth - root) == pytest.approx(v["cut_depth"], rel=1e-4)
    assert abs(np.linalg.norm(root) - radius) == pytest.approx(v["free_depth"], rel=1e-4)
    if kind == "convex":
        assert np.linalg.norm(cuts[0].points[2] - cuts[0].points[0]) == pytest.approx(v["mouth"], rel=1e-3)


@pytest.mark.parametrize("kind", ["convex", "concave"])
def test_a_hem_folded_thread_by_thread_has_the_strain_stated(kind: str) -> None:
    v = model("cloth.relief").at(edge=kind).base
    angle = np.linspace(0, v["turn"], 20001)

    def long(radius: float) -> float:
        return float(
            np.linalg.norm(np.diff(radius * np.column_stack([np.cos(angle), np.sin(angle)]), axis=0), axis=1).sum()
        )

    out = 1 if kind == "convex" else -1
    for y, strain in ((v["depth"], v["bare_strain"]), (v["free_depth"], v["tolerated"])):
        before, after = long(v["radius"] + out * y), long(v["radius"] - out * y)
        assert abs(after / before - 1) == pytest.approx(strain, rel=1e-9)
    assert v["left_strain"] <= v["tolerated"] * (1 + 1e-12)


def test_a_notch_closes_when_the_hem_is_folded() -> None:
    v = model("cloth.relief").at(edge="convex").base
    # Hem left between two notches at its edge, against the arc on which it comes to lie between the same roots.
    share, b, free = v["turn_of_cut"], v["depth"], v["free_depth"]
    left = share * (v["radius"] + b) - v["mouth"]
    meant = share * (v["radius"] - b) * (v["radius"] + free) / (v["radius"] - free)
    # What the cloth inside the root may keep as puckers is kept by the hem outside it too.
    assert left / meant == pytest.approx(1, abs=v["tolerated"])


def test_ellipse_of_the_cut_is_what_is_sewn() -> None:
    """Both halves of an elbow have the same cut edge: its length is the ellipse's, by a general quadrature."""
    slope = math.tan(math.radians(22.5))
    v = model("cloth.miter").at(size="100 mm", cloth_thickness="2 mm", miter="22.5 deg").base
    s = np.linspace(0, v["girth"], 20001)
    y = v["throat"] + v["radius"] * (1 - np.cos(s / v["radius"])) * slope
    flat = float(np.hypot(np.diff(s), np.diff(y)).sum())
    rim = ellipse(51.0 * math.hypot(1, slope), 51.0)
    assert flat == pytest.approx(float(rim.lengths.sum()), rel=1e-6)


@pytest.mark.parametrize(("ruling", "holds"), [(12, True), (13, False)])
def test_a_ruling_beyond_their_count_fails_a_limit(ruling: int, holds: bool) -> None:
    case = model("cloth.oblique").at(divisions=12, ruling=ruling)
    assert next(check.ok for check in case.checks if check.name == "ruling") == holds
