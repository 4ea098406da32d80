"""Block and rib against a finite-element section, numerical integration and limiting cases."""

from collections.abc import Mapping

import numpy as np
import pytest
from scipy.integrate import quad
from sectionproperties.analysis import Section
from sectionproperties.pre import Material
from sectionproperties.pre.library import rectangular_section

from kit.subjects import model

SECTION = model("stop.section")
CASES: list[dict[str, str]] = [
    {},
    {"rib_face": "on top", "rib_height": "30 mm", "rib_width": "25 mm"},
    {"rib_face": "below", "rib_modulus": "70 GPa"},
    {"rib_modulus": "4 GPa", "rib_height": "80 mm", "rib_width": "15 mm"},
]


def corners(v: Mapping[str, float]) -> tuple[float, float, float, float]:
    """Return left, low, width and height of the rib, placed from the givens alone."""
    b, h, off, along = (v[n] for n in ("block_width", "block_height", "rib_height", "rib_width"))
    places = [
        (b, h / 2 - along / 2, off, along),
        (b / 2 - along / 2, h, along, off),
        (b / 2 - along / 2, -off, along, off),
    ]
    return places[round(v["rib_face"])]


def meshed(v: Mapping[str, float]) -> Section:
    woods = [Material(part, v[f"{part}_modulus"], 0, 1, 1, "tan") for part in ("block", "rib")]
    left, low, wide, high = corners(v)
    block = rectangular_section(d=v["block_height"], b=v["block_width"], material=woods[0])
    rib = rectangular_section(d=high, b=wide, material=woods[1]).shift_section(left, low)
    geometry = block + rib
    geometry.create_mesh([30])
    return Section(geometry)


@pytest.mark.parametrize("givens", CASES, ids=str)
def test_section_by_finite_elements(givens: dict[str, str]) -> None:
    """sectionproperties meshes both parts with their own moduli; it knows nothing of modular ratios."""
    v = SECTION.at(**givens).base
    section = meshed(v)
    section.calculate_geometric_properties()
    assert v["block_modulus"] * v["area"] == pytest.approx(section.get_ea(), rel=1e-9)
    assert (v["centroid"], v["centroid_height"]) == pytest.approx(section.get_c(), rel=1e-9)
    assert v["bending_stiffness"] == pytest.approx(section.get_eic()[1], rel=1e-9)  # about the upright axis


@pytest.mark.parametrize("givens", CASES, ids=str)
def test_shear_stiffness_by_numerical_energy(givens: dict[str, str]) -> None:
    """The shear flow from equilibrium of what lies before each cut, integrated numerically, part by part.

    On top or below, block and rib each carry their own shear flow: nothing crosses the glue line sideways.
    """
    v = SECTION.at(**givens).base
    left, _, wide, high = corners(v)
    parts = [  # start and end in the direction of the push, rise, modulus, shear modulus
        (
            0.0,
            v["block_width"],
            v["block_height"],
            v["block_modulus"],
            v["block_modulus"] * v["block_shear_ratio"],
        ),
        (left, left + wide, high, v["rib_modulus"], v["rib_modulus"] * v["rib_shear_ratio"]),
    ]
    stretch = sum(E * s * (p - o) for o, p, s, E, _ in parts)
    middle = sum(E * s * (p**2 - o**2) / 2 for o, p, s, E, _ in parts) / stretch
    bending = sum(E * s * quad(lambda y: (y - middle) ** 2, o, p)[0] for o, p, s, E, _ in parts)

    def before(y: float, part: tuple[float, float, float, float, float]) -> float:
        """Axial pull per bending moment of what lies before y and hangs together with this part."""
        one_behind_other = v["rib_face"] == 0
        pull = 0.0
        for o, p, s, E, _ in parts if one_behind_other else [part]:
            if y > o:
                pull += E * s * quad(lambda u: (u - middle) / bending, o, min(y, p))[0]
        return pull

    energy = 0.0
    for part in parts:
        o, p, s, _, G = part
        energy += quad(lambda y: before(y, part) ** 2 / (G * s), o, p)[0]  # noqa: B023
    assert v["shear_stiffness"] == pytest.approx(1 / energy, rel=1e-7)


def test_shear_factor_against_finite_elements() -> None:
    """Beam theory spreads the shear stress evenly up and down; the field at Poisson's ratio 0 says what that costs.

    Nothing where the rib is as high as the block; the narrower the rib, the more stress crowds at the step, which
    the even spread leaves out. It is then too stiff, never too soft.
    """
    excess = []
    for width in (60, 50, 40):
        v = SECTION.at(block_modulus="10 GPa", rib_modulus="10 GPa", rib_width=width).base
        section = meshed(v)
        section.calculate_geometric_properties()
        section.calculate_warping_properties()
        excess.append(v["shear_factor"] / (section.get_eas()[0] / section.get_ea()) - 1)
    assert excess[0] == pytest.approx(0, abs=1e-3)
    assert excess[0] < excess[1] < excess[2] < 0.07


def test_no_rib_is_the_block_alone() -> None:
    for face in ("on the back", "on top", "below"):
        v = SECTION.at(rib_height=0, rib_face=face, block_width="30 mm", block_height="50 mm").base
        assert v["second_moment"] == pytest.approx(50 * 30**3 / 12)
        assert v["shear_factor"] == pytest.approx(5 / 6)


def test_rib_on_top_or_below_is_the_same_sideways() -> None:
    top, below = (SECTION.at(rib_face=face).base for face in ("on top", "below"))
    for name in ("bending_stiffness", "shear_stiffness", "centroid"):
        assert top[name] == below[name]
    assert np.sign(top["centroid_height"] - 30) == -np.sign(below["centroid_height"] - 30)


def test_rib_too_wide_for_its_face_is_told() -> None:
    case = SECTION.at(rib_face="on top", rib_width="55 mm", block_width="40 mm")
    assert not case.ok
    assert "make the rib narrower" in case.checks[0].words()
