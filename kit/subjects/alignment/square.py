"""Blade to fence, from five cuts.

How far from square does the machine cut, how sure is that, and how far must the fence be turned?

In the trade's words: a board is cut on all four sides, each new edge against the fence for the next cut. A fifth cut
takes a strip off the edge that was cut first. Its two ends are measured: what one cut is off, the strip shows four
times.

Picture: From above: the board with its five cuts numbered, the fence behind it, the strip beside it; then the fence,
turned about its pivot.

Assumptions:
- each edge is straight, and lies against the fence along its whole length
- the fence is straight and the blade cuts in a straight line
- the board is turned the same way each time, and the strip is taken off the edge that was cut first
- the blade stands upright: its tilt is another matter

Sources:
- the corners of a board with four sides make a full turn
- JCGM 100:2008 (GUM), 4.3.7 and 5.1.2, from memory

Notes: Five cuts and two measures say more than a try square: the error grows fourfold before it is measured.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import SAW

M = Model("alignment.square", __doc__)
a = M.given("fence_end", "a", "30.2 ± 0.03 mm", (3, 200), "width of the strip at the end that lay at the fence")
M.measured("calipers, the strip flat on the bench")
b = M.given("free_end", "b", "30 ± 0.03 mm", (3, 200), "width of the strip at its other end")
M.measured("calipers, the strip flat on the bench")
L = M.given("length", "L", "400 ± 1 mm", (50, 3000), "from where one width is measured to where the other is")
M.measured("tape")
s = M.given(
    "seating", "s", "0 ± 0.06 mm", (-2, 2), "what dirt and rocking edges add to the taper, in all the cuts together"
)
M.measured("cut a second strip in the same way, and compare the two tapers")
D = M.given("arm", "D", "500 ± 2 mm", (20, 3000), "from the fence's pivot to where it is moved")
M.measured("tape")
w = M.given("board", "w", "250 mm", (10, 2000), "width of the widest board that is to be cut square")
allowed = M.given("allowed", r"e_{\mathrm{max}}", "0.1 mm", (0.005, 10), "allowed out of square across that board")

d = M.result("taper", "d", "mm", "how much wider the strip is at the fence's end", resolution=0.01, signed=True)
M.equals(a - b - s, "what the two ends differ by; seating that is known is taken out")
eps = M.result(
    "out_of_square", r"\varepsilon", "deg", "what each cut is more than square", resolution=0.001, signed=True
)
last = 2 * sp.pi - 3 * (sp.pi / 2 + eps)
M.step(
    equal(sp.pi / 2 + eps - last, 4 * eps),
    "three corners are cut alike, the fourth takes what is left of the full turn: the fifth cut misses it four times",
)
M.step(equal(L * sp.tan(4 * eps), d), "along the strip so wide a wedge opens")
M.equals(sp.atan(d / L) / 4, "a quarter of the strip's taper belongs to each cut")
M.mistake(sp.atan(d / L), "the strip's taper was taken for that of one cut: it is four times as much")
M.mistake(sp.atan(d / L) / 5, "the five cuts were counted, not the four corners that add up")
angle = M.result("corner", r"\gamma", "deg", "corner that is cut", resolution=0.001)
M.equals(sp.pi / 2 + eps, "a square corner and what it is more")
M.result("size", r"|\varepsilon|", "deg", "what each cut is off square, either way", resolution=0.001)
M.equals(sp.Abs(eps), "whichever way it leans")
e = M.result("across", "e", "mm", "out of square across the widest board", resolution=0.01, signed=True)
M.equals(w * sp.tan(eps), "over the board's width the error has grown to this")
move = M.result(
    "move",
    "m",
    "mm",
    "move of the fence toward the board, where it is moved on that side of its pivot on which the kept board lies",
    setting=True,
    signed=True,
)
M.equals(D * sp.tan(eps), "the fence turns about its pivot by the same angle")
M.mistake(D * sp.tan(4 * eps), "the fence was turned by the whole taper of the strip")
M.mistake(w * sp.tan(eps), "the width of the board was taken for the fence's arm")

M.limit(
    "square",
    "across the widest board a cut is out of square by",
    sp.Abs(e),
    "<=",
    allowed,
    in_unit="mm",
    resolution=0.01,
)
M.mend("turn the fence by the move below, and cut five times again")
M.limit("small", "the strip's taper is", sp.Abs(d), "<=", L / 10, in_unit="mm", resolution=0.01)
M.mend("set the fence with a try square first, then cut five times")
M.caution(*SAW)
M.caution("Let a narrow strip fall free beside the blade, with no stop or hand behind it.")
M.caution(
    "Which end is wider says which way: wider at the fence, the corner of what you keep is more than square, and the "
    "fence comes toward the board on the side where it is kept, and away from it on the other side of its pivot.",
)
MODEL = M.done()
