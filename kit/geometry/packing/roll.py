"""Parts packed onto a roll by the nesting library spyrrow: better than our own search, bound by time.

It works in single precision on outlines without their holes and never turns a part over; the layout is made exact
by sliding and judged like any other.
"""

import json
import math
import subprocess
import sys
import threading
import time
from collections.abc import Sequence
from pathlib import Path

from kit.geometry.packing.cells import grown
from kit.geometry.packing.effort import Progress
from kit.geometry.packing.stock import CutPart, Cutting, Layout, Placed, Roll

CLEAR = 0.005  # added around every part for single precision, mm
NESTER = Path(__file__).with_name("nester.py")


def serves(parts: Sequence[CutPart], stock: object) -> bool:
    """Whether the library can do it: parts without holes on a roll without defects."""
    return isinstance(stock, Roll) and not stock.defects and not any(part.outline.interiors for part in parts)


def nest(
    parts: tuple[CutPart, ...],
    roll: Roll,
    cutting: Cutting,
    seconds: float,
    seed: int,
    progress: Progress | None,
) -> Layout | None:
    """Return the best layout within that many seconds, or so far when `progress` returns False; None without any."""
    half = cutting.kerf / 2
    begin = time.monotonic()
    outlines = [grown(part.outline, half).buffer(CLEAR, join_style="mitre", mitre_limit=2) for part in parts]
    order = {
        "width": roll.width - 2 * cutting.margin + cutting.kerf + 2 * CLEAR,
        "seconds": max(1, int(0.8 * seconds)),
        "seed": seed,
        "parts": [
            {
                "outline": list(outline.exterior.coords)[:-1],
                "count": part.count,
                "turns": [math.degrees(turn) for turn in part.turns],
            }
            for part, outline in zip(parts, outlines, strict=True)
        ],
    }
    lines: list[str] = []
    with subprocess.Popen(
        [sys.executable, "-P", str(NESTER)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as nester:
        assert nester.stdin is not None
        assert nester.stdout is not None
        reader = threading.Thread(target=lines.extend, args=(nester.stdout,), daemon=True)
        reader.start()
        try:
            nester.stdin.write(json.dumps(order))
            nester.stdin.close()
            while nester.poll() is None and time.monotonic() - begin < seconds:
                time.sleep(0.05)
                share = min(1.0, (time.monotonic() - begin) / seconds)
                if progress is not None and not progress(share, f"{len(lines)} layouts of the library so far"):
                    break
        finally:
            nester.kill()
        reader.join(1.0)
    whole = [line for line in lines if line.endswith("\n")]  # the last may have been cut off
    if not whole:
        return None
    shift = cutting.margin - half - CLEAR
    placed = tuple(
        Placed(k, 0, math.radians(turn), False, x + shift, y + shift) for k, turn, x, y in json.loads(whole[-1])
    )
    return Layout(parts, roll, cutting, placed, "spyrrow", (0,) * len(parts))
