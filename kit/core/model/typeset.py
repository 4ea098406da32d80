"""Formulas as TeX: with printed symbols, and with slots for numbers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import sympy as sp
from sympy.printing.latex import LatexPrinter

from kit.core.model.codegen import function
from kit.core.model.terms import Given, Relation, in_words, plain

if TYPE_CHECKING:
    from kit.core.model.case import Case
    from kit.core.model.statement import Statement

_SLOT_OPENS = "\u27e6"
_SETTINGS = {"mul_symbol": r"\,", "ln_notation": True, "inv_trig_style": "full"}


class _Printer(LatexPrinter):
    """sympy's TeX printer with the model's own symbols, in the order in which they are stated."""

    def __init__(self, model: Statement, word: Callable[[Given | Relation], str], *, wrapped: bool) -> None:
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
        if part is None and expr.name.startswith(_SLOT_OPENS):
            return rf"\text{{{expr.name}}}"
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
def _symbols(model: Statement) -> _Printer:
    return _Printer(model, lambda part: part.tex, wrapped=False)


@lru_cache(maxsize=128)
def _slots(model: Statement) -> _Printer:
    return _Printer(model, lambda part: rf"\text{{{slot(part.name)}}}", wrapped=True)


def tex(model: Statement, expr: sp.Basic) -> str:
    """Return an expression or equation in the model's printed symbols."""
    if isinstance(expr, sp.Equality):
        return f"{tex(model, expr.lhs)} = {tex(model, expr.rhs)}"
    return _symbols(model).text(expr)


def slot(name: str) -> str:
    """Return the mark that stands for the number of `name` in a template."""
    return f"{_SLOT_OPENS}{name}\u27e7"


@lru_cache(maxsize=2048)
def template(model: Statement, expr: sp.Expr) -> str:
    """Return an expression as TeX in which a slot stands for each symbol's number and unit.

    The TeX is made once; a reader's numbers are put in after it has become MathML, which is much faster than
    typesetting anew.
    """
    return _slots(model).text(expr)


def active(case: Case, relation: Relation) -> sp.Expr:
    """Return a relation's expression with each case distinction replaced by the case that applies."""
    expr = relation.expr
    for choice in _distinctions(relation):
        for number, truth in enumerate(_conditions(case.model, choice)):
            if truth(*case.base.values())[0]:
                expr = expr.xreplace({choice: choice.args[number].expr})
                break
    return expr


@lru_cache(maxsize=1024)
def _distinctions(relation: Relation) -> tuple[sp.Piecewise, ...]:
    """The case distinctions of a relation, outermost first."""
    return tuple(sorted(relation.expr.atoms(sp.Piecewise), key=lambda p: -p.count_ops()))


@lru_cache(maxsize=1024)
def _conditions(model: Statement, choice: sp.Piecewise) -> tuple[Callable[..., list[bool]], ...]:
    arguments = [part.symbol for part in model.parts.values()]
    return tuple(function(arguments, [pair.cond], "math") for pair in choice.args)


@dataclass(frozen=True, slots=True)
class LineTex:
    """One line of a derivation: an expression on the right of '=', or a whole equation."""

    tex: str
    because: str
    whole: bool


@dataclass(frozen=True, slots=True)
class Step:
    """One relation of a derivation, typeset: the lines that lead to it and its formula."""

    relation: Relation
    lines: tuple[LineTex, ...]
    formula: str


@lru_cache(maxsize=128)
def derivation(model: Statement) -> tuple[Step, ...]:
    """Return all relations of a model, in order, typeset once."""
    return tuple(
        Step(
            relation,
            tuple(
                LineTex(tex(model, line.claim), line.because, isinstance(line.claim, sp.Equality))
                for line in relation.lines
            ),
            tex(model, relation.expr),
        )
        for relation in model.relations.values()
    )
