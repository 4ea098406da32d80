"""What every pattern of cloth asks beside its givens: paper, a picture's edge, and what was measured on sewn pieces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kit.core.model.input_terms import amount, rows, text
from kit.drawing.paper import PAPER

PATTERN_INPUTS = (
    *PAPER,
    amount("roll", "width of a roll plotter's paper", span=(100, 5000), default="914.4 mm"),
    amount("model_scale", "how many times smaller than the piece a paper model is", "", span=(0.1, 100), default="5"),
    text("show", "the edge that pictures point out", refers="edges"),
    rows(
        "measured",
        "distances measured on sewn pieces, between two corners by their letters",
        text("piece", "the piece", needed=True),
        text("from", "letter of the corner where it begins", needed=True),
        text("to", "letter of the corner where it ends", needed=True),
        amount("length", "the distance", span=(0.1, 100_000), needed=True),
    ),
)


@dataclass(frozen=True)
class Measured:
    """A distance measured on a sewn piece, between two of its corners by their letters, mm."""

    piece: str
    pair: tuple[str, str]
    length: float


def measured_of(rows: Sequence[Mapping[str, Any]]) -> tuple[Measured, ...]:
    """Return the distances that were measured on sewn pieces."""
    return tuple(Measured(row["piece"], (row["from"], row["to"]), row["length"].base) for row in rows)
