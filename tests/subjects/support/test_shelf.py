"""A shelf against a frame library, a meshed section, and what a carpenter knows."""

import itertools
from typing import Any

import pytest
from Pynite import FEModel3D
from sectionproperties.analysis import Section
from sectionproperties.pre import Material
from sectionproperties.pre.library import rectangular_section

from kit.core.model import find
from kit.subjects import model

SHELF = model("support.shelf")
LOADS: list[dict[str, str]] = [
    {},
    {"point_load": "15 kg"},
    {"stock": "solid wood", "lip_height": "60 mm", "point_load": "40 kg", "load": "0 kg"},
]
PARTS = ("support", "middle", "other")


def framed(v: dict[str, float]) -> FEModel3D:
    """Return PyNite's analysis of two members, loaded along them and at the node between."""
    frame = FEModel3D()
    frame.add_material("wood", 1.0, 1.0, 0.0, 0.0)
    frame.add_section("shelf", *[v["stiffness"]] * 4)
    for number, name in enumerate(PARTS):
        frame.add_node(name, number * v["span"] / 2, 0, 0)
    fast = round(v["ends"]) == 1
    frame.def_support("support", True, True, True, True, fast, fast)
    frame.def_support("other", False, True, True, False, fast, fast)
    for first, second in itertools.pairwise(PARTS):
        frame.add_member(first, first, second, "wood", "shelf")
        frame.add_member_dist_load(first, "Fy", -v["even_load"] / v["span"], -v["even_load"] / v["span"])
    frame.add_node_load("middle", "FY", -v["middle_load"])
    frame.analyze()
    return frame


@pytest.mark.parametrize("ends", ["on supports", "held fast"])
@pytest.mark.parametrize("givens", LOADS, ids=str)
def test_sag_and_moment_by_frame_analysis(ends: str, givens: dict[str, Any]) -> None:
    v = dict(SHELF.at(ends=ends, **givens).base)
    frame = framed(v)
    assert -frame.nodes["middle"].DY["Combo 1"] == pytest.approx(v["first_sag"], rel=1e-9)
    member = frame.members["support"]
    largest = max(abs(member.max_moment("Mz", "Combo 1")), abs(member.min_moment("Mz", "Combo 1")))
    assert largest == pytest.approx(v["moment"], rel=1e-9)


@pytest.mark.parametrize("givens", [*LOADS, {"lip_height": "0 mm"}], ids=str)
def test_section_by_finite_elements(givens: dict[str, str]) -> None:
    """sectionproperties meshes board and lip with their own moduli; stress from its stiffness and its middle."""
    v = SHELF.at(**givens).base
    b, t, h, w = (v[name] for name in ("depth", "thickness", "lip_height", "lip_thickness"))
    board = v["panel_modulus"] if round(v["stock"]) == 0 else v["wood_modulus"]
    geometry = rectangular_section(d=t, b=b, material=Material("board", board, 0, 1, 1, "tan"))
    if h > 0:
        lip = rectangular_section(d=h, b=w, material=Material("lip", v["wood_modulus"], 0, 1, 1, "tan"))
        geometry += lip.shift_section(0, -h)
    geometry.create_mesh([30])
    section = Section(geometry)
    section.calculate_geometric_properties()
    middle, stiffness = section.get_c()[1], section.get_eic()[0]
    assert v["stiffness"] == pytest.approx(stiffness, rel=1e-9)
    assert v["centroid"] == pytest.approx(t - middle, rel=1e-9)
    assert v["stress"] == pytest.approx(board * v["moment"] * (t - middle) / stiffness, rel=1e-9)
    edge = v["wood_modulus"] * v["moment"] * (middle + h) / stiffness if h > 0 else 0.0
    assert v["lip_stress"] == pytest.approx(edge, rel=1e-9)


def test_the_shelf_carries_itself() -> None:
    """Board and lip by volume and density, weighed on standard gravity."""
    v = SHELF.at(load="0 kg", span="1 m", depth="300 mm", thickness="20 mm", lip_height="0 mm", panel_density=600).base
    assert v["own_weight"] == pytest.approx(1.0 * 0.3 * 0.02 * 600 * 9.80665, rel=1e-12)
    assert v["sag"] > 0


@pytest.mark.parametrize("unknown", ["span", "thickness", "load", "lip_height"])
def test_what_just_meets_the_limit_is_found(unknown: str) -> None:
    case = SHELF.at()
    found = find(case, unknown, "sag", "1 mm")
    assert found.first is not None
    assert found.into(case).base["sag"] == pytest.approx(1.0, rel=1e-6)


@pytest.mark.parametrize(
    ("givens", "told"),
    [
        ({"span": "300 mm"}, "shear adds"),
        ({"load": "400 kg", "lip_height": "0 mm"}, "a hundredth"),
        ({"ends": "held fast"}, "count on supports"),
    ],
)
def test_cautions_come_when_they_are_due(givens: dict[str, str], told: str) -> None:
    assert any(told in text for text in SHELF.at(**givens).cautions)
    assert not any(told in text for text in SHELF.at().cautions)


def test_a_lip_along_one_edge_is_told() -> None:
    assert any("one edge" in text for text in SHELF.at().cautions)
    assert not any("one edge" in text for text in SHELF.at(lip_height="0 mm").cautions)
