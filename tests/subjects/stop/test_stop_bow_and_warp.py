"""Bow after glueing and warp against fibers that settle at least energy, and against limiting cases."""

import numpy as np
import pytest
from Pynite import FEModel3D

from kit.subjects import model

BOW, WARP = model("stop.bow"), model("stop.warp")
FIBERS = 4000


def settled(parts: list[tuple[float, float, float, float]], free: list[np.ndarray]) -> float:
    """Return the curvature at which fibers with free strains store least energy.

    `parts`: start, end, rise and modulus; `free`: each part's free strain at the middles of its fibers.
    """
    rows, wanted = [], []
    for (start, end, rise, modulus), strain in zip(parts, free, strict=True):
        y = middles(start, end)
        weight = np.sqrt(modulus * rise * (end - start) / FIBERS)
        rows.append(weight * np.column_stack([np.ones_like(y), y]))
        wanted.append(weight * strain)
    solution, *_ = np.linalg.lstsq(np.vstack(rows), np.concatenate(wanted), rcond=None)
    return float(solution[1])


def middles(start: float, end: float) -> np.ndarray:
    return start + (np.arange(FIBERS) + 0.5) * (end - start) / FIBERS


@pytest.mark.parametrize(
    "givens",
    [{}, {"rib_face": "on top"}, {"rib_modulus": "70 GPa", "rib_height": "6 mm"}, {"rib_height": "0 mm"}],
    ids=str,
)
def test_bow_left_by_fibers(givens: dict[str, str]) -> None:
    """Glued flat, the bar's fibers are strained by its lost curve; the rib's are not. Then all are let go."""
    v = BOW.at(**givens).base
    b, h, off, along = (v[n] for n in ("block_width", "block_height", "rib_height", "rib_width"))
    rib = (b, b + off, along) if v["rib_face"] == 0 else (b / 2 - along / 2, b / 2 + along / 2, off)
    parts = [(0.0, b, h, v["block_modulus"]), (*rib, v["rib_modulus"])]
    curve = 8 * v["bow"] / v["length"] ** 2
    free = [curve * (middles(0, b) - b / 2), np.zeros(FIBERS)]
    assert v["bow_left"] == pytest.approx(settled(parts, free) * v["length"] ** 2 / 8, rel=1e-6)


def test_press_by_frame_analysis() -> None:
    v = BOW.at(bow="4 mm", length="900 mm", block_width="22 mm").base
    frame = FEModel3D()
    frame.add_material("wood", 1.0, 1.0, 0.0, 0.0)
    stiff = v["bar_stiffness"]
    frame.add_section("bar", A=stiff, Iy=stiff, Iz=stiff, J=stiff)
    for name, x in (("left", 0), ("middle", 450), ("right", 900)):
        frame.add_node(name, x, 0, 0)
    frame.add_member("a", "left", "middle", "wood", "bar")
    frame.add_member("b", "middle", "right", "wood", "bar")
    frame.def_support("left", True, True, True, True, False, False)
    frame.def_support("right", False, True, True, False, False, False)
    frame.add_node_load("middle", "FY", -v["press"])
    frame.analyze()
    assert frame.nodes["middle"].DY["Combo 1"] == pytest.approx(-4.0, rel=1e-9)


def test_no_rib_keeps_the_bow_and_a_stiff_rib_takes_it() -> None:
    assert BOW.at(rib_height=0).base["part_left"] == pytest.approx(1.0)
    assert BOW.at(rib_height="150 mm").base["part_left"] < 0.02


@pytest.mark.parametrize("case", range(5))
def test_warp_by_fibers(case: int) -> None:
    rng = np.random.default_rng(case)
    t_1, t_2 = rng.uniform(5, 60, 2)
    E_1, E_2 = rng.uniform(2, 30, 2)
    u_1, u_2 = rng.uniform(5, 20, 2)
    v = WARP.at(
        front_thickness=t_1, back_thickness=t_2, front_modulus=E_1, back_modulus=E_2,
        front_moisture=u_1, back_moisture=u_2,
    ).base  # fmt: skip
    parts = [(0.0, t_2, 1.0, 1000 * E_2), (t_2, t_1 + t_2, 1.0, 1000 * E_1)]
    for strain, drawn, length in (
        (v["shrinkage_along"] / v["fiber_saturation"], "bow", v["length"]),
        (v["coefficient_across"], "cup", v["width"]),
    ):
        free = [np.full(FIBERS, strain * u / 100) for u in (u_2, u_1)]
        assert v[drawn] == pytest.approx(settled(parts, free) * length**2 / 8, rel=1e-6), drawn


def test_thin_front_bends_as_a_coat_does() -> None:
    """A thin layer on a thick one: curvature 6 E1 t1 e/(E2 t2^2) (Stoney 1909, from memory)."""
    v = WARP.at(front_thickness="0.05 mm", back_thickness="50 mm", beyond=["front_thickness"]).base
    coat = 6 * v["front_modulus"] * 0.05 * v["strain_along"] / (v["back_modulus"] * 50**2)
    assert v["curvature"] == pytest.approx(coat, rel=5e-3)


def test_equal_moisture_stays_straight_and_the_wetter_face_bulges() -> None:
    assert WARP.at(front_moisture=9, back_moisture=9).base["bow"] == 0
    assert WARP.at(front_moisture=10, back_moisture=8).base["bow"] > 0
    assert WARP.at(front_moisture=8, back_moisture=10).base["bow"] < 0
