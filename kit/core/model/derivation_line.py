"""A line of a derivation, checked when it is stated."""

from __future__ import annotations

from collections.abc import Mapping

import sympy as sp

from kit.core.model.dimension import Dim, DimensionError, dimension, words
from kit.core.model.equations import sides
from kit.core.model.terms import Line, ModelError


def line(where: str, known: Mapping[sp.Symbol, Dim], symbol: sp.Symbol, claim: sp.Basic, because: str) -> Line:
    """Return the line that claims `claim` about `symbol`; `known` are the dimensions of all symbols so far.

    Raises:
        ModelError: it is neither an expression nor an equation that can be put in doubt.
        DimensionError: its two sides do not have the same dimension; both are named.
    """
    if not isinstance(claim, sp.Expr | sp.Equality):
        raise ModelError(f"{where} is {claim!r}; it must be an expression or an equation that is not yet known")
    try:
        pairs = sides(claim) if isinstance(claim, sp.Equality) else [(claim, symbol)]
    except ModelError as error:
        raise ModelError(f"{where}: {error}") from None
    for left, right in pairs:
        try:
            dims = dimension(left, known), dimension(right, known)
        except DimensionError as error:
            raise DimensionError(f"{where}: {error}") from None
        if dims[0] is not None and dims[1] is not None and dims[0] != dims[1]:
            raise DimensionError(f"{where}: {left} is {words(dims[0])}, but {right} is {words(dims[1])}")
    return Line(claim, because)
