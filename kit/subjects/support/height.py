"""Height of bench and outfeed.

How high must the bench be for this person and this machine, and how high the outfeed?

In the trade's words: the machine's bed should lie where my hands work well. The bench is lower by the height of the bed
over its feet, pads and all; the outfeed takes the board over and must never lift it.

Picture: From the side: a person before the bench, the elbow's height, the machine on its pads, the outfeed behind it.

Assumptions:
- the person stands upright in the shoes of the shop, upper arms hanging
- hands work near the machine's bed, and see what they do from there
- the floor is level between bench and outfeed

Sources:
- S. Pheasant, C. M. Haslegrave, Bodyspace, 3rd edition (2006): heights of standing work by kind of task, read in a
  resource sheet on preventing musculoskeletal disorders

Notes: A bench for several people is made for the tallest; the others stand on a firm step as long as the bench.
"""

import sympy as sp

from kit.core.model import Model
from kit.subjects.safety import HEAVY_MACHINE

M = Model("support.height", __doc__)
BODYSPACE = "Pheasant and Haslegrave, Bodyspace, 3rd edition, standing work"
e = M.given("elbow", "e", "1050 ± 10 mm", (700, 1400), "from the floor to the elbow, in the shoes of the shop")
M.measured("tape, forearm level")
task = M.choice("task", "t", ("fine", "light", "heavy"), "light", "how the hands work at the machine")
b = M.given("bed", "b", "90 ± 1 mm", (0, 800), "from the bench to the machine's bed, pads and all")
M.measured("rule and square")
h = M.given("bench", "h", "870 ± 2 mm", (200, 1400), "height of the bench")
M.measured("tape")
f = M.given("step_down", "d", "1 ± 0.2 mm", (-50, 100), "how far the outfeed lies below the bed")
M.measured("straightedge from the bed over the outfeed, feeler gauge")
lower = M.given("drop", r"d_{\mathrm{max}}", "3 mm", (0.1, 50), "how far the outfeed may lie below the bed")
M.source("common practice, no source")
FINE = M.constant(
    "fine_above", r"d_{\mathrm{f}}", "50 mm", "fine work: so far above the elbow, to twice that", BODYSPACE
)
LIGHT = M.constant(
    "light_below", r"d_{\mathrm{l}}", "50 mm", "light work: so far below the elbow, to twice that", BODYSPACE
)
HEAVY = M.constant(
    "heavy_below", r"d_{\mathrm{h}}", "100 mm", "heavy work: so far below the elbow, and more", BODYSPACE
)
LOWEST = M.constant(
    "lowest_below", r"d_{\mathrm{m}}", "250 mm", "heavy work: at most so far below the elbow", BODYSPACE
)

fine, light = sp.Eq(task, 0), sp.Eq(task, 1)
high = M.result("highest", r"H_{\mathrm{max}}", "mm", "highest that the bed may lie")
M.equals(
    sp.Piecewise((e + 2 * FINE, fine), (e - LIGHT, light), (e - HEAVY, True)),
    "fine work is brought to the eyes, heavy work is pushed down",
)
low = M.result("least", r"H_{\mathrm{min}}", "mm", "lowest that the bed may lie")
M.equals(
    sp.Piecewise((e + FINE, fine), (e - 2 * LIGHT, light), (e - LOWEST, True)), "below that the back bends to the work"
)
M.mistake(sp.Piecewise((e, fine), (e, light), (e, True)), "the elbow's own height was taken, whatever the work")
H = M.result("bed_height", "H", "mm", "height of the machine's bed")
M.equals(h + b, "bench, pads and machine")
M.mistake(h, "the machine's own height was forgotten")
M.result("bench_wanted", r"h_{0}", "mm", "bench in the middle of what suits", setting=True)
M.step((high + low) / 2 - b, "the bed in the middle, less the machine")
M.equals(
    sp.Piecewise((e + 3 * FINE / 2 - b, fine), (e - 3 * LIGHT / 2 - b, light), (e - (HEAVY + LOWEST) / 2 - b, True)),
    "whatever the work, less the machine's height",
)
M.result("outfeed", "o", "mm", "height of the outfeed")
M.equals(H - f, "below the bed: the board comes off it and must not stub its toe")

M.limit("high", "the machine's bed lies at", H, "<=", high)
M.mend("build the bench lower, or stand on a firm step")
M.limit("low", "the machine's bed lies at", H, ">=", low)
M.mend("build the bench higher")
M.limit("outfeed", "the outfeed lies below the bed by", f, ">=", 0)
M.mend("lower the outfeed: a board that stubs on it stops in the cut")
M.limit("drop", "the outfeed lies below the bed by", f, "<=", lower)
M.mend("raise the outfeed: a board that tips over its edge lifts off the fence")
M.caution(*HEAVY_MACHINE)
M.caution("Test with an unplugged machine and a long board: it glides from bed to outfeed and touches nothing.")
MODEL = M.done()
