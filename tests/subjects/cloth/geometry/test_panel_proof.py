"""The living proof: panels and chutes that nobody drew become patterns, and refold by an independent route.

An ordinary run draws a few of each family. All 1,000 panels and 200 chutes, some four minutes of one processor:

    python -m pytest -m bench -s tests/subjects/cloth/geometry/test_panel_proof.py
"""

from collections import Counter

import pytest

from kit.core.errors import KitError
from kit.subjects.cloth.geometry.assembly import Assembly, Making, skin_pattern
from kit.subjects.cloth.geometry.chute_surface import laid_out
from kit.subjects.cloth.geometry.covering import CoveredPanel, CoverSettings, cover
from kit.subjects.cloth.geometry.pattern import Finish, base
from tests.subjects.cloth.geometry.panel_families import FAMILIES, Drawn, drawn, drawn_chute
from tests.subjects.cloth.geometry.refold import (
    Found,
    check_by_library,
    check_piece,
    check_seams,
    check_shape,
    check_strip,
    check_twist,
)

SETTINGS = CoverSettings(chord=0.2, offset=0.25, limit=(0.006, 0.012), crease_radius=3.25)
STAPLED, SEWN = Finish("staple", 40.0, line=20.0), Finish("seam", 12.0)
RATE = 0.97  # of the panels that can be laid flat or darted: at least so many become patterns
FEW, ALL = 12, 125  # panels of each family
FEW_CHUTES, ALL_CHUTES = 16, 200


def patterned(drawing: Drawn) -> tuple[tuple[CoveredPanel, ...], Assembly]:
    """The pattern of a drawing, its outer edges stapled."""
    panels = cover(drawing.curves, drawing.panels, SETTINGS)
    owners = Counter(edge for panel in panels for edge in panel.asked.edges)
    cut = (" dart ", " seam ")
    names = {edge.name for panel in panels for piece in panel.pieces for edge in piece.edges}
    outer = {name: STAPLED for name in names if owners[base(name)] < 2 and not any(c in name for c in cut)}
    return panels, skin_pattern("skin", panels, Making(outer, seam=SEWN))


def checked(drawing: Drawn, library: bool) -> tuple[list[str], bool]:
    """What is wrong with a drawing's pattern, and whether it keeps the strain that its threads take."""
    panels, made = patterned(drawing)
    found = Found()
    for panel in panels:
        check_shape(drawing, panel, SETTINGS, found)
        check_twist(drawing, panel, found)
        if library and panel.development is not None and panel.largest == (0, 0):
            for piece in panel.pieces:
                if not piece.creases:
                    check_by_library(piece, found)
    for piece in made.pattern.pieces:
        check_piece(piece, found)
    check_seams(made, found)
    kept = all(got <= most for panel in panels for got, most in zip(panel.largest, SETTINGS.limit, strict=True))
    return found.faults, kept


def prove(family: str, count: int) -> None:
    refused, faults, kept = list[str](), list[str](), 0
    for seed in range(count):
        try:
            wrong, within = checked(drawn(family, seed), library=seed < FEW // 4)
        except KitError as sentence:
            refused.append(f"{seed}: {sentence}")
            continue
        faults += [f"{seed}: {fault}" for fault in wrong]
        kept += within
    rate = 1 - len(refused) / count
    print(f"\n{family}: {rate:.1%} of {count} become patterns, {kept} of them within the threads' limits")
    print("\n".join(refused))
    assert not faults, "\n".join(faults)
    assert rate >= RATE, "\n".join(refused)


def prove_chutes(count: int) -> None:
    finishes = {"opening": Finish("staple", 30.0, line=15.0), "hose": Finish("clamp", 30.0)}
    refused, found = list[str](), Found()
    for seed in range(count):
        chute, panels = drawn_chute(seed)
        try:
            surface = chute.develop("front", chord=0.2, offset=0.25)
            parted, made = laid_out(chute, surface, chute.seams(surface, "front", panels), Making(finishes, SEWN))
        except KitError as sentence:
            refused.append(f"{seed}: {sentence}")
            continue
        for number, (strip, flat) in enumerate(zip(parted.panels, parted.flats, strict=True)):
            check_strip(f"chute {seed}, panel {number}", strip, flat, found)
        for piece in made.pattern.pieces:
            check_piece(piece, found)
        check_seams(made, found)
    rate = 1 - len(refused) / count
    print(f"\nchutes: {rate:.1%} of {count} become patterns")
    print("\n".join(refused))
    assert not found.faults, "\n".join(found.faults)
    assert rate >= RATE, "\n".join(refused)


@pytest.mark.parametrize("family", FAMILIES)
def test_some_panels_of_each_family_refold(family: str) -> None:
    prove(family, FEW)


def test_some_chutes_refold() -> None:
    prove_chutes(FEW_CHUTES)


@pytest.mark.bench
@pytest.mark.parametrize("family", FAMILIES)
def test_all_panels_of_each_family_refold(family: str) -> None:
    prove(family, ALL)


@pytest.mark.bench
def test_all_chutes_refold() -> None:
    prove_chutes(ALL_CHUTES)
