"""Tip error against a frame library, energy integrals and the exact place of a key in its track."""

import math

import pytest
from Pynite import FEModel3D
from scipy.integrate import quad
from scipy.optimize import brentq

from kit.core.model import find
from kit.subjects import model

STOP = model("stop.deflection")


def cantilever(length: float, push: float, stiffness: float) -> float:
    """Return the tip's movement of a PyNite cantilever; PyNite's members bend but do not shear."""
    frame = FEModel3D()
    frame.add_material("wood", 1.0, 1.0, 0.0, 0.0)
    frame.add_section("bar", A=stiffness, Iy=stiffness, Iz=stiffness, J=stiffness)
    frame.add_node("clamp", 0, 0, 0)
    frame.add_node("tip", length, 0, 0)
    frame.add_member("bar", "clamp", "tip", "wood", "bar")
    frame.def_support("clamp", *[True] * 6)
    frame.add_node_load("tip", "FY", push)
    frame.analyze()
    return float(frame.nodes["tip"].DY["Combo 1"])


@pytest.mark.parametrize("end", ["long end", "short end"])
def test_bending_by_frame_analysis(end: str) -> None:
    v = STOP.at(end=end, push="80 N", long_reach="750 mm", short_reach="180 mm").base
    length = 750.0 if end == "long end" else 180.0
    assert v["bending_tip"] == pytest.approx(cantilever(length, 80.0, v["bending_stiffness"]), rel=1e-9)


def test_elastic_tip_by_energy() -> None:
    """Castigliano: the tip moves by twice the stored energy over the push, bending, shear and clamp together."""
    v = STOP.at(rib_modulus="70 GPa").base
    F, a = v["push"], v["reach"]
    bending = quad(lambda x: (F * (a - x)) ** 2 / (2 * v["bending_stiffness"]), 0, a)[0]
    shear = quad(lambda x: F**2 / (2 * v["shear_stiffness"]), 0, a)[0]
    clamp = F**2 / (2 * v["clamp_stiffness"])
    assert 2 * (bending + shear + clamp) / F == pytest.approx(v["tip_error"] - v["play_tip"], rel=1e-9)
    assert shear / (bending + shear) == pytest.approx(v["shear_share"], rel=1e-9)
    assert F / v["tip_stiffness"] == pytest.approx(v["tip_error"] - v["play_tip"], rel=1e-12)


@pytest.mark.parametrize("key_width", [6.0, 19.0, 30.0])
def test_play_by_exact_contact(key_width: float) -> None:
    """A turned key touches when its corners span the track: W = w cos t + l sin t, whatever the key's width."""
    v = STOP.at(key_play="0.2 mm", key_length="250 mm").base
    track = key_width + 0.2
    turn = brentq(lambda t: key_width * math.cos(t) + 250 * math.sin(t) - track, 0, 0.1, xtol=1e-15)
    assert v["rotation"] == pytest.approx(turn, rel=1e-4)
    assert v["play_tip"] == pytest.approx(v["reach"] * math.sin(turn), rel=1e-4)


def test_shear_matters_for_a_short_block_only() -> None:
    short = STOP.at(end="short end", short_reach="100 mm")
    long = STOP.at(long_reach="2500 mm")
    told = "Shear is more than a tenth"
    assert short.base["shear_share"] > 0.5
    assert long.base["shear_share"] < 0.01
    assert any(text.startswith(told) for text in short.cautions)
    assert not any(text.startswith(told) for text in long.cautions)


def test_sliding_is_told() -> None:
    case = STOP.at(push="300 N", clamp_force="400 N", friction=0.6)
    assert not {state.name: state.ok for state in case.checks}["hold"]
    assert any("slides" in text for text in case.cautions)


@pytest.mark.parametrize("unknown", ["rib_height", "key_length", "key_play", "long_reach"])
def test_what_meets_the_limit_is_found(unknown: str) -> None:
    case = STOP.at()
    found = find(case, unknown, "tip_error", "0.3 mm")
    assert found.values
    for value in found.values:
        again = case.with_(**{unknown: value}).base  # lengths: the unit is the base
        assert again["tip_error"] == pytest.approx(0.3, rel=1e-9)


def test_key_length_is_found_in_closed_form() -> None:
    assert find(STOP.at(), "key_length", "tip_error", "0.3 mm").how == "closed form"
