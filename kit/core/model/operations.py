"""The operations that a tape may hold: each on floats, on arrays, and its slopes.

Where an operation has no real value it gives NaN, never an exception, and NaN goes on through every operation that
needs it. So both branches of a case distinction can be computed, and only the one that applies counts.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable
from typing import Any

NAN = math.nan
Point = Callable[..., float]
Slopes = Callable[..., tuple[float, ...]]
"""Takes an operation's inputs and its value, returns the derivative by each input."""


def _quiet(function: Callable[..., float]) -> Point:
    def computed(*inputs: float) -> float:
        try:
            return function(*inputs)
        except (ValueError, ZeroDivisionError, OverflowError):
            return NAN

    return computed


def _chosen(condition: float, first: float, second: float) -> float:
    if condition != condition:
        return NAN
    return first if condition else second


def _compared(compare: Callable[[float, float], bool]) -> Point:
    return lambda a, b: NAN if a != a or b != b else float(compare(a, b))


def _least(a: float, b: float) -> float:
    return a if a <= b or a != a else b


def _most(a: float, b: float) -> float:
    return a if a >= b or a != a else b


def _turned(condition: float) -> float:
    return NAN if condition != condition else float(not condition)


def _both(a: float, b: float) -> float:
    return NAN if a != a or b != b else float(bool(a) and bool(b))


def _either(a: float, b: float) -> float:
    return NAN if a != a or b != b else float(bool(a) or bool(b))


def _sign(a: float) -> float:
    return NAN if a != a else float((a > 0) - (a < 0))


POINT: dict[str, Point] = {
    "add": operator.add,
    "sub": operator.sub,
    "mul": operator.mul,
    "div": _quiet(operator.truediv),
    "neg": operator.neg,
    "pow": _quiet(math.pow),
    "sqrt": _quiet(math.sqrt),
    "exp": _quiet(math.exp),
    "log": _quiet(math.log),
    "erf": math.erf,
    "sin": _quiet(math.sin),
    "cos": _quiet(math.cos),
    "tan": _quiet(math.tan),
    "asin": _quiet(math.asin),
    "acos": _quiet(math.acos),
    "atan": math.atan,
    "atan2": math.atan2,
    "sinh": _quiet(math.sinh),
    "cosh": _quiet(math.cosh),
    "tanh": math.tanh,
    "abs": operator.abs,
    "sign": _sign,
    "ceil": _quiet(lambda a: float(math.ceil(a))),
    "floor": _quiet(lambda a: float(math.floor(a))),
    "mod": _quiet(operator.mod),
    "min": _least,
    "max": _most,
    "lt": _compared(operator.lt),
    "le": _compared(operator.le),
    "eq": _compared(operator.eq),
    "ne": _compared(operator.ne),
    "and": _both,
    "or": _either,
    "not": _turned,
    "choose": _chosen,
}
"""Every operation, on floats."""


def _half_where(first: bool, second: bool) -> tuple[float, float]:
    """Return the slopes of a least or greatest; where both are equal, the mean of those to either side."""
    return (0.5, 0.5) if first and second else (float(first), float(second))


def _flat(*_: float) -> tuple[float, ...]:
    return (0.0, 0.0, 0.0)


def _pow_slopes(a: float, b: float, y: float) -> tuple[float, ...]:
    by_base = b * math.pow(a, b - 1) if b else 0.0
    return by_base, (y * math.log(a) if a > 0 else 0.0 if a == 0 and b > 0 else NAN)


SLOPES: dict[str, Slopes] = {
    "add": lambda a, b, y: (1.0, 1.0),
    "sub": lambda a, b, y: (1.0, -1.0),
    "mul": lambda a, b, y: (b, a),
    "div": lambda a, b, y: (1 / b, -y / b),
    "neg": lambda a, y: (-1.0,),
    "pow": _pow_slopes,
    "sqrt": lambda a, y: (0.5 / y,),
    "exp": lambda a, y: (y,),
    "log": lambda a, y: (1 / a,),
    "erf": lambda a, y: (2 / math.sqrt(math.pi) * math.exp(-a * a),),
    "sin": lambda a, y: (math.cos(a),),
    "cos": lambda a, y: (-math.sin(a),),
    "tan": lambda a, y: (1 + y * y,),
    "asin": lambda a, y: (1 / math.sqrt(1 - a * a),),
    "acos": lambda a, y: (-1 / math.sqrt(1 - a * a),),
    "atan": lambda a, y: (1 / (1 + a * a),),
    "atan2": lambda a, b, y: (b / (a * a + b * b), -a / (a * a + b * b)),
    "sinh": lambda a, y: (math.cosh(a),),
    "cosh": lambda a, y: (math.sinh(a),),
    "tanh": lambda a, y: (1 - y * y,),
    "abs": lambda a, y: (_sign(a),),
    "sign": _flat,
    "ceil": _flat,
    "floor": _flat,
    "mod": lambda a, b, y: (1.0, -float(math.floor(a / b))),
    "min": lambda a, b, y: _half_where(a <= b, b <= a),
    "max": lambda a, b, y: _half_where(a >= b, b >= a),
    "lt": _flat,
    "le": _flat,
    "eq": _flat,
    "ne": _flat,
    "and": _flat,
    "or": _flat,
    "not": _flat,
    "choose": lambda c, a, b, y: (0.0, 1.0, 0.0) if c else (0.0, 0.0, 1.0),
}
"""The slopes of every operation; steps are flat. Raises ZeroDivisionError or ValueError where there is none."""


def array_operations() -> dict[str, Callable[..., Any]]:
    """Return every operation on NumPy arrays and scalars."""
    import numpy as np

    def erf(argument: Any) -> Any:
        from scipy.special import erf  # NumPy has none; it is loaded for the few formulas that hold it

        return erf(argument)

    def choose(condition: Any, first: Any, second: Any) -> Any:
        if np.ndim(condition) == 0:
            return first if condition else second
        return np.where(condition, first, second)

    named: dict[str, Callable[..., Any]] = {
        "add": np.add,
        "sub": np.subtract,
        "mul": np.multiply,
        "div": np.true_divide,
        "neg": np.negative,
        "pow": np.power,
        "log": np.log,
        "erf": erf,
        "asin": np.arcsin,
        "acos": np.arccos,
        "atan": np.arctan,
        "atan2": np.arctan2,
        "min": np.minimum,
        "max": np.maximum,
        "lt": np.less,
        "le": np.less_equal,
        "eq": np.equal,
        "ne": np.not_equal,
        "and": np.logical_and,
        "or": np.logical_or,
        "not": np.logical_not,
        "choose": choose,
    }
    same_name = ("sqrt", "exp", "sin", "cos", "tan", "sinh", "cosh", "tanh", "abs", "sign", "ceil", "floor", "mod")
    return named | {name: getattr(np, name) for name in same_name}
