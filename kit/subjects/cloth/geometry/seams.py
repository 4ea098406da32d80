"""Where to part a ruled strip: at rulings that a person names, or at those that take the least cloth."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, norm
from kit.geometry.development.ruled_strip import Strip
from kit.geometry.development.unroll import Flat, unroll
from kit.geometry.remembered import remembered
from kit.geometry.ties import TIED, first_least, first_least_each
from kit.subjects.cloth.geometry.consumption import rectangle_round

CANDIDATES = 36  # rulings among which seams are proposed


@dataclass(frozen=True)
class Parted:
    """A strip parted into panels: rulings of the seams, each panel with its flat piece, and the cloth taken, mm²."""

    seams: tuple[int, ...]
    panels: tuple[Strip, ...]
    flats: tuple[Flat, ...]
    cloth: float


def part_at(strip: Strip, seams: Sequence[int]) -> Parted:
    """Part a strip at rulings (numbers from 0); an open strip keeps its two ends besides.

    Raises: KitError for a ruling that the strip does not have, or one named twice.
    """
    last = len(strip.a) - 1
    cuts = sorted(seams)
    allowed = range(last) if strip.closed else range(1, last)
    for seam in cuts:
        if seam not in allowed or cuts.count(seam) > 1:
            raise KitError(
                f"A seam at ruling {seam} is not possible; name each of the rulings {allowed[0]} to {allowed[-1]} "
                "at most once"
            )
    if strip.closed:
        if not cuts:
            raise KitError("A closed strip needs a seam to be laid flat; name at least one ruling")
        bounds = list(zip(cuts, [*cuts[1:], cuts[0]], strict=True))
    else:
        stops = [0, *cuts, last]
        bounds = list(pairwise(stops))
    panels = tuple(strip.part(first, end) for first, end in bounds)
    flats = tuple(unroll(panel) for panel in panels)
    boxes = [rectangle_round(flat.outline) for flat in flats]
    return Parted(tuple(cuts), panels, flats, sum(box.area for box in boxes if box))


@remembered(most=16)
def propose_seams(
    strip: Strip,
    *,
    panels: int | None = None,
    width: float = np.inf,
    margin: float = 0.0,
    avoid: Floats | None = None,
    candidates: int = CANDIDATES,
) -> Parted:
    """Part a strip so that its panels take the least cloth from a roll of given width (mm).

    panels: how many, else as many as take the least. margin: allowance round each panel (mm), which is what makes
    each further seam cost cloth. avoid: for each ruling, mm² of cloth that keeping a seam off it is worth, for wear
    and airflow; shape (n,). candidates: rulings among which seams are sought. The way round is found by dynamic
    programming over candidate rulings.
    Raises: KitError when no parting fits the cloth.
    """
    last = len(strip.a) - 1
    where = _candidates(strip, candidates)
    shy = np.zeros(last + 1) if avoid is None else np.asarray(avoid, dtype=np.float64)
    if len(shy) != last + 1:
        raise KitError(f"Keeping seams off is given for {len(shy)} rulings, but the strip has {last + 1}")
    k = len(where) - 1
    cost = np.full((k + 1, k + 1), np.inf)  # of the panel from candidate i to a later candidate j
    cyclic = np.full((k, k), np.inf)  # of the panel over the end, from i to an earlier or the same j
    once = strip.closed and panels == 1
    flat = _twice(unroll(strip)) if strip.closed else unroll(strip)
    for i in range(k + 1):
        for j in range(i + 1, k + 1) if not once else ():
            cost[i, j] = _cloth(flat, int(where[i]), int(where[j]), width, margin)
        if strip.closed and i < k:
            for j in range(i + 1) if not once else (i,):
                cyclic[i, j] = _cloth(flat, int(where[i]), last + int(where[j]), width, margin)
    starts = range(k if strip.closed else 1)
    ways = [_way(cost, cyclic, start, shy[where], panels, strip.closed) for start in starts]
    price, seams = ways[first_least([price for price, _ in ways])]
    if not np.isfinite(price):
        raise KitError(
            f"No parting into {panels or 'any number of'} panels fits a cloth {width:.0f} mm wide; "
            "allow more panels, or take wider cloth"
        )
    return part_at(strip, [int(where[i]) for i in seams])


def _candidates(strip: Strip, count: int) -> Floats:
    """Return rulings about evenly spaced along both edges, the creases of the shape among them."""
    run = norm(np.diff(strip.a, axis=0)) + norm(np.diff(strip.b, axis=0))
    along = np.r_[0.0, np.cumsum(run)]
    even = np.searchsorted(along, np.linspace(0, along[-1], count + 1))
    return np.unique(np.clip(np.r_[even, np.flatnonzero(strip.crease), 0, len(along) - 1], 0, len(along) - 1))


def _twice(flat: Flat) -> Flat:
    """Return a closed strip laid flat two times round, so that every panel is a stretch of it."""
    first, last = flat.b[0] - flat.a[0], flat.b[-1] - flat.a[-1]
    turn = float(np.arctan2(last[1], last[0]) - np.arctan2(first[1], first[0]))
    again = flat.placed(turn)
    shift = flat.a[-1] - again.a[0]
    return Flat(np.vstack([flat.a, again.a[1:] + shift]), np.vstack([flat.b, again.b[1:] + shift]))


def _cloth(flat: Flat, first: int, last: int, width: float, margin: float) -> float:
    outline = np.vstack([flat.a[first : last + 1], flat.b[first : last + 1]])
    box = rectangle_round(outline, width, margin)
    return box.area if box else np.inf


def _way(
    cost: Floats, cyclic: Floats, start: int, shy: Floats, panels: int | None, closed: bool
) -> tuple[float, list[int]]:
    """Return the cheapest cost and the seams of the ways that begin at a candidate (all of them, if open)."""
    k = len(cost) - 1
    most = panels or min(k, 8)
    total = np.full((most + 1, k + 1), np.inf)
    came = np.zeros((most + 1, k + 1), dtype=np.int64)
    total[0, start] = shy[start] if closed else 0.0
    for count in range(1, most + 1):
        ways = total[count - 1][:, None] + cost
        came[count] = first_least_each(ways)
        total[count] = ways.min(axis=0) + (shy if closed else np.r_[shy[:-1], 0.0])
    best: tuple[float, list[int]] = (np.inf, [])
    for count in range(1, most + 1) if panels is None else [panels]:
        if closed:
            ends = total[count - 1, :k] + cyclic[:, start]
            end, steps = first_least(ends), count - 1
            price = float(ends[end])
        else:
            end, steps, price = k, count, float(total[count, k])
        if price < best[0] * (1 - TIED):
            seams = [end]
            for step in range(steps, 0, -1):
                seams.append(int(came[step, seams[-1]]))
            best = (price, seams[::-1] if closed else seams[-2:0:-1])
    return best
