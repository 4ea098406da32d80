"""One model's relations inside another."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

import sympy as sp

from kit.core.model.dimension import DimensionError, words
from kit.core.model.equations import equal

if TYPE_CHECKING:
    from kit.core.model.statement import Statement


def include(
    into: Statement, other: Statement, prefix: str, label: str, bind: Mapping[str, sp.Expr]
) -> dict[str, sp.Symbol]:
    """Do what `Model.include` says.

    Raises:
        DimensionError: a given is bound to an expression of another dimension.
    """

    def named(name: str) -> str:
        return f"{prefix}_{name}" if prefix else name

    def wording(meaning: str) -> str:
        return f"{meaning} ({label})" if meaning and label else meaning

    into.require_open()
    for name in bind:
        other.look_up(name, other.givens, "given")
    here: dict[str, sp.Symbol] = {}
    swap: dict[sp.Basic, sp.Basic] = {}
    for given in other.givens.values():
        if given.name in bind:
            expr = sp.sympify(bind[given.name], strict=True)
            found = into.dimension_of(expr, f"{given.name!r} bound for {other.name}")
            if found is not None and found != given.unit.dim:
                raise DimensionError(
                    f"{given.name!r} of {other.name} is {words(given.unit.dim)}, "
                    f"but is bound to {expr}, which is {words(found)}"
                )
            swap[given.symbol] = expr
            continue
        name = named(given.name)
        printed = _labelled(given.tex, label)
        symbol = into.add_given(replace(given, name=name, tex=printed, meaning=wording(given.meaning)))
        here[given.name] = swap[given.symbol] = symbol
    for pick in other.picks.values():
        fills = {named(name): column for name, column in pick.fills.items() if name not in bind}
        if fills:
            into.pick(named(pick.name), pick.table, pick.row, fills, wording(pick.meaning))
    for relation in other.relations.values():
        scale = relation.resolution
        symbol = into.relation(
            named(relation.name),
            _labelled(relation.tex, label),
            relation.unit.text,
            wording(relation.meaning),
            resolution=None if scale is None else scale / relation.unit.factor,
        )
        here[relation.name] = swap[relation.symbol] = symbol
        for line in relation.lines:
            into.step(_swapped(line.claim, swap), line.because)
        into.equals(relation.expr.xreplace(swap), relation.because)
        if relation.source:
            into.source(relation.source)
        stated = into.relations[symbol.name]
        into.relations[symbol.name] = replace(
            stated, possible=relation.possible, whole=relation.whole, setting=relation.setting
        )
    return here


def _swapped(claim: sp.Basic, swap: Mapping[sp.Basic, sp.Basic]) -> sp.Basic:
    """Put other symbols into a line without letting sympy decide an equation."""
    if isinstance(claim, sp.Equality):
        return equal(claim.lhs.xreplace(swap), claim.rhs.xreplace(swap))
    return claim.xreplace(swap)


def _labelled(tex: str, label: str) -> str:
    if not label:
        return tex
    under = rf"\mathrm{{{label}}}"
    placed = re.fullmatch(r"(.*)_(?:\{((?:[^{}]|\{[^{}]*\})*)\}|(\\[A-Za-z]+|[^{}\\]))", tex)
    if placed is None:
        return f"{tex}_{{{under}}}"
    stem, braced, single = placed.groups()
    return f"{stem}_{{{braced or single},{under}}}"
