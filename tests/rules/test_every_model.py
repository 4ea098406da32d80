"""Rules that every model passes: units, spans, sources, proof, arrays."""

import math

import numpy as np
import pytest
import sympy as sp

from kit.core.model import Model, prove
from kit.core.model.compiled import functions_of
from kit.core.quantity import registry
from kit.subjects import model, names


@pytest.fixture(params=names())
def stated(request: pytest.FixtureRequest) -> Model:
    return model(request.param)


def test_says_what_it_is(stated: Model) -> None:
    assert stated.question.endswith("?")
    for text in (stated.title, stated.picture, *stated.assumptions, *stated.sources):
        assert text.strip()
    assert stated.assumptions
    assert stated.sources
    assert stated.limits, "a design needs a limit to be judged by"
    assert stated.cautions, "work at a machine needs its cautions"
    texts = [caution.text for caution in stated.cautions]
    assert len(texts) == len(set(texts)), "a caution is stated twice"
    for given in stated.givens.values():
        assert given.meaning, given.name
        assert given.source or given.kind != "constant", given.name
        low, high = given.span
        assert math.isfinite(low), given.name
        assert math.isfinite(high), given.name
        assert low < high or given.kind == "constant", given.name
    for relation in stated.relations.values():
        assert relation.because, relation.name
        assert not relation.result or relation.meaning, f"{relation.name}: an answer needs its meaning"


def test_printed_symbols_differ(stated: Model) -> None:
    printed = list(stated.symbol_tex.values())
    assert len(printed) == len(set(printed))


def test_every_symbol_of_a_line_has_a_meaning(stated: Model) -> None:
    """It is a given, stands at the head of a step, or is the variable of a sum or an integral in that line."""
    known = {symbol for part in stated.parts.values() for symbol in (part.symbol, sp.Symbol(part.name))}
    for relation in stated.relations.values():
        for claim in (relation.expr, *(line.claim for line in relation.lines)):
            assert claim.free_symbols <= known, relation.name


def test_units_hold_in_pint(stated: Model) -> None:
    """An independent look at the dimension check: pint evaluates every relation with units on."""
    case = stated.at()
    shared = registry()
    quantity = {
        part.symbol: shared.Quantity(part.unit.from_base(case.base[name]), part.unit.pint).to_base_units()
        for name, part in {**stated.givens, **stated.relations}.items()
    }
    for relation in stated.relations.values():
        if relation.expr.has(sp.Piecewise, sp.Min, sp.Max, sp.ceiling, sp.floor, sp.atan2, sp.sign):
            continue  # NumPy's forms of these do not carry pint's units
        inputs = sorted(relation.expr.free_symbols, key=str)
        units_on = {"sqrt": lambda x: x**0.5, "erf": lambda x: math.erf(shared.Quantity(x).to("").magnitude)}
        function = sp.lambdify(inputs, relation.expr, modules=[units_on, "numpy"])
        value = function(*(quantity[symbol] for symbol in inputs))
        got = shared.Quantity(value).to(relation.unit.pint).magnitude
        want = relation.unit.from_base(case.base[relation.name])
        assert got == pytest.approx(want, rel=1e-9, abs=1e-12), relation.name


def test_derivation_is_proved(stated: Model) -> None:
    proofs = prove(stated)
    assert proofs, "a model without a single intermediate line derives nothing"
    assert all(proof.points == 1000 for proof in proofs)


def test_arrays_agree_with_points(stated: Model) -> None:
    """The array function and the point function are printed separately; they must say the same."""
    rng = np.random.default_rng(7)
    count = 50
    values = {}
    for given in stated.givens.values():
        low, high = given.span
        whole = given.kind in ("count", "choice")
        values[given.name] = (
            rng.integers(round(low), round(high) + 1, count).astype(float) if whole else rng.uniform(low, high, count)
        )
    wanted = list(stated.relations)
    arrays = stated.compute(values, wanted)
    seen = 0
    for i in range(count):
        try:
            point = functions_of(stated).values({name: float(column[i]) for name, column in values.items()})
        except ValueError:
            continue
        seen += 1
        for name in wanted:
            assert arrays[name][i] == pytest.approx(point[name], rel=1e-9, abs=1e-9), name
    assert seen > count / 4
