"""A small model for the tests of the core: a clamped bar with a push at its end, and a count of bars."""

import pytest
import sympy as sp

from kit.core.model import Model, equal

HEAD = """A clamped bar.

How far does the end of a clamped bar move?

Picture: A bar, clamped at the left, pushed at its right end.

Assumptions:
- small movement

Sources:
- beam theory
"""


def build() -> Model:
    m = Model("test.bar", HEAD)
    F = m.given("push", "F", "50 ± 5 N", (0, 500), "push at the end")
    L = m.given("length", "L", "600 ± 0.5 mm", (100, 2000), "free length")
    b = m.given("width", "b", "40 mm", (10, 100), "width")
    h = m.given("height", "h", "30 ± 0.1 mm", (10, 100), "height")
    m.measured(spread="normal")
    E = m.given("modulus", "E", "12 ± 1.2 GPa", (1, 250), "modulus")
    m.measured(spread="triangular")
    allow = m.given("allowed", r"\delta_{\mathrm{max}}", "2 mm", (0, 10), "allowed movement")
    end = m.choice("end", "e", ("clamped", "propped"), "clamped", "how the bar is held")
    pitch = m.given("pitch", "p", "130 mm", (20, 500), "pitch of the screws")
    y = sp.Symbol("y", real=True)
    I = m.relation("second_moment", "I", "mm^4")
    m.step(sp.Integral(b * y**2, (y, -h / 2, h / 2)), "the second moment sums the squared distances")
    m.equals(b * h**3 / 12, "the bar is a rectangle bent about its own axis")
    m.relation("moment", "M", "N*m")
    m.step(equal(F * L, L * F), "either way round")
    m.equals(F * L, "the push acts at the whole length")
    tip = m.result("tip", r"\delta", "mm", resolution=0.01)
    m.equals(
        sp.Piecewise((F * L**3 / (3 * E * I), sp.Eq(end, 0)), (7 * F * L**3 / (768 * E * I), True)),
        "a clamped bar bends so",
    )
    m.result("screws", "n", "")
    m.equals(sp.ceiling(L / pitch) + 1, "one more than the gaps")
    m.limit("tip", "the end moves", tip, "<=", allow)
    m.mend("make the bar higher")
    m.caution("Unplug the machine.")
    far = m.constant("far", r"L_{\mathrm{far}}", "1 m", "what counts as far", "invented")
    m.caution("This is far.", when=sp.Gt(L, far))
    return m.done()


@pytest.fixture(scope="session")
def bar() -> Model:
    return build()
