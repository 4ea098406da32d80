"""Two small models for the tests of the job, put among the subjects for as long as a test runs."""

from collections.abc import Callable
from functools import partial

import sympy as sp

from kit import subjects
from kit.core.model import Model
from kit.core.subject import Subject


def shelf() -> Model:
    m = Model(
        "test.shelf",
        title="A shelf board",
        question="How far does a shelf board sag at its end?",
        picture="A board, clamped at the left, loaded at its right end.",
        assumptions=("small movement",),
        sources=("beam theory",),
    )
    F = m.given("load", "F", "N", 50, span=(0, 500), meaning="load at the end", half=5)
    L = m.given("length", "L", "mm", 600, span=(100, 2000), meaning="free length", half=0.5)
    b = m.given("width", "b", "mm", 40, span=(10, 100), meaning="width")
    h = m.given("height", "h", "mm", 30, span=(10, 100), meaning="height")
    E = m.given("modulus", "E", "GPa", 12, span=(1, 25), meaning="modulus along the grain", half=1)
    m.pick("wood", table="woods", row="hard maple", fills={"modulus": "modulus_along"}, meaning="the wood")
    tilt = m.given("tilt", r"\theta", "deg", 0, span=(-60, 60), meaning="tilt of the board")
    boards = m.count("boards", "n", 3, span=(1, 9), meaning="boards side by side")
    end = m.choice("end", "e", ("clamped", "propped"), "clamped", meaning="how the far end is held")
    room = m.given("room", "r", "mm", 0, span=(-50, 50), meaning="room above the middle")
    share = sp.Piecewise((sp.Integer(1), sp.Eq(end, 0)), (sp.Rational(1, 32), True))
    sag = m.result(
        "sag",
        "w",
        "mm",
        share * F * sp.cos(tilt) * L**3 * 12 / (3 * E * boards * b * h**3),
        because="beams bend so",
    )
    m.result("gap", "g", "mm", sp.sqrt(room) * sp.sqrt(L), because="a root has no value below zero")
    m.limit("sag", "the end sags", value=sag, allowed=2.0, mend="take a higher board")
    return m.done()


def ring() -> Model:
    m = Model(
        "test.ring",
        title="A ring of boards",
        question="What is the miter of a ring of equal boards?",
        picture="Boards standing in a ring.",
        assumptions=("equal boards",),
        sources=("plane geometry",),
    )
    n = m.count("sides", "N", 6, span=(3, 24), meaning="number of boards")
    R = m.given(
        "radius", "R", "mm", 300, span=(50, 2000), meaning="radius to the corners", half=1, spread="normal"
    )
    m.result("miter", r"\mu", "deg", sp.pi / n, because="each joint turns by a full turn over N")
    m.result("side", "s", "mm", 2 * R * sp.sin(sp.pi / n), because="a chord of the circle")
    return m.done()


def page(build: Callable[[], Model]) -> Subject:
    """A subject with that model; nothing draws it."""
    return Subject(build(), lambda _values, _display: None)


def install() -> None:
    """Put the models among the subjects, in this process for good."""
    subjects.PAGES = subjects.PAGES | {
        f"test.{build.__name__}": partial(page, build) for build in (shelf, ring)
    }
