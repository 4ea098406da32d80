"""Pull of the air on cloth.

Does a cloth chute suck flat, and how hard does the cloth pull at its staples?

In the trade's words: suction draws the cloth in between the battens. How far, if it was put on slack or taut? Does an
offcut still pass, and do the staples hold?

Picture: Across the chute: two walls of cloth, each held along two lines of staples, are drawn in. What is left between
them must let the largest offcut pass.

Assumptions:
- the suction is the same all over a strip, and a strip between two lines of staples carries it alone
- the sag is small against the span, so that the cloth hangs as a parabola; up to a fifth of the span that is so
- cloth gives way along its pull in proportion, in the middle between warp and weft, and has no stiffness of its own
- battens and frame do not bend

Sources:
- equilibrium of a cable under an even load, length of a flat parabola: textbook of mechanics, from memory
- G. Cardano: root of an equation of the third degree, from memory

Notes: The suction is greatest when the mouth of the chute is blocked: then all that the fan can give pulls at the
cloth. A link to the collector's own curve gives it.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import HOSE, SEWING

M = Model("air.pull", __doc__)

p = M.given("suction", "p", "1500 ± 100 Pa", (10, 40000), "suction inside the chute, at the worst")
M.measured("U-tube at the blocked mouth, or the fan's curve at no flow")
s = M.given("span", "s", "120 ± 2 mm", (20, 1500), "free span of the cloth between two lines of staples")
M.measured("tape, across the chute")
walls = M.choice("walls", "k", ("one", "two that face"), "two that face", "walls of the chute that are of cloth there")
h = M.given("depth", "h", "160 ± 2 mm", (20, 2000), "depth of the chute there, across the cloth")
M.measured("tape")
slack = M.given("slack", r"\varepsilon_{0}", "0.5 ± 0.3 %", (0.01, 20), "by how much the cloth is longer than its span")
M.measured("pull it straight along a rule")
K = M.given(
    "stiffness", "K", "150 ± 50 N/mm", (1, 5000), "pull that would stretch it to twice its length, over its width"
)
M.measured("hang a weight on a strip: pull over width over the stretch's share")
least = M.given("passage", "g", "60 ± 5 mm", (0, 1000), "passage that must be left")
M.measured("largest offcut that gets in")
a = M.given("spacing", "a", "25 ± 3 mm", (5, 200), "spacing of the staples along their line")
M.measured("rule, ten at once")
F_s = M.given("staple", r"F_{\mathrm{s}}", "60 ± 15 N", (1, 1000), "pull across its legs that one staple holds")
M.measured("spring scale at a strip stapled to scrap of the same wood, five times")
f = M.given("strength", "f", "20 ± 5 N/mm", (0.5, 500), "pull over its width that the cloth stands at its holes")
M.measured("the same, with the staples in a row")
safety = M.given("safety", "S", "2", (1, 10), "least strength over pull")
M.source("covers corners, where the pull gathers: common practice, no source")

x = sp.Symbol("x", real=True)
w_0 = M.relation("slack_sag", r"w_{0}", "mm", "sag of the slack cloth before it stretches", resolution=0.1)
M.step(
    equal(slack, sp.Integral((8 * w_0 * x / s**2) ** 2 / 2, (x, -s / 2, s / 2)) / s),
    "half the slope squared is what each piece of a flat parabola is longer than its span",
)
M.equals(s * sp.sqrt(3 * slack / 8), "solved for the sag")
w_e = M.relation("stretch_sag", r"w_{\mathrm{e}}", "mm", "sag of a taut cloth by its stretch alone", resolution=0.1)
M.step(
    equal(K * 8 * w_e**2 / (3 * s**2), p * s**2 / (8 * w_e)),
    "what it has to stretch for that sag, and the pull of that sag",
)
M.equals((3 * p * s**4 / (64 * K)) ** sp.Rational(1, 3), "solved for the sag")
w = M.result("sag", "w", "mm", "how far the cloth is drawn in", resolution=0.1)
M.step(
    equal(w**3, w_0**2 * w + w_e**3),
    "the stretch that is needed beyond the slack, and the pull of that sag, as above",
)
half, third = w_e**3 / 2, w_0**2 / 3
inner = sp.sqrt(sp.Max(0, half**2 - third**3))
M.equals(
    sp.Piecewise(
        ((half + inner) ** sp.Rational(1, 3) + (half - inner) ** sp.Rational(1, 3), half**2 >= third**3),
        (2 * sp.sqrt(third) * sp.cos(sp.acos(sp.Min(1, half / third ** sp.Rational(3, 2))) / 3), True),
    ),
    "the one root above nothing of this equation of the third degree, after Cardano",
)
N = M.result("pull", "N", "N/mm", "pull of the cloth over its width", resolution=0.01)
M.step(sp.Integral(p * x, (x, 0, s / 2)) / w, "about the staples, half the strip's load against the pull at its middle")
M.equals(p * s**2 / (8 * w), "the flatter the cloth, the harder it pulls")
M.mistake(p * s / (2 * w) * s, "the load was taken at the middle instead of spread")
left = M.result("left", r"h_{\mathrm{r}}", "mm", "passage that is left", resolution=1)
M.equals(h - sp.Piecewise((w, sp.Eq(walls, 0)), (2 * w, True)), "each wall of cloth takes its sag off")
F = M.result("at_staple", "F", "N", "pull at one staple", resolution=0.1)
M.equals(N * a, "each holds the cloth of half the way to its neighbors")

M.limit("left", "the passage left is", left, ">=", least)
M.mend("set a batten or a hoop between, put the cloth on tighter, or let air in by a relief flap")
M.limit("staple", "a staple is pulled by", F, "<=", F_s / safety)
M.mend("set the staples closer, under a batten, or give the cloth more slack")
M.limit("cloth", "the cloth pulls with", N, "<=", f / safety)
M.mend("fold the edge over twice, or give the cloth more slack")
M.limit("flat", "the cloth is drawn in by", w, "<=", s / 5)
M.mend("set a batten between: sagging more than a fifth of its span it follows no formula here")
M.caution(*HOSE, *SEWING)
M.caution(
    "Cloth that is put on taut pulls many times as hard: leave it the slack of a finger's breadth in an arm's length.",
    when=sp.Lt(w_0, w_e / 2),
)
M.wish("least pull", N)
MODEL = M.done()
