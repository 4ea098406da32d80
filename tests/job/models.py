"""Two small models for the tests of the job, put among the subjects for as long as a test runs."""

import sympy as sp

from kit import subjects
from kit.core.model import Model
from kit.core.subject import Subject

SHELF = """A shelf board.

How far does a shelf board sag at its end?

Picture: A board, clamped at the left, loaded at its right end.

Assumptions:
- small movement

Sources:
- beam theory
"""

RING = """A ring of boards.

What is the miter of a ring of equal boards?

Picture: Boards standing in a ring.

Assumptions:
- equal boards

Sources:
- plane geometry
"""


def shelf() -> Model:
    m = Model("test.shelf", SHELF)
    F = m.given("load", "F", "50 ± 5 N", (0, 500), "load at the end")
    L = m.given("length", "L", "600 ± 0.5 mm", (100, 2000), "free length")
    b = m.given("width", "b", "40 mm", (10, 100), "width")
    h = m.given("height", "h", "30 mm", (10, 100), "height")
    E = m.given("modulus", "E", "12 ± 1 GPa", (1, 25), "modulus along the grain")
    m.pick("wood", "woods", "hard maple", {"modulus": "modulus_along"}, "the wood")
    tilt = m.given("tilt", r"\theta", "0 deg", (-60, 60), "tilt of the board")
    boards = m.count("boards", "n", 3, (1, 9), "boards side by side")
    end = m.choice("end", "e", ("clamped", "propped"), "clamped", "how the far end is held")
    room = m.given("room", "r", "0 mm", (-50, 50), "room above the middle")
    share = sp.Piecewise((sp.Integer(1), sp.Eq(end, 0)), (sp.Rational(1, 32), True))
    sag = m.result("sag", "w", "mm")
    m.equals(share * F * sp.cos(tilt) * L**3 * 12 / (3 * E * boards * b * h**3), "beams bend so")
    m.result("gap", "g", "mm")
    m.equals(sp.sqrt(room) * sp.sqrt(L), "a root has no value below zero")
    m.limit("sag", "the end sags", sag, "<=", 2.0)
    m.mend("take a higher board")
    return m.done()


def ring() -> Model:
    m = Model("test.ring", RING)
    n = m.count("sides", "N", 6, (3, 24), "number of boards")
    R = m.given("radius", "R", "300 ± 1 mm", (50, 2000), "radius to the corners")
    m.measured(spread="normal")
    m.result("miter", r"\mu", "deg")
    m.equals(sp.pi / n, "each joint turns by a full turn over N")
    m.result("side", "s", "mm")
    m.equals(2 * R * sp.sin(sp.pi / n), "a chord of the circle")
    return m.done()


def page() -> Subject:
    """A subject that nothing draws."""
    return Subject(lambda _values, _display: None)


def install() -> None:
    """Put the models among the subjects, in this process for good."""
    stated = {f"test.{build.__name__}": build for build in (shelf, ring)}
    subjects.MODELS = subjects.MODELS | stated
    subjects.PAGES = subjects.PAGES | dict.fromkeys(stated, page)
