"""Proof of a derivation: every line of every relation, symbolically where sympy can, and at seeded points."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING, Literal

import numpy as np
import sympy as sp

from kit.core.model.codegen import function
from kit.core.model.compiled import compute
from kit.core.model.terms import ModelError, Relation, sides

if TYPE_CHECKING:
    from kit.core.model.statement import Statement

TOLERANCE = 1e-9  # relative to the size of the terms compared
_SIMPLE = 60  # operations up to which sympy's simplification is quick enough to be worth asking

_CASES = (sp.Piecewise, sp.Min, sp.Max, sp.ceiling, sp.floor)


class ProofError(ModelError):
    """A line of a derivation is not true."""


@dataclass(frozen=True, slots=True)
class Proof:
    """One proved line: how, at how many points, and the largest relative difference met there."""

    relation: str
    line: int
    how: Literal["symbolic", "numeric"]
    points: int
    worst: float


def prove(model: Statement, *, points: int = 1000, seed: int = 0) -> list[Proof]:
    """Prove every line of `model` at `points` seeded points inside the spans, and symbolically if possible.

    Raises:
        ProofError: a line is not true, cannot be evaluated, or has a value at too few points.
    """
    sample = _sample(model, points, seed)
    proofs = []
    for relation in model.relations.values():
        for number, line in enumerate(relation.lines):
            where = f"line {number + 1} of {relation.name!r} of {model.name}"
            claim = line.claim
            pairs = sides(claim) if isinstance(claim, sp.Equality) else [(claim, relation.symbol)]
            worst, count, symbolic = 0.0, points, True
            for left, right in pairs:
                done = _done(left, where), _done(right, where)
                difference, valid = _numeric(model, done, sample, where)
                if difference > TOLERANCE:
                    raise ProofError(f"{where}: {left} = {right} is off by {difference:.3g} of its size")
                if valid < points:
                    raise ProofError(f"{where}: {left} = {right} has a value at only {valid} of {points} points")
                worst, count = max(worst, difference), min(count, valid)
                symbolic = symbolic and _symbolic(model, relation, done)
            proofs.append(Proof(relation.name, number, "symbolic" if symbolic else "numeric", count, worst))
    return proofs


def _sample(model: Statement, points: int, seed: int) -> dict[sp.Symbol, np.ndarray]:
    """Draw points at which the whole model has a value; a model that has one too rarely is refused."""
    rng = np.random.default_rng(seed)
    names = [*model.givens, *model.relations]
    kept: list[np.ndarray] = []
    for _ in range(40):
        givens = {}
        for given in model.givens.values():
            low, high = given.span
            if given.kind in ("count", "choice"):
                givens[given.name] = rng.integers(round(low), round(high) + 1, points).astype(float)
            else:
                givens[given.name] = rng.uniform(low, high, points) if high > low else np.full(points, low)
        table = np.vstack(list(compute(model, givens, names).values()))
        kept.append(table[:, np.isfinite(table).all(axis=0)])
        if sum(part.shape[1] for part in kept) >= points:
            break
    found = np.hstack(kept)[:, :points]
    if found.shape[1] < points:
        raise ProofError(f"{model.name} has a value at only {found.shape[1]} of {40 * points} points in its spans")
    return {model.part(name).symbol: row for name, row in zip(names, found, strict=True)}


def _done(expr: sp.Expr, where: str) -> sp.Expr:
    """Carry out the integrals, sums and derivatives that a line writes down."""
    done = expr.doit()
    left = done.atoms(sp.Integral, sp.Sum, sp.Derivative, sp.Limit)
    if left:
        raise ProofError(f"{where}: sympy cannot carry out {left.pop()}; write a line that it can")
    return done


def _numeric(
    model: Statement, pair: tuple[sp.Expr, sp.Expr], sample: dict[sp.Symbol, np.ndarray], where: str
) -> tuple[float, int]:
    """Return the largest difference relative to the size of the terms, and at how many points it was seen."""
    terms = [term for side in pair for term in sp.Add.make_args(side)]
    unknown = set().union(*(term.free_symbols for term in terms)) - sample.keys()
    if unknown:
        raise ProofError(f"{where}: {', '.join(map(str, unknown))} is not a symbol of the model")
    try:
        with np.errstate(all="ignore"):
            found = function(list(sample), [*pair, *terms], "numpy")(*sample.values())
    except (NameError, TypeError, AttributeError) as error:
        raise ProofError(f"{where}: {pair[0]} = {pair[1]} cannot be evaluated, {error}") from None
    count = len(next(iter(sample.values())))
    left, right, *sizes = [np.broadcast_to(np.asarray(side, dtype=float), (count,)) for side in found]
    valid = np.isfinite(left) & np.isfinite(right)
    size = np.max(np.abs(np.vstack([left, right, *sizes])), axis=0)[valid]
    relative = np.abs(left - right)[valid] / np.where(size > 0, size, 1.0)
    return float(relative.max(initial=0.0)), int(valid.sum())


def _symbolic(model: Statement, relation: Relation, pair: tuple[sp.Expr, sp.Expr]) -> bool:
    """Whether sympy finds the two sides equal, first as written, then with the earlier relations put in."""
    difference = (pair[0] - pair[1]).xreplace({relation.symbol: relation.expr})
    if _vanishes(difference):
        return True
    for earlier in reversed(model.needed(difference.free_symbols)):
        difference = difference.xreplace({earlier.symbol: earlier.expr})
        # It doubles with every relation put in; a greatest or least is compared anew, term by term.
        if _larger(difference, (2 if difference.has(*_CASES) else 20) * _SIMPLE):
            return False
    return _vanishes(difference)


def _larger(expr: sp.Expr, nodes: int) -> bool:
    """Whether an expression has more nodes than so many; only these are looked at."""
    return next(islice(sp.preorder_traversal(expr), nodes, None), None) is not None


def _vanishes(difference: sp.Expr) -> bool:
    if difference.is_zero:
        return True
    if difference.count_ops() > _SIMPLE or difference.has(*_CASES):
        return False
    return not _seen(difference) and bool(sp.simplify(difference) == 0)


def _seen(difference: sp.Expr) -> bool:
    """Whether a difference shows at a point of free symbols; sympy would look for it much longer."""
    rng = np.random.default_rng(0)
    symbols = sorted(difference.free_symbols, key=str)
    for _ in range(3):
        point = {symbol: rng.integers(1, 9) if symbol.is_integer else rng.uniform(0.1, 0.9) for symbol in symbols}
        terms = [sp.N(term.xreplace(point)) for term in sp.Add.make_args(difference)]
        if all(term.is_number and term.is_finite for term in terms):
            size = sum(abs(complex(term)) for term in terms)
            return bool(abs(complex(sum(terms))) > 1e-6 * size)
    return False
