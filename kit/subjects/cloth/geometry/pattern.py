"""What a cutter and a sewer need of each piece, as plain arrays: a drawing is made of it elsewhere.

All coordinates lie on the flat piece, mm; outlines run counterclockwise, right side of the cloth up.
"""

import re
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import CLOSE, Floats, norm

Kind = Literal["raw", "seam", "hem", "staple", "clamp"]
CornerKind = Literal["extended", "mitered", "notched"]


@dataclass(frozen=True)
class Finish:
    """How an edge is finished: what is left outside its sew line.

    depth: seam allowance, finished depth of a hem, or margin to staple or clamp, mm. folds: 1 or 2 turns of a hem.
    take_up: cloth that the hem's folds take in all, mm (from the fold calculation). line: distance of the staple line
    from the sew line, mm.
    """

    kind: Kind = "raw"
    depth: float = 0.0
    folds: int = 1
    take_up: float = 0.0
    line: float = 0.0

    @property
    def allowance(self) -> float:
        """The distance from the sew line to the cut line, mm."""
        return self.folds * self.depth + self.take_up if self.kind == "hem" else self.depth

    @property
    def folds_at(self) -> tuple[float, ...]:
        """The distances of the fold lines from the sew line, mm: a hem is folded at the sew line first."""
        if self.kind != "hem":
            return ()
        return tuple(k * (self.depth + self.take_up / self.folds) for k in range(self.folds))


@dataclass(frozen=True)
class SewEdge:
    """An edge of a piece between two corners: its name, its sew line (n, 2) counterclockwise, and its finish.

    corner: how the allowances end at the corner where this edge begins.
    """

    name: str
    line: Floats
    finish: Finish = Finish()
    corner: CornerKind = "extended"

    def __post_init__(self) -> None:
        if len(self.line) < 2 or norm(np.diff(self.line, axis=0)).sum() < CLOSE:
            raise KitError(f"The edge {self.name} has no length; join its neighbors and leave it out")
        # The folds of a hem may save cloth, so that its take-up is a little below zero.
        if self.finish.depth < 0 or self.finish.allowance < 0 or self.finish.folds not in (1, 2):
            raise KitError(
                f"The edge {self.name} has an allowance of {self.finish.depth:g} mm with {self.finish.folds} folds; "
                "it may be 0 mm or more, with 1 or 2 folds"
            )

    @property
    def length(self) -> float:
        """The length of the sew line, mm."""
        return float(norm(np.diff(self.line, axis=0)).sum())


def base(name: str) -> str:
    """Return the name of the edge of which an edge is a part: parts are edge, edge′, edge′′ … in order."""
    return name.rstrip("′")


def is_dart(name: str) -> bool:
    """Whether an edge of that name is a side of a dart."""
    return re.search(r"(^| )dart \d+[′']*$", name) is not None


@dataclass(frozen=True)
class Mark:
    """A match mark: arc length along the sew line (mm), its points on the sew line and on the cut line (2,).

    ease: by what share this edge is longer than the one it is sewn to (0 if it is not).
    """

    edge: str
    label: str
    along: float
    sew: Floats
    cut: Floats
    ease: float = 0.0


@dataclass(frozen=True)
class Relief:
    """A relief cut of a curved hem: a slit (2, 2) from the cut line inward, or a V-notch (3, 2) about its root."""

    edge: str
    kind: Literal["slit", "notch"]
    points: Floats


@dataclass(frozen=True)
class Piece:
    """One piece to be cut `count` times.

    cut: outline (n, 2) with the notches taken out; holes: cut-outs (k, 2) each; sew, folds, staples: lines by the
    name of their edge; grain: arrow from tail to head (2, 2).
    """

    name: str
    count: int
    edges: tuple[SewEdge, ...]
    cut: Floats
    holes: tuple[Floats, ...]
    folds: tuple[tuple[str, Floats], ...]
    staples: tuple[tuple[str, Floats], ...]
    reliefs: tuple[Relief, ...]
    grain: Floats
    marks: tuple[Mark, ...] = ()

    @property
    def sew(self) -> dict[str, Floats]:
        """The sew line of each edge by its name."""
        return {edge.name: edge.line for edge in self.edges}

    @property
    def outline(self) -> Floats:
        """The closed sew outline (n, 2), last point not repeated."""
        return np.vstack([edge.line[:-1] for edge in self.edges])

    def edge(self, name: str) -> SewEdge:
        """Return an edge by its name.

        Raises: KitError for a name that the piece does not have.
        """
        for edge in self.edges:
            if edge.name == name:
                return edge
        names = ", ".join(edge.name for edge in self.edges)
        raise KitError(f"The piece {self.name} has no edge {name!r}; its edges are {names}")


@dataclass(frozen=True)
class Pattern:
    """All pieces of one thing that is sewn."""

    name: str
    pieces: tuple[Piece, ...] = field(default_factory=tuple)
