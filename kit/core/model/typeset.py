"""Formulas as TeX: with printed symbols, and with slots for numbers."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING, Any

import sympy as sp
from sympy.printing.latex import LatexPrinter

from kit.core.model.degrees import TURN, in_degrees
from kit.core.model.steps import HALF_TURN, Cases, LineTex, PutIn, Step, slot
from kit.core.model.tape_writer import tape
from kit.core.model.terms import Given, Relation, in_words, plain

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation

_SETTINGS = {"mul_symbol": r"\,", "ln_notation": True, "inv_trig_style": "full"}


class _Printer(LatexPrinter):
    """sympy's TeX printer with the model's own symbols, in the order in which they are stated."""

    def __init__(self, model: Calculation, word: Callable[[Given | Relation], str], *, wrapped: bool) -> None:
        # letters stand side by side, but '60 N 1200 mm' needs a sign between
        super().__init__({**_SETTINGS, "mul_symbol": "dot"} if wrapped else _SETTINGS)
        self._wrapped = wrapped
        # sympy sorts factors and terms by name; numbered names sort as stated, so that F comes before L
        self._part = {plain(f"q{n:04d}"): part for n, part in enumerate(model.parts.values())}
        self._stand_in = {symbol: q for q, part in self._part.items() for symbol in (part.symbol, plain(part.name))}
        self._write = word

    def text(self, expr: sp.Basic) -> str:
        """Return the TeX of an expression in the model's symbols."""
        return str(self.doprint(expr.xreplace(self._stand_in)))

    def _print_Symbol(self, expr: sp.Symbol, style: str = "plain") -> str:
        part = self._part.get(expr)
        if expr == TURN:
            return rf"\text{{{slot(HALF_TURN)}}}"
        return self._write(part) if part else str(super()._print_Symbol(expr, style))

    def _as_ordered_terms(self, expr: sp.Add, order: str | None = None) -> list[sp.Expr]:
        terms: list[sp.Expr] = super()._as_ordered_terms(expr, order=order)
        # a difference begins with what is taken from: π/2 - s, not -s + π/2
        lead = next((n for n, term in enumerate(terms) if not term.as_coeff_Mul()[0].is_negative), 0)
        return [terms[lead], *terms[:lead], *terms[lead + 1 :]]

    def _print_Pow(self, expr: sp.Pow) -> str:
        base, exponent = expr.base, expr.exp
        special = exponent.is_Rational and (exponent.is_negative or exponent.p == 1)  # a quotient or a root
        if self._wrapped and base in self._part and not special:
            # '1200 mm' to a power needs parentheses, a letter does not
            return rf"\left({self._print(base)}\right)^{{{self._print(exponent)}}}"
        return str(super()._print_Pow(expr))

    def _print_Relational(self, expr: sp.Rel) -> str:
        part = self._part.get(expr.lhs)
        equation = isinstance(expr, sp.Eq | sp.Ne)
        if equation and isinstance(part, Given) and part.kind == "choice" and expr.rhs.is_Integer:
            verb = "" if isinstance(expr, sp.Eq) else "not "
            return rf"\text{{{in_words(part.name)} {verb}{part.option(int(expr.rhs))}}}"
        return str(super()._print_Relational(expr))

    def _print_ceiling(self, expr: sp.ceiling, exp: str | None = None) -> str:
        return self._rounded("ceil", expr, exp)

    def _print_floor(self, expr: sp.floor, exp: str | None = None) -> str:
        return self._rounded("floor", expr, exp)

    def _rounded(self, kind: str, expr: Any, exp: str | None) -> str:
        body = rf"\left\l{kind} {self._print(expr.args[0])} \right\r{kind}"
        return body if exp is None else rf"{body}^{{{exp}}}"


@lru_cache(maxsize=128)
def _symbols(model: Calculation) -> _Printer:
    return _Printer(model, lambda part: part.tex, wrapped=False)


@lru_cache(maxsize=128)
def _slots(model: Calculation) -> _Printer:
    return _Printer(model, lambda part: rf"\text{{{slot(part.name)}}}", wrapped=True)


def tex(model: Calculation, expr: sp.Basic) -> str:
    """Return an expression or equation in the model's printed symbols."""
    if isinstance(expr, sp.Equality):
        return f"{tex(model, expr.lhs)} = {tex(model, expr.rhs)}"
    return _symbols(model).text(expr)


def typeset(model: Calculation) -> tuple[Step, ...]:
    """Return all relations of a model, in order, typeset."""
    return tuple(
        Step(
            relation,
            tuple(
                LineTex(tex(model, line.claim), line.because, isinstance(line.claim, sp.Equality))
                for line in relation.lines
            ),
            tex(model, relation.expr),
            _cases(model, relation),
        )
        for relation in model.relations.values()
    )


def _cases(model: Calculation, relation: Relation) -> Cases:
    expr = relation.expr
    # outermost first, so that a case within a case is met after it
    distinctions = sorted(
        expr.atoms(sp.Piecewise), key=lambda choice: (-choice.count_ops(), sp.default_sort_key(choice))
    )
    conditions = [pair.cond for choice in distinctions for pair in choice.args]
    ways: dict[tuple[int, ...], PutIn] = {}
    for way in product(*(range(len(choice.args)) for choice in distinctions)):
        here = expr
        for choice, number in zip(distinctions, way, strict=True):
            here = here.xreplace({choice: choice.args[number].expr})
        ways[way] = _put_in(model, relation, here)
    symbols = [part.symbol for part in model.parts.values()] if conditions else []
    return Cases(tape(symbols, conditions), tuple(len(choice.args) for choice in distinctions), ways)


def _put_in(model: Calculation, relation: Relation, expr: sp.Expr) -> PutIn:
    parts = [part for part in model.parts.values() if part.symbol in expr.free_symbols]
    symbols = [part.symbol for part in parts]
    turned = in_degrees(model, relation, expr) if any(part.unit.angle for part in (*parts, relation)) else None
    return PutIn(
        tuple(part.name for part in parts),
        tape(symbols, [expr]),
        _slots(model).text(expr),
        "" if turned is None else _slots(model).text(turned),
        "number" if expr.is_Number else "symbol" if expr.is_Symbol else "",
    )
