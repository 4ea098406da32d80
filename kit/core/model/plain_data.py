"""The words and numbers of a model as plain data for a file, and back; formulas of sympy are left out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any

from kit.core.model import input_fields, input_lists
from kit.core.model.inputs import Input
from kit.core.model.steps import Cases, LineTex, PutIn, Step
from kit.core.model.tape import Tape
from kit.core.model.terms import Caution, Given, Limit, Mistake, Pick, Relation, Wish
from kit.core.quantity import Unit, unit
from kit.core.quantity.distribution import Spread

_INPUTS = [
    each
    for module in (input_fields, input_lists)
    for each in vars(module).values()
    if isinstance(each, type) and issubclass(each, Input) and each is not Input
]
_KINDS: dict[str, Any] = {
    each.__name__: each
    for each in (Given, Pick, Relation, Limit, Caution, Mistake, Wish, Spread, LineTex, Cases, PutIn, Step, *_INPUTS)
}
_KIND, _UNIT, _TAPE, _MAP, _SET = "kind of", "unit of", "tape of", "pairs of", "set of"


def encoded(value: Any) -> Any:
    """Return `value`, of the kinds that a model is made of, as what JSON can hold."""
    if isinstance(value, Unit):
        return {_UNIT: value.text}
    if isinstance(value, Tape):
        return {_TAPE: value.data()}
    if type(value).__name__ in _KINDS:
        own = {each.name: encoded(getattr(value, each.name)) for each in fields(value) if each.compare}
        return {_KIND: type(value).__name__, **own}
    if isinstance(value, Mapping):
        return {_MAP: [[encoded(key), encoded(each)] for key, each in value.items()]}
    if isinstance(value, frozenset):
        return {_SET: [encoded(each) for each in sorted(value)]}
    if isinstance(value, tuple | list):
        return [encoded(each) for each in value]
    return value


def decoded(data: Any, formulas: Callable[[str, str], Callable[[], Any]]) -> Any:
    """Return what `encoded` was given; lists come as tuples.

    `formulas` returns, for a kind and a name or text, what fetches the formulas of what is so called.
    """
    if isinstance(data, list):
        return tuple(decoded(each, formulas) for each in data)
    if not isinstance(data, dict):
        return data
    if _UNIT in data:
        return unit(data[_UNIT])
    if _TAPE in data:
        return Tape.from_data(data[_TAPE])
    if _MAP in data:
        return {decoded(key, formulas): decoded(each, formulas) for key, each in data[_MAP]}
    if _SET in data:
        return frozenset(decoded(each, formulas) for each in data[_SET])
    kind = _KINDS[data[_KIND]]
    own = {name: decoded(each, formulas) for name, each in data.items() if name != _KIND}
    left_out = [each.name for each in fields(kind) if not each.compare]
    fetch = {name: formulas(data[_KIND], data.get("name") or data.get("text", "")) for name in left_out}
    return kind(**own, **fetch)
