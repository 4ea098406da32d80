"""Where a result of one unknown meets a goal: scanned over a span, then narrowed between grid points."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

CLOSE = 1e-9  # a root is a root when the result meets the goal to this part of its size
_GRID = 4001
_NOISE = 1e-14  # what rounding alone makes of a value, as a part of it
_FINE = {"xatol": 0.0, "maxiter": 100}


def nearest(x: np.ndarray, y: np.ndarray, goal: float) -> tuple[tuple[float, float] | None, tuple[float, float] | None]:
    """Return (x, y) where `y` is nearest the goal, and the reach of `y`; None where it has no value at all."""
    valid = np.isfinite(y)
    if not valid.any():
        return None, None
    x, y = x[valid], y[valid]
    at = int(np.argmin(np.abs(y - goal)))
    return (float(x[at]), float(y[at])), (float(y.min()), float(y.max()))


class Scan:
    """A result over the unknown's span, and where it meets the goal.

    Every size is judged against the goal and against the result's change between neighboring grid points, never
    against its largest value, which a pole makes as large as it likes.
    """

    def __init__(self, span: tuple[float, float], goal: float, function: Callable[[np.ndarray], np.ndarray]) -> None:
        self.span, self.goal, self.function = span, goal, function
        low, high = span
        grid = np.linspace(low, high, _GRID)
        if low > 0 and high / low > 20:
            grid = np.unique(np.concatenate([grid, np.geomspace(low, high, _GRID).clip(low, high)]))
        self.x, self.y = grid, function(grid)
        self.gap = self.y - goal
        self.runs: list[tuple[float, float]] = []
        self.roots: list[float] = []
        self._meet()
        self.nearest, self.reach = nearest(self.x, self.y, goal)
        if self.nearest is not None and not self.roots and not self.runs:
            self._polishnearest()

    def off(self, x: float) -> float:
        """Return result minus goal at one value."""
        return float(self.function(np.array([x]))[0]) - self.goal

    def meets(self, x: float) -> bool:
        """Whether the result really takes the goal's value at `x`: a jump or a pole only passes it."""
        right = min(max(int(np.searchsorted(self.x, x)), 1), len(self.x) - 1)
        around = np.abs(self.gap[max(right - 2, 0) : right + 2])
        return abs(self.off(x)) <= CLOSE * max(abs(self.goal), float(np.nanmax(around, initial=0.0)))

    def _meet(self) -> None:
        gap, size = self.gap, np.abs(self.gap)
        hit = size <= _NOISE * abs(self.goal)
        flat = hit[:-1] & hit[1:]
        for start, stop in _stretches(flat):
            self.runs.append((self._edge(start, -1), self._edge(stop, +1)))
        for i in np.flatnonzero(hit):
            if not (i > 0 and flat[i - 1]) and not (i < len(flat) and flat[i]):
                self._add(float(self.x[i]))
        crossing = (gap[:-1] * gap[1:] < 0) & ~hit[:-1] & ~hit[1:]
        for i in np.flatnonzero(crossing):
            self._cross(float(self.x[i]), float(self.x[i + 1]))
        middle, left, right = size[1:-1], size[:-2], size[2:]
        dips = (middle <= left) & (middle <= right) & ~hit[1:-1] & ~crossing[:-1] & ~crossing[1:]
        # where the result turns round between two points it changes about as much as it stays off the goal
        near = middle <= 4 * (np.maximum(left, right) - middle)
        for i in np.flatnonzero(dips & near) + 1:
            self._touch(float(self.x[i - 1]), float(self.x[i]), float(self.x[i + 1]))
        valid = np.isfinite(gap)
        for i in np.flatnonzero(valid[:-1] != valid[1:]):
            self._add(self._border(*(float(x) for x in self.x[i : i + 2][:: 1 if valid[i] else -1])))
        for end in self.span:
            self._add(end)

    def _cross(self, a: float, b: float) -> None:
        from scipy.optimize import brentq

        root = brentq(self.off, a, b, xtol=_NOISE * max(abs(a), abs(b)), rtol=4 * np.finfo(float).eps)
        self._add(float(root))

    def _touch(self, a: float, middle: float, b: float) -> None:
        """Look for a root where the result turns round near the goal, or for two where it turns beyond."""
        from scipy.optimize import minimize_scalar

        side = math.copysign(1.0, self.off(middle))
        best = minimize_scalar(lambda x: side * self.off(x), bounds=(a, b), method="bounded", options=_FINE)
        turn = float(best.x)
        if self.meets(turn):
            self._add(turn)
        elif best.fun < 0:
            self._cross(a, turn)
            self._cross(turn, b)

    def _border(self, inside: float, outside: float) -> float:
        """Return the last value, going from `inside` to `outside`, at which the model has a result."""
        return _halved(inside, outside, lambda x: math.isfinite(self.off(x)))

    def _add(self, x: float) -> None:
        in_run = any(start <= x <= stop for start, stop in self.runs)
        if not in_run and self.meets(x) and not any(same(x, root, self.span) for root in self.roots):
            self.roots.append(x)
            self.roots.sort()

    def _edge(self, index: int, step: int) -> float:
        """Return where a flat run ends, found by halving between grid points."""
        inside = float(self.x[index])
        if not 0 <= index + step < len(self.x):
            return inside
        bound = _NOISE * abs(self.goal)
        return _halved(inside, float(self.x[index + step]), lambda x: abs(self.off(x)) <= bound)

    def _polishnearest(self) -> None:
        from scipy.optimize import minimize_scalar

        at = int(np.nanargmin(np.abs(self.gap)))
        a, b = (float(self.x[min(max(i, 0), len(self.x) - 1)]) for i in (at - 1, at + 1))
        best = minimize_scalar(lambda x: abs(self.off(x)), bounds=(a, b), method="bounded")
        if math.isfinite(best.fun) and best.fun < abs(self.gap[at]):
            value = self.off(float(best.x)) + self.goal
            self.nearest = (float(best.x), value)
            if self.reach is not None:
                self.reach = (min(self.reach[0], value), max(self.reach[1], value))


def ranges(scan: Scan, holds: Callable[[float], bool]) -> list[tuple[float, float]]:
    """Return where along a scan a value of the result `holds`: its ends, each found by halving between grid points.

    Where only a single value holds, as where a curve touches a bound, both ends are that value.
    """
    fine = np.array([bool(math.isfinite(y) and holds(float(y))) for y in scan.y])

    def at(x: float) -> bool:
        value = scan.off(x) + scan.goal
        return math.isfinite(value) and holds(value)

    found = []
    for start, stop in _stretches(fine):
        last = stop - 1
        low, high = float(scan.x[start]), float(scan.x[last])
        if start > 0:
            low = _halved(low, float(scan.x[start - 1]), at)
        if last + 1 < len(scan.x):
            high = _halved(high, float(scan.x[last + 1]), at)
        found.append((low, high))
    alone = [root for root in scan.roots if not any(low <= root <= high for low, high in found) and at(root)]
    return sorted([*found, *((root, root) for root in alone)])


def _halved(inside: float, outside: float, holds: Callable[[float], bool]) -> float:
    """Return the last value from `inside` toward `outside` at which `holds`, by halving."""
    for _ in range(60):
        middle = (inside + outside) / 2
        if holds(middle):
            inside = middle
        else:
            outside = middle
    return inside


def _stretches(flags: np.ndarray) -> list[tuple[int, int]]:
    """Return (first, last + 1) grid indices of each stretch of True between neighbors."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], flags.astype(int), [0]])))
    return [(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def same(a: float, b: float, span: tuple[float, float]) -> bool:
    """Whether two values of the unknown are one root."""
    return abs(a - b) <= 1e-7 * (span[1] - span[0])
