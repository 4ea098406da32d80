"""The knob: plies stacked one by one, outline by exact geometry, screw by forces in space, clamp by numbers."""

import math
from collections.abc import Mapping
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.math import bulge_radius
from scipy.integrate import dblquad, quad, solve_ivp

from kit.core.errors import KitError
from kit.core.model import find
from kit.core.quantity import Display
from kit.core.tables import table
from kit.drawing.export import save
from kit.drawing.primitives import Arc
from kit.drawing.scene import Layer
from kit.geometry.outline.arc_outline import Arc as OutlineArc
from kit.subjects import model, subject
from kit.subjects.knob.outline_figure import outline, template

PLIES, OUTLINE, TORQUE, CLAMP = (model(f"knob.{name}") for name in ("plies", "outline", "torque", "clamp"))


def failing(case) -> list[str]:  # type: ignore[no-untyped-def]
    return [limit.name for limit in case.checks if not limit.ok]


# -- plies -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(40))
def test_plies_by_stacking_them_one_by_one(seed: int) -> None:
    """A person lays ply on ply until each layer is high enough; no division, no rounding."""
    rng = np.random.default_rng(seed)
    low = {n: PLIES.givens[n].span[0] for n in PLIES.free}
    high = {n: PLIES.givens[n].span[1] for n in PLIES.free}
    names = ("ply", "nut_height", "washer", "foot", "room", "stud", "face_washer")
    v = PLIES.at(**{n: float(rng.uniform(low[n], high[n])) for n in names}, roof_plies=int(rng.integers(0, 6))).base
    level = 0.0
    counts = []
    for need in (v["foot"], None, v["stud"] - v["face_washer"] + v["room"]):
        start, n = level, 0
        goal = start + v["washer"] + v["nut_height"] if need is None else need
        while level < goal - 1e-12:
            level += v["ply"]
            n += 1
        counts.append(n)
    assert [v[f"{n}_plies"] for n in ("foot", "well", "end")] == counts
    assert v["height"] == pytest.approx(level + v["roof_plies"] * v["ply"])
    # thread in the nut, turn by turn along the stud
    seat = counts[0] * v["ply"] + v["washer"]
    grid = np.linspace(seat, seat + v["nut_height"], 20001)
    inside = np.mean(grid <= v["stud"] - v["face_washer"] - v["pitch"]) * v["nut_height"]
    assert v["engaged"] == pytest.approx(inside, abs=2e-3)


def test_shortest_stud_fills_the_nut_and_a_hair_less_does_not() -> None:
    case = PLIES.at()
    shortest = case.base["shortest"]
    assert "engaged" not in failing(PLIES.at(stud=shortest + 1e-6))
    assert "engaged" in failing(PLIES.at(stud=shortest - 1e-3))


@pytest.mark.parametrize("thread", ["M5", "M6", "M8", "M10", "M12", "M16", "M20", "1/4-20", "3/8-16", "1/2-20"])
def test_nuts_of_the_table_pass_no_hole_that_would_swallow_them(thread: str) -> None:
    case = PLIES.at(thread=thread, stud=70, foot=10, room=5)
    assert failing(case) in ([], ["height"])
    assert case.base["well"] > case.base["stud_hole"]


def test_impossible_thread_is_told() -> None:
    case = PLIES.at(diameter="6 mm", pitch="2.5 mm")
    assert "coarse" in failing(case)
    with pytest.raises(KitError, match="pitch"):
        PLIES.at(pitch="9 mm")
    with pytest.raises(KitError, match="pitch"):
        PLIES.at(pitch="0 mm")


# -- outline -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "givens",
    [{}, {"hollow_wish": "40 mm"}, {"lobes": 3, "outer_radius": "60 mm"}, {"lobes": 6, "lobe_radius": "8 mm"},
     {"lobes": 8, "outer_radius": "45 mm", "hollow_depth": "1 mm", "hollow_wish": "3 mm"}],
    ids=str,
)  # fmt: skip
def test_outline_against_exact_geometry(givens: dict[str, str]) -> None:
    """The shape runs a belt round circles anywhere; the model knows triangles of one hollow only."""
    v = OUTLINE.at(bit="2 mm", **givens).base
    shape = outline(v)
    assert shape.length == pytest.approx(v["perimeter"], rel=1e-12)
    assert shape.area == pytest.approx(v["area"], rel=1e-12)
    assert max(shape.joints()) < 1e-9
    assert shape.offset(v["bit"] / 2).length == pytest.approx(v["path"], rel=1e-12)
    lobes = [part.sweep for part in shape.parts if isinstance(part, OutlineArc) and part.sweep > 0]
    assert lobes == pytest.approx([v["lobe_angle"]] * round(v["lobes"]), abs=1e-9)
    lines = [part.length for part in shape.parts if not isinstance(part, OutlineArc)]
    assert lines == pytest.approx([v["flank"]] * len(lines))
    assert len(lines) == (2 * round(v["lobes"]) if v["flank"] > 0 else 0)


def test_straightedge_over_two_lobes_is_as_far_from_the_hollow_as_stated() -> None:
    v = OUTLINE.at().base
    points = outline(v).points(1e-5)  # a hollow on top
    edge = points[:, 1].max()
    near = points[(np.abs(points[:, 0]) < 0.05) & (points[:, 1] > 0)]
    assert edge - near[:, 1].min() == pytest.approx(v["hollow_depth"], abs=1e-4)


def test_largest_hollow_is_the_circle_through_three_points() -> None:
    """The circle through both lobe centers and the point e above their chord is r + w about the same center."""
    v = OUTLINE.at().base
    c, e = v["half_chord"], v["hollow_depth"]
    (x1, y1), (x2, y2), (x3, y3) = (-c, 0.0), (0.0, -e), (c, 0.0)
    area = abs((x2 - x1) * (y3 - y1) - (x3 - x1) * (y2 - y1)) / 2
    sides = [math.dist(p, q) for p, q in (((x1, y1), (x2, y2)), ((x2, y2), (x3, y3)), ((x3, y3), (x1, y1)))]
    assert math.prod(sides) / (4 * area) - v["lobe_radius"] == pytest.approx(v["hollow_largest"])


def test_bit_too_large_for_the_hollow_and_overlapping_lobes_are_told() -> None:
    assert "bit" in failing(OUTLINE.at(bit="25 mm"))
    crowded = OUTLINE.at(lobes=9, outer_radius="20 mm", lobe_radius="12 mm")
    assert "lobes_apart" in failing(crowded)
    assert subject("knob.outline").draw(crowded.base, Display()).items  # drawn all the same, saying that nothing closes


def test_template_has_true_arcs_at_full_size() -> None:
    v = OUTLINE.at(lobes=6).base
    arcs = [i for i in template(v, Display()).items if isinstance(i, Arc) and i.layer is Layer.OUTLINE]
    assert sorted({round(arc.radius, 9) for arc in arcs}) == [
        round(v["lobe_radius"], 9),
        round(v["hollow_radius"], 9),
    ]
    assert len(arcs) == 12


def test_template_read_back_from_dxf(tmp_path: Path) -> None:
    """A library reads the file: true arcs, their radii, and the star's own length and reach, in millimeters."""
    v = OUTLINE.at(hollow_wish="40 mm").base
    save(template(v, Display()), tmp_path, "star", ["dxf", "svg"])
    drawing = ezdxf.readfile(tmp_path / "star_fullsize.dxf")
    assert drawing.header["$INSUNITS"] == 4  # millimeters
    (chain,) = [e for e in drawing.modelspace() if e.dxftype() == "LWPOLYLINE"]
    assert chain.closed
    corners = list(chain.get_points("xyb"))
    length, radii = 0.0, set()
    for (x, y, bulge), (u, w, _) in zip(corners, corners[1:] + corners[:1], strict=True):
        radii.add(round(bulge_radius((x, y), (u, w), bulge), 6))  # no bulge would be a straight line
        length += 4 * math.atan(abs(bulge)) * bulge_radius((x, y), (u, w), bulge)
    assert radii == {round(v["lobe_radius"], 6), round(v["hollow_radius"], 6)}
    assert length == pytest.approx(v["perimeter"], abs=1e-6)
    assert "mm" in (tmp_path / "star_fullsize.svg").read_text(encoding="utf-8")


# -- torque ------------------------------------------------------------------------------------------------


def flank_torque(v: Mapping[str, float], mu: float) -> float:
    """Torque over force of the thread from the forces on its flank in space, no friction angle in it.

    At the front of the pitch circle: t along the circle, up the axis z, x outward. The flank's plane holds the
    helix and the radial line that falls by 30 degrees; the normal is square to both.
    """
    lead = v["pitch"] / (math.pi * v["pitch_diameter"])
    helix = np.array([0.0, 1.0, lead])
    radial = np.array([math.cos(math.pi / 6), 0.0, -math.sin(math.pi / 6)])
    normal = np.cross(radial, helix)
    normal /= np.linalg.norm(normal) * math.copysign(1.0, normal[2])
    drag = -helix / np.linalg.norm(helix) * mu  # against the nut's climb, per normal force
    total = normal + drag
    return -total[1] / total[2] * v["pitch_diameter"] / 2


@pytest.mark.parametrize("thread", ["M6", "M8", "M12", "3/8-16", "1/2-13"])
@pytest.mark.parametrize("mu", [0.05, 0.15, 0.35])
def test_screw_by_flank_forces_in_space(thread: str, mu: float) -> None:
    """The handbook's cos 30 leaves out that the helix tilts the flank: at these leads by less than 3 in a thousand."""
    v = TORQUE.at(thread=thread, thread_friction=mu, beyond=("washer_size",)).base
    thread_part = v["arm"] - v["face_friction"] * v["rub_diameter"] / 2
    assert thread_part == pytest.approx(flank_torque(v, mu), rel=3e-3)


def test_face_against_a_ring_integrated() -> None:
    """Even pressure over the ring gives mu (2/3)(R³ - r³)/(R² - r²); the mean radius is a little less."""
    v = TORQUE.at().base
    R, r = v["washer_size"] / 2, v["hole"] / 2
    even = quad(lambda x: 2 * math.pi * x * x, r, R)[0] / (math.pi * (R**2 - r**2))
    assert v["rub_diameter"] / 2 == pytest.approx(even, rel=0.07)
    narrow = TORQUE.at(washer_size="9.2 mm", beyond=("washer_size",)).base
    R = narrow["washer_size"] / 2
    even = quad(lambda x: 2 * math.pi * x * x, r, R)[0] / (math.pi * (R**2 - r**2))
    assert narrow["rub_diameter"] / 2 == pytest.approx(even, rel=1e-4)


def test_without_friction_all_work_clamps() -> None:
    low = TORQUE.at(thread_friction=0, face_friction=0, beyond=("thread_friction", "face_friction")).base
    assert low["efficiency"] == pytest.approx(1.0)
    assert low["arm"] == pytest.approx(1.25 / (2 * math.pi), rel=1e-9)


def test_nut_factor_of_a_published_torque() -> None:
    """White paper 13, via scribd 273395083: 1/2-13, 82 lb-ft at K 0.20 and 41 lb-ft at 0.10 (read); so 9840 lbf."""
    beyond = ("strength_men", "washer_size")
    forces = []
    for torque, factor in ((82, 0.20), (41, 0.10)):
        base = TORQUE.at(thread="1/2-13", hand="man", shape=1, effort="100 %", strength_men=f"{torque * 12} in-lbf",
                         thread_friction=0.05, washer_size="1 in", beyond=beyond)  # fmt: skip
        found = find(base, "face_friction", "nut_factor", factor)
        assert len(found.values) == 1
        case = base.with_(face_friction=found.values[0])
        forces.append(case["axial_force"].to("lbf").value)
    assert forces == pytest.approx([82 * 12 / (0.20 * 0.5)] * 2, rel=1e-9)


@pytest.mark.parametrize("row", [row for row in table("fasteners") if "clearance_hole" in row], ids=lambda row: row.id)
def test_every_thread_of_the_table_hangs_together(row) -> None:  # type: ignore[no-untyped-def]
    """ISO 724 and ASME B1.1 print pitch diameters to 0.001 mm and 0.0001 in: the profile gives the same."""
    case = TORQUE.at(thread=row.id, washer_size="50 mm")
    assert case.base["thread_off"] < 0.0015
    assert "thread" not in failing(case)


def test_impossible_threads_are_told_in_one_sentence() -> None:
    mixed = TORQUE.at(diameter="8 mm", pitch="1.25 mm", pitch_diameter="5.35 mm")
    words = {limit.name: limit.words() for limit in mixed.checks if not limit.ok}
    assert "take the whole thread from one row of the table" in words["thread"]
    assert "coarse" in failing(TORQUE.at(diameter="4 mm", pitch="2.5 mm"))
    with pytest.raises(KitError, match="'M7'"):
        TORQUE.at(thread="M7")
    with pytest.raises(KitError, match="pitch"):
        TORQUE.at(pitch="-1 mm")


def test_growth_with_size_is_smooth_but_for_the_slope_at_the_grip_span() -> None:
    sizes = np.linspace(9.5, 88.9, 2001)
    factor = TORQUE.compute({"knob_size": sizes}, ("size_factor",))["size_factor"]
    assert np.all(np.diff(factor) >= 0)
    assert np.abs(np.diff(factor)).max() < 0.0025
    assert factor[-1] == 1


# -- clamp -------------------------------------------------------------------------------------------------


def test_bump_by_integrating_the_motion() -> None:
    v = CLAMP.at().base
    k, m, speed = v["stiffness"], v["mass"], v["speed"]

    def back(_t: float, y: np.ndarray) -> float:
        return y[1]

    back.terminal = True  # type: ignore[attr-defined]
    back.direction = -1  # type: ignore[attr-defined]
    run = solve_ivp(lambda _t, y: [y[1], -k / m * y[0]], (0, 10), [0.0, speed], events=back, rtol=1e-10, atol=1e-12)
    way = run.y_events[0][0][0]
    assert v["give"] == pytest.approx(way, rel=1e-6)
    assert v["bump"] == pytest.approx(k * way, rel=1e-6)


def test_lip_against_a_beam_solver() -> None:
    from Pynite import FEModel3D

    v = CLAMP.at(poisson=0).base
    b, t, c, E = v["lip_width"], v["lip"], v["overhang"], v["modulus"]
    frame = FEModel3D()
    frame.add_material("track", E, E / 2, 0.0, 1.0)
    frame.add_section("lip", b * t, t * b**3 / 12, b * t**3 / 12, 1.0)
    frame.add_node("root", 0, 0, 0)
    frame.add_node("edge", c, 0, 0)
    frame.def_support("root", *[True] * 6)
    frame.add_member("lip", "root", "edge", "track", "lip")
    frame.add_node_load("edge", "FY", v["force_most"] / 2)
    frame.analyze(check_statics=False)
    moment = max(abs(frame.members["lip"].max_moment("Mz")), abs(frame.members["lip"].min_moment("Mz")))
    assert v["lip_rise"] == pytest.approx(frame.nodes["edge"].DY["Combo 1"], rel=1e-9)
    stress = moment * (t / 2) / (b * t**3 / 12)
    assert v["force_most"] / v["lip_force"] == pytest.approx(stress / v["yield_strength"], rel=1e-6)


def test_plug_and_ring_by_integration() -> None:
    v = CLAMP.at().base
    R, r = v["seat"] / 2, v["hole"] / 2
    ring = dblquad(lambda rr, _a: rr, 0, 2 * math.pi, r, R)[0]
    assert v["crush_force"] == pytest.approx(v["wood_strength"] * ring, rel=1e-9)
    wall = quad(lambda _a: R * v["foot"], 0, 2 * math.pi)[0]
    assert v["plug_force"] == pytest.approx(v["shear_strength"] * wall / v["safety"], rel=1e-9)


def test_withdrawal_in_inches_and_pounds() -> None:
    """Wood Handbook, FPL-GTR-190, equations 8-1, 8-10, 8-14 in their inch form, from memory."""
    inch = {
        "nails or prongs": lambda g, d, n: 7850 * g**2.5 * d * n,
        "wood screws": lambda g, d, n: 15700 * g**2 * d * n,
        "lag screws": lambda g, d, n: 8100 * g**1.5 * d**0.75 * n,
    }
    for kind, pull in inch.items():
        for g, d, n in ((0.35, 0.131, 1.0), (0.5, 0.25, 2.0), (0.68, 0.164, 0.5)):
            case = CLAMP.at(anchor=kind, gravity=g, screw_size=f"{d} in", penetration=f"{n} in")
            assert case["withdrawal"].to("lbf").value == pytest.approx(pull(g, d, n), rel=3e-4)  # factors of 4 digits


def test_window_is_what_the_two_ends_say() -> None:
    """At the least torque, the roughest screw just holds the bump; at the greatest, the most slippery just spoils."""
    case = CLAMP.at()
    least = case.with_(torque=case["torque_slip"]).base
    assert least["slip_force"] == pytest.approx(least["bump"])
    greatest = case.with_(torque=case["torque_damage"]).base
    assert greatest["force_most"] == pytest.approx(greatest["force_allowed"])
    assert failing(CLAMP.at(torque=least["torque_slip"] / 1000 * 0.99)) == ["slip"]
    assert failing(CLAMP.at(torque=greatest["torque_damage"] / 1000 * 1.01)) == ["damage"]
    assert set(failing(CLAMP.at(speed="2 m/s", mass="20 kg"))) >= {"slip", "window"}


def test_clamp_force_feeds_the_stop() -> None:
    """The holding force of the stop model is the slip force of this one, for the same clamp force and friction."""
    v = CLAMP.at(friction=0.6).base
    stop = model("stop.deflection").at(clamp_force=v["clamp_force"], friction=0.6)
    assert stop.base["holding_force"] == pytest.approx(v["slip_force"])


@pytest.mark.parametrize(
    ("which", "unknown", "result", "target"),
    [
        ("clamp", "speed", "bump", 100.0), ("clamp", "lip", "lip_force", 1000.0),
        ("clamp", "penetration", "withdrawal", 2000.0), ("torque", "effort", "axial_force", 500.0),
        ("torque", "face_friction", "nut_factor", 0.3), ("outline", "hollow_depth", "waist", 22.0),
        ("outline", "hollow_wish", "perimeter", 184.5), ("plies", "stud", "engaged", 5.0),
    ],
)  # fmt: skip
def test_turned_round(which: str, unknown: str, result: str, target: float) -> None:
    case = model(f"knob.{which}").at()
    found = find(case, unknown, result, target)
    assert found.values
    again = case.with_(**{unknown: case.model.part(unknown).unit.from_base(found.values[0])})
    wanted = target * case.model.part(result).unit.factor
    assert again.base[result] == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("faces", ["wood on wood, dry", "wood on steel, dry", "wood on aluminum, dry"])
def test_holding_is_judged_at_the_low_end_of_friction(faces: str) -> None:
    low = table("friction").row(faces)["low"]
    assert CLAMP.at(faces=faces).base["friction"] == low
    assert model("stop.deflection").at(faces=faces).base["holding_force"] == pytest.approx(low * 400)


def test_nails_show_both_bases_in_print() -> None:
    """7,850 psi with the gravity on the volume at 12 %, 6,900 psi with that on the ovendry volume, of one wood.

    Hard maple, Wood Handbook, FPL-GTR-190, table 5-3 and FPL-GTR-282: 0.63 at 12 %; 0.68 ovendry, Wood Handbook (1974),
    from memory.
    """
    v = CLAMP.at(anchor="nails or prongs", gravity=0.63, screw_size="3 mm", penetration="20 mm").base
    assert v["gravity_dry"] == pytest.approx(0.68, abs=0.01)
    psi = 4.4482216152605 / 25.4**2
    assert v["withdrawal"] == pytest.approx(7850 * psi * 0.63**2.5 * 60, rel=1e-3)
    assert v["nail_other"] == pytest.approx(6900 * psi * v["gravity_dry"] ** 2.5 * 60, rel=1e-3)
    assert v["nail_other"] == pytest.approx(v["withdrawal"], rel=0.06), "two prints of one law"


@pytest.mark.parametrize(("thread", "printed"), [("M8", "1.25 mm"), ("M6", "1.00 mm"), ("M10", "1.50 mm")])
def test_standard_pitches_print_in_full(thread: str, printed: str) -> None:
    assert TORQUE.at(thread=thread, washer_size="28 mm").show("pitch") == printed
