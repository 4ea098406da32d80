"""Stages of a build, remembered by what goes into them: only what depends on a moved given is made anew."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from contextlib import suppress
from dataclasses import fields, is_dataclass
from functools import update_wrapper
from hashlib import blake2b
from threading import Lock
from typing import Any, Generic, ParamSpec, TypeVar

import numpy as np

P = ParamSpec("P")
T = TypeVar("T")


class Remembered(Generic[P, T]):
    """A function without side effects that remembers its last answers, by the content of its arguments.

    What it gives back is shared by all who ask: nobody may change it. The same content gives the same object.
    """

    def __init__(self, function: Callable[P, T], most: int) -> None:
        self._function, self._most = function, most
        self._known: OrderedDict[Hashable, T] = OrderedDict()
        self._lock = Lock()  # tasks run beside a panel
        update_wrapper(self, function)

    def __call__(self, *args: P.args, **named: P.kwargs) -> T:
        """Return the function's answer. Raises what it raises, which is not remembered."""
        key = content((args, named))
        with self._lock:
            if key in self._known:
                self._known.move_to_end(key)
                return self._known[key]
        found = self._function(*args, **named)
        with self._lock:
            self._known[key] = found
            while len(self._known) > self._most:
                self._known.popitem(last=False)
        return found

    def knows(self, *args: P.args, **named: P.kwargs) -> bool:
        """Whether the answer is remembered."""
        return content((args, named)) in self._known


def remembered(most: int) -> Callable[[Callable[P, T]], Remembered[P, T]]:
    """Return a decorator that lets a function remember its last `most` answers."""
    return lambda function: Remembered(function, most)


def content(value: Any) -> Hashable:
    """Return what stands for a value: equal for arrays, data classes, mappings and sequences of equal content.

    What is none of these, or is only like itself, stands for itself. Arrays of any shape and unit are told apart by
    their bytes.
    """
    if isinstance(value, np.ndarray):
        return value.shape, value.dtype.str, blake2b(value.tobytes(), digest_size=16).digest()
    if is_dataclass(value) and not isinstance(value, type) and type(value).__eq__ is not object.__eq__:
        told = (getattr(value, each.name) for each in fields(value) if each.compare)
        return type(value), *(content(each) for each in told)
    if isinstance(value, Mapping):
        return Mapping, *((key, content(each)) for key, each in value.items())
    if isinstance(value, list | tuple):
        with suppress(TypeError):  # plain numbers and texts through and through
            hash(value)
            return tuple(value)
        return list, *(content(each) for each in value)
    return value  # type: ignore[no-any-return]
