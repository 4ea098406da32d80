"""A small model for the tests of the core: a clamped bar with a push at its end, and a count of bars."""

import pytest
import sympy as sp

from kit.core.model import Model, equal


def build() -> Model:
    m = Model(
        "test.bar",
        title="A clamped bar",
        question="How far does the end of a clamped bar move?",
        picture="A bar, clamped at the left, pushed at its right end.",
        assumptions=("small movement",),
        sources=("beam theory",),
    )
    F = m.given("push", "F", "N", 50, span=(0, 500), meaning="push at the end", half=5)
    L = m.given("length", "L", "mm", 600, span=(100, 2000), meaning="free length", half=0.5)
    b = m.given("width", "b", "mm", 40, span=(10, 100), meaning="width")
    h = m.given("height", "h", "mm", 30, span=(10, 100), meaning="height", half=0.1, spread="normal")
    E = m.given("modulus", "E", "GPa", 12, span=(1, 250), meaning="modulus", half=1.2, spread="triangular")
    allow = m.given("allowed", r"\delta_{\mathrm{max}}", "mm", 2, span=(0, 10), meaning="allowed movement")
    end = m.choice("end", "e", ("clamped", "propped"), "clamped", meaning="how the bar is held")
    pitch = m.given("pitch", "p", "mm", 130, span=(20, 500), meaning="pitch of the screws")
    y = sp.Symbol("y", real=True)
    I = m.relation(  # noqa: E741
        "second_moment", "I", "mm^4", b * h**3 / 12,
        because="the bar is a rectangle bent about its own axis",
        lines=[(sp.Integral(b * y**2, (y, -h / 2, h / 2)), "the second moment sums the squared distances")],
    )  # fmt: skip
    m.relation(
        "moment", "M", "N*m", F * L, because="the push acts at the whole length",
        lines=[(equal(F * L, L * F), "either way round")],
    )  # fmt: skip
    tip = m.result(
        "tip", r"\delta", "mm",
        sp.Piecewise((F * L**3 / (3 * E * I), sp.Eq(end, 0)), (7 * F * L**3 / (768 * E * I), True)),
        because="a clamped bar bends so", resolution=0.01,
    )  # fmt: skip
    m.result("screws", "n", "", sp.ceiling(L / pitch) + 1, because="one more than the gaps")
    m.limit("tip", "the end moves", value=tip, allowed=allow, mend="make the bar higher")
    m.caution("Unplug the machine.")
    far = m.constant("far", r"L_{\mathrm{far}}", "m", 1, meaning="what counts as far", source="invented")
    m.caution("This is far.", when=sp.Gt(L, far))
    return m.done()


@pytest.fixture(scope="session")
def bar() -> Model:
    return build()
