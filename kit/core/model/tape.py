"""A formula as a tape: numbered operations, one after the other, on numbers that stand before them.

A tape is plain data. It is kept in a file and run on floats, on arrays, or backward for slopes, without any text being
turned into code: an operation is a name in `kit.core.model.operations`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from kit.core.model.operations import NAN, POINT, SLOPES, array_operations

Operation = tuple[str, int, int, int]
"""Its name and the numbers of its inputs, -1 where it has none."""
_Frees = tuple[int, ...]


@dataclass(frozen=True)
class Tape:
    """Operations on `arguments` and `constants`, which bear the first numbers; `outputs` are the numbers wanted."""

    arguments: tuple[str, ...]
    constants: tuple[float, ...]
    operations: tuple[Operation, ...]
    outputs: tuple[int, ...]

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Tape:
        """Return the tape that `data` returned."""
        flat = data["operations"]
        operations = tuple(zip(flat[::4], flat[1::4], flat[2::4], flat[3::4], strict=True))
        return cls(tuple(data["arguments"]), tuple(data["constants"]), operations, tuple(data["outputs"]))

    def data(self) -> dict[str, Any]:
        """Return the tape as plain data."""
        flat = [part for operation in self.operations for part in operation]
        return {
            "arguments": list(self.arguments),
            "constants": list(self.constants),
            "operations": flat,
            "outputs": list(self.outputs),
        }

    @property
    def used(self) -> set[str]:
        """The arguments that an operation or an output takes."""
        places = {*self.outputs, *(place for operation in self.operations for place in operation[1:])}
        return {name for at, name in enumerate(self.arguments) if at in places}

    def at(self, *arguments: float) -> list[float]:
        """Return the outputs at one point; NaN where there is no real value."""
        numbers = self._run(arguments)
        return [numbers[output] for output in self.outputs]

    def over(self, *arguments: Any) -> list[Any]:
        """Return the outputs over arrays or NumPy scalars. What is no longer needed on the way is let go."""
        numbers: list[Any] = [*arguments, *self.constants]
        push = numbers.append
        for function, a, b, c, done in self._array_steps:
            if b < 0:
                push(function(numbers[a]))
            elif c < 0:
                push(function(numbers[a], numbers[b]))
            else:
                push(function(numbers[a], numbers[b], numbers[c]))
            for number in done:
                numbers[number] = None
        return [numbers[output] for output in self.outputs]

    def slopes(self, arguments: Sequence[float], output: int, fixed: frozenset[str]) -> dict[str, float]:
        """Return the derivatives of the output at that place by each argument, 0 by those that are `fixed`.

        One run forward and one backward, by the chain rule.

        Raises:
            ValueError, ZeroDivisionError, OverflowError: a slope does not exist here, as that of a root at zero.
        """
        numbers = self._run(arguments)
        moves = self._moving(fixed)
        by = [0.0] * len(numbers)
        by[self.outputs[output]] = 1.0
        first = len(self.arguments) + len(self.constants)
        for at in range(len(numbers) - 1, first - 1, -1):
            weight = by[at]
            if weight == 0.0 or not moves[at]:
                continue
            name, *places = self.operations[at - first]
            inputs = [place for place in places if place >= 0]
            found = SLOPES[name](*(numbers[place] for place in inputs), numbers[at])
            for place, slope in zip(inputs, found, strict=False):
                if moves[place]:
                    by[place] += weight * slope
        return {name: by[at] if name not in fixed else 0.0 for at, name in enumerate(self.arguments)}

    def pruned(self, outputs: Sequence[int], known: Mapping[str, float]) -> Tape:
        """Return the tape for some of the `outputs` only, without what the arguments `known` decide or leave unused."""
        first = len(self.arguments)
        values: list[float | None] = [known.get(name) for name in self.arguments] + [None] * len(self.constants)
        same = list(range(first + len(self.constants)))
        constants = list(self.constants)
        values[first:] = constants
        kept: dict[int, Operation] = {}
        fresh: dict[float, int] = {}
        for at, (name, *places) in enumerate(self.operations, len(same)):
            inputs = [same[place] for place in places if place >= 0]
            here = [values[place] for place in inputs]
            if name == "choose" and here[0] is not None and here[0] == here[0]:
                same.append(inputs[1 if here[0] else 2])
                values.append(values[same[-1]])
            elif None not in here:
                value = POINT[name](*here)
                values.append(value)
                same.append(fresh.setdefault(value, at) if value == value else at)
                kept[at] = ("constant", 0, -1, -1)
            else:
                values.append(None)
                same.append(at)
                padded = (*inputs, -1, -1)
                kept[at] = (name, padded[0], padded[1], padded[2])
        return self._renumbered([same[self.outputs[output]] for output in outputs], kept, values)

    def _renumbered(self, wanted: list[int], kept: Mapping[int, Operation], values: Sequence[float | None]) -> Tape:
        first = len(self.arguments)
        needed: set[int] = set()
        ahead = list(wanted)
        while ahead:
            at = ahead.pop()
            if at not in needed:
                needed.add(at)
                if at in kept and kept[at][0] != "constant":
                    ahead += [place for place in kept[at][1:] if place >= 0]
        constant = [at for at in sorted(needed) if at >= first and (at not in kept or kept[at][0] == "constant")]
        number = {at: at for at in range(first)} | {at: first + n for n, at in enumerate(constant)}
        operations: list[Operation] = []
        for at in sorted(needed - number.keys()):
            name, a, b, c = kept[at]
            number[at] = first + len(constant) + len(operations)
            operations.append((name, number[a], number.get(b, -1), number.get(c, -1)))
        held = tuple(NAN if (value := values[at]) is None else value for at in constant)
        return Tape(self.arguments, held, tuple(operations), tuple(number[at] for at in wanted))

    def _run(self, arguments: Sequence[float]) -> list[float]:
        numbers = [*map(float, arguments), *self.constants]
        push = numbers.append
        for function, a, b, c in self._point_steps:
            if b < 0:
                push(function(numbers[a]))
            elif c < 0:
                push(function(numbers[a], numbers[b]))
            else:
                push(function(numbers[a], numbers[b], numbers[c]))
        return numbers

    def _moving(self, fixed: frozenset[str]) -> list[bool]:
        """Return for each number whether it moves with an argument that is not `fixed`."""
        moves = [name not in fixed for name in self.arguments] + [False] * len(self.constants)
        for _, a, b, c in self.operations:
            moves.append(moves[a] or (b >= 0 and moves[b]) or (c >= 0 and moves[c]))
        return moves

    @cached_property
    def _point_steps(self) -> list[tuple[Callable[..., float], int, int, int]]:
        return [(POINT[name], a, b, c) for name, a, b, c in self.operations]

    @cached_property
    def _array_steps(self) -> list[tuple[Callable[..., Any], int, int, int, _Frees]]:
        functions = array_operations()
        steps = zip(self.operations, self._last_uses(), strict=True)
        return [(functions[name], a, b, c, done) for (name, a, b, c), done in steps]

    def _last_uses(self) -> Iterator[_Frees]:
        """Yield for each operation the numbers that nothing needs after it."""
        first = len(self.arguments) + len(self.constants)
        needed = set(self.outputs)
        frees: list[_Frees] = []
        for _, *places in reversed(self.operations):
            last = {place for place in places if place >= first} - needed
            needed |= last
            frees.append(tuple(sorted(last)))
        return iter(frees[::-1])
