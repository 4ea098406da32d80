"""The judge of a layout, which knows nothing of how it was made: no overlap, all inside, kerf kept, all counted."""

from collections import Counter
from functools import lru_cache

import numpy as np
import shapely

from kit.geometry.packing.stock import Layout, Roll, each, usable

EXACT = 1e-6
"""Lengths that rounding may take from a kerf or a margin, mm."""


@lru_cache(maxsize=32)
def faults(layout: Layout) -> tuple[str, ...]:
    """Return what is wrong with a layout, one sentence each; none for a layout that can be cut."""
    return (*_counts(layout), *_outside(layout), *_near(layout))


def _counts(layout: Layout) -> list[str]:
    lying = Counter(p.part for p in layout.placed)
    left = layout.left or (0,) * len(layout.parts)
    found = []
    for k, part in enumerate(layout.parts):
        if lying[k] + left[k] != part.count:
            found.append(f"{part.name} is wanted {part.count} times, but {lying[k]} lie and {left[k]} are left")
    for p in layout.placed:
        part = layout.parts[p.part]
        if p.over and not part.over:
            found.append(f"{part.name} lies turned over, which is not allowed")
        if not any(abs(np.angle(np.exp(1j * (p.turn - turn)))) < 1e-9 for turn in part.turns):
            found.append(f"{part.name} lies at {np.degrees(p.turn):.1f}°, which is not allowed")
    return found


def _outside(layout: Layout) -> list[str]:
    room = {}
    if isinstance(layout.stock, Roll):
        roll = layout.stock
        far = layout.length + roll.width + 2 * layout.cutting.margin
        room[0] = usable(shapely.box(0, 0, far, roll.width), roll.defects, layout.cutting.margin)
    else:
        for k, sheet in enumerate(each(layout.stock)):
            room[k] = usable(sheet.outline, sheet.defects, layout.cutting.margin)
    found = []
    for p, polygon in zip(layout.placed, layout.polygons, strict=True):
        name = layout.parts[p.part].name
        if p.sheet not in room:
            found.append(f"{name} lies on piece {p.sheet + 1} of the stock, which is not there")
            continue
        outside = polygon.difference(room[p.sheet].buffer(EXACT, join_style="mitre")).area
        if outside > 0:
            found.append(f"{name} lies {outside:.3g} mm² outside of the usable stock (edge, margin, hole or defect)")
    return found


def _near(layout: Layout) -> list[str]:
    kerf = layout.cutting.kerf
    found = []
    for sheet in layout.sheets_used:
        here = [k for k, p in enumerate(layout.placed) if p.sheet == sheet]
        shapes = [layout.polygons[k] for k in here]
        tree = shapely.STRtree(shapes)
        first, second = tree.query(shapes, predicate="dwithin", distance=kerf + EXACT)
        for a, b in zip(first, second, strict=True):
            if a >= b:
                continue
            names = [layout.parts[layout.placed[here[k]].part].name for k in (a, b)]
            shared = shapes[a].intersection(shapes[b]).area
            border = EXACT * min(shapes[a].length, shapes[b].length)
            if shared > border:
                found.append(f"{names[0]} and {names[1]} overlap by {shared:.3g} mm²")
            elif kerf and shapes[a].distance(shapes[b]) < kerf - EXACT:
                apart = shapes[a].distance(shapes[b])
                found.append(f"{names[0]} and {names[1]} are {apart:.3f} mm apart, but the kerf is {kerf:g} mm")
    return found
