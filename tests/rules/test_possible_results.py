"""No model says that all its limits hold where a result cannot be: a length below nothing, a share above 100 %.

What a result can be follows from its unit and from what its statement says of it (`Statement.result`); what lies
between the givens' spans is searched at seeded points, at corners, and at points on the way to both.
"""

import numpy as np
import pytest
import sympy as sp

from kit.core.model import Calculation, Model
from kit.core.model.terms import Given, Relation
from kit.core.quantity import Quantity
from kit.core.verdict import HAIR
from kit.subjects import model, names

POINTS = 10_000
CORNERS = 4_096
NEAR = 4_000
"""Points at which some givens are at an end of their span and the others as stated: limits seldom hold elsewhere."""


@pytest.mark.parametrize("name", names())
def test_no_impossible_result_meets_all_limits(name: str) -> None:
    stated = model(name)
    values = everywhere(stated)
    values |= stated.compute(values, list(stated.relations))
    met = limits_met(stated, values)
    assert met.sum() > 20, "too few points meet all limits to say anything"
    found = [
        f"{relation.name} is {relation.show(values[relation.name][at])} at {_givens(stated, values, at)}"
        for relation in stated.relations.values()
        for at in np.flatnonzero(met & impossible(relation, values[relation.name]))[:1]
    ]
    assert not found, "\n".join(found)
    for limit, holds in zip(stated.limits.values(), each_met(stated, values), strict=True):
        resting = [stated.relations[name] for name in limit.rests_on if name in stated.relations]
        empty = np.any([impossible(relation, values[relation.name]) for relation in resting], axis=0)
        for at in np.flatnonzero(holds & empty)[:1]:
            point = {name: _typed(stated.givens[name], float(values[name][at])) for name in stated.free}
            check = next(each for each in stated.at(**point).checks if each.name == limit.name)
            assert check.outcome() == "fails", f"{limit.name} holds at {_givens(stated, values, at)}"
            assert "which cannot be: this limit says nothing" in check.words()


def test_the_search_finds_what_cannot_be() -> None:
    """A length below nothing, a share above 100 % and a broken count, each with its limit met."""
    stated = Model("rule.page", PAGE)
    a = stated.given("a", "a", "5 mm", (1, 10), "a length")
    b = stated.given("b", "b", "3 mm", (1, 10), "another")
    for name, in_unit, value in (("left", "mm", a - b), ("share", "%", a / b), ("angle", "deg", sp.atan2(a - b, b))):
        stated.result(name, name, in_unit, name)
        stated.equals(value, "made up")
    stated.result("pieces", "n", "", "pieces", whole=True)
    stated.equals(a / b, "made up")
    stated.result("gap", "g", "mm", "gap", signed=True)
    stated.equals(a - b, "made up")
    stated.limit("size", "it is", a, "<=", 10)
    stated.mend("cut it")
    done = stated.done()
    values = everywhere(done)
    values |= done.compute(values, list(done.relations))
    met = limits_met(done, values)
    bad = [r.name for r in done.relations.values() if (met & impossible(r, values[r.name])).any()]
    assert bad == ["left", "share", "pieces"]


PAGE = """A page.

Is it possible?

Picture: a bar.

Assumptions:
- none

Sources:
- made up

Notes: none.
"""


def everywhere(stated: Calculation) -> dict[str, np.ndarray]:
    """Return seeded values of all givens, in base units."""
    rng = np.random.default_rng(10)
    givens = [given for given in stated.givens.values() if given.span[0] < given.span[1]]
    uniform = np.stack([_drawn(given, rng) for given in givens])
    stay = np.array([given.base for given in givens])[:, None]
    # half of them on the way from what is stated to somewhere: that is where limits hold
    part = np.where(np.arange(POINTS) % 2, 1.0, rng.random(POINTS))
    whole = np.array([given.kind in ("count", "choice") for given in givens])[:, None]
    inner = stay + part * (uniform - stay)
    inner = np.where(whole, np.round(inner), inner)
    ends = np.array([given.span for given in givens])
    sides = np.array(_corners(len(givens), rng)).T
    corners = np.where(sides, ends[:, 1:], ends[:, :1])
    picked = rng.random((len(givens), NEAR)) < rng.uniform(0.02, 0.5, NEAR)
    near = np.where(picked, np.where(rng.random((len(givens), NEAR)) < 0.5, ends[:, :1], ends[:, 1:]), stay)
    columns = np.concatenate([inner, corners, near], axis=1)
    fixed = {given.name: np.full(columns.shape[1], given.base) for given in stated.givens.values()}
    return fixed | {given.name: column for given, column in zip(givens, columns, strict=True)}


def limits_met(stated: Calculation, values: dict[str, np.ndarray]) -> np.ndarray:
    """Return where every quantity has a value and every limit holds."""
    there = np.all([np.isfinite(values[name]) for name in stated.names], axis=0)
    return np.all([there, *each_met(stated, values)], axis=0)


def each_met(stated: Calculation, values: dict[str, np.ndarray]) -> list[np.ndarray]:
    """Return for each limit where its margin is met."""
    found = []
    with np.errstate(all="ignore"):
        sides = stated.verdicts.over(*(values[name] for name in stated.names))
    for i, limit in enumerate(stated.limits.values()):
        value, allowed = np.asarray(sides[2 * i], dtype=float), np.asarray(sides[2 * i + 1], dtype=float)
        margin = allowed - value if limit.sense == "<=" else value - allowed
        found.append(margin >= -HAIR * np.maximum(abs(value), abs(allowed)))
    return found


def impossible(relation: Relation, column: np.ndarray) -> np.ndarray:
    """Return where a relation has a value that it cannot have."""
    low, high = relation.possible
    size = np.abs(column[np.isfinite(column)])
    hair = 1e-9 * float(np.median(size)) if size.size else 0.0  # differences of equals leave some dust
    out = (column < low - hair) | (column > high + hair)
    if relation.whole:
        out |= np.abs(column - np.round(column)) > 1e-9 * np.maximum(1.0, np.abs(column))
    return out


def _typed(given: Given, base: float) -> Quantity | str:
    return given.option(base) if given.kind == "choice" else Quantity.from_base(base, given.unit)


def _drawn(given: Given, rng: np.random.Generator) -> np.ndarray:
    low, high = given.span
    if given.kind in ("count", "choice"):
        return rng.integers(round(low), round(high) + 1, POINTS).astype(float)
    return rng.uniform(low, high, POINTS)


def _corners(count: int, rng: np.random.Generator) -> np.ndarray:
    """Return all corners of the spans, or as many seeded ones as are looked at."""
    if 2**count <= CORNERS:
        return (np.arange(2**count)[:, None] >> np.arange(count)) & 1
    return rng.integers(0, 2, (CORNERS, count))


def _givens(stated: Calculation, values: dict[str, np.ndarray], at: int) -> str:
    moved = (given for given in stated.free.values() if values[given.name][at] != given.base)
    return ", ".join(f"{given.name} {given.show(float(values[given.name][at]))}" for given in moved)
