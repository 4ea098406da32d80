"""Cautions that every model of scales and stop readings states."""

CAUTIONS = (
    "Unplug the machine before you measure at the blade, lay a scale or set a cursor.",
    "Keep guards on and hands at least 150 mm (6 in) from the blade; the machine's manual and local rules come first.",
)
TEST_CUT = (
    "Make a test cut in scrap and measure it before you trust a scale: dust on, eye and ear protection on."
)
