"""The model core: state a calculation once; evaluate it, solve it for a given, prove and typeset it.

from kit.core.model import Model, equal, find, prove

What needs sympy or NumPy is loaded when it is first asked for; to compute at a point, nothing of them is.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from kit.core.model.calculation import Calculation
from kit.core.model.case import Case, Entry, SpanError
from kit.core.model.compiled import NoValueError
from kit.core.model.stated import Stated, Typed
from kit.core.model.steps import LineTex, Step, derivation, slot
from kit.core.model.terms import Caution, Given, Limit, Line, ModelError, Pick, Relation, Wish, called, in_words
from kit.core.quantity.distribution import Spread

if TYPE_CHECKING:
    from kit.core.model.dimension import DimensionError
    from kit.core.model.equations import equal
    from kit.core.model.model import Model
    from kit.core.model.proof import Proof, ProofError, prove
    from kit.core.model.solve_for import Found, find
    from kit.core.model.statement import Statement
    from kit.core.model.typeset import tex

__all__ = [
    "Calculation",
    "Case",
    "Caution",
    "DimensionError",
    "Entry",
    "Found",
    "Given",
    "Limit",
    "Line",
    "LineTex",
    "Model",
    "ModelError",
    "NoValueError",
    "Pick",
    "Proof",
    "ProofError",
    "Relation",
    "SpanError",
    "Spread",
    "Stated",
    "Statement",
    "Step",
    "Typed",
    "Wish",
    "called",
    "derivation",
    "equal",
    "find",
    "in_words",
    "prove",
    "slot",
    "tex",
]

_FROM = {
    "kit.core.model.dimension": ("DimensionError",),
    "kit.core.model.equations": ("equal",),
    "kit.core.model.model": ("Model",),
    "kit.core.model.proof": ("Proof", "ProofError", "prove"),
    "kit.core.model.solve_for": ("Found", "find"),
    "kit.core.model.statement": ("Statement",),
    "kit.core.model.typeset": ("tex",),
}


def __getattr__(name: str) -> object:
    """Load a name on its first use. Raises AttributeError for any other name."""
    for module, offered in _FROM.items():
        if name in offered:
            return getattr(import_module(module), name)
    raise AttributeError(f"module 'kit.core.model' has no attribute {name!r}")
