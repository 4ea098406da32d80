"""Densities of layouts drawn by seed, against the area bound: rolls and irregular offcuts with holes, by effort."""

import math
from time import perf_counter, process_time

import pytest
import shapely

from kit.geometry.packing.check import faults
from kit.geometry.packing.pack import pack
from kit.geometry.packing.stock import Cutting, Roll, any_of, board
from tests.geometry.packing.orders import garment, offcuts

pytestmark = pytest.mark.bench

ROLL = Roll("cloth", 1500.0)
ORDERS = ((1, 20), (3, 40), (5, 60))
SECONDS = 10.0  # for the library, which counts no moves
MOVES = 200_000  # moves times parts: on one quiet core about ten seconds
LIBRARY = "spyrrow"


@pytest.mark.parametrize("way", ["own", LIBRARY])
def test_density_on_a_roll(way: str) -> None:
    found = []
    for seed, count in ORDERS:
        parts = garment(seed, count)
        begin, busy = perf_counter(), process_time()
        layout = (
            pack(parts, ROLL, effort=MOVES // count) if way == "own" else pack(parts, ROLL, effort=1, seconds=SECONDS)
        )
        took, busy = perf_counter() - begin, process_time() - busy
        found.append(layout.density)
        assert not faults(layout)
        print(
            f"\n{way}: {count} parts of {len(parts)} shapes, seed {seed}: {layout.length:.0f} mm of roll, density "
            f"{layout.density:.3f} by {layout.by}; {took:.1f} s, {busy:.1f} s of them busy"
        )
    print(f"\n{way}: least {min(found):.3f}, mean {sum(found) / len(found):.3f}")
    if way == "own":  # it counts moves; what the library finds depends on the time it had
        assert min(found) >= 0.72


@pytest.mark.parametrize("kerf", [0.0, 3.0])
def test_density_on_offcuts_with_holes(kerf: float) -> None:
    """The order is a third larger than the offcuts, as when they are filled from a long list."""
    found = []
    for seed, count in ORDERS:
        parts = garment(seed, count, turns=any_of(4), scale=0.5)
        stock = offcuts(seed, sum(part.outline.area * part.count for part in parts) * 0.75)
        begin = process_time()
        layout = pack(parts, stock, Cutting(0.0, kerf), effort=MOVES // count)
        busy = process_time() - begin
        found.append(layout.density)
        assert not faults(layout)
        holes = sum(len(sheet.outline.interiors) for sheet in stock)
        print(
            f"\nkerf {kerf:g} mm: {len(layout.placed)} of {count} parts on 2 offcuts with {holes} holes, seed {seed}: "
            f"density {layout.density:.3f}; {busy:.1f} s busy"
        )
    print(f"\nkerf {kerf:g} mm: least {min(found):.3f}, mean {sum(found) / len(found):.3f}")
    if not kerf:
        assert min(found) >= 0.64


def test_the_first_layout_is_quick() -> None:
    for seed, count in ORDERS:
        parts = garment(seed, count)
        begin = process_time()
        layout = pack(parts, ROLL, effort=0)
        print(
            f"\nfirst layout: {count} parts, density {layout.density:.3f}, {1e3 * (process_time() - begin):.0f} ms busy"
        )


@pytest.mark.parametrize("count", [100, 500])
@pytest.mark.parametrize("way", ["own on a roll", "own on boards", LIBRARY])
def test_the_time_is_kept(way: str, count: int) -> None:
    """Ten seconds are asked for; the ratio is what was taken over that, whatever else the machine does."""
    parts, stock = garment(2, count, scale=0.5), Roll("cloth", 1500.0)
    area = sum(part.outline.area * part.count for part in parts)
    if way == "own on a roll":  # a stain keeps the library out
        stock = Roll("cloth", 1500.0, (shapely.box(0, 0, 50, 50),))
    begin, busy = perf_counter(), process_time()
    boards = (board("board", 2440.0, 1220.0, math.ceil(area / (0.6 * 2440.0 * 1220.0)) + 1),)
    layout = pack(parts, boards if way == "own on boards" else stock, Cutting(5.0, 3.0), effort=10**7, seconds=SECONDS)
    took, busy = perf_counter() - begin, process_time() - busy
    print(
        f"\n{way}: {count} parts in {took:.1f} s, {took / SECONDS:.2f} of what was asked for, {busy:.1f} s busy; "
        f"density {layout.density:.3f}, {len(layout.sheets_used)} pieces of stock, {layout.missing} left over"
    )
    assert not faults(layout)
