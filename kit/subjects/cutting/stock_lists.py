"""What a layout brings to the lists: the parts that are cut, the stock that is bought."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need, Piece
from kit.geometry.packing.stock import Layout, Roll, each
from kit.subjects.cutting.stock_build import NEW, stock_costs


def lists(inputs: BuildInput, built: Built) -> Lists:
    """Return every part of the layout with its sides along and across the grain, and what is taken for them."""
    build = built()
    layout: Layout = build.data
    pieces = []
    for part in layout.parts:
        left, low, right, high = part.outline.bounds
        pieces.append(Piece(part.name, part.count, (right - left, high - low)))
    prices = stock_costs(inputs, layout)
    if isinstance(layout.stock, Roll):
        needs = [Need("off the roll", layout.length, "m", (layout.stock.width,), prices[0])]
    else:
        sheets = each(layout.stock)
        used = [sheets[k].name for k in layout.sheets_used]
        needs = []
        for sheet, price in zip(layout.stock, prices, strict=True):
            left, low, right, high = sheet.outline.bounds
            if sheet.name == NEW and sheet.name in used:
                needs.append(Need(sheet.name, used.count(sheet.name), "", (right - left, high - low), price))
    return Lists(pieces=tuple(pieces), needs=tuple(needs))
