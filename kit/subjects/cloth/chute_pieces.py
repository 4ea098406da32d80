"""A chute hung and laid flat, as its build and others take it: sizes, surface, panels, and what a wrong one is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from kit.core.build import BuildInput
from kit.geometry.development.develop import Development, Refinement, refine, surface
from kit.geometry.remembered import remembered
from kit.subjects.cloth.geometry.chute_surface import SIDES, Chute, upright
from kit.subjects.cloth.geometry.covering import Asked, CoveredPanel, FlatPiece
from kit.subjects.cloth.geometry.pattern import Pattern
from kit.subjects.cloth.geometry.seams import Parted, part_at
from kit.subjects.cloth.geometry.sewing import Step


@dataclass(frozen=True)
class Hung:
    """A chute as other builds take it: sizes, developed surface, panels, pattern, and the seams in sewing order."""

    chute: Chute
    development: Development
    parted: Parted
    pattern: Pattern
    steps: tuple[Step, ...]


def sizes(value: Mapping[str, float]) -> Chute:
    """Return the chute of a case's values: the hose hangs below the opening."""
    return Chute(
        (value["opening_x"], value["opening_y"]),
        value["corner_radius"],
        value["rim"],
        (value["offset_x"], value["offset_y"], -value["height"]),
        value["tilt"],
        value["tilt_toward"],
    )


@remembered(most=32)
def developed(chute: Chute, start: str, chord: float, offset: float) -> Development:
    """Return a chute's surface laid flat; kept, so that what only concerns edges answers at once."""
    return chute.develop(start, chord=chord, offset=offset)


def start_side(value: Mapping[str, float]) -> str:
    """Return the side on whose middle the first ruling stands: that of the seam, if it lies on a side."""
    return SIDES[round(value["seam"]) % 4]


def _panel(name: str, edges: Sequence[str], found: Development) -> CoveredPanel:
    """Return a panel with its flat piece; each triangle is strained across its rulings as much as they are twisted."""
    strip, flat = found.strip, found.flat
    ia, ib = strip.zigzag
    twist = (strip.strain[ia] + strip.strain[ib]) / 2
    vertices = strip.triangles.reshape(-1, 3)
    faces = np.arange(len(vertices)).reshape(-1, 3)
    a, b = flat.a[ia], flat.b[ib]
    on_a = (np.abs(np.diff(strip.a[ia], axis=0)).max(axis=1) > 0)[:, None]
    laid = np.stack([a[:-1], np.where(on_a, a[1:], b[1:]), b[:-1]], axis=1).reshape(-1, 2)
    opening, end, hose, begin = edges
    lines = {
        opening: strip.a,
        end: np.stack([strip.a[-1], strip.b[-1]]),
        hose: strip.b[::-1],
        begin: np.stack([strip.b[0], strip.a[0]]),
    }
    weft = (twist[1:] + twist[:-1]) / 2
    piece = FlatPiece(name, laid, faces, np.zeros_like(weft), weft, np.pi / 2, ())
    return CoveredPanel(Asked(name, (opening, hose)), vertices, faces, lines, (piece,), found, ())


def panels(hung: Hung) -> list[CoveredPanel]:
    """Return the panels of a chute in space and flat, with the names of their edges."""
    found = []
    for piece, strip, flat in zip(hung.pattern.pieces, hung.parted.panels, hung.parted.flats, strict=True):
        end, hose, begin = (edge.name for edge in piece.edges[-3:])
        one = replace(hung.development, strip=strip, flat=flat)
        found.append(_panel(piece.name, ("opening", end, hose, begin), one))
    return found


def naive(inputs: BuildInput) -> CoveredPanel:
    """Return what comes of joining equal shares of both edges: every length is kept, and yet it is wrong."""
    chute = sizes(inputs.base)
    strip, _ = surface(*chute.edges(start_side(inputs.base)), inputs.base["chord_error"] / 2, "equal")
    parted = part_at(strip, [0])
    one = replace(
        developed(chute, start_side(inputs.base), 0.2, 0.0),
        strip=parted.panels[0],
        flat=upright(parted.flats[0]),
    )
    return _panel("equal shares", ("opening", "seam 1'", "hose", "seam 1"), one)


def refined(inputs: BuildInput) -> dict[str, Refinement]:
    """Return how the largest fold answers to finer rulings: right rulings, and equal shares of both edges."""
    a, b = sizes(inputs.base).edges(start_side(inputs.base))
    chord = 5 * inputs.base["chord_error"]
    return {
        "right rulings": refine(a, b, chord=chord, doublings=4),
        "equal shares of both edges": refine(a, b, chord=chord, doublings=4, method="equal"),
    }
