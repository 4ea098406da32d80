"""Formulas written out by sympy's code printers as Python functions of bare numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, Literal

import sympy as sp
from sympy.printing.numpy import NumPyPrinter
from sympy.printing.pycode import PythonCodePrinter

Assignments = Sequence[tuple[sp.Symbol, sp.Expr]]


class _Power:
    """Write small whole powers as products: the general power costs twenty times a multiplication."""

    def _print_Pow(self, expr: sp.Pow, rational: bool = False) -> str:
        base, exponent = expr.as_base_exp()
        if base.is_Symbol and exponent.is_Integer and 2 <= abs(exponent) <= 6:
            name = self._print(base)  # type: ignore[attr-defined]
            product = "*".join([name] * abs(int(exponent)))
            return f"({product})" if exponent > 0 else f"(1/({product}))"
        return str(super()._print_Pow(expr, rational=rational))  # type: ignore[misc]


class _MathPrinter(_Power, PythonCodePrinter):
    """Python's own floats."""


class _ArrayPrinter(_Power, NumPyPrinter):
    """NumPy arrays."""


_PRINTERS = {"math": _MathPrinter, "numpy": _ArrayPrinter}
_SETTINGS = {"fully_qualified_modules": False, "inline": True, "allow_unknown_functions": True}


def function(
    arguments: Iterable[sp.Symbol],
    outputs: Iterable[sp.Basic],
    module: Literal["math", "numpy"],
    steps: Assignments = (),
) -> Callable[..., list[Any]]:
    """Return the function of `arguments` that works `steps` in order and returns `outputs` as a list.

    A quantity may bear any name, that of a function too: in the code an underscore follows it.
    """
    swap: dict[sp.Basic, sp.Symbol] = {}
    for symbol in (*arguments, *(symbol for symbol, _ in steps)):
        swap[symbol] = sp.Symbol(f"{symbol.name}_", **symbol.assumptions0)
    written = [(swap[symbol], expr.xreplace(swap)) for symbol, expr in steps]
    wanted = [output.xreplace(swap) for output in outputs]
    modules: list[Any] = [module]
    if module == "numpy" and any(expr.has(sp.erf) for expr in (*wanted, *(expr for _, expr in written))):
        from scipy.special import erf  # NumPy has none

        modules.insert(0, {"erf": erf})
    made: Callable[..., list[Any]] = sp.lambdify(
        [swap[symbol] for symbol in arguments],
        wanted,
        modules=modules,
        printer=_PRINTERS[module](_SETTINGS),
        cse=lambda _exprs: (written, wanted),
    )
    return made
