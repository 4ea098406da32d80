"""What is taken in by hand on a surface that a reader turns and touches: plain data between a page and its view.

A page that takes in a scan says what there is to see, which steps there are, what each asks for, and what it changes
of what is stated; the view shows the surface, its spots and the steps, and knows nothing of the trade.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from kit.core.build import Build, BuildInput

    Array = NDArray[np.float64]
    Index = NDArray[np.int64]

Kind = Literal["text", "choice", "spot", "spots", "box", "file"]
Answers = Mapping[str, Any]
"""By the name of what is asked: a text; for spots a tuple of names; for a box two corners (3,) in mm."""


@dataclass(frozen=True)
class Ask:
    """One thing that a step asks for.

    A choice takes one of `options`, or with `names` one of the joints or parts; what is not `needed` may be left open.
    """

    name: str
    words: str
    kind: Kind = "text"
    default: str = ""
    options: tuple[str, ...] = ()
    names: Literal["", "joint", "part"] = ""
    needed: bool = True


@dataclass(frozen=True)
class Change:
    """What a step changes: inputs as in the job's file, None taken out, and texts of givens."""

    inputs: Mapping[str, Any] = field(default_factory=dict)
    givens: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Step:
    """One step of the intake: its button, what it is for, what it asks for, and what it does with the answers.

    `do` is done on what is seen, which is nothing before there is a surface.
    """

    name: str
    title: str
    words: str
    asks: tuple[Ask, ...]
    do: Callable[[BuildInput, Seen | None, Answers], Change]


@dataclass(frozen=True)
class Found:
    """A step that is stated: where it stands in the inputs, its name, and what it found, residuals among it."""

    at: tuple[str, int]
    title: str
    words: str


@dataclass(frozen=True)
class Way:
    """How far a joint goes: its limits in base units, and the widest that may be tried."""

    name: str
    unit: str
    low: float
    high: float
    widest: tuple[float, float]


@dataclass(frozen=True, eq=False)
class Seen:
    """The surface after what is stated so far: vertices (n, 3), faces (m, 3), and of which part each face is.

    Lengths are in mm where `scaled`, else in the scan's own unit. `part` (m,) counts `parts` from 0; -1 stands still.
    `moves` gives the motion (4, 4) of each part at the joints' values by name. `axes` are two ends (2, 3) by name.
    `wanted` are the names of spots that are to be set yet.
    """

    vertices: Array
    faces: Index
    scaled: bool
    upright: bool
    part: Index
    parts: tuple[str, ...]
    spots: Mapping[str, Array]
    axes: Mapping[str, Array]
    ways: tuple[Way, ...]
    found: tuple[Found, ...]
    notes: tuple[str, ...]
    moves: Callable[[Mapping[str, float]], list[Array]]
    wanted: tuple[str, ...] = ()


Look = Callable[["BuildInput"], Seen | None]
Spot = Callable[["BuildInput", Seen, str, "Array | None"], Change]


@dataclass(frozen=True)
class Intake:
    """How a page takes in a file by hand. `asks` names the input that holds the file, `endings` what it may end in.

    `begin` states a new file; `look` returns nothing while there is nothing to see; `spot` states a named place (3,)
    on the surface that is seen; `result` is the surface of what was built, to be looked at. `second` is how a second
    file is looked at and touched, which a step may have asked for.
    """

    asks: str
    endings: tuple[str, ...]
    begin: Callable[[str], Change]
    look: Look
    spot: Spot
    steps: tuple[Step, ...]
    result: Callable[[Build], tuple[Array, Index]]
    second: tuple[Look, Spot] | None = None
