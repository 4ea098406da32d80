"""Coats of a finish.

How much primer, paint or oil does it take, how thick does it get, and when is it ready?

In the trade's words: so many faces, so many coats, the first one drinks more. How many cans do I buy, and on what day
can I hang the hood?

Picture: A section of the board's face with its coats, drawn far thicker than they are, and below it the days that pass.

Assumptions:
- every coat spreads as the can says; the first one on bare wood as much less as is stated
- edges count as faces; end grain drinks more and is in the first coat's share
- it dries at the temperature and in the air for which the can states its times

Sources:
- what is printed on the can: spreading rate, solids, times between coats
- volume is area times thickness

Notes: Oil is wiped off: what stays is less than what is put on, and its thickness says nothing.
"""

import sympy as sp

from kit.core.model import Model, equal
from kit.subjects.safety import FINISH

M = Model("finish.coat", __doc__)
CAN = "printed on the can"
A = M.given("area", "A", "2 ± 0.1 m^2", (0.001, 1000), "area of all faces and edges that are coated")
M.measured("counted up from the boards, both sides")
q = M.given("rate", "q", "10 ± 1 m^2/L", (0.5, 40), "area for each liter, in one coat")
M.measured(CAN)
n = M.count("coats", "n", 2, (1, 12), "coats, the first one among them")
k = M.given("first", r"k_{1}", "1.3 ± 0.1", (1, 3), "how much more the first coat takes on this ground")
M.source("1.2 to 1.5 on bare wood, 1 on a primed face: common practice, no source")
left = M.given("left", r"\ell", "10 ± 5 %", (0, 60), "what stays in brush, roller and can, of all")
M.source("common practice, no source")
can = M.given("can", r"V_{\mathrm{c}}", "0.75 L", (0.01, 50), "what is in a can")
M.measured(CAN)
solids = M.given("solids", "s", "40 ± 5 %", (1, 100), "part of the finish that does not dry away, by volume")
M.measured("data sheet of its maker")
between = M.given("between", r"t_{\mathrm{b}}", "6 ± 2 h", (0.1, 500), "wait before the next coat")
M.measured(CAN)
last = M.given(
    "last", r"t_{\mathrm{l}}", "24 ± 6 h", (0.1, 2000), "wait after the last coat until it may be touched hard"
)
M.measured(CAN)
wet_most = M.given("wet_most", r"w_{\mathrm{max}}", "150 µm", (10, 1000), "thickest wet coat that does not run")
M.source("common practice, no source")
time = M.given("time", r"T_{\mathrm{max}}", "72 h", (1, 5000), "time there is until it must be ready")

x = sp.Symbol("x", integer=True, positive=True)
V = M.result("volume", "V", "L", "finish that is needed", resolution=0.01)
M.step(
    (A / q * k + sp.Sum(A / q, (x, 2, n))) / (1 - left),
    "the first coat takes more, the others alike; a part of it stays in brush and can",
)
M.equals(A / q * (n - 1 + k) / (1 - left), "coats, the first one counted with what it drinks")
M.mistake(A / q * (n - 1 + k), "what stays in brush and can was forgotten")
M.mistake(A / q * k / (1 - left), "only one coat was counted")
M.result("cans", r"N_{\mathrm{c}}", "", "cans to buy", whole=True, setting=True)
M.equals(sp.ceiling(V / can), "whole cans")
wet = M.result("wet", "w", "µm", "thickness of one coat while it is wet", resolution=1)
M.step(equal(wet * q, 1), "what is spread over the rate's area is one liter for each liter")
M.equals(1 / q, "the spreading rate is one over the thickness")
M.result("film", "f", "µm", "thickness of all coats when they are dry", resolution=1)
M.equals(n * solids * wet, "the solids of each coat stay; what the wood drinks is not counted")
M.mistake(n * wet, "the wet coats were added: the thinner dries away")
T = M.result("ready", "T", "h", "time from the first coat until it is ready", resolution=1)
M.equals((n - 1) * between + last, "the waits between the coats, and the last one")
M.mistake(n * between + last, "a wait too many: there is one less than coats")

M.limit("runs", "a wet coat is thick by", wet, "<=", wet_most)
M.mend("thin it, or spread each liter over more area in more coats")
M.limit("ready", "it is ready after", T, "<=", time)
M.mend("begin earlier, take fewer coats or a finish that dries faster")
M.caution(*FINISH)
M.wish("least time", T)
MODEL = M.done()
