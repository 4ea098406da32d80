"""Cautions for measuring parts, stated once for the chain."""

CAUTIONS = (
    "Unplug the machine before you measure at blade, fence or stop.",
    "Keep guards on and hands at least 150 mm (6 in) from the blade; the machine's manual and local rules come first.",
    "Measure parts away from the machine, the saw at rest and the dust brushed off.",
)
