"""Parts packed onto a roll by the nesting library spyrrow, where it is installed: better than our own, bound by time.

It works in single precision on outlines without their holes and never turns a part over; the layout is made exact
by sliding and judged like any other. This is the one module that imports it.
"""

import math
import threading
import time
from collections.abc import Callable
from importlib.util import find_spec

import numpy as np

from .cells import grown
from .stock import Cutting, Layout, Part, Placed, Roll

CLEAR = 0.005  # added around every part for single precision, mm

Progress = Callable[[float, str], bool]


def serves(parts: tuple[Part, ...], stock: object) -> bool:
    """Whether the library is there and can do it: a roll without defects."""
    return isinstance(stock, Roll) and not stock.defects and find_spec("spyrrow") is not None


def nest(
    parts: tuple[Part, ...],
    roll: Roll,
    cutting: Cutting,
    seconds: float,
    seed: int,
    progress: Progress | None,
) -> Layout | None:
    """Return the best layout within that many seconds, or so far when `progress` returns False; None if there is none.

    The library cannot be stopped: its thread runs out in the background when it is no longer waited for.
    """
    import spyrrow

    half = cutting.kerf / 2
    items = []
    for k, part in enumerate(parts):
        outline = grown(part.outline, half).buffer(CLEAR, join_style="mitre", mitre_limit=2)
        items.append(
            spyrrow.Item(
                str(k),
                list(outline.exterior.coords)[:-1],
                part.count,
                [math.degrees(turn) for turn in part.turns],
            )
        )
    high = roll.width - 2 * cutting.margin + cutting.kerf + 2 * CLEAR
    instance = spyrrow.StripPackingInstance("roll", high, items)
    config = spyrrow.StripPackingConfig(
        total_computation_time=max(1, int(0.8 * seconds)), seed=seed, num_workers=1, early_termination=True
    )
    reports = spyrrow.ProgressQueue()
    done: list[spyrrow.StripPackingSolution] = []
    thread = threading.Thread(target=lambda: done.append(instance.solve(config, reports)), daemon=True)
    begin = time.monotonic()
    best: spyrrow.StripPackingSolution | None = None
    thread.start()
    while thread.is_alive() and time.monotonic() - begin < seconds:
        thread.join(0.1)
        for kind, solution in reports.drain():
            if kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final):
                best = solution
        told = "looking for a place" if best is None else f"{best.width:.0f} mm of roll"
        share = min(1.0, (time.monotonic() - begin) / seconds)
        if progress is not None and not progress(share, told):
            break
    best = done[0] if done else best
    if best is None:
        return None
    shift = cutting.margin - half - CLEAR
    placed = tuple(
        Placed(
            int(item.id),
            0,
            float(np.radians(item.rotation)),
            False,
            item.translation[0] + shift,
            item.translation[1] + shift,
        )
        for item in best.placed_items
    )
    return Layout(parts, roll, cutting, placed, "spyrrow", (0,) * len(parts))
