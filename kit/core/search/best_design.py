"""The best design that holds: searched over the whole of what may vary, then told what binds and what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from kit.core.errors import KitError
from kit.core.model import in_words
from kit.core.model.margins import drawn_together
from kit.core.search.space import Judge, Seen, Space, Vary
from kit.core.search.watch import Watch
from kit.core.search.wished import wish_of
from kit.core.summary import some, summary
from kit.core.verdict import LEVEL, percent

if TYPE_CHECKING:
    from kit.core.model import Case, Wish

    Array = np.ndarray[Any, Any]

FIRST = 2048  # points spread over the whole, of which the search begins with the best
ROUNDS = 120
CROWD = 40  # points that move from round to round
TRIES = 7  # of what the search asks for, until draws agree
NEAR = 0.004  # so much surer than asked for is near enough
SLACK = 0.1  # of what a limit allows: by so much it is relaxed, to see what that would buy
_SEED = 1
_WORTH = 1e-4  # relative: what buys less is not said


@dataclass(frozen=True)
class Relaxed:
    """What a limit would buy that allowed a tenth more: the wish's value then, in base units."""

    limit: str
    value: float


@dataclass(frozen=True, eq=False)
class Best:
    """The best design found; `held` says whether all limits hold in it with the chance asked for.

    Where no design holds so, `case` is the one that comes nearest. `chance` is how likely all limits hold, by
    draws. `binding` are the limits that keep the wish from being met better, each with what a tenth more would
    buy; `ends` the givens that stand at an end of what they may be.
    """

    wish: Wish
    case: Case
    before: float
    held: bool
    chance: float
    level: float
    binding: tuple[Relaxed, ...]
    ends: tuple[str, ...]
    space: Space

    @property
    def value(self) -> float:
        """What is wished, in base units."""
        return self.case.base[self.wish.of]

    def __repr__(self) -> str:
        model = self.case.model
        return summary(
            f"Best design of {model.name} for {self.wish.words}: {self.case.show(self.wish.of)}"
            + ("" if self.held else f" (none holds with {percent(self.level)}; this comes nearest)"),
            with_=some(f"{name} {self.case.show(name)}" for name in self.space.names),
            binding=some(in_words(each.limit) for each in self.binding),
        )


def best(
    case: Case,
    wish: str | Wish,
    vary: Sequence[Vary | str],
    *,
    level: float = LEVEL,
    what_binds: bool = True,
    watch: Watch | None = None,
) -> Best:
    """Return the best design for a wish that holds with the chance `level`, all else as in the case.

    Searched by differential evolution over the whole of what may vary, beginning with the best of points spread over it
    and the case itself; what takes any size is then refined by sequential quadratic programming. The same question has
    the same answer. `what_binds` is found by further, shorter searches. `watch` is told how far it is.
    Source: R. Storn and K. Price, Journal of Global Optimization 11 (1997), 341; as carried out by scipy.

    Raises:
        KitError: an unknown wish, given or size, nothing to vary, or a level that is not from 0.5 to 1.
        StoppedError: `watch` ended it.

    >>> from kit import model
    >>> found = best(model("scale.cursor").at(), "least parallax", ["gap"])
    >>> found.case.show("gap")
    '0.05 ± 0.1 mm'
    """
    if not 0.5 <= level < 1:
        raise KitError(f"a chance of {level:g} is not allowed; give 0.5 or more, less than 1")
    wished, space = wish_of(case.model, wish), Space(case, vary, watch)
    judge, point, chance = sure(space, wished, level, [space.point(case)])
    found = space.at(case, space.base(point), how=f"best for {wished.words}")
    seen = judge(point[None, :])
    held = bool(seen.lack[0] == 0) and chance >= level
    binding = _binding(judge, point, float(seen.value[0])) if held and what_binds else ()
    ends = tuple(name for name, share in zip(space.names, point, strict=True) if _at_end(space, name, share))
    return Best(wished, found, case.base[wished.of], held, chance, level, binding, ends, space)


def sure(
    space: Space,
    wish: Wish,
    level: float,
    begin: Sequence[Array],
    *,
    caps: Sequence[tuple[Wish, float]] = (),
    rounds: int = ROUNDS,
    first: int = FIRST,
) -> tuple[Judge, Array, float]:
    """Return who judged the best point, the point, and how likely all limits hold there, drawn.

    The search itself goes by the first order; where draws say that this promises too much or asks too much, it is
    asked for more or less, until both agree.
    """
    from scipy.special import ndtr, ndtri

    asked, push, best_rank = level, 1.0, (False, -1.0)
    found: tuple[Judge, Array, float] | None = None
    for number in range(TRIES):
        space.stage = f"looking for the {wish.words}" + (f", more surely: {number} of {TRIES - 1}" if number else "")
        judge = Judge(space, wish, asked, caps=caps)
        point = searched(judge, begin, rounds=rounds if number == 0 else 30, first=first if number == 0 else 128)
        chance = drawn_together(space.at(space.case, space.base(point)))
        met = judge(point[None, :])
        worth = float(met.value[0]) * (-1 if wish.least else 1)
        rank = (True, worth) if chance >= level and met.lack[0] == 0 else (False, chance)
        if found is None or rank > best_rank:
            found, best_rank = (judge, point, chance), rank
        if met.lack[0] > 0 or level <= chance < level + NEAR:
            break
        # What is asked for moves by what the draws differ, on the scale of a normal error; further where that is not
        # enough, as among few sizes.
        missing = float(ndtri(level + NEAR / 2) - ndtri(min(max(chance, 1e-4), 1 - 1e-4)))
        if chance >= level and (missing < -0.5 or push > 1):
            break  # what holds is kept by something else than its chance
        asked = float(min(max(ndtr(ndtri(asked) + push * missing), 0.5), 1 - 1e-9))
        push = 2 * push if chance < level else 1.0
        begin = [*begin, point]
    assert found is not None
    return found


def searched(judge: Judge, begin: Sequence[Array], *, rounds: int = ROUNDS, first: int = FIRST) -> Array:
    """Return the best point (d,) that a judge finds; `begin` are points to begin with."""
    from scipy.optimize import differential_evolution
    from scipy.stats.qmc import Sobol

    count = len(judge.space.names)
    spread = Sobol(count, seed=_SEED).random(first)
    points = np.vstack([*(each[None, :] for each in begin), spread])
    seen = judge(points)
    scale = _Scale(judge, seen)
    order = np.argsort(scale(seen), kind="stable")
    half = CROWD // 2
    among = order[half :: max(len(order) // CROWD, 1)][:half]
    crowd = points[np.concatenate([order[:half], among])]
    found = differential_evolution(
        lambda x: scale(judge(np.atleast_2d(x.T))),
        [(0.0, 1.0)] * count,
        init=crowd,
        maxiter=rounds,
        tol=1e-10,
        atol=0.0,
        mutation=(0.4, 0.9),
        polish=False,
        rng=_SEED,
        vectorized=True,
        updating="deferred",
    )
    candidates = np.vstack([found.x[None, :], points[order[:1]]])
    point = candidates[int(np.argmin(scale(judge(candidates))))]
    return _refined(judge, scale, point)


class _Scale:
    """One number for what is seen: the wish where all holds, else above all of these by what lacks."""

    def __init__(self, judge: Judge, seen: Seen) -> None:
        known = seen.value[np.isfinite(seen.value)]
        self.size = float(np.max(np.abs(known), initial=0.0)) or 1.0
        self._sign = 1.0 if judge.wish.least else -1.0

    def __call__(self, seen: Seen) -> Array:
        """Return the number at each point (n,), the smaller the better."""
        with np.errstate(all="ignore"):
            worth = self._sign * seen.value / self.size
            lacking = 1e3 + np.where(np.isfinite(seen.lack), seen.lack, 1e6)
        return np.where(seen.lack == 0, np.where(np.isfinite(worth), worth, 2e6), lacking)


def _refined(judge: Judge, scale: _Scale, point: Array) -> Array:
    """Return a point refined in what takes any size, or as it was where that finds nothing better."""
    from scipy.optimize import minimize

    smooth = judge.space.smooth
    if not smooth:
        return point

    def whole(x: Array) -> Array:
        filled = np.repeat(point[None, :], len(np.atleast_2d(x)), axis=0)
        filled[:, smooth] = x
        return filled

    steps = np.vstack([np.zeros(len(smooth)), 1e-7 * np.eye(len(smooth))])

    known: dict[bytes, tuple[float, Array, float, Array]] = {}

    def sloped(x: Array) -> tuple[float, Array, float, Array]:
        """Return the wish and how sure it is with their slopes, all evaluated at once; inward at an end."""
        if x.tobytes() not in known:
            signs = np.where(x > 0.5, -1.0, 1.0)
            seen = judge(whole(x + steps * signs))
            worth = np.nan_to_num((1.0 if judge.wish.least else -1.0) * seen.value / scale.size, nan=1e6)
            surely = np.where(np.isfinite(seen.lack), seen.chance - judge.level - seen.lack, -1.0)
            by = 1e-7 * signs
            known[x.tobytes()] = (
                float(worth[0]),
                (worth[1:] - worth[0]) / by,
                float(surely[0]),
                (surely[1:] - surely[0]) / by,
            )
        return known[x.tobytes()]

    tried = minimize(
        lambda x: sloped(x)[:2],
        point[smooth],
        jac=True,
        method="SLSQP",
        bounds=[(0.0, 1.0)] * len(smooth),
        constraints={"type": "ineq", "fun": lambda x: sloped(x)[2], "jac": lambda x: sloped(x)[3]},
        options={"maxiter": 40, "ftol": 1e-10},
    )
    end = np.clip(np.nan_to_num(tried.x, nan=0.5), 0.0, 1.0)
    line = point[smooth] + np.linspace(0.0, 1.0, 33)[:, None] * (end - point[smooth])  # the last steps may step over
    candidates = whole(line)
    return np.array(candidates[int(np.argmin(scale(judge(candidates))))])


def _binding(judge: Judge, point: Array, value: float) -> tuple[Relaxed, ...]:
    """Return the limits that would buy something if they allowed a tenth more, the most first."""
    found = []
    for name, limit in judge.space.case.model.limits.items():
        judge.space.stage = f"looking what would be won if more were allowed: {limit.words}"
        looser = Judge(judge.space, judge.wish, judge.level, relaxed={name: SLACK}, caps=judge.caps)
        then = float(looser(searched(looser, [point], rounds=40, first=256)[None, :]).value[0])
        if judge.wish.better(then, value) and abs(then - value) > _WORTH * max(abs(value), abs(then)):
            found.append(Relaxed(name, then))
    return tuple(sorted(found, key=lambda each: -abs(each.value - value)))


def _at_end(space: Space, name: str, share: float) -> bool:
    if name in space.rows or space.case.model.free[name].kind == "choice":
        return False  # neither has an end
    kept = space.sizes[name]
    if kept:
        return len(kept) > 1 and (share * len(kept) < 1 or share * len(kept) >= len(kept) - 1)
    return share < 1e-4 or share > 1 - 1e-4
