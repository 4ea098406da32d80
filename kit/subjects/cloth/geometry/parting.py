"""Edges that are sewn together are parted at the same places: where a dart or a seam of either panel ends on them."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from kit.geometry.development.arrays import Floats, at_lengths, lengths_along
from kit.subjects.cloth.geometry.covering import CoveredPanel
from kit.subjects.cloth.geometry.pattern import SewEdge, base

SAME = 1e-6  # share of an edge, below which two places on it are one


def parted_alike(panels: Sequence[CoveredPanel]) -> dict[str, list[SewEdge]]:
    """Return the edges of each piece by its name, mm.

    An edge curve that is parted on one of the panels that have it is parted on all of them, and the parts are named
    edge, edge′, edge″ … as the first of these panels counts them.

    Counterclockwise, two panels run along their common edge in opposite directions.
    """
    pieces = {piece.name: list(piece.edges) for panel in panels for piece in panel.pieces}
    for edge in dict.fromkeys(edge for panel in panels for edge in panel.asked.edges):
        theirs = [panel for panel in panels if edge in panel.asked.edges]
        stops = [_stops(panel, edge) for panel in theirs]
        together = _merged([stops[0], *(1 - own[::-1] for own in stops[1:])])
        if len(theirs) < 2 or len(together) == 2:
            continue
        names = [edge + "′" * k for k in range(len(together) - 1)]
        for number, (panel, own) in enumerate(zip(theirs, stops, strict=True)):
            here = (together, names) if number == 0 else (1 - together[::-1], names[::-1])
            for piece in panel.pieces:
                pieces[piece.name] = [
                    part
                    for each in pieces[piece.name]
                    for part in (_parts(each, edge, own, *here) if base(each.name) == edge else [each])
                ]
    return pieces


def _stops(panel: CoveredPanel, edge: str) -> Floats:
    """Return where a panel's edge is parted, from 0 to 1 of its length on the shape, counterclockwise, (k,)."""
    parts = sorted((name for name in panel.lines if base(name) == edge), key=len)
    along = np.cumsum([0.0, *(float(lengths_along(panel.lines[name])[-1]) for name in parts)])
    return np.asarray(along / along[-1])


def _merged(stops: Sequence[Floats]) -> Floats:
    together = np.unique(np.concatenate(stops))
    inner = together[(together > SAME) & (together < 1 - SAME)]
    inner = inner[np.r_[True, np.diff(inner) > SAME]] if len(inner) else inner
    return np.concatenate([[0.0], inner, [1.0]])


def _parts(edge: SewEdge, name: str, own: Floats, together: Floats, names: Sequence[str]) -> list[SewEdge]:
    """Part an edge, itself from one of its panel's own stops to the next, where all panels' parts end."""
    part = len(edge.name) - len(name)
    begin, end = own[part], own[part + 1]
    inside = [float(stop) for stop in together if begin + SAME < stop < end - SAME]
    along = lengths_along(edge.line)
    bounds = [0.0, *(along[-1] * (stop - begin) / (end - begin) for stop in inside), along[-1]]
    first = int(np.abs(together - begin).argmin())
    found = []
    for k, (low, high) in enumerate(pairwise(bounds)):
        inner = along[(along > low + 1e-9) & (along < high - 1e-9)]
        line = at_lengths(edge.line, np.array([low, *inner, high]))
        found.append(replace(edge, name=names[first + k], line=line))
    return found
