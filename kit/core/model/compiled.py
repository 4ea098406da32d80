"""A model as fast functions of bare numbers in base units: its tapes, run at one point or over arrays."""

from __future__ import annotations

import math
import os
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError
from kit.core.model.terms import called

if TYPE_CHECKING:
    import numpy as np

    from kit.core.model.calculation import Calculation
    from kit.core.model.tape import Tape

Arrays = Mapping[str, Any]
Codes = tuple[tuple[str, int], ...]

BLOCK = 16_384  # draws with one seed of their own; another number would change every sample
CHUNK = 65_536  # doubles: small enough for the cache, large enough that the cores seldom wait for each other
_CORES = os.cpu_count() or 1


class NoValueError(KitError):
    """The model has no real value at this point, for example a root of a negative number."""


class Compiled:
    """The functions of one model; made by `functions_of`."""

    def __init__(self, model: Calculation) -> None:
        self.model = model
        self.order = list(model.givens.values())
        self._arrays: dict[tuple[tuple[str, ...], Codes], Tape] = {}

    def verdicts(self, values: Mapping[str, float]) -> list[float]:
        """Return each limit's value and allowed value, then each caution's condition, from all symbols' values.

        Raises:
            NoValueError: one of them has no real value here.
        """
        found = self.model.verdicts.at(*values.values())
        if any(number != number for number in found):
            raise NoValueError(f"a limit or caution of {self.model.name} has no value at this point; change a given")
        return found

    def values(self, givens: Mapping[str, float]) -> dict[str, float]:
        """Return every symbol's value at one point from all givens' values.

        Raises:
            NoValueError: a relation has no real, finite value here; the first such relation is named.
        """
        arguments = [givens[given.name] for given in self.order]
        found = self.model.point.at(*arguments)
        values = dict(zip(self.model.names, (*arguments, *found), strict=True))
        if not all(map(math.isfinite, found)):
            raise NoValueError(self._first_without_value(values))
        return values

    def _first_without_value(self, values: Mapping[str, float]) -> str:
        """Say which is the first relation that has no value."""
        relation = next(each for each in self.model.relations.values() if not math.isfinite(values[each.name]))
        if math.isinf(values[relation.name]):
            return f"{self.model.name} has no finite value at this point; move the givens back toward their spans"
        inputs = [part for name, part in self.model.parts.items() if name in relation.rests_on]
        at = ", ".join(f"{part.name} {part.show(values[part.name])}" for part in inputs)
        return f"{self.model.name} has no {called(relation)} at {at}; change one of them"

    def arrays(self, values: Arrays, want: Sequence[str]) -> dict[str, np.ndarray]:
        """Return the quantities `want` over broadcast arrays; see `compute`.

        Raises:
            KitError: an unknown name, or arrays that do not broadcast.
        """
        for name in values:
            self.model.look_up(name, self.model.givens, "given")
        arguments = [_bare(values.get(given.name, given.base)) for given in self.order]
        made = self._array_tape(tuple(want), self._decided(arguments))
        return dict(zip(want, _blocked(made.over, arguments, len(want)), strict=True))

    def limits_over(self, arguments: Sequence[Any]) -> list[Any]:
        """Return each limit's value and allowed value over arrays of all givens, in order; base units."""
        limits, names, values = self._limits
        found = dict(zip(names, values.over(*arguments), strict=True))
        return limits.over(*(found.get(name) for name in limits.arguments))

    @cached_property
    def _limits(self) -> tuple[Tape, tuple[str, ...], Tape]:
        """The tape of the limits, the quantities that it takes, and the tape of these."""
        limits = self.model.verdicts.pruned(range(2 * len(self.model.limits)), {})
        names = tuple(name for name in self.model.names if name in limits.used)
        return limits, names, self._array_tape(names, ())

    def _decided(self, arguments: Sequence[Any]) -> Codes:
        """Return the choices that are the same at every point."""
        return tuple(
            (given.name, int(value))
            for given, value in zip(self.order, arguments, strict=True)
            if given.kind == "choice" and not getattr(value, "shape", ()) and value in given.options.values()
        )

    def _array_tape(self, want: tuple[str, ...], decided: Codes) -> Tape:
        """Return the tape for `want`, in which the cases that `decided` rules out are not computed."""
        if (want, decided) not in self._arrays:
            for name in want:
                self.model.part(name)
            whole = self.model.point
            first = len(self.order)
            outputs = (*range(first), *whole.outputs)  # the givens themselves may be wanted
            places = [self.model.names.index(name) for name in want]
            self._arrays[want, decided] = replace(whole, outputs=outputs).pruned(places, dict(decided))
        return self._arrays[want, decided]


@lru_cache(maxsize=128)
def functions_of(model: Calculation) -> Compiled:
    """Return the fast functions of a closed model; they are made once.

    Raises:
        ModelError: it is not closed.
    """
    model.require_done()
    return Compiled(model)


def compute(model: Calculation, values: Arrays, want: Sequence[str]) -> dict[str, np.ndarray]:
    """Return arrays of the quantities `want` for arrays of givens, all in base units, broadcast.

    Givens not named keep the model's own values. Points where there is no value come back as NaN.
    """
    return functions_of(model).arrays(values, want)


def _bare(value: Any) -> Any:
    """Return an array, or a NumPy scalar: a Python float would raise where NumPy says NaN."""
    import numpy as np

    return np.asarray(value, dtype=float)[()]


def _blocked(function: Callable[..., Any], arguments: list[Any], count: int) -> list[np.ndarray]:
    """Run an elementwise function over broadcast arrays in blocks that fit the cache, on all cores."""
    import numpy as np

    arrays = [a for a in arguments if isinstance(a, np.ndarray)]
    try:
        shape = np.broadcast_shapes(*(a.shape for a in arrays))
    except ValueError:
        shapes = " and ".join(sorted({str(a.shape) for a in arrays}))
        raise KitError(f"arrays of shapes {shapes} do not fit together; give arrays that broadcast") from None
    outputs = [np.empty(shape) for _ in range(count)]
    total = math.prod(shape)
    if total == 0:
        return outputs
    axis = int(np.argmax(shape)) if shape else 0
    length = shape[axis] if shape else 1
    rows = max(1, CHUNK * length // total)

    def run(start: int) -> None:
        index = (slice(None),) * axis + (slice(start, start + rows),) if shape else (...,)
        piece = [_piece(a, axis, len(shape), index) for a in arguments]
        with np.errstate(all="ignore"):
            for out, found in zip(outputs, function(*piece), strict=True):
                piece_out = out[index]
                np.copyto(piece_out, found)
                np.copyto(piece_out, np.nan, where=~np.isfinite(piece_out))

    each_block(run, range(0, length, rows))
    return outputs


def each_block(run: Callable[..., None], starts: Sequence[int], *more: Sequence[Any]) -> None:
    """Run each block of an array's work, on all cores if there are a few; `more` are further arguments, one a block."""
    if len(starts) < 4 or _CORES == 1:
        for arguments in zip(starts, *more, strict=True):
            run(*arguments)
    else:
        for _ in _pool().map(run, starts, *more):
            pass


def _piece(argument: Any, axis: int, ndim: int, index: tuple[slice, ...]) -> Any:
    if not getattr(argument, "shape", ()):
        return argument
    lacking = ndim - argument.ndim
    if axis < lacking or argument.shape[axis - lacking] == 1:
        return argument
    return argument[index[lacking:]]


@lru_cache(maxsize=1)
def _pool() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(max_workers=_CORES, thread_name_prefix="kit-compute")


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_pool.cache_clear)  # a copy of this process has none of its threads
