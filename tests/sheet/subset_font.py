"""Cut a large OpenType math font down to what the formulas of a worked sheet use.

    python tests/sheet/subset_font.py STIXTwoMath-Regular.ttf kit/sheet/font/math.woff2

Needs fontTools and brotli; the kit itself needs neither. See SOURCE.md.
"""

import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FAMILY = "Fitwright Math"

LETTERS = [range(0x20, 0x7F), range(0x391, 0x3AA), range(0x3B1, 0x3CA)]
ITALICS = [range(0x1D434, 0x1D468), range(0x1D6E2, 0x1D71C)]  # what a browser makes of a single letter
SIGNS = (
    "\u00a0°±²³µ·×÷¯¹ℎϑϕϵϰϱ"
    "⁰⁴⁵⁶⁷⁸⁹⁻′″…⋯⁄‖‾"
    "\u0302\u0303\u0304\u0305\u0307\u20d7"  # accents
    "−∂∇∏∑√∛∞∠∥⟂∫∧∨¬∈∘∗∝∼≃≈≠≡≤≥←→↔⇒⇔ˆ˜―"
    "⌈⌉⌊⌋⟨⟩"
    "ℓ\u2061\u2062\u2063"  # invisible operators
)


def main(source: str, target: str) -> None:
    """Write the subset of the font file `source` as the WOFF2 file `target`."""
    font = TTFont(source, recalcTimestamp=False)
    options = Options(
        flavor="woff2",
        hinting=False,
        desubroutinize=True,
        layout_features=[],
        name_IDs=[0, 1, 2, 3, 4, 5, 6, 7, 13, 14],
        notdef_outline=True,
        glyph_names=False,
    )
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[c for part in LETTERS + ITALICS for c in part] + [ord(c) for c in SIGNS])
    subsetter.subset(font)
    for entry in font["name"].names:
        if entry.nameID in (1, 4):
            entry.string = FAMILY
        elif entry.nameID in (3, 6):
            entry.string = FAMILY.replace(" ", "")
    font.flavor = "woff2"
    font.save(target)
    print(f"{target}: {Path(target).stat().st_size} bytes, {len(font.getGlyphOrder())} glyphs")


if __name__ == "__main__":
    main(*sys.argv[1:])
