"""From two edge curves to a flat piece: rulings, refinement to a required chord error, proof of developability."""

from dataclasses import dataclass

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats
from kit.geometry.development.curves import Curve
from kit.geometry.development.ruled_strip import Strip, strip_of
from kit.geometry.development.rulings import Method, rulings
from kit.geometry.development.unroll import Flat, unroll

MOST = 200_000  # rulings, above which a finer requirement is refused


@dataclass(frozen=True)
class Development:
    """A surface between two edge curves and its flat piece.

    chord_bound: how far (mm) the facets are from the ruled surface at most. twist: the largest twist defect (rad);
    strain: the strain it means. method: how the rulings were found.
    """

    strip: Strip
    flat: Flat
    method: Method
    chord_bound: float

    @property
    def twist(self) -> float:
        """The largest twist defect of a ruling, rad."""
        return float(self.strip.defect.max())

    @property
    def strain(self) -> float:
        """The largest strain across a ruling that its twist asks for."""
        return float(self.strip.strain.max())


def surface(a: Curve, b: Curve, chord: float, method: Method | None = None, least: int = 1) -> tuple[Strip, Method]:
    """Return the ruled strip between two curves whose edges are sampled to a chord error (mm), and its method.

    least: number of steps along each of their pieces.

    Raises:
        KitError: a chord error that is not above 0 mm, or so small that an edge needs too many points.
    """
    if chord <= 0:
        raise KitError(f"The required chord error is {chord:g} mm; it must be above 0 mm")
    found = rulings(a, b, _steps(a, chord, least), _steps(b, chord, least), method)
    return strip_of(found), found.method


def _steps(curve: Curve, chord: float, least: int = 1) -> Floats:
    grid = curve.grid(chord, least)
    if len(grid) > MOST:
        raise KitError(
            f"A chord error of {chord:g} mm on the {curve.name} needs {len(grid)} points, {MOST} are allowed; "
            "allow a larger chord error"
        )
    return grid


def develop(
    a: Curve, b: Curve, *, chord: float = 0.2, offset: float = 0.0, method: Method | None = None
) -> Development:
    """Return the surface between edge curves a and b and its flat piece, refined until its chord error is below chord.

    chord, offset: mm. offset moves the surface to the cloth's neutral surface, out (to the right of a ruling a → b
    as one goes along the edges) if positive.
    Raises: KitError for curves that cross, an edge without length, or a requirement that no refinement meets.
    """
    step, least, before = chord / 2, 1, np.inf
    for _ in range(12):
        strip, used = surface(a, b, step, method, least)
        bound = float(strip.chord_error.max())
        if bound <= chord:
            moved = strip.offset(offset) if offset else strip
            return Development(moved, unroll(moved), used, bound)
        if bound > 0.6 * before:  # straight edges twist too: only more rulings between them help
            least *= 2
        step, before = step / 2, bound
    raise KitError(
        f"The surface between the {a.name} and the {b.name} stays {bound:.3g} mm from its facets, {chord:g} mm are "
        "required; its rulings twist too much: put another edge curve between them"
    )


@dataclass(frozen=True)
class Refinement:
    """The proof: number of rulings and largest fold angle (rad) of a surface refined again and again.

    On a smooth developable surface the fold is shared out over the rulings, so each doubling halves it. On one that is
    not, the folds between the facets stay, however fine they are, although every edge keeps its length.
    """

    rulings: tuple[int, ...]
    folds: tuple[float, ...]

    @property
    def ratios(self) -> tuple[float, ...]:
        """Each largest fold over the one before it: near 1/2 for a developable surface."""
        return tuple(new / old if old else 0.0 for old, new in zip(self.folds[:-1], self.folds[1:], strict=True))

    @property
    def holds(self) -> bool:
        """Whether the last doubling halved the largest fold: to at most 0.6 of it (folds below 1e-6 rad aside)."""
        return self.ratios[-1] < 0.6 or self.folds[-1] < 1e-6


def refine(a: Curve, b: Curve, *, chord: float = 1.0, doublings: int = 4, method: Method | None = None) -> Refinement:
    """Refine the surface between two curves by halving every step along both, from a chord error (mm) on.

    Raises:
        KitError: a chord error so small that an edge needs too many points.
    """
    t, s = _steps(a, chord), _steps(b, chord)
    strips = [strip_of(rulings(a, b, t, s, method))]
    for _ in range(doublings):
        t, s = _halved(t), _halved(s)
        strips.append(strip_of(rulings(a, b, t, s, method)))
    return Refinement(tuple(len(strip.a) for strip in strips), tuple(float(strip.largest_fold) for strip in strips))


def _halved(t: Floats) -> Floats:
    """Return a grid with the middle of each of its steps put in."""
    return np.sort(np.concatenate([t, (t[1:] + t[:-1]) / 2]))


def total_turn(flat: Flat) -> float:
    """Return the angle (rad) between the first and the last ruling of a flat piece, positive counterclockwise.

    Not above half a turn either way is told apart from its complement by adding up the turns from ruling to ruling.
    """
    direction = flat.b - flat.a
    angle = np.unwrap(np.arctan2(direction[:, 1], direction[:, 0]))
    return float(angle[-1] - angle[0])
