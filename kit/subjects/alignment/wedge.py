"""A wedge, or paper, that turns a fence.

How thick is the wedge behind a fence's face, and how many sheets of paper do the same?

In the trade's words: the fence cannot be turned, or not as finely as that. A wedge goes between fence and face over the
whole length, or some sheets of paper go under one end.

Picture: From above: the fence, the wedge before it, and the face on the wedge; one end thin, the other thick.

Assumptions:
- fence and face are straight, and the wedge is as long as the face
- paper lies at one end, and the face turns about the other
- paper that is pressed keeps its thickness

Sources:
- right triangles

Notes: A wedge is sawn off a board that is longer than needed, and cut to length afterward.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SAW

M = Model("alignment.wedge", __doc__)
eps = M.given("turn", r"\varepsilon", "0.05 ± 0.01 deg", (-5, 5), "angle by which the face is to be turned")
M.measured("five cuts")
F = M.given("face", "F", "600 ± 1 mm", (50, 4000), "length of the face, from its thin to its thick end")
M.measured("tape")
t = M.given("thin", "t", "3 ± 0.1 mm", (0.2, 100), "thickness of the wedge's thin end")
M.measured("calipers")
p = M.given("sheet", "p", "0.1 ± 0.005 mm", (0.02, 2), "thickness of a sheet of the paper")
M.measured("calipers over twenty sheets")
w = M.given("board", "w", "250 mm", (10, 2000), "width of the widest board that is to be cut square")
allowed = M.given("allowed", r"e_{\mathrm{max}}", "0.05 mm", (0.005, 10), "what may be left across that board")

rise = M.result("rise", "d", "mm", "how much thicker the other end is", resolution=0.01)
M.step(equal(rise / F, sp.tan(sp.Abs(eps))), "the slope of the wedge is the tangent of its angle")
M.equals(F * sp.tan(sp.Abs(eps)), "over the whole length")
M.mistake(F * sp.Abs(eps) * 180 / sp.pi / 100, "degrees were taken for percent of slope")
M.result("thick", "T", "mm", "thickness of the wedge's thick end", resolution=0.01, setting=True)
M.equals(t + rise, "the thin end, and what it rises")
n = M.result("sheets", "n", "", "sheets of paper under one end that come nearest", whole=True)
M.equals(sp.floor(rise / p + sp.Rational(1, 2)), "whole sheets, to the nearest")
left = M.result("left", "e", "mm", "what the sheets leave across the board, short or too much", resolution=0.01)
M.step(w * sp.Abs(rise - n * p) / F, "what the sheets are off, over the face's length, across the board")
M.equals(w * sp.Abs(sp.tan(sp.Abs(eps)) - n * p / F), "the wanted slope less that of the sheets")

M.limit("left", "paper leaves across the board", left, "<=", allowed)
M.mend("take thinner paper, or plane a wedge")
M.limit("slender", "the wedge rises by", rise, "<=", F / 10)
M.mend("turn the fence itself first")
M.caution(*SAW)
M.caution("Saw the wedge on a carrier that holds the board at its slope, never freehand.")
MODEL = M.done()
